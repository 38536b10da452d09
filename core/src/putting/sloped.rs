//! A putt on a slope, for the hot loop.
use super::breaks::{Breaks, STEEPEST};
use super::capture::capture_speed;
use super::plane::{Launch, Plane};
use super::{
    Green, HOLE_RADIUS, Misreading, ORDINARY, RESISTANCE, ROLL_DECELERATION, Rolled, Slope,
    direction_error, putt_level,
};
use crate::figures::putting::{LEAST_ROLL, MISREAD_RATE, MOST_MISREAD, SLOPE_SHARE, STRIKE_SHARE};
use crate::geometry::Vector;
use crate::noise::{self, Noise};
use crate::player::Putting;
use crate::units::FEET_PER_YARD;

/// The share of the variance that no slope changes and no energy.
const STEADY_SHARE: f64 = 1.0 - STRIKE_SHARE - SLOPE_SHARE;

/// A slope or a length so small that it is none; it keeps their quotients finite.
const FLAT: f64 = 1e-9;

/// Rolls a putt along `line`, the plan vector from ball to hole. Hot path.
///
/// Where the slope of the green is not told this is [`super::putt`] to the bit. Where it is told, the player plays the line
/// and pace of a plane that falls the share `skill.read` of the mean slope, so that without error the ball would
/// enter the centre and, if missed straight up or down, run out `skill.past_ft` beyond on the slope at the hole. The ball
/// starts `noise.side` direction errors off that line with `noise.depth` pace errors, and follows the exact path of the true
/// plane; how far from the hole it stops is then brought to the slope at the hole. Of both errors the part that is
/// misreading grows with the slope, from nothing on a level green, and turns the line more where putts break more, downhill.
///
/// Against the integration over curved greens of the same errors (`tests/rust/putting_greens.rs`), up to 30 feet, makes hold
/// within 1.5 points and mean leaves of misses within 15 %, also where a putt breaks both ways; across a tier leaves hold
/// within 30 %. It breaks down with the hole within a yard or so of the foot of a tier, where downhill leaves come out
/// less than half of what they are, and on the step itself, where no ball stays.
///
/// A green steeper than 0.85 of [`super::no_rest_grade`] is played as if it were just that steep, so a ball always comes to
/// rest. The first putt on a slope anywhere prepares [`Breaks`].
#[must_use]
#[inline]
pub fn stroke(skill: &Putting, green: &Green, line: Vector, noise: &Noise) -> Rolled {
    let straight = |misreading| {
        let distance = line.norm();
        putt_level(
            skill,
            green.speed,
            distance,
            noise,
            green.hole_scale,
            misreading,
        )
    };
    let Some(slope) = green.slope else {
        return straight(ORDINARY);
    };
    let steepest = slope.mean.amax().max(slope.at_hole.amax()).max(slope.grade);
    if steepest > FLAT && line.amax() > FLAT {
        Breaks::get().putt_on(skill, green, &slope, line, noise)
    } else {
        straight(Misreading {
            direction: 0.0,
            pace: (1.0 - SLOPE_SHARE).sqrt(),
        })
    }
}

/// Chance that the hole takes the putt, over an even spread of luck: good to about half a point.
#[must_use]
pub fn make_chance(skill: &Putting, green: &Green, line: Vector) -> f64 {
    let luck = noise::spread(4096);
    let made = luck
        .iter()
        .filter(|n| stroke(skill, green, line, n).holed)
        .count();
    #[expect(clippy::cast_precision_loss, reason = "small counts")]
    let share = made as f64 / luck.len() as f64;
    share
}

impl Breaks {
    /// [`stroke`] where there is a slope and a distance.
    #[inline]
    fn putt_on(
        &self,
        skill: &Putting,
        green: &Green,
        slope: &Slope,
        line: Vector,
        noise: &Noise,
    ) -> Rolled {
        let distance = line.norm();
        let to_steepness = green.speed / RESISTANCE;
        // The frame of the slope: downhill and across, mirrored so that the ground falls to the right.
        let steep = slope.mean.norm() * to_steepness;
        let (along, right) = if steep > FLAT {
            let over = -to_steepness / (steep * distance);
            let fall = slope.mean;
            (
                fall.dot(&line) * over,
                (fall.x * line.y - fall.y * line.x) * over,
            )
        } else {
            (1.0, 0.0)
        };
        let side = 1.0_f64.copysign(right);
        let across = right.abs();
        let k = steep.min(STEEPEST);
        let seen = (k * skill.read).min(STEEPEST);
        let at_hole =
            (-slope.at_hole.dot(&line) * to_steepness / distance).clamp(-STEEPEST, STEEPEST);
        let past = skill.past_ft * (1.0 / FEET_PER_YARD) * (1.0 - skill.read.min(1.0) * at_hole);
        let aimed = self.aim(distance, past, seen * along, seen * across);
        let misread = (slope.grade * to_steepness).min(STEEPEST) * MISREAD_RATE;
        let turned = (aimed.lead * misread).min(MOST_MISREAD);
        let (sine, cosine) = direction_error(skill, distance, noise, turned);
        // Turned uphill from the line to the hole by the aim less the error.
        let (cos, sin) = (
            aimed.cos * cosine + aimed.sin * (side * sine),
            aimed.sin * cosine - aimed.cos * (side * sine),
        );
        let level = distance + skill.past_ft / FEET_PER_YARD;
        let reading = STEADY_SHARE + SLOPE_SHARE * misread * misread;
        let spread = (STRIKE_SHARE * aimed.roll * aimed.roll + reading * level * level).sqrt();
        let roll = (aimed.roll + skill.pace * noise.depth * spread).max(LEAST_ROLL * aimed.roll);
        let start = (cos * along - sin * across, cos * across + sin * along);
        let launch = Plane::new(k).launch(start.0, start.1, roll);
        let rest = launch.rest();
        let path = Path {
            launch,
            start,
            rest,
            hole: (distance * along, distance * across),
            k,
        };
        let radius = HOLE_RADIUS * green.hole_scale;
        if path.may_meet(radius) {
            let fade = aimed.fade - distance * (k - seen) * along;
            if path.drops(roll - fade, radius, green) {
                return Rolled::IN;
            }
        }
        // What roll is left at the hole, or lacks, is used up on the slope there.
        let there = (1.0 - k * along) / (1.0 - at_hole);
        Rolled {
            holed: false,
            past: (rest.0 * along + rest.1 * across - distance) * there,
            right: side * (rest.0 * across - rest.1 * along),
        }
    }

