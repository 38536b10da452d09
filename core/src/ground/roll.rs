//! A ball rolling, or skipping, on a planar piece of ground.
//!
//! dv/dt = -(5/7) rho g cos(theta) v/|v| - (5/7) g (downhill component): rolling resistance against the
//! motion, gravity along the ground, both at 5/7 because the ball's spin must follow (Penner 2002, "The
//! physics of putting", Can. J. Phys. 80:83). Hot path: no trigonometry, no allocation.
use super::bounce::Rolling;
use super::{Slope, Turf};
use crate::figures::ball::ROLLING_SHARE;
use crate::flight::GRAVITY;
use crate::geometry::Vector;
use crate::units::METRES_PER_YARD;
use nalgebra::Vector3;

/// How fast a level roll slows on ground of a rolling resistance, m/s^2.
#[inline]
pub(super) fn rolling_deceleration(resistance: f64) -> f64 {
    ROLLING_SHARE * resistance * GRAVITY
}

/// A step changes the speed by about this share of it.
const STEP: f64 = 0.3;
/// A step of a skipping ball changes its speed by about this share of it.
const SKIP_STEP: f64 = 0.5;
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
    let skips = ball.skips && velocity.norm_squared() > turf.skip_end * turf.skip_end;
    let mut run = Run {
        velocity,
        moved: Vector3::zeros(),
        left: most,
    };
    let skips = skips && run.skip_curved(turf, resistance, &pull);
    let at_rest = !skips && run.roll_curved(resistance, &pull);
    Rolled {
        moved: run.moved.xy() * (1.0 / METRES_PER_YARD),
        ball: Rolling {
            velocity: run.velocity,
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
pub(super) struct Pace {
    /// m/s; 0 at rest.
    pub(super) speed: f64,
    /// True while it still skips.
    pub(super) skips: bool,
}

impl Pace {
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

/// A run under way: m and m/s.
struct Run {
    velocity: Vector3<f64>,
    moved: Vector3<f64>,
    left: f64,
}

impl Run {
    fn go(&mut self, step: Vector3<f64>) {
        self.moved += step;
        self.left -= step.norm();
    }

    /// `seconds`, or as many as a ball that gains `gain` m/s^2 takes for what is left.
    #[inline]
    fn within(&self, seconds: f64, speed: f64, gain: f64) -> f64 {
        if seconds * (speed + 0.5 * gain * seconds) <= self.left {
            seconds
        } else {
            2.0 * self.left / (speed + (speed * speed + 2.0 * gain * self.left).sqrt())
        }
    }

    /// Skips on a slope; true if it still does at the end of the piece.
    ///
    /// Downhill the pull counts only in the measure in which turf holds a skipping ball as it holds a
    /// rolling one. In full it would drive a ball on for ever down a slope of a third of the rolling
    /// resistance: the tilt of Penner's turf goes to 0 with the speed, but turf holds a slow ball too (an engineering
    /// choice, not published).
    fn skip_curved(&mut self, turf: &Turf, resistance: f64, pull: &Vector3<f64>) -> bool {
        let end = turf.skip_end * turf.skip_end;
        let strength = pull.norm();
        let hold = turf.skip_loss / resistance;
        let force = |v: &Vector3<f64>, square: f64| {
            let aid = pull.dot(v);
            let aid = if aid > 0.0 {
                aid / square.max(CRAWL * CRAWL) * (1.0 - (hold * square.sqrt()).min(1.0))
            } else {
                0.0
            };
            pull - v * (turf.skip_loss + aid)
        };
        for _ in 0..MOST_STEPS {
            if !(self.left > 1e-9) {
                return true;
            }
            let square = self.velocity.norm_squared();
            if !(square > end) {
                return false;
            }
            let speed = square.sqrt();
            let begins = force(&self.velocity, square);
            let step = SKIP_STEP * speed / (turf.skip_loss * speed + strength);
            // It ends where skipping does, not beyond.
            let slowing = -begins.dot(&self.velocity);
            let to_roll = if slowing > 0.0 {
                1.05 * (speed - turf.skip_end) * speed / slowing + 1e-3
            } else {
                f64::INFINITY
            };
            let seconds = self.within(step.min(to_roll), speed, strength);
            self.midpoint(seconds, begins, |v| force(v, v.norm_squared()));
        }
        true
    }

    /// Rolls on a slope that pulls the ball by `pull`, m/s^2; true if it comes to rest.
    fn roll_curved(&mut self, resistance: f64, pull: &Vector3<f64>) -> bool {
        let strength = pull.norm();
        let least = resistance - strength;
        let step = STEP / (resistance + strength);
        for _ in 0..MOST_STEPS {
            let mut speed = self.velocity.norm();
            if least > 0.0 && self.comes_to_rest(speed, resistance, strength, pull) {
                return true;
            }
            if !(self.left > 1e-9) {
                return false;
            }
            // A ball on the point of turning is set off downhill at a crawl.
            if speed < CRAWL {
                self.velocity = pull * (CRAWL / strength);
                speed = CRAWL;
            }
            let force = |v: &Vector3<f64>, speed: f64| pull - v * (resistance / speed);
            let seconds = self.within(step * speed.max(0.1), speed, strength);
            let begins = force(&self.velocity, speed);
            self.midpoint(seconds, begins, |v| force(v, v.norm().max(CRAWL)));
        }
        false
    }

    /// Takes a ball to its rest if that is no farther than what is left; a slope that pulls by `strength` < `resistance`.
    ///
    /// With c and s the cosine and sine of the angle between the motion and the pull p, v^2, v^2 c, v^2 c^2, v^2 s and
    /// v^2 s c all change at a rate of v times a polynomial in c and s, so that sums of them give the way gone, in both
    /// directions and along the path, exactly: mechanics, worked out here.
    #[inline]
    fn comes_to_rest(
        &mut self,
        speed: f64,
        resistance: f64,
        strength: f64,
        pull: &Vector3<f64>,
    ) -> bool {
        let (r, p, square) = (resistance, strength, speed * speed);
        let between = r * r - p * p;
        let along = pull.dot(&self.velocity) / (p * speed).max(f64::MIN_POSITIVE);
        let path = square * ((2.0 * r * r - p * p) + p * along * (2.0 * r + p * along))
            / (4.0 * r * between);
        if !(path <= self.left) {
            return false;
        }
        let down = square * (0.25 * p * (1.0 + along * along) + 0.5 * r * along) / between;
        // Of the velocity square to the pull there is s v, so this is the way per unit of it.
        let across = speed * (2.0 * r + p * along) / (4.0 * r * r - p * p);
        let aside = self.velocity - pull * (speed * along / p.max(f64::MIN_POSITIVE));
        self.moved += pull * (down / p.max(f64::MIN_POSITIVE)) + aside * across;
        self.left -= path;
        self.velocity = Vector3::zeros();
        true
    }

    /// One step of the midpoint method, which begins with a force.
    #[inline]
    fn midpoint(
        &mut self,
        seconds: f64,
        begins: Vector3<f64>,
        force: impl Fn(&Vector3<f64>) -> Vector3<f64>,
    ) {
        let middle = self.velocity + begins * (0.5 * seconds);
        let change = force(&middle) * seconds;
        let step = (self.velocity + change * 0.5) * seconds;
        self.velocity += change;
        self.go(step);
    }
}
