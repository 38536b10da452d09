//! Rounds of a course: what they score, how to play for a target, what practice is worth, and how a played one went.
//!
//! A play of a hole is the play that [`crate::simulate`] makes; everything here reads what was played, or reckons with it.
//! A round is one play of every hole, and nothing ties its holes together.
mod fault;
mod field;
mod kept;
mod played;
mod rating;
mod rounds;
mod statistics;

pub use fault::RoundFault;
pub use field::{Field, Way};
pub use played::{HolePlayed, PlayedRounds, RoundCounts};
pub use rating::{HoleRating, Rated, Rating, RatingRun};
pub use rounds::{MOST_ROUNDS, Rounds};
pub use statistics::{Kept, Statistic};
