//! A putt: roll on the green, capture by the hole, and what is left after a miss.
use crate::noise::Noise;
use crate::player::Putting;
use crate::units::{FEET_PER_YARD, METRES_PER_YARD};

/// Radius of the hole, yards (108 mm across, Rules of Golf).
pub const HOLE_RADIUS: f64 = 0.054 / METRES_PER_YARD;

/// Deceleration on a level green times the Stimpmeter reading, yards a second squared times feet.
///
/// The bar releases the ball at 1.8288 m/s (6 ft/s, the usual figure) and it rolls the reading:
/// v^2 / 2d = 5.486 m/s^2 over the reading in feet.
pub const ROLL_DECELERATION: f64 = 1.8288 * 1.8288 / (2.0 * 0.3048) / METRES_PER_YARD;

/// Putt length at which half of a player's misreading is felt, yards. Common practice, no source: of 10, 20, 50
/// and 100 feet it is the shortest that leaves no row of the makes of 2016-18 from 3 to 40 feet off by a point.
const MISREAD_HALF: f64 = 20.0 / FEET_PER_YARD;

/// The hardest roll-out error that is believed: a putt goes at least this share of what was meant.
const LEAST_ROLL: f64 = 0.05;

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

/// Rolls a putt of `distance` yards on a level green with a Stimpmeter reading of `green_speed` feet.
///
/// The ball starts `noise.side` direction errors off the line and would roll out `noise.depth` pace
/// errors from a point just past the hole. It slows evenly; the hole takes it if it meets the hole slowly
/// enough for how far off centre it is ([`captured`]). A miss stops at its roll-out.
/// The sine and cosine of the direction are the first three terms of their series: at 30 degrees, four
/// deviations of the weakest golfer's longest putt, they err by less than 0.00003.
#[must_use]
#[inline]
pub fn putt(skill: &Putting, green_speed: f64, distance: f64, noise: &Noise) -> Rolled {
    let spread_deg = skill.direction_deg + skill.misread_deg * distance / (distance + MISREAD_HALF);
    let angle = spread_deg.to_radians() * noise.side;
    let square = angle * angle;
    let sine = angle * (1.0 - square * (1.0 / 6.0) * (1.0 - square * (1.0 / 20.0)));
    let cosine = 1.0 - 0.5 * square * (1.0 - square * (1.0 / 12.0));
    let meant = distance + skill.past_ft / FEET_PER_YARD;
    let roll = meant * (1.0 + skill.pace * noise.depth).max(LEAST_ROLL);
    let offset = distance * sine;
    if offset.abs() < HOLE_RADIUS && cosine > 0.0 {
        let rim = distance * cosine - (HOLE_RADIUS * HOLE_RADIUS - offset * offset).sqrt();
        let left = roll - rim;
        if left >= 0.0 {
            let most = capture_speed(offset.abs());
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

/// True when the hole takes a ball that reaches its rim at `speed` yards a second on a path that passes
/// the centre `offset` yards to the side.
#[must_use]
pub fn captured(speed: f64, offset: f64) -> bool {
    offset.abs() < HOLE_RADIUS && speed <= capture_speed(offset.abs())
}

/// Steps of the capture table: every half millimetre of offset from 0 to the rim.
const STEPS: usize = 108;
const STEP: f64 = 0.0005 / METRES_PER_YARD;

/// The fastest speed at which the hole takes the ball, in yards a second, for an offset of 0 yards to the
/// radius of the hole.
#[inline]
fn capture_speed(offset: f64) -> f64 {
    let at = offset * (1.0 / STEP);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 <= at <= STEPS"
    )]
    let cell = (at as usize).min(STEPS - 1);
    #[expect(clippy::cast_precision_loss, reason = "a small integer")]
    let part = at - cell as f64;
    CAPTURE[cell] + part * (CAPTURE[cell + 1] - CAPTURE[cell])
}

/// The speeds, computed once from [`CAPTURE_M_S`]; its offsets all fall on the half millimetre, so this
/// is the same broken line.
static CAPTURE: [f64; STEPS + 1] = fine_table();

/// Offset of the path from the centre in millimetres, and the fastest speed in m/s at which the ball is
/// taken. Computed for a rolling sphere that flies from the near rim and meets the far
/// one without rebound; it gives the 1.63 m/s of Holmes 1991 ("Putting: how a golf ball and hole
/// interact", Am. J. Phys. 59, 129) through the centre.
const CAPTURE_M_S: [(f64, f64); 16] = [
    (0.0, 1.63),
    (2.5, 1.62),
    (5.0, 1.60),
    (7.5, 1.56),
    (10.0, 1.52),
    (15.0, 1.41),
    (20.0, 1.30),
    (25.0, 1.19),
    (30.0, 1.06),
    (35.0, 0.90),
    (40.0, 0.66),
    (45.0, 0.49),
    (50.0, 0.35),
    (52.0, 0.25),
    (53.5, 0.13),
    (54.0, 0.0),
];

/// [`CAPTURE_M_S`] at every half millimetre, in yards a second.
const fn fine_table() -> [f64; STEPS + 1] {
    let mut table = [0.0; STEPS + 1];
    let mut piece = 0;
    let mut i = 0;
    while i <= STEPS {
        #[expect(clippy::cast_precision_loss, reason = "a small integer")]
        let offset = i as f64 * 0.5;
        while offset > CAPTURE_M_S[piece + 1].0 {
            piece += 1;
        }
        let (from, to) = (CAPTURE_M_S[piece], CAPTURE_M_S[piece + 1]);
        let part = (offset - from.0) / (to.0 - from.0);
        table[i] = (from.1 + part * (to.1 - from.1)) / METRES_PER_YARD;
        i += 1;
    }
    table
}
