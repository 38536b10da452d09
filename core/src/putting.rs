//! A putt: roll on the green, capture by the hole, and what is left after a miss.
use crate::noise::Noise;
use crate::player::Putting;

/// What a putt did, in the frame of the line from ball to hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rolled {
    /// True when the hole took the ball.
    pub holed: bool,
    /// Yards beyond the hole along the line (negative: short). Zero when holed.
    pub past: f64,
    /// Yards to the right of the line. Zero when holed.
    pub right: f64,
}

/// Rolls a putt of `distance` yards on a level green with a Stimpmeter reading of `green_speed` feet.
#[must_use]
pub fn putt(skill: &Putting, green_speed: f64, distance: f64, noise: &Noise) -> Rolled {
    let _ = (skill, green_speed, distance, noise);
    todo!()
}

/// True when the hole takes a ball that passes its centre `offset` yards to the side at `speed` yards a second.
#[must_use]
pub fn captured(speed: f64, offset: f64) -> bool {
    let _ = (speed, offset);
    todo!()
}
