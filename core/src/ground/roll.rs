//! A ball rolling, or skipping, on a planar piece of ground.
//!
//! dv/dt = -(5/7) rho g cos(theta) v/|v| - (5/7) g (downhill component): rolling resistance against the
//! motion, gravity along the ground, both at 5/7 because the ball's spin must follow (Penner 2002, "The
//! physics of putting", Can. J. Phys. 80:83). It is followed along the way gone, not in time: where a ball rolls straight on
//! the square of its speed changes evenly with the way, and a skipping ball's speed does. Hot path: no trigonometry, no
//! allocation.
use super::bounce::Rolling;
use super::{LONGEST_ROLL, Slope, Turf};
use crate::figures::ball::ROLLING_SHARE;
use crate::flight::GRAVITY;
use crate::geometry::Vector;
use crate::units::METRES_PER_YARD;
use nalgebra::Vector3;

/// How fast a level roll slows on ground of a rolling resistance, m/s^2.
#[inline]
fn rolling_deceleration(resistance: f64) -> f64 {
    ROLLING_SHARE * resistance * GRAVITY
}

/// The farthest roll, m.
const LONGEST: f64 = LONGEST_ROLL * METRES_PER_YARD;

/// A step changes the square of the speed of a rolling ball, or the speed of a skipping one, by no more than this share of it.
const STEP: f64 = 0.4;
/// Below this speed, m/s, steps get no shorter.
const SLOW: f64 = 0.1;
/// The speed at which a ball is taken to stand, m/s.
const CRAWL: f64 = 1e-3;
/// Steps after which a piece of a roll ends wherever the ball is.
const MOST_STEPS: usize = 200;

/// A piece of a run along the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rolled {
    /// Yards moved in the plan.
    pub moved: Vector,
    /// The ball at the end of the piece; its velocity is zero at rest.
    pub ball: Rolling,
    /// True when the ball has come to rest.
    pub at_rest: bool,
}

/// Runs a ball over a planar piece of ground for at most `most` yards (of ground, not of plan).
///
/// The ball may come from ground of another slope; its velocity is laid along this one. On level ground
/// the run is exact: a skipping ball loses the same speed with every yard, a rolling one goes v^2 /
/// (2 (5/7) rho g). On a slope the way to where it
/// rests is exact, what comes before is integrated by the midpoint method. Where the slope is as steep as the rolling
/// resistance ([`Turf::steepest_rest`]) the ball does not come to rest: the piece ends after `most` yards
/// or, if that is far, after some hundred steps.
#[must_use]
#[inline]
pub fn roll(ball: &Rolling, slope: &Slope, turf: &Turf, most: f64) -> Rolled {
    let normal = slope.normal();
    let velocity = ball.velocity - normal * ball.velocity.dot(&normal);
    let most = most.max(0.0) * METRES_PER_YARD;
    if normal.z == 1.0 {
        return roll_straight(velocity, ball.skips, turf, most);
    }
    let resistance = ROLLING_SHARE * turf.rolling * GRAVITY * normal.z;
    let pull = (normal * normal.z - Vector3::z()) * (ROLLING_SHARE * GRAVITY);
    let speed = velocity.norm();
    let mut run = Run {
        speed,
        forward: velocity / speed.max(f64::MIN_POSITIVE),
        moved: Vector3::zeros(),
        left: most,
    };
    let skips = ball.skips && run.skip_curved(turf, resistance, &pull);
    let at_rest = !skips && run.roll_curved(resistance, &pull);
    Rolled {
        moved: run.moved.xy() * (1.0 / METRES_PER_YARD),
        ball: Rolling {
            velocity: run.forward * run.speed,
            skips,
        },
        at_rest,
    }
}

/// [`roll`] on level ground: straight on.
#[inline]
fn roll_straight(velocity: Vector3<f64>, skips: bool, turf: &Turf, most: f64) -> Rolled {
    let before = Pace {
        speed: velocity.norm(),
        skips,
    };
    let (length, after) = before.after(turf, most);
    let way = velocity / before.speed.max(f64::MIN_POSITIVE);
    Rolled {
        moved: way.xy() * (length * (1.0 / METRES_PER_YARD)),
        ball: Rolling {
            velocity: way * after.speed,
            skips: after.skips,
        },
        at_rest: after.is_rest(),
    }
}

