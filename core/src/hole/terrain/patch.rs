//! An area with a shape of its own: a raised or tilted green, a green of two tiers, a mound, a hollow.
use super::sum::Base;
use crate::geometry::{Point, Polygon, Vector};
use crate::units::yards_from_feet;

/// What a patch lies over.
#[derive(Clone, Debug, PartialEq)]
pub enum Over {
    /// A feature of the hole, by its place in the list, counted from 0.
    Feature(usize),
    /// An area of its own.
    Area(Polygon),
}

/// A step of the ground: it rises smoothly from a foot to a top and reaches across the whole patch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// A point of the line along which the ramp begins, yards.
    pub foot: Point,
    /// The point of the ramp's upper edge straight up from there, yards: the ramp is as wide as these are apart.
    pub top: Point,
    /// Feet from the lower to the upper tier; half is below and half above the ground without the step.
    pub height_ft: f64,
}

/// An area with a shape of its own, added to the ground around it.
///
/// Over the area the shape is whole. Outside it passes smoothly (with a continuous slope) into nothing over about
/// `blend` yards.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// Where.
    pub over: Over,
    /// True: it is laid level into the planes of `rise_ft` and `fall_right_percent` of the [`super::Landform`], and into a
    /// survey that does not tell greens. They keep the height they have at its centre of area and do not tilt it.
    pub level: bool,
    /// Feet by which all of it is raised (negative: sunk).
    pub raise_ft: f64,
    /// Percent by which it rises towards +x and +y, about its centre of area.
    pub rise_percent: Vector,
    /// Steps across it.
    pub steps: Vec<Step>,
    /// Yards over which it passes into the ground around it, 1 to 100.
    pub blend: f64,
}

impl Patch {
    /// A level patch that adds nothing yet, with a rim of eight yards.
    #[must_use]
    pub fn over(over: Over) -> Self {
        Patch {
            over,
            level: false,
            raise_ft: 0.0,
            rise_percent: Vector::zeros(),
            steps: Vec::new(),
            blend: 8.0,
        }
    }
}

/// A patch in yards with its outline at hand.
#[derive(Clone, Debug)]
pub(super) struct Laid {
    outline: Polygon,
    middle: Point,
    /// The height of the base in the middle, if that is level over it.
    level: Option<f64>,
    raise: f64,
    rise: Vector,
    steps: Vec<Ramp>,
    blend: f64,
}

/// A step prepared: the share of the ramp climbed at p is (p - foot) · up.
#[derive(Clone, Copy, Debug)]
struct Ramp {
    foot: Point,
    up: Vector,
    height: f64,
}

impl Laid {
    pub(super) fn new(patch: &Patch, outline: &Polygon, base: &Base<'_>) -> Self {
        let ramp = |step: &Step| {
            let across = step.top - step.foot;
            Ramp {
                foot: step.foot,
                up: across / across.norm_squared(),
                height: yards_from_feet(step.height_ft),
            }
        };
        let middle = outline.centroid();
        Laid {
            middle,
            level: patch.level.then(|| base.height(middle)),
            outline: outline.clone(),
            raise: yards_from_feet(patch.raise_ft),
            rise: patch.rise_percent * 0.01,
            steps: patch.steps.iter().map(ramp).collect(),
            blend: patch.blend,
        }
    }

    /// What is left of the height `base` of the base where it has this weight, yards.
    pub(super) fn levelled(&self, base: f64, weight: f64) -> f64 {
        match self.level {
            None => base,
            Some(level) => base + weight * (level - base),
        }
    }

    /// What it adds to the ground, without the rim, yards.
    pub(super) fn shape(&self, p: Point) -> f64 {
        let steps: f64 = self
            .steps
            .iter()
            .map(|s| s.height * (smooth((p - s.foot).dot(&s.up)) - 0.5))
            .sum();
        self.raise + self.rise.dot(&(p - self.middle)) + steps
    }

    /// The largest height its rim has to overcome, yards.
    pub(super) fn rim(&self, base: &Base<'_>) -> f64 {
        let corners = self.outline.exterior().vertices().iter();
        let step = |p: Point| {
            let levelled = self.level.map_or(0.0, |level| level - base.height(p));
            (levelled + self.shape(p)).abs()
        };
        corners.map(|&p| step(p)).fold(0.0, f64::max)
    }

    /// The box around the outline and its rim.
    pub(super) fn bounds(&self) -> (Point, Point) {
        let (low, high) = self.outline.bounds();
        let margin = Vector::new(1.0, 1.0) * self.blend;
        (low - margin, high + margin)
    }

