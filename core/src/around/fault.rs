//! Why the strokes around the green cannot be compared from a place.
use super::FARTHEST;
use crate::plan::PlanFault;
use crate::rank::CompareFault;

/// Why the strokes around the green cannot be compared from a place.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum AroundFault {
    /// A place that is none.
    #[error("at is ({x}, {y}); both must be finite numbers of yards")]
    NotFinite {
        /// Yards to the right.
        x: f64,
        /// Yards up.
        y: f64,
    },
    /// The ball cannot be played as it lies there, or only putted.
    #[error(
        "at is ({x:.1}, {y:.1}), which is {where_it_is}; it must be a place off the green where a ball is played as it \
         lies"
    )]
    NoPlace {
        /// Yards to the right.
        x: f64,
        /// Yards up.
        y: f64,
        /// In words.
        where_it_is: &'static str,
    },
    /// Too far from the green.
    #[error(
        "at is ({x:.1}, {y:.1}), {yards:.0} yards from the green; it must be at most {FARTHEST:.0} yards from its edge"
    )]
    TooFar {
        /// Yards to the right.
        x: f64,
        /// Yards up.
        y: f64,
        /// Yards to the nearest edge of the green.
        yards: f64,
    },
    /// The question itself.
    #[error(transparent)]
    Compare(#[from] CompareFault),
    /// A strategy that cannot be followed.
    #[error(transparent)]
    Plan(#[from] PlanFault),
}
