//! What can be wrong with a flight, in words that name the field, the value and what is allowed.

/// A fault in what a flight was asked to do.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FlightFault {
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
    /// Nothing of the kind has that name.
    #[error("{field} is {name:?}; it must be one of {known}")]
    UnknownName {
        /// The field.
        field: &'static str,
        /// The name received.
        name: String,
        /// The names there are.
        known: String,
    },
    /// The ball never gets as high as the place it should land on.
    #[error(
        "target_height_ft is {height_ft:.1}; this ball rises only {apex_ft:.1} ft above where it was struck"
    )]
    TooHigh {
        /// Height of the target above the ball, feet.
        height_ft: f64,
        /// Greatest height of the flight, feet.
        apex_ft: f64,
    },
    /// The ball does not come so far, or the place lies behind it.
    #[error("at is {at} yd; it must be 0 to {reach:.2}, as far along the aim as this ball comes")]
    NotOnTheWay {
        /// Yards along the aim asked for.
        at: f64,
        /// Yards along the aim that the ball reaches.
        reach: f64,
    },
    /// The ball is still in the air after a time no ball stays up.
    #[error("the ball is still in the air after {seconds} s: are the launch and the wind right?")]
    NeverLands {
        /// Seconds flown.
        seconds: f64,
    },
    /// No believable speed carries the ball that far.
    #[error(
        "carry is {carry} yd; launched at {launch_deg} degrees with {spin_rpm:.0} rpm this ball carries \
         {longest:.1} yd at {most_mph} mph, the most a ball can leave with"
    )]
    TooFar {
        /// Carry asked for, yards.
        carry: f64,
        /// Launch angle, degrees.
        launch_deg: f64,
        /// Spin, revolutions a minute.
        spin_rpm: f64,
        /// The fastest ball that is believed, mph.
        most_mph: f64,
        /// What that ball carries, yards.
        longest: f64,
    },
}

/// What is called `name` of all that could be.
pub(super) fn find<T: Copy>(
    field: &'static str,
    name: &str,
    all: &[T],
    name_of: impl Fn(T) -> &'static str,
) -> Result<T, FlightFault> {
    let found = all.iter().copied().find(|&one| name_of(one) == name);
    found.ok_or_else(|| {
        let known: Vec<&str> = all.iter().map(|&one| name_of(one)).collect();
        FlightFault::UnknownName {
            field,
            name: name.to_owned(),
            known: known.join(", "),
        }
    })
}

/// Passes a value that lies in `range`; refuses any other (NaN too) with the words of `allowed`.
pub(super) fn check(
    field: &'static str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
    allowed: &'static str,
) -> Result<(), FlightFault> {
    // `contains` is false for NaN.
    if range.contains(&value) {
        Ok(())
    } else {
        Err(FlightFault::OutOfRange {
            field,
            value,
            allowed,
        })
    }
}
