//! Plans compared: which scores best, how sure that is, and where each goes wrong.

mod across;
mod comparison;
mod counts;
mod even;
mod explain;
mod habits;
mod losses;
mod players;
mod prepare;
mod question;
mod ranking;
mod usual;

pub use across::{AcrossPlayers, FALSE_ALARM, FEWEST, MoreShots, TELLING, TellingClub, WORTH};
pub use comparison::Comparison;
pub use even::{EvenComparison, SETS};
pub use habits::{HabitsPrice, HabitsRun};
pub use losses::{Kinds, Losing, Loss, Losses};
pub use players::{MOST_PLAYERS, PlayersRun};
pub use prepare::record;
pub use question::{CompareFault, Length, MOST_PLANS, MOST_PLAYS, Question};
pub use ranking::{Difference, Ranking};
pub use usual::{Leg, UsualWay};

use crate::stats::Estimate;

/// Confidence level of every interval.
pub const LEVEL: f64 = 0.95;

/// A share with its binomial standard error.
#[expect(
    clippy::cast_precision_loss,
    reason = "counts below 2^53 are exact as f64"
)]
pub(crate) fn share(count: u64, of: u64) -> Estimate {
    let p = count as f64 / of as f64;
    Estimate {
        mean: p,
        standard_error: (p * (1.0 - p) / of as f64).max(0.0).sqrt(),
    }
}
