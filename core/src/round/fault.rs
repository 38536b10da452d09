//! Why a question about rounds cannot be asked.
use crate::plan::PlanFault;
use crate::player::PlayerFault;
use crate::setting::SettingFault;
use crate::solve::SolveFault;

/// Why a question about rounds cannot be asked.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RoundFault {
    /// A number outside its range.
    #[error("{field} is {value}; it must be {allowed}")]
    Range {
        /// Name of the field.
        field: &'static str,
        /// The value given.
        value: f64,
        /// What is allowed.
        allowed: String,
    },
    /// Another number of plans than there are holes.
    #[error("plans has {given} plans; it must have one for each of the {holes} holes")]
    Plans {
        /// How many were given.
        given: usize,
        /// How many holes there are.
        holes: usize,
    },
    /// A plan that cannot be played on its hole.
    #[error("hole {hole}: {fault}")]
    Plan {
        /// Number of the hole.
        hole: u8,
        /// Why not.
        fault: PlanFault,
    },
    /// A player who cannot be prepared for a hole.
    #[error("hole {hole}: {fault}")]
    Setting {
        /// Number of the hole.
        hole: u8,
        /// Why not.
        fault: SettingFault,
    },
    /// A hole that cannot be solved as asked.
    #[error(transparent)]
    Solve(#[from] SolveFault),
    /// A player that cannot be made.
    #[error(transparent)]
    Player(#[from] PlayerFault),
    /// A hole that the course has not.
    #[error("hole is {given}; it must be one of {known}")]
    NoHole {
        /// What was given.
        given: i64,
        /// The numbers of the holes.
        known: String,
    },
    /// A course of which no index can be told.
    #[error("the course has {holes} holes; an index is told from rounds of 18")]
    NotEighteen {
        /// How many it has.
        holes: usize,
    },
    /// Too few rounds for what is asked.
    #[error("there are {given} rounds; an index needs at least {least}")]
    TooFew {
        /// How many there are.
        given: u64,
        /// How many it needs.
        least: u64,
    },
    /// A rating of another course.
    #[error("rating is of another course than the rounds")]
    OtherCourse,
}

impl RoundFault {
    /// Refuses a number outside its range, and NaN.
    pub(super) fn unless(
        field: &'static str,
        value: f64,
        range: (f64, f64),
        allowed: &str,
    ) -> Result<(), Self> {
        if value >= range.0 && value <= range.1 {
            return Ok(());
        }
        Err(RoundFault::Range {
            field,
            value,
            allowed: allowed.to_owned(),
        })
    }
}
