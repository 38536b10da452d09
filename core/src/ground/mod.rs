//! What the ground does to a ball after it has landed: a run across the map.
//!
//! [`run`] is the short form: level ground and a run that is a share of the carry; each surface takes its own
//! toll of it. The physics is beside it: [`touch`] is the blow of a landing ball on turf, [`hop`] its way to the
//! next touch, [`roll`] what follows the last one, each for the ground that is under the ball there, and
//! [`run_out`] all of them on one slope.

mod bounce;
mod fault;
mod roll;
mod run_out;
mod turf;

pub use bounce::{After, Ball, Hop, Rolling, Slope, bounce, hop, touch};
pub use fault::GroundFault;
pub use roll::{Rolled, roll};
pub use run_out::{LONGEST_ROLL, MOST_HOPS, RunOut, run_out, run_out_by_hops};
pub use turf::Turf;

use crate::geometry::{Point, Vector};
use crate::hole::{Hole, Surface};
use crate::putting;
use std::ops::ControlFlow;

/// Where a ball ran.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Where it came to rest.
    pub rest: Point,
    /// The feature it rests on.
    pub on: Option<u16>,
    /// True when it ran into the hole.
    pub holed: bool,
}

/// Yards of fairway run that one yard over a surface takes (common practice, no source). None: the
/// ball stops where it meets the surface.
#[must_use]
pub fn toll(surface: Surface) -> Option<f64> {
    match surface {
        Surface::Tee | Surface::Fairway | Surface::Green => Some(1.0),
        Surface::Fringe => Some(1.3),
        Surface::FirstCut => Some(1.6),
        Surface::Rough | Surface::OutOfBounds => Some(2.5),
        Surface::Trees => Some(4.0),
        Surface::DeepRough => Some(6.0),
        Surface::Bunker => Some(12.0),
        Surface::PenaltyRed | Surface::PenaltyYellow => None,
    }
}

/// Runs a ball that landed at `from` along the unit vector `along` for `run` yards of fairway.
#[must_use]
pub fn run(hole: &Hole, from: Point, along: Vector, run: f64) -> Run {
    if run <= 0.0 {
        return Run {
            rest: from,
            on: hole.feature_at(from),
            holed: false,
        };
    }
    // Most balls stay on the surface they land on, and the index can tell without walking.
    let on = hole.feature_at(from);
    let surface = hole.surface_of(on);
    let reach = toll(surface).map_or(0.0, |toll| run / toll);
    let rest = from + along * reach;
    if reach > 0.0 && hole.uniform(from, rest).is_none() {
        return run_across(hole, on, from, along, run);
    }
    let holed = surface == Surface::Green && falls_in(hole, from, along, reach, run);
    Run { rest, on, holed }
}

/// The run across more than one surface, piece by piece.
fn run_across(hole: &Hole, on: Option<u16>, from: Point, along: Vector, run: f64) -> Run {
    let to = from + along * run;
    let mut left = run;
    let mut last = None;
    let ended = hole.walk_on(on, from, to, |piece, surface| {
        let start = from + along * (piece.from * run);
        let stop = |yards: f64| {
            ControlFlow::Break(Run {
                rest: start + along * yards,
                on: piece.layer,
                holed: false,
            })
        };
        let Some(toll) = toll(surface) else {
            // A step inside, so that the ball is in the area and not on its edge.
            return stop(0.1_f64.min((piece.to - piece.from) * run));
        };
        let length = (piece.to - piece.from) * run;
        let reach = length.min(left / toll);
        if surface == Surface::Green && falls_in(hole, start, along, reach, left) {
            return ControlFlow::Break(Run {
                rest: hole.pin(),
                on: piece.layer,
                holed: true,
            });
        }
        left -= length * toll;
        last = piece.layer;
        if left <= 0.0 {
            stop(reach)
        } else {
            ControlFlow::Continue(())
        }
    });
    ended.break_value().unwrap_or(Run {
        rest: to,
        on: last,
        holed: false,
    })
}

/// True when a ball that rolls `reach` yards over the green from `start`, with `left` yards of run in
/// it, meets the hole slowly enough to drop.
fn falls_in(hole: &Hole, start: Point, along: Vector, reach: f64, left: f64) -> bool {
    let to_pin = hole.pin() - start;
    let ahead = to_pin.dot(&along);
    if !(ahead > 0.0 && ahead <= reach) {
        return false;
    }
    let offset = (to_pin.x * along.y - to_pin.y * along.x).abs();
    // The run left at the hole is the roll-out from there, so it gives the speed.
    let speed = (2.0 * putting::ROLL_DECELERATION / hole.green_speed() * (left - ahead)).sqrt();
    putting::captured(speed, offset)
}
