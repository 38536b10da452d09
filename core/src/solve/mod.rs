//! The best shot from everywhere: dynamic programming over the very game that is simulated.
//!
//! [`Solving`] feeds [`crate::shot::resolve`] a fixed, even set of luck from every place and lie of a hole, and works out
//! what to play; the [`Solution`] is a [`crate::plan::Strategy`] like any other, knows what it is worth from everywhere,
//! and tells its shots in words.
//!
//! Four folders, each of which uses those before it: `places` (where on the hole, and what lies between), `search` (which
//! shots are tried at a place, over which luck, and which are kept), `score` (what to do with so many strokes left) and
//! `solution` (what a user asks). `solving` leads through them; `finish` decides for those who play for a score and values what
//! was chosen; `frontier` does that again at other prices of a blow-up.
//!
//! ```
//! use std::sync::Arc;
//! use wideberth::Run;
//! use wideberth::hole::{Hole, Sketch};
//! use wideberth::plan::Scene;
//! use wideberth::player::Player;
//! use wideberth::situation::Situation;
//! use wideberth::solve::{Solving, Task};
//!
//! let hole = Hole::sketch(&Sketch::new(3, 150.0))?;
//! let bag = Player::from_handicap(18.0)?.prepare();
//! let scene = Arc::new(Scene::new(Arc::new(hole), Arc::new(bag))?);
//! let mut run = Solving::new(scene.clone(), Task { cell: 8.0, ..Task::default() })?;
//! run.finish();
//! let best = run.solution().ok_or("not solved")?;
//! let advice = best.advice(Situation::on_the_tee(scene.hole()), None)?;
//! println!("{}: {:.2} strokes", advice.words, advice.strokes);
//! assert!(advice.strokes > 3.0 && advice.strokes < 4.5);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
mod fault;
mod finish;
mod frontier;
mod places;
mod score;
mod search;
mod solution;
mod solving;
mod task;

pub use fault::SolveFault;
pub use frontier::{FrontierPoint, Fronting};
pub(crate) use search::luck::scrambled;
pub use solution::advice::{Advice, Other, TeeShotTold};
pub use solution::gained::{Gained, GainedFault, Recorded, Valued, gained_by_play, rows_of_plays};
pub use solution::map::{Map, Mapping};
pub use solution::pointed::Pointed;
pub use solution::valuation::Split;
pub(crate) use solution::valuation::Valuation;
pub use solution::{MOST_TOLD, Solution};
pub use solving::Solving;
pub use task::{MOST_PLAYED_FOR, Objective, Task};
