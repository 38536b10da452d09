//! wideberth: what a golf plan really costs.
#![warn(missing_docs)]
pub mod geometry;
pub mod hole;
pub mod io;
pub mod noise;
pub mod player;
pub mod putting;
pub mod units;
