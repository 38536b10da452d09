//! Weather and a bag for tests of flights.
use wideberth::flight::{Aerodynamics, Weather};
use wideberth::hole::Wind;

/// Still standard air under a law of drag and lift.
pub(crate) fn under(aerodynamics: Aerodynamics) -> Weather {
    Weather {
        aerodynamics,
        ..Weather::default()
    }
}

pub(crate) fn wind(mph: f64, from: f64) -> Wind {
    Wind::new(mph, from).expect("a wind")
}

/// The usual bag of a golfer who drives 215 yards.
pub(crate) const BAG: [(&str, f64); 13] = [
    ("driver", 215.0),
    ("3-wood", 195.0),
    ("5-wood", 183.0),
    ("4-hybrid", 174.0),
    ("5-hybrid", 166.0),
    ("5-iron", 160.0),
    ("6-iron", 149.0),
    ("7-iron", 138.0),
    ("8-iron", 127.0),
    ("9-iron", 117.0),
    ("pitching wedge", 106.0),
    ("gap wedge", 90.0),
    ("sand wedge", 75.0),
];
