//! The golfer: clubs and their dispersion, lies, short game and putting.
mod bag;
mod lie;
mod putting;
mod swing;

pub use bag::{Bag, ClubId, Touch};
pub use lie::Lie;
pub use putting::Putting;
pub use swing::{Mishit, Strike, Swing};
