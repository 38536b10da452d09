//! wideberth: what a golf plan really costs.
//!
//! A player's clubs are patterns of carry and lateral, a hole is a map of polygons, and thousands of plays are
//! simulated stroke by stroke under the Rules of Golf. Distances are yards; putts, proximities and heights are
//! feet at the door. Everything is [`shot::resolve`] driven in different ways.
//!
//! ```
//! use std::sync::Arc;
//! use wideberth::Run;
//! use wideberth::hole::{Hole, Sketch};
//! use wideberth::noise::Seed;
//! use wideberth::plan::{Scene, suggest_plans};
//! use wideberth::player::Player;
//! use wideberth::rank::{Comparison, Length, Question};
//!
//! let hole = Hole::sketch(&Sketch::new(4, 380.0))?;
//! let pupil = Player::from_handicap(18.0)?;
//! let scene = Scene::new(Arc::new(hole), Arc::new(pupil.prepare()))?;
//! let plans = suggest_plans(&scene);
//! let mut question = Question::new(Seed(1));
//! question.length = Length::Plays(500);
//! let mut run = Comparison::new(scene, &plans, question)?;
//! run.finish();
//! let ranking = run.ranking();
//! let best = ranking.order()[0];
//! println!("{}: {:.2} strokes", ranking.name(best), ranking.mean(best).mean);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
#![warn(missing_docs)]
pub mod around;
pub mod course;
pub mod explain;
mod figures;
pub mod fit;
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
pub mod round;
pub mod rules;
mod run;
pub mod setting;
pub mod shot;
pub mod simulate;
pub mod situation;
pub mod solve;
pub mod stats;
pub mod text;
pub mod units;

pub use run::Run;