/// How a ball runs along level ground.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Pace {
    /// m/s; 0 at rest.
    pub(crate) speed: f64,
    /// True while it still skips.
    pub(crate) skips: bool,
}

impl Pace {
    /// That of a ball that would roll `yards` on level ground of a rolling resistance.
    #[inline]
    pub(crate) fn to_roll(yards: f64, resistance: f64) -> Self {
        let square = 2.0 * rolling_deceleration(resistance) * METRES_PER_YARD * yards;
        Pace {
            speed: square.sqrt(),
            skips: false,
        }
    }

    /// The ball that has it along the unit vector `forward`.
    #[inline]
    pub(crate) fn along(self, forward: Vector) -> Rolling {
        let level = forward * self.speed;
        Rolling {
            velocity: Vector3::new(level.x, level.y, 0.0),
            skips: self.skips,
        }
    }

    /// Yards that it runs on level turf before it rests.
    #[inline]
    pub(crate) fn yards_to_rest(self, turf: &Turf) -> f64 {
        self.after(turf, LONGEST).0 * (1.0 / METRES_PER_YARD)
    }

    /// True of a ball that has come to rest.
    #[inline]
    pub(super) fn is_rest(self) -> bool {
        self.speed == 0.0
    }

    /// The way, m, that it runs on turf within `most`, and how it then runs.
    #[inline]
    pub(super) fn after(self, turf: &Turf, most: f64) -> (f64, Pace) {
        let (mut speed, mut gone) = (self.speed, 0.0);
        if self.skips && speed > turf.skip_end {
            let to_roll = (speed - turf.skip_end) / turf.skip_loss;
            gone = to_roll.min(most);
            speed -= turf.skip_loss * gone;
            if to_roll > gone {
                return (gone, Pace { speed, skips: true });
            }
        }
        let slowing = 2.0 * rolling_deceleration(turf.rolling);
        let square = speed * speed;
        let rest = Pace {
            speed: 0.0,
            skips: false,
        };
        if square <= slowing * (most - gone) {
            return (gone + square / slowing, rest);
        }
        let speed = (square - slowing * (most - gone)).max(0.0).sqrt();
        (most, Pace { speed, ..rest })
    }
}

/// A run under way on a slope: m and m/s.
struct Run {
    speed: f64,
    /// Unit vector along the ground.
    forward: Vector3<f64>,
    moved: Vector3<f64>,
    left: f64,
}

impl Run {
    /// Skips on a slope; true if it still does at the end of the piece.
    ///
    /// Downhill the pull counts only in the measure in which turf holds a skipping ball as it holds a
    /// rolling one. In full it would drive a ball on for ever down a slope of a third of the rolling
    /// resistance: the tilt of Penner's turf goes to 0 with the speed, but turf holds a slow ball too (an engineering
    /// choice, not published).
    fn skip_curved(&mut self, turf: &Turf, resistance: f64, pull: &Vector3<f64>) -> bool {
        let strength = pull.norm();
        let hold = turf.skip_loss / resistance;
        // What the speed loses with every metre.
        let loss = |forward: &Vector3<f64>, speed: f64| {
            let aid = pull.dot(forward);
            let per_speed = if aid > 0.0 && hold * speed < 1.0 {
                hold
            } else {
                1.0 / speed
            };
            turf.skip_loss - aid * per_speed
        };
        for _ in 0..MOST_STEPS {
            if !(self.speed > turf.skip_end) {
                return false;
            }
            if !(self.left > 1e-9) {
                return true;
            }
            let speed = self.speed;
            let begins = loss(&self.forward, speed);
            let step = STEP * speed / (turf.skip_loss + strength / speed);
            // It ends where skipping does, or a little after.
            let to_roll = if begins > 0.0 {
                1.05 * (speed - turf.skip_end) / begins + 1e-3
            } else {
                f64::INFINITY
            };
            let step = step.min(to_roll).min(self.left);
            let middle = self.turned(pull, 0.5 * step);
            let halfway = (speed - 0.5 * step * begins).max(CRAWL);
            self.speed = (speed - step * loss(&middle, halfway)).max(0.0);
            self.go(step, &middle, halfway * halfway, pull);
        }
        true
    }

