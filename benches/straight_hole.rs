//! A straight hole, drawn here: level or sloping, still or windy, open or between woods.
use wideberth::geometry::{Line, Point, Polygon};
use wideberth::hole::{Conditions, Contours, Feature, Hole, HoleParts, Surface, Wind};

fn rectangle(surface: Surface, x: (f64, f64), y: (f64, f64)) -> Feature {
    let corners = [(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)];
    let ring = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    Feature {
        surface,
        outline: Polygon::from_points(vec![ring]).expect("a polygon"),
        name: None,
        canopy: None,
    }
}

/// A straight hole of 390 yards, with woods on both sides of the fairway if asked for.
pub(crate) fn straight(trees: bool) -> Hole {
    let mut features = Vec::new();
    if trees {
        features.push(rectangle(Surface::Trees, (-60.0, -24.0), (60.0, 360.0)));
        features.push(rectangle(Surface::Trees, (24.0, 60.0), (60.0, 360.0)));
    }
    features.push(rectangle(Surface::Fairway, (-17.0, 17.0), (90.0, 370.0)));
    features.push(rectangle(Surface::Green, (-15.0, 15.0), (375.0, 405.0)));
    let pin = Point::new(0.0, 390.0);
    let parts = HoleParts {
        name: "straight".to_owned(),
        number: None,
        par: 4,
        stroke_index: None,
        tee: Point::origin(),
        pin,
        line: Line::new(vec![Point::origin(), pin]).expect("a line"),
        features,
        green_speed: 10.0,
    };
    Hole::new(parts, Vec::new()).expect("a hole")
}

pub(crate) fn windy(hole: &Hole) -> Hole {
    let day = Conditions {
        wind: Wind::new(12.0, 60.0).expect("a wind"),
        ..Conditions::default()
    };
    hole.under(day).expect("a day")
}

pub(crate) fn sloping(hole: &Hole) -> Hole {
    let ground = Contours {
        uphill_ft: 25.0,
        fairway_tilt_percent: 3.0,
        green_tilt_percent: Some((1.0, 2.0)),
        ..Contours::default()
    };
    hole.with_contours(&ground).expect("slopes")
}
