//! The ground on which a player is explained: level, still, of medium firmness, with a green of ordinary size.
use super::ExplainFault;
pub use crate::figures::hole::{FAIRWAY_WIDTH, GREEN_ACROSS, GREEN_SPEED_FT as GREEN_SPEED};
use crate::geometry::{Point, Polygon};
use crate::hole::{Feature, Hole, HoleFault, HoleFaults, Sketch, Surface};
use crate::player::Lie;
use crate::situation::Situation;

/// Lengths of the approaches, yards, from the fairway to a pin in the middle of the green.
pub const APPROACHES: [f64; 5] = [75.0, 100.0, 125.0, 150.0, 175.0];

/// Yards to the pin of the strokes around the green. Six tenths of it are green, at most to the middle.
pub const AROUND_GREEN: [f64; 3] = [10.0, 20.0, 30.0];

/// Lengths of the putts, feet.
pub const PUTTS_FT: [f64; 6] = [3.0, 6.0, 10.0, 20.0, 30.0, 40.0];

/// Yards from the tee to the middle of the green: beyond any tee shot.
const LENGTH: f64 = 1_000.0;
/// The same where only the strokes around the green are played.
const SHORT: f64 = 120.0;
/// Putts end at a pin this far behind the middle of the green, yards: room before and behind for the longest.
const PUTTED_AT: f64 = 5.0;

/// The hole of the tee shot and the approaches.
pub(super) fn long_hole() -> Result<Hole, ExplainFault> {
    let mut sketch = Sketch::new(5, LENGTH);
    sketch.fairway_width = Some(FAIRWAY_WIDTH);
    Ok(Hole::sketch(&with_green(sketch))?)
}

/// A hole that is fairway as far as any ball goes, straight up from a tee at x = 0.
pub(super) fn fairway() -> Result<Hole, ExplainFault> {
    /// Yards up and to either side.
    const FAR: f64 = 1_400.0;
    let mut sketch = Sketch::new(6, 1_500.0);
    sketch.first_cut_width = 0.0;
    let mut parts = Hole::sketch(&sketch)?.parts().clone();
    let outline = rectangle((-FAR, -50.0), (FAR, FAR))?;
    // Below everything else.
    parts.features.insert(0, plain(Surface::Fairway, outline));
    Ok(Hole::new(parts, vec![])?)
}

/// The green of the putts.
pub(super) fn putting_green() -> Result<Hole, ExplainFault> {
    Ok(Hole::sketch(&with_green(Sketch::new(3, SHORT)))?.with_pin_at(PUTTED_AT, 0.0)?)
}

/// The ball `yards` short of the pin in a lie, and the ground for it.
pub(super) fn around_green(yards: f64, lie: Lie) -> Result<(Hole, Situation), ExplainFault> {
    let half = 0.5 * GREEN_ACROSS;
    let sketch = with_green(Sketch::new(3, SHORT));
    let on_green = (0.6 * yards).min(half);
    let hole = Hole::sketch(&sketch)?.with_pin_at(on_green - half, 0.0)?;
    let at = short_of_pin(&hole, yards);
    let to_fringe = yards - on_green - sketch.fringe_width;
    let (surface, side, ahead) = match lie {
        // A bunker ends some yards before the green; rough goes up to the fringe.
        Lie::Bunker => (Surface::Bunker, 4.0, to_fringe.min(4.0)),
        Lie::Rough => (Surface::Rough, 15.0, to_fringe),
        _ => (Surface::Fairway, 15.0, to_fringe),
    };
    let outline = rectangle((at.x - side, at.y - 4.0), (at.x + side, at.y + ahead))?;
    let mut parts = hole.parts().clone();
    parts.features.push(plain(surface, outline));
    Ok((Hole::new(parts, vec![])?, Situation { at, lie }))
}

fn plain(surface: Surface, outline: Polygon) -> Feature {
    Feature {
        surface,
        outline,
        name: None,
        canopy: None,
    }
}

/// The rectangle between two corners.
fn rectangle(
    (left, below): (f64, f64),
    (right, above): (f64, f64),
) -> Result<Polygon, ExplainFault> {
    let corners = [(left, below), (right, below), (right, above), (left, above)];
    let ring = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    Polygon::from_points(vec![ring]).map_err(|faults| {
        let value = format!("{faults:?}");
        HoleFaults(vec![HoleFault::field("outline", value, "a polygon")]).into()
    })
}

/// The place so many yards short of the pin, in line with the middle of the fairway.
pub(super) fn short_of_pin(hole: &Hole, yards: f64) -> Point {
    Point::new(hole.pin().x, hole.pin().y - yards)
}

fn with_green(mut sketch: Sketch) -> Sketch {
    sketch.green_depth = GREEN_ACROSS;
    sketch.green_width = GREEN_ACROSS;
    sketch.green_speed = GREEN_SPEED;
    sketch
}
