//! Measured shots: from a table of carries and laterals to a player, and how sure that player is.
//!
//! Each club's shots are a mixture of solid strikes (an ellipse), mishits and outliers, so that mishits are found and not
//! averaged in. Six figures of each club are fitted: carry, its spread, lateral bias, lateral spread, correlation
//! and mishit share; the shape of mishits, the run and all else stay those of the prior. Around the figures of the prior the
//! clubs of a bag vary together, so a club with few shots, or none, learns from its neighbours and keeps to the level.
//!
//! ```
//! use wideberth::fit::{Evidence, Fit, Shot};
//! use wideberth::noise::Seed;
//! use wideberth::player::Player;
//!
//! let shots = [(131.0, 4.0), (127.0, -9.0), (124.0, 11.0), (74.0, -15.0), (130.0, 2.0)];
//! let shots = shots.map(|(carry, lateral)| Shot::new("7-iron", carry, lateral)).to_vec();
//! let fit = Fit::to_shots(&Player::from_handicap(18.0)?, &Evidence { shots, ..Evidence::default() })?;
//! assert!(fit.judged()[3].mishit > 0.9);
//! assert!((fit.player().club("7-iron")?.carry - 128.0).abs() < 4.0);
//! assert!(fit.uncertainty("7-iron")?.errors.carry < fit.uncertainty("driver")?.errors.carry);
//! assert_eq!(fit.draws(20, Seed(1))?.len(), 20);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
mod bag;
mod chance;
mod density;
mod describe;
mod document;
mod doubts;
mod evidence;
mod fault;
mod fitted;
mod fitting;
mod judging;
mod known;
mod linear;
mod pattern;
mod posterior;
mod prior;
mod sample;
mod shots;

pub use document::Reading;
pub use evidence::{Evidence, Finish, Ground, Known, Outcome, Shot};
pub use fault::{Doubt, FitFault, RowFault, spreadsheet_row};
pub use fitted::{Figure, Figures, Fit, Judged, MOST_DRAWS, Uncertainty};
pub use fitting::Fitting;
