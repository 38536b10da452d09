//! Ground drawn by hand, and places on it.
use super::{rectangle, straight};
use wideberth::geometry::{HeightGrid, Point, Vector};
use wideberth::hole::{Contours, Hole, Landform, Sketch, Surface, TwoTier};

pub(crate) fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// A par 4 of 400 yards up the plan with a fairway and, 28 deep and 26 wide, a green.
pub(crate) fn sketched(contours: Contours) -> Hole {
    Hole::sketch(&Sketch {
        contours,
        ..Sketch::new(4, 400.0)
    })
    .expect("a valid sketch")
}

/// Ground of every kind a sketch can tell.
pub(crate) fn hilly() -> Contours {
    Contours {
        uphill_ft: 25.0,
        fairway_tilt_percent: 4.0,
        green_tilt_percent: Some((1.0, 2.0)),
        two_tier_green: Some(TwoTier {
            step_ft: 2.0,
            ramp: 4.0,
            back: 3.0,
        }),
        survey_ft: None,
    }
}

/// Places all over a hole and beyond it, from a low-discrepancy sequence (the golden ratio and its square).
pub(crate) fn places(hole: &Hole, count: u32) -> impl Iterator<Item = Point> {
    let far = hole.length() + 300.0;
    (0..count).map(move |i| {
        let (u, v) = (f64::from(i) * 0.754_877_666, f64::from(i) * 0.569_840_291);
        at(300.0 * (u.fract() - 0.5), far * v.fract() - 150.0)
    })
}

/// Places within forty yards of the middle of the green, to each side.
pub(crate) fn near_green(hole: &Hole, count: u32) -> impl Iterator<Item = Point> {
    let middle = hole.middle_of_green();
    (0..count).map(move |i| {
        let (u, v) = (f64::from(i) * 0.754_877_666, f64::from(i) * 0.569_840_291);
        middle + Vector::new(u.fract() - 0.5, v.fract() - 0.5) * 80.0
    })
}

/// Heights in feet surveyed at every `cell` yards from the corner on.
pub(crate) fn survey(
    corner: Point,
    cell: f64,
    (rows, columns): (usize, usize),
    height_ft: impl Fn(Point) -> f64,
) -> HeightGrid {
    let cell = Vector::new(cell, cell);
    let heights: Vec<f64> = (0..rows)
        .flat_map(|r| (0..columns).map(move |c| (r, c)))
        .map(|(r, c)| height_ft(corner + Vector::new(cell.x * c as f64, cell.y * r as f64)))
        .collect();
    HeightGrid::new(corner, cell, columns, &heights).expect("a valid grid")
}

/// The words of every fault of a landform on a straight par 4 of 400 yards with a bunker.
pub(crate) fn faults(landform: Landform) -> String {
    let bunker = rectangle(Surface::Bunker, (40.0, 60.0), (200.0, 220.0));
    let hole = straight(4, 400.0, vec![bunker]);
    hole.with_terrain(landform)
        .expect_err("should be refused")
        .to_string()
}
