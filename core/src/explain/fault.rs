//! Why a player cannot be explained.
use super::{LEAST_PLAYS, MOST_PLAYS, MOST_SHOTS};
use crate::hole::HoleFaults;
use crate::plan::PlanFault;
use crate::player::PlayerFault;
use crate::setting::SettingFault;

/// Why a player cannot be explained.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ExplainFault {
    /// Too few or too many plays.
    #[error("plays is {plays}; it must be {LEAST_PLAYS} to {MOST_PLAYS}")]
    Plays {
        /// The number asked for.
        plays: u64,
    },
    /// Too few or too many shots of a club.
    #[error("shots is {0}; it must be 1 to {MOST_SHOTS}")]
    Shots(
        /// The number asked for.
        u64,
    ),
    /// A stroke that physics cannot give.
    #[error(transparent)]
    Setting(#[from] SettingFault),
    /// A practice ground that cannot be built.
    #[error(transparent)]
    Hole(#[from] HoleFaults),
    /// A strategy that cannot be followed.
    #[error(transparent)]
    Plan(#[from] PlanFault),
    /// A player that cannot be true.
    #[error(transparent)]
    Player(#[from] PlayerFault),
}