    /// Rolls on a slope that pulls the ball by `pull`, m/s^2; true if it comes to rest.
    fn roll_curved(&mut self, resistance: f64, pull: &Vector3<f64>) -> bool {
        let strength = pull.norm();
        // What the square of the speed gains with every metre.
        let gain = |forward: &Vector3<f64>| 2.0 * (pull.dot(forward) - resistance);
        for _ in 0..MOST_STEPS {
            if resistance > strength && self.comes_to_rest(resistance, strength, pull) {
                return true;
            }
            // A ball on the point of turning is set off downhill at a crawl.
            if self.speed < CRAWL {
                (self.speed, self.forward) = (CRAWL, pull / strength);
            }
            if !(self.left > 1e-9) {
                return false;
            }
            let square = self.speed * self.speed;
            let step = STEP * square.max(SLOW * SLOW) / (2.0 * (resistance + strength));
            let step = step.min(self.left);
            let middle = self.turned(pull, 0.5 * step);
            let halfway = square + 0.5 * step * gain(&self.forward);
            self.speed = (square + step * gain(&middle)).max(0.0).sqrt();
            self.go(step, &middle, halfway, pull);
        }
        false
    }

    /// The direction after so much of the way.
    #[inline]
    fn turned(&self, pull: &Vector3<f64>, way: f64) -> Vector3<f64> {
        turned(
            &self.forward,
            (&self.forward, self.speed * self.speed),
            pull,
            way,
        )
    }

    /// Goes on by the midpoint method: `step` along the direction in its middle, where the square of the speed is `square`.
    #[inline]
    fn go(&mut self, step: f64, middle: &Vector3<f64>, square: f64, pull: &Vector3<f64>) {
        self.forward = turned(&self.forward, (middle, square), pull, step);
        self.moved += middle * step;
        self.left -= step;
    }

    /// Takes a ball to its rest if that is no farther than what is left; a slope that pulls by `strength` < `resistance`.
    ///
    /// With c and s the cosine and sine of the angle between the motion and the pull p, v^2, v^2 c, v^2 c^2, v^2 s and
    /// v^2 s c all change at a rate of v times a polynomial in c and s, so that sums of them give the way gone, in both
    /// directions and along the path, exactly: mechanics, worked out here.
    #[inline]
    fn comes_to_rest(&mut self, resistance: f64, strength: f64, pull: &Vector3<f64>) -> bool {
        let (r, p, square) = (resistance, strength, self.speed * self.speed);
        let between = r * r - p * p;
        let downhill = pull / p.max(f64::MIN_POSITIVE);
        let along = downhill.dot(&self.forward);
        let path = square * ((2.0 * r * r - p * p) + p * along * (2.0 * r + p * along))
            / (4.0 * r * between);
        if !(path <= self.left) {
            return false;
        }
        let down = square * (0.25 * p * (1.0 + along * along) + 0.5 * r * along) / between;
        // Of the direction square to the pull there is s, so this is the way per unit of it.
        let across = square * (2.0 * r + p * along) / (4.0 * r * r - p * p);
        self.moved += downhill * down + (self.forward - downhill * along) * across;
        self.left -= path;
        self.speed = 0.0;
        true
    }
}

/// The unit vector `forward` after so much of a way along which it turns to the pull as it does where it is `there`, with that
/// square of the speed.
#[inline]
fn turned(
    forward: &Vector3<f64>,
    (there, square): (&Vector3<f64>, f64),
    pull: &Vector3<f64>,
    way: f64,
) -> Vector3<f64> {
    let aside = pull - there * pull.dot(there);
    let turned = forward + aside * (way / square.max(CRAWL * CRAWL));
    turned / turned.norm().max(f64::MIN_POSITIVE)
}
