//! The best shot from everywhere: dynamic programming over the very game that is simulated.
mod action;
mod advice;
mod fault;
mod finish;
mod frontier;
mod grid;
mod layers;
mod level;
mod luck;
mod map;
mod model;
mod place;
mod places;
mod polar;
mod shortlist;
mod sight;
mod solution;
mod solving;
mod task;
mod think;

pub use advice::{Advice, Other};
pub use fault::SolveFault;
pub use frontier::{FrontierPoint, Fronting};
pub use map::{Map, Mapping};
pub use solution::{MOST_TOLD, Solution};
pub use solving::Solving;
pub use task::{MOST_PLAYED_FOR, Objective, Task};
