//! A round as it was written down: what each stroke gained, by its choice and by how it was played.
mod fault;
mod judged;
mod outcomes;
mod place;
mod read;
mod sums;

pub use fault::{ReviewFault, ReviewFaults};
pub use judged::{JudgedStroke, Part, Review, Reviewing};
pub use outcomes::ShotOutcome;
pub use read::{WrittenRound, WrittenStroke};
pub use sums::Summed;
