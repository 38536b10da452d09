//! wideberth: what a golf plan really costs.
#![warn(missing_docs)]
pub mod flight;
pub mod geometry;
pub mod ground;
pub mod hole;
pub mod io;
pub mod noise;
pub mod plan;
pub mod player;
pub mod putting;
pub mod rank;
pub mod rules;
pub mod setting;
pub mod shot;
pub mod simulate;
pub mod situation;
pub mod stats;
pub mod units;
