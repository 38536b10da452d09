//! What can be wrong with a question about the ground.

/// A fault in what a bounce or a run was asked to do.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum GroundFault {
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
    /// No surface has that name, or none on which a ball runs.
    #[error("surface is {name:?}; it must be one of {known}")]
    NoTurf {
        /// The name received.
        name: String,
        /// The surfaces on which a ball runs.
        known: String,
    },
}

/// Passes a value that lies in `range`; refuses any other (NaN too) with the words of `allowed`.
pub(super) fn check(
    field: &'static str,
    value: f64,
    range: std::ops::RangeInclusive<f64>,
    allowed: &'static str,
) -> Result<(), GroundFault> {
    // `contains` is false for NaN.
    if range.contains(&value) {
        Ok(())
    } else {
        Err(GroundFault::OutOfRange {
            field,
            value,
            allowed,
        })
    }
}