    /// 1 over the area, falling smoothly to 0 outside.
    pub(super) fn weight(&self, p: Point) -> f64 {
        // A very crooked outline seems near even from afar: between one and two rims outside its box it ends for good.
        let beyond = 1.0 - smooth(self.outside_box(p) / self.blend - 1.0);
        if beyond == 0.0 {
            return 0.0;
        }
        if self.outline.contains(p) {
            return 1.0;
        }
        let near: f64 = self.outline.edges().map(|(a, b)| nearness(a, b, p)).sum();
        // On an edge the sum is infinite and the distance 0.
        beyond * (1.0 - smooth((2.0 / near).sqrt() / self.blend))
    }

    /// Yards from `p` to the box around the outline, 0 within it.
    fn outside_box(&self, p: Point) -> f64 {
        let (low, high) = self.outline.bounds();
        let out = |low: f64, x: f64, high: f64| (low - x).max(x - high).max(0.0);
        Vector::new(out(low.x, p.x, high.x), out(low.y, p.y, high.y)).norm()
    }
}

/// 0 up to 0, 1 from 1 on, and 3t² - 2t³ between: no kink at either end.
fn smooth(t: f64) -> f64 {
    let t = t.clamp(0.0, 1.0);
    t * t * (3.0 - 2.0 * t)
}

/// The integral of 1/r³ over the points of a segment, r being their distance from `p`.
///
/// Beside a long straight edge at distance d it is 2/d²; so sqrt(2 / sum over the edges) is a distance from the outline
/// that, unlike the true one, has no kinks where the nearest edge changes.
///
/// With s1, s2 the segment's ends along it from the foot of the perpendicular of length h, the integral is
/// (s2/r2 - s1/r1) / h². Where both ends lie on the same side this loses all digits as h goes to 0; there it equals
/// (s2² - s1²) / (r1 r2 (s2 r1 + s1 r2)).
fn nearness(a: Point, b: Point, p: Point) -> f64 {
    let length = (b - a).norm();
    let along = (b - a) / length;
    let (mut s1, mut s2) = ((a - p).dot(&along), (b - p).dot(&along));
    let h = along.perp(&(a - p));
    let (mut r1, mut r2) = ((a - p).norm(), (b - p).norm());
    if s1 * s2 <= 0.0 {
        return (s2 / r2 - s1 / r1) / (h * h);
    }
    if s1 < 0.0 {
        (s1, s2, r1, r2) = (-s2, -s1, r2, r1);
    }
    (s2 - s1) * (s2 + s1) / (r1 * r2 * (s2 * r1 + s1 * r2))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against a sum over many short pieces.
    #[test]
    fn nearness_is_the_integral() {
        let (a, b) = (Point::new(1.0, 2.0), Point::new(4.0, 6.0));
        for p in [
            (0.0, 0.0),
            (2.0, 5.0),
            (7.0, 10.0),
            (7.0, 10.0 + 1e-7),
            (2.4, 3.9),
        ] {
            let p = Point::new(p.0, p.1);
            let n = 200_000;
            let sum: f64 = (0..n)
                .map(|i| a + (b - a) * ((f64::from(i) + 0.5) / f64::from(n)))
                .map(|q| (q - p).norm().powi(-3) * 5.0 / f64::from(n))
                .sum();
            let closed = nearness(a, b, p);
            assert!((closed / sum - 1.0).abs() < 1e-6, "{p}: {closed} {sum}");
        }
    }

    #[test]
    fn a_step_climbs_its_height_from_foot_to_top() {
        let square = [(-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0)];
        let outline =
            Polygon::from_points(vec![square.map(|(x, y)| Point::new(x, y)).to_vec()]).unwrap();
        let patch = Patch {
            steps: vec![Step {
                foot: Point::new(3.0, -2.0),
                top: Point::new(3.0, 2.0),
                height_ft: 3.0,
            }],
            ..Patch::over(Over::Feature(0))
        };
        let laid = Laid::new(&patch, &outline, &Base::level());
        let height = |p: Point| laid.weight(p) * laid.shape(p);
        for (y, exact) in [
            (-9.0, -0.5),
            (-2.0, -0.5),
            (0.0, 0.0),
            (2.0, 0.5),
            (9.0, 0.5),
        ] {
            for x in [-9.0, 0.0, 9.0] {
                assert!((height(Point::new(x, y)) - exact).abs() < 1e-12);
            }
        }
        assert_eq!(laid.weight(Point::new(0.0, 25.0)), 0.0);
        assert!((laid.rim(&Base::level()) - 0.5).abs() < 1e-12);
    }
}
