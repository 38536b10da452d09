//! Holes and players drawn by hand for the tests.

pub(crate) mod calibration;
pub(crate) mod flights;
pub(crate) mod law;
pub(crate) mod luck;
pub(crate) mod shots;
pub(crate) mod strokes;
pub(crate) mod terrain;
pub(crate) mod woods;

pub(crate) use calibration::putts;

use std::sync::Arc;
use wideberth::geometry::{HeightGrid, Line, Point, Polygon, Vector};
use wideberth::hole::{Conditions, Feature, Hole, HoleParts, Landform, Surface, Wind};
use wideberth::plan::Scene;
use wideberth::player::Player;

/// A rectangle of one surface.
pub(crate) fn rectangle(surface: Surface, x: (f64, f64), y: (f64, f64)) -> Feature {
    let corners = [(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)];
    let ring = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    Feature {
        surface,
        outline: Polygon::from_points(vec![ring]).expect("a rectangle is a polygon"),
        name: None,
        canopy: None,
    }
}

/// A straight hole up the plan from (0, 0) with the pin at (0, `length`) on a green 30 by 30.
pub(crate) fn straight(par: u8, length: f64, mut features: Vec<Feature>) -> Hole {
    features.push(rectangle(
        Surface::Green,
        (-15.0, 15.0),
        (length - 15.0, length + 15.0),
    ));
    up_the_plan(par, length, features)
}

/// The same with the green among the features.
pub(crate) fn up_the_plan(par: u8, length: f64, features: Vec<Feature>) -> Hole {
    Hole::new(
        HoleParts {
            name: "drawn by hand".to_owned(),
            number: None,
            par,
            stroke_index: None,
            tee: Point::origin(),
            pin: Point::new(0.0, length),
            line: Line::new(vec![Point::origin(), Point::new(0.0, length)]).expect("a line"),
            features,
            green_speed: 10.0,
        },
        Vec::new(),
    )
    .expect("a valid hole")
}

/// A player of a handicap on a hole.
pub(crate) fn scene(hole: Hole, handicap: f64) -> Scene {
    let player = Player::from_handicap(handicap).expect("a handicap");
    Scene::new(Arc::new(hole), Arc::new(player.prepare())).expect("a scene")
}

/// Ground of one surface all around the holes of this file.
pub(crate) fn all(surface: Surface) -> Feature {
    rectangle(surface, (-300.0, 300.0), (-100.0, 700.0))
}

/// The same hole on ground whose height in yards is told by x and y: surveyed every five yards.
pub(crate) fn shaped(hole: &Hole, height: impl Fn(f64, f64) -> f64) -> Hole {
    let (corner, cell, columns, rows) = (Point::new(-310.0, -155.0), 5.0, 125, 174);
    let heights: Vec<f64> = (0..columns * rows)
        .map(|i| {
            let (column, row) = (f64::from(i % columns), f64::from(i / columns));
            3.0 * height(corner.x + cell * column, corner.y + cell * row)
        })
        .collect();
    let survey = HeightGrid::new(corner, Vector::new(cell, cell), columns as usize, &heights)
        .expect("a grid of heights");
    hole.with_terrain(Landform {
        survey_ft: Some(survey),
        ..Landform::default()
    })
    .expect("a shape of the ground")
}

/// The same hole on a day with a wind and nothing else.
pub(crate) fn windy(hole: &Hole, mph: f64, from_deg: f64) -> Hole {
    let wind = Wind::new(mph, from_deg).expect("a wind");
    hole.under(Conditions {
        wind,
        ..*hole.conditions()
    })
    .expect("a day")
}