    /// What the player sets out to do on a plane that seems to fall `along` and `across`, as shares of the no-rest grade, to
    /// have a level roll-out of `past` left at the hole.
    #[inline]
    fn aim(&self, distance: f64, past: f64, along: f64, across: f64) -> Aimed {
        let line = self.line(along, across, (past / (distance + past)).sqrt());
        let square = line.half * line.half;
        let over = 1.0 / (1.0 + square);
        Aimed {
            sin: 2.0 * line.half * over,
            cos: (1.0 - square) * over,
            roll: line.spent * distance + past,
            fade: line.fade * distance,
            lead: line.lead,
        }
    }
}

struct Aimed {
    /// Sine and cosine of the aim, uphill of the line to the hole.
    sin: f64,
    cos: f64,
    /// Roll-out on the level that is meant, yards.
    roll: f64,
    /// How much of e^-2y goes by on the way to the hole, times the roll-out, yards.
    fade: f64,
    /// How much more than on the level a misread slope turns the line.
    lead: f64,
}

/// A putt on its way, in the frame of the slope.
struct Path {
    launch: Launch,
    /// Direction of the launch.
    start: (f64, f64),
    rest: (f64, f64),
    hole: (f64, f64),
    k: f64,
}

/// Most looks at the path; one or two do for all but dying putts on steep slopes.
const LOOKS: u32 = 6;

impl Path {
    /// False when the path certainly stays farther than `radius` from the hole.
    ///
    /// It bends downhill all the way and ends downhill, so it lies in the triangle of the launch line, the line downhill to
    /// the rest and the chord between their ends.
    #[inline]
    fn may_meet(&self, radius: f64) -> bool {
        let ((u, v), (x, y), (p, q)) = (self.start, self.rest, self.hole);
        let square = x * x + y * y;
        let side = 1.0_f64.copysign(v);
        // How far the hole lies uphill of the launch line, downhill of the chord, across and past the rest.
        let uphill = side * (u * q - v * p);
        let downhill = side * (p * y - q * x);
        let across = side * (q - y);
        let past = if x > 0.0 { p * x + q * y - square } else { 0.0 };
        let most = radius * radius * square;
        let beyond = |length: f64| length > 0.0 && length * length > most;
        !(uphill > radius || across > radius || beyond(downhill) || beyond(past))
    }

    /// True when the hole takes the ball. `left` is a guess at e^-2y at the hole times the roll-out.
    ///
    /// Newton's method finds the point of the path about a radius before the hole; from there the ball goes straight
    /// on to the rim.
    #[inline]
    fn drops(&self, left: f64, radius: f64, green: &Green) -> bool {
        let roll = self.launch.roll();
        let over = 1.0 / roll;
        let mut at = ((left + radius) * over).clamp(1e-3, 1.0);
        for _ in 0..LOOKS {
            let ball = self.launch.at(at);
            let to = (
                self.hole.0 - self.rest.0 + ball.to_go.0,
                self.hole.1 - self.rest.1 + ball.to_go.1,
            );
            let (x, y) = ball.heading;
            let ahead = to.0 * x + to.1 * y;
            let offset = (to.0 * y - to.1 * x).abs();
            let far = ahead - radius;
            if far.abs() < 0.5 * radius {
                let left = roll * at / (ball.slowness * ball.slowness);
                return enters(ahead, offset, left, 1.0 - self.k * x, radius, green);
            }
            // The path turns by less than half a right angle on the way.
            if offset > radius + far.abs() {
                return false;
            }
            at = (at - far * over * ball.slowness * ball.slowness).clamp(0.1 * at, 1.0);
            if at < 1e-6 {
                return false;
            }
        }
        false
    }
}

/// True when the hole, `ahead` and `offset` from a ball with a level roll-out of `left`, takes it. On the way every yard
/// takes `toll` yards of that.
#[inline]
fn enters(ahead: f64, offset: f64, left: f64, toll: f64, radius: f64, green: &Green) -> bool {
    if !(offset < radius) {
        return false;
    }
    let rim = ahead - (radius * radius - offset * offset).sqrt();
    let left = left - toll * rim;
    let most = capture_speed(offset, green.hole_scale);
    left >= 0.0 && 2.0 * ROLL_DECELERATION * left <= most * most * green.speed
}
