//! A player explained: what each club does, and what a good-enough tee shot, approach, chip and putt look like.
//!
//! [`BagTable`] is worked out exactly from the patterns of the clubs; [`Expectations`] and the shots of a picture of the bag
//! are played through the kernel.

mod bag_table;
mod club_shots;
mod expectations;
mod fault;
mod mixture;
mod practice_ground;
mod sample;
mod task;

pub use bag_table::{BagTable, ClubRow};
pub use club_shots::{ClubShots, MOST_SHOTS, club_shots};
pub use expectations::{
    Approach, AroundGreen, Expectations, Explaining, GOOD_ENOUGH, LEAST_PLAYS, MOST_PLAYS, Putt,
    TeeBand, TeeShot, USUAL,
};
pub use fault::ExplainFault;
pub use mixture::Span;
pub use practice_ground::{
    APPROACHES, AROUND_GREEN, FAIRWAY_WIDTH, GREEN_ACROSS, GREEN_SPEED, PUTTS_FT,
};
pub use sample::Quantile;
