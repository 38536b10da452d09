//! What can be wrong with a question about a putt.

/// A fault in a question about a putt.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PuttFault {
    /// A number is not one that can be true.
    #[error("{field} is {value}; it must be {allowed}")]
    OutOfRange {
        /// The field, with its unit.
        field: &'static str,
        /// The value received.
        value: f64,
        /// What is allowed, in words.
        allowed: &'static str,
    },
    /// The slope is so steep that a ball does not come to rest on it.
    #[error(
        "slope_percent falls {percent:.2} % in all; with a green_speed of {green_speed} ft it must be less than \
         {most:.2} %, where a ball no longer comes to rest"
    )]
    TooSteep {
        /// The fall of the plane, per cent.
        percent: f64,
        /// Stimpmeter reading, feet.
        green_speed: f64,
        /// The fall at which a ball does not come to rest, per cent.
        most: f64,
    },
    /// The putt breaks so much that it would have to start across the line to the hole or away from it.
    #[error(
        "slope_percent bends the putt by {aim_deg:.0} degrees; it must leave a start within 80 degrees of the line to \
         the hole"
    )]
    NoLine {
        /// Angle between the start and the line to the hole, degrees.
        aim_deg: f64,
    },
}

/// Passes a value that lies in `range`; refuses any other (NaN too) with the words of `allowed`.
pub(super) fn check(
    field: &'static str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
    allowed: &'static str,
) -> Result<(), PuttFault> {
    // `contains` is false for NaN.
    if range.contains(&value) {
        Ok(())
    } else {
        Err(PuttFault::OutOfRange {
            field,
            value,
            allowed,
        })
    }
}
