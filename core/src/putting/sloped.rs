//! A putt on a slope, for the hot loop.
use super::breaks::{Breaks, STEEPEST};
use super::capture::capture_speed;
use super::plane::{Launch, Plane};
use super::{
    HOLE_RADIUS, LEAST_ROLL, RESISTANCE, ROLL_DECELERATION, Rolled, direction_error, putt_level,
};
use crate::geometry::Vector;
use crate::noise::{self, Noise};
use crate::player::Putting;
use crate::units::FEET_PER_YARD;

/// The ground of a putt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Green {
    /// Stimpmeter reading, feet.
    pub speed: f64,
    /// Rise over run towards +x and +y of the plan, taken as the same all the way.
    pub gradient: Vector,
    /// Width of the hole over that of the Rules of Golf; the same speeds are taken at the same share of the radius.
    pub hole_scale: f64,
}

/// Share of the variance of roll-out that comes from the strike and grows with its energy; the rest is reading
/// and the surface, and is felt in the energy a level putt of the length needs.
///
/// Published: technique 34 %, green reading 60 %, surface 6 % of the variance of distance (Karlsen and Nilsson 2008).
const STRIKE_SHARE: f64 = 0.34;

/// A slope or a length so small that it is none; it keeps their quotients finite.
const FLAT: f64 = 1e-9;

impl Breaks {
    /// Rolls a putt along `line`, the plan vector from ball to hole, on a plane. Hot path.
    ///
    /// The player plays the line and pace of a plane that falls the share `skill.read` of the true one, so that
    /// without error the ball would enter the centre and, if missed straight up or down, run out `skill.past_ft`
    /// beyond. The ball starts `noise.side` direction errors off that line (misreading turns it more where putts
    /// break more, downhill) with `noise.depth` pace errors, and follows the exact path of the true plane.
    ///
    /// On level ground it is [`super::putt`] to the bit. A green steeper than 0.85 of [`super::no_rest_grade`] is played
    /// as if it were just that steep, so a ball always comes to rest.
    #[must_use]
    #[inline]
    pub fn putt_on(&self, skill: &Putting, green: &Green, line: Vector, noise: &Noise) -> Rolled {
        let distance = line.norm();
        let fall = green.gradient * (-green.speed / RESISTANCE);
        let steep = fall.norm();
        if !(steep > FLAT && distance > FLAT) {
            return putt_level(skill, green.speed, distance, noise, green.hole_scale);
        }
        // The frame of the slope: downhill and across, mirrored so that the ground falls to the right.
        let k = steep.min(STEEPEST);
        let over = 1.0 / (steep * distance);
        let along = fall.dot(&line) * over;
        let right = (fall.x * line.y - fall.y * line.x) * over;
        let side = 1.0_f64.copysign(right);
        let across = right.abs();
        let seen = (k * skill.read).min(STEEPEST);
        let aimed = self.aim(skill, distance, seen * along, seen * across);
        let (sine, cosine) = direction_error(skill, distance, noise, aimed.misread);
        // Turned uphill from the line to the hole by the aim less the error.
        let (cos, sin) = (
            aimed.cos * cosine + aimed.sin * (side * sine),
            aimed.sin * cosine - aimed.cos * (side * sine),
        );
        let level = distance + skill.past_ft / FEET_PER_YARD;
        let spread =
            (STRIKE_SHARE * aimed.roll * aimed.roll + (1.0 - STRIKE_SHARE) * level * level).sqrt();
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
        Rolled {
            holed: false,
            past: rest.0 * along + rest.1 * across - distance,
            right: side * (rest.0 * across - rest.1 * along),
        }
    }

    /// Chance that the hole takes the putt, over an even spread of luck: good to about half a point.
    #[must_use]
    pub fn make_chance(&self, skill: &Putting, green: &Green, line: Vector) -> f64 {
        let luck = noise::spread(4096);
        let made = luck
            .iter()
            .filter(|n| self.putt_on(skill, green, line, n).holed)
            .count();
        #[expect(clippy::cast_precision_loss, reason = "small counts")]
        let share = made as f64 / luck.len() as f64;
        share
    }

    /// What the player sets out to do on a plane that seems to fall `along` and `across`, as shares of the no-rest grade.
    #[inline]
    fn aim(&self, skill: &Putting, distance: f64, along: f64, across: f64) -> Aimed {
        // So much energy at the hole that a miss runs out the same distance on any slope.
        let past = skill.past_ft * (1.0 / FEET_PER_YARD) * (1.0 - along);
        let line = self.line(along, across, (past / (distance + past)).sqrt());
        let square = line.half * line.half;
        let over = 1.0 / (1.0 + square);
        Aimed {
            sin: 2.0 * line.half * over,
            cos: (1.0 - square) * over,
            roll: line.spent * distance + past,
            fade: line.fade * distance,
            misread: line.lead,
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
    misread: f64,
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
    let most = capture_speed(offset / green.hole_scale);
    left >= 0.0 && 2.0 * ROLL_DECELERATION * left <= most * most * green.speed
}
