//! Rounds of a course: what they score, how to play for a target, what practice is worth, and how a played one went.
//!
//! A play of a hole is the play that [`crate::simulate`] makes; everything here reads what was played, or reckons with it.
//! A round is one play of every hole, and nothing ties its holes together.
mod budget;
mod fault;
mod field;
mod found;
mod kept;
mod planning;
mod played;
mod practice;
mod rating;
pub mod review;
mod rounds;
mod scored;
mod skills;
mod statistics;
mod target;
mod ways;
mod words;

pub use fault::RoundFault;
pub use field::{Field, Way};
pub use found::{CheckpointTold, HolePlan, Milestone, Target, TargetFound, check as check_target};
pub use played::{HolePlayed, PlayedRounds, RoundCounts};
pub use practice::{PracticeGain, PracticeQuestion, PracticeRun};
pub use rating::{HoleRating, Rated, Rating, RatingRun};
pub use rounds::{MOST_ROUNDS, Rounds};
pub use scored::Scoring;
pub use statistics::{Kept, Statistic};
pub use ways::{CourseWays, HoleWay, SolvingWays};
