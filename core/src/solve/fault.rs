//! Why a hole cannot be solved.
use crate::setting::SettingFault;

/// Why a hole cannot be solved, or a question about a solution not be answered.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SolveFault {
    /// A number outside its range.
    #[error("{field} is {value}; it must be {allowed}")]
    Range {
        /// Name of the field.
        field: &'static str,
        /// The value given.
        value: f64,
        /// What is allowed.
        allowed: &'static str,
    },
    /// A place no ball is played from.
    #[error("the place ({x}, {y}) is {what}; it must be one a ball may be played from")]
    NoPlace {
        /// Yards to the right of the plan's origin.
        x: f64,
        /// Yards up from the plan's origin.
        y: f64,
        /// What is there.
        what: &'static str,
    },
    /// More strokes left than a solution tells of, or none.
    #[error(
        "at_most is {given}; it must be 1 to {most}, as many strokes as this solution tells of"
    )]
    Left {
        /// The strokes given.
        given: usize,
        /// The most it tells of.
        most: usize,
    },
    /// A strategy worked out for another hole or player.
    #[error(
        "the strategy is a solution for another hole or player; it must be one for those that play"
    )]
    OtherScene,
    /// A lie of no name known.
    #[error("lie is {given:?}; it must be one of {known}")]
    UnknownLie {
        /// The name given.
        given: String,
        /// The names there are.
        known: String,
    },
    /// A player that cannot be prepared for the hole.
    #[error(transparent)]
    Setting(#[from] SettingFault),
}
