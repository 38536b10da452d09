//! What the ground does to a ball after it has landed: bounces, skips and a roll across the map.
//!
//! [`touch`] is the blow of a landing ball on turf, [`hop`] its way to the next touch, [`roll`] what follows the last
//! one; [`run_out`] puts them together on one slope, [`Course`] across the map of a hole, each for the ground that is
//! under the ball there.

mod bounce;
mod course;
mod fault;
mod roll;
mod run_out;
mod turf;
mod turfs;

pub use bounce::{After, Ball, Hop, Rolling, Slope, bounce, hop, touch};
pub use course::{Course, Run};
pub use fault::GroundFault;
pub(crate) use roll::Pace;
pub use roll::{Rolled, roll};
pub use run_out::{LONGEST_ROLL, MOST_HOPS, RunOut, run_out, run_out_by_hops};
pub use turf::Turf;
pub use turfs::Turfs;
