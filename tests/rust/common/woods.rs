//! Trees of many shapes and heights.
use super::strokes::{golfer, setting};
use super::{rectangle, shaped, straight, windy};
use std::sync::LazyLock;
use wideberth::geometry::{Point, Polygon};
use wideberth::hole::{Canopy, Feature, Hole, Surface};
use wideberth::noise::Noise;
use wideberth::setting::Setting;

/// Trees `low` to `high` yards up the plan.
pub(crate) fn stand(low: f64, high: f64, height_ft: f64, openness: f64) -> Feature {
    Feature {
        canopy: Some(Canopy {
            height_ft,
            openness,
        }),
        ..rectangle(Surface::Trees, (-30.0, 30.0), (low, high))
    }
}

/// No luck but in the trees: the greater, the sooner a ball is stopped.
pub(crate) fn with_trees(luck: f64) -> Noise {
    Noise {
        trees: luck,
        ..Noise::NONE
    }
}

/// A hole with woods of many shapes and heights around its fairway.
pub(crate) fn woods() -> Hole {
    let wood = |x: (f64, f64), y: (f64, f64), height_ft: f64, openness: f64| Feature {
        canopy: Some(Canopy {
            height_ft,
            openness,
        }),
        ..rectangle(Surface::Trees, x, y)
    };
    let slanted = |points: [(f64, f64); 4], height_ft: f64, openness: f64| {
        let ring = points.map(|(x, y)| Point::new(x, y)).to_vec();
        Feature {
            outline: Polygon::from_points(vec![ring]).expect("a polygon"),
            ..wood((0.0, 1.0), (0.0, 1.0), height_ft, openness)
        }
    };
    straight(
        4,
        390.0,
        vec![
            wood((-60.0, -22.0), (40.0, 300.0), 60.0, 0.6),
            wood((21.3, 23.9), (60.0, 63.1), 45.0, 0.2),
            wood((25.0, 70.0), (90.0, 180.0), 40.0, 0.7),
            slanted(
                [(-8.0, 120.0), (3.0, 126.0), (9.0, 141.0), (-5.0, 133.0)],
                30.0,
                0.5,
            ),
            slanted(
                [(20.0, 200.0), (80.0, 215.0), (75.0, 260.0), (30.0, 235.0)],
                80.0,
                0.4,
            ),
            // Mown ground under the wood on the left.
            rectangle(Surface::Fairway, (-50.0, -40.0), (120.0, 160.0)),
        ],
    )
}

/// The woods on a still day, in wind, and in wind on hills.
pub(crate) static WOODS: LazyLock<[Setting; 3]> = LazyLock::new(|| {
    let player = golfer(&[("driver", 230.0), ("7-iron", 150.0), ("lob wedge", 60.0)]);
    let hilly = shaped(&woods(), |x, y| {
        let fade = ((345.0 - y) / 60.0).clamp(0.0, 1.0);
        fade * (0.02 * y + 4.0 * (x / 30.0).sin() * (y / 40.0).cos())
    });
    [
        setting(&woods(), &player),
        setting(&windy(&woods(), 17.0, 75.0), &player),
        setting(&windy(&hilly, 9.0, 300.0), &player),
    ]
});

/// Hilly, wooded, in wind.
pub(crate) fn rough_day() -> Hole {
    windy(WOODS[2].hole(), 14.0, 220.0)
}
