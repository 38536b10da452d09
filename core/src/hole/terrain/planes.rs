//! The planes of a landform: the rise from tee to green and the tilt across each leg of the line of play.
use super::super::HoleParts;
use super::Landform;
use crate::geometry::{Line, Point, Vector, right_of};
use crate::units::yards_from_feet;

/// Half the yards over which the tilt of one leg passes into that of the next.
const BEND: f64 = 15.0;

/// The planes together; at the tee they are at height 0.
#[derive(Clone, Debug)]
pub(super) struct Planes {
    tee: Point,
    /// The rise of the plane of the first leg and of the plane from tee to green together.
    rise: Vector,
    bends: Vec<Bend>,
}

/// What the plane across the line of play changes by beyond a bend.
#[derive(Clone, Copy, Debug)]
struct Bend {
    at: Point,
    /// The unit direction halfway between the legs.
    ahead: Vector,
    /// Rise per yard in that direction once around the bend.
    rise: f64,
}

impl Planes {
    pub(super) fn new(landform: &Landform, parts: &HoleParts) -> Self {
        let fall = 0.01 * landform.fall_right_percent;
        let first = parts.line.direction(0.0);
        Planes {
            tee: parts.tee,
            rise: rise(landform.rise_ft, parts) - right_of(first) * fall,
            bends: bends(&parts.line, fall),
        }
    }

    /// Level ground.
    #[cfg(test)]
    pub(super) fn none() -> Self {
        Planes {
            tee: Point::origin(),
            rise: Vector::zeros(),
            bends: Vec::new(),
        }
    }

    /// Their height at `p`, yards.
    pub(super) fn height(&self, p: Point) -> f64 {
        let bends: f64 = self.bends.iter().map(|bend| bend.height(p)).sum();
        self.rise.dot(&(p - self.tee)) + bends
    }
}

impl Bend {
    /// 0 before the bend, its plane beyond it, a parabola between: no kink.
    fn height(&self, p: Point) -> f64 {
        let beyond = (p - self.at).dot(&self.ahead);
        let softened = if beyond <= -BEND {
            0.0
        } else if beyond >= BEND {
            beyond
        } else {
            (beyond + BEND) * (beyond + BEND) / (4.0 * BEND)
        };
        self.rise * softened
    }
}

/// From the tee to the middle of the green with the pin (the end of the line where the pin is on none).
pub(super) fn to_green(parts: &HoleParts) -> Vector {
    let green = super::greens::with_pin(parts).and_then(|i| parts.features.get(i));
    let middle = green.map_or(parts.pin, |green| green.outline.centroid());
    middle - parts.tee
}

/// The rise of the plane that climbs `feet` straight from the tee to the green.
fn rise(feet: f64, parts: &HoleParts) -> Vector {
    let way = to_green(parts);
    way * (yards_from_feet(feet) / way.norm_squared())
}

/// How the plane across the line of play turns at each bend.
///
/// The planes of two legs, -fall times the yards to the right of each, meet along the line that halves the bend, so
/// that passing from the one to the other there makes no cliff. Their difference is a plane that rises straight across it.
fn bends(line: &Line, fall: f64) -> Vec<Bend> {
    let legs: Vec<Vector> = line
        .vertices()
        .windows(2)
        .map(|v| (v[1] - v[0]).normalize())
        .collect();
    let turns = legs.windows(2).zip(&line.vertices()[1..]);
    turns
        .filter_map(|(leg, &at)| {
            // A line that doubles back on itself has no way between; nothing is changed there.
            let ahead = (leg[0] + leg[1]).try_normalize(1e-6)?;
            let rise = -fall * (right_of(leg[1]) - right_of(leg[0])).dot(&ahead);
            Some(Bend { at, ahead, rise })
        })
        .filter(|bend| bend.rise != 0.0)
        .collect()
}
