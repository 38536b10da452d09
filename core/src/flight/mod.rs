//! The ball in the air: launch, air and wind give a path, and a small table of it for the simulation.
//!
//! [`fly`] integrates the equations of motion with drag, lift and spin decay. [`solve_speed`] finds the
//! ball speed that carries a given distance, so that a player's own carries anchor the model and only
//! differences (wind, height, air) and shapes come from it. [`FlightTable`] holds those differences for
//! one club in one weather in a form that costs a few nanoseconds to read.
//!
//! Yards, feet, miles an hour, degrees and revolutions a minute at the door; SI inside. A flight is told
//! in the frame of its shot: x to the right of the aim, y along it, z up, from where the ball was struck.

mod aerodynamics;
mod air;
mod equations;
mod fault;
mod fit;
mod launch;
mod path;
mod profile;
mod solve;
mod table;
mod usual;
mod weather;
mod wind;

pub use crate::figures::ball::{BALL_MASS, BALL_RADIUS, GRAVITY};
pub use crate::figures::flight::MOST_SPEED_MPH;
pub use aerodynamics::Aerodynamics;
pub use air::Air;
pub use fault::FlightFault;
pub use launch::{Launch, LaunchConditions};
pub use path::{Flight, fly};
pub use solve::{check_carry, fly_carry, full_strike, solve_speed};
pub use table::{Bearing, FlightTable, Landing, Track};
pub use weather::Weather;
pub use wind::WindProfile;

/// Metres a second in one mile an hour (exact).
pub(crate) const MPS_PER_MPH: f64 = 0.447_04;
/// Radians a second in one revolution a minute.
pub(crate) const RAD_PER_RPM: f64 = std::f64::consts::TAU / 60.0;
