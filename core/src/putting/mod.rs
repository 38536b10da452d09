//! A putt: roll on the green, capture by the hole, and what is left after a miss.
//!
//! [`stroke`] is a putt on any [`Green`], for the hot loop; [`putt`] is the same on one whose slope is not told. [`roll`] integrates the equation of motion over any ground, and [`Choice`] is the line and
//! pace that a putt on a plane wants.
mod breaks;
mod capture;
mod choice;
mod fault;
mod green;
mod plane;
mod roll;
mod sloped;

pub use crate::figures::ball::HOLE_RADIUS;
pub use crate::figures::putting::{ORDINARY_GRADE, ROLL_DECELERATION};
pub use breaks::Breaks;
pub(crate) use capture::captured_by;
pub use capture::{captured, captured_at};
pub use choice::Choice;
pub use fault::PuttFault;
pub use green::{Green, Slope};
pub use roll::{Ending, Entry, Path, roll};
pub use sloped::{make_chance, stroke};

use crate::figures::ball::GRAVITY;
use crate::figures::putting::{LEAST_ROLL, MISREAD_HALF};
use crate::noise::Noise;
use crate::player::Putting;
use crate::units::{FEET_PER_YARD, METRES_PER_YARD};
use capture::capture_speed;

/// The grade at which a ball no longer comes to rest, times the Stimpmeter reading: 0.783.
///
/// A rolling sphere feels 5/7 of gravity along the slope, so rolling resistance is this share of its weight:
/// [`ROLL_DECELERATION`] over 5 g / 7.
const RESISTANCE: f64 = ROLL_DECELERATION * METRES_PER_YARD * 7.0 / (5.0 * GRAVITY);

/// The grade (rise over run) at and beyond which a ball does not come to rest on a green of that Stimpmeter reading, feet.
#[must_use]
pub fn no_rest_grade(green_speed: f64) -> f64 {
    RESISTANCE / green_speed
}

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

impl Rolled {
    /// The ball in the hole.
    const IN: Rolled = Rolled {
        holed: true,
        past: 0.0,
        right: 0.0,
    };
}

/// How much of a player's misreading an ordinary green shows.
const ORDINARY: Misreading = Misreading {
    direction: 1.0,
    pace: 1.0,
};

/// How far a green leads a player astray, as shares of what an ordinary one does.
#[derive(Clone, Copy, Debug)]
struct Misreading {
    /// Of [`Putting::misread_deg`].
    direction: f64,
    /// Of [`Putting::pace`].
    pace: f64,
}

/// Rolls a putt of `distance` yards on an ordinary green with a Stimpmeter reading of `green_speed` feet: [`stroke`] where
/// the slope is not told. Hot path.
///
/// The ball starts `noise.side` direction errors off the line and would roll out `noise.depth` pace
/// errors from a point just past the hole. It slows evenly; the hole takes it if it meets the hole slowly
/// enough for how far off centre it is ([`captured`]). A miss stops at its roll-out.
#[must_use]
#[inline]
pub fn putt(skill: &Putting, green_speed: f64, distance: f64, noise: &Noise) -> Rolled {
    putt_level(skill, green_speed, distance, noise, 1.0, ORDINARY)
}

/// A straight putt at a hole `hole_scale` times as wide as that of the Rules of Golf.
#[inline]
fn putt_level(
    skill: &Putting,
    green_speed: f64,
    distance: f64,
    noise: &Noise,
    hole_scale: f64,
    misreading: Misreading,
) -> Rolled {
    let (sine, cosine) = direction_error(skill, distance, noise, misreading.direction);
    let meant = distance + skill.past_ft / FEET_PER_YARD;
    let roll = meant * (1.0 + skill.pace * misreading.pace * noise.depth).max(LEAST_ROLL);
    let offset = distance * sine;
    let radius = HOLE_RADIUS * hole_scale;
    if offset.abs() < radius && cosine > 0.0 {
        let rim = distance * cosine - (radius * radius - offset * offset).sqrt();
        let left = roll - rim;
        if left >= 0.0 {
            let most = capture_speed(offset.abs(), hole_scale);
            if 2.0 * ROLL_DECELERATION * left <= most * most * green_speed {
                return Rolled::IN;
            }
        }
    }
    Rolled {
        holed: false,
        past: roll * cosine - distance,
        right: roll * sine,
    }
}

/// Sine and cosine of the direction error, to the right, where misreading counts `misread` times: the first three
/// terms of their series. At 30 degrees, four deviations of the weakest golfer's longest putt on the level, they err by
/// less than 0.00003.
#[inline]
fn direction_error(skill: &Putting, distance: f64, noise: &Noise, misread: f64) -> (f64, f64) {
    let misread_deg = skill.misread_deg * misread;
    let spread_deg = skill.direction_deg + misread_deg * distance / (distance + MISREAD_HALF);
    let angle = spread_deg.to_radians() * noise.side;
    let square = angle * angle;
    let sine = angle * (1.0 - square * (1.0 / 6.0) * (1.0 - square * (1.0 / 20.0)));
    let cosine = 1.0 - 0.5 * square * (1.0 - square * (1.0 / 12.0));
    (sine, cosine)
}
