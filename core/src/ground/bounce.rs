//! One blow of the ball on turf, and the hop after it.
//!
//! Hot path: vectors throughout, no trigonometry from the library, no allocation.
use super::Turf;
use super::roll::Pace;
use crate::figures::ball::GRIP;
use crate::figures::ground::{
    FAST_RESTITUTION, GIVE, LOW_HOP, MOST_GIVE, MOST_OF_ANGLE, RESTITUTION,
};
use crate::flight::{BALL_RADIUS, GRAVITY, Landing};
use crate::geometry::{Vector, right_of};
use crate::units::METRES_PER_YARD;
use nalgebra::Vector3;

/// A ball in motion: x to the right, y up the plan, z up; SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ball {
    /// Velocity, m/s.
    pub velocity: Vector3<f64>,
    /// Spin, rad/s, along its axis by the right-hand rule.
    pub spin: Vector3<f64>,
}

impl Ball {
    /// A ball that comes down as a flight table says, aimed along the unit vector `forward`: its backspin is
    /// about the level axis to the right of the aim.
    #[must_use]
    #[inline]
    pub fn landing(landing: &Landing, forward: Vector) -> Self {
        let right = right_of(forward);
        let level = forward * landing.forward_mps + right * landing.side_mps;
        let spin = right * landing.backspin_rad_s;
        Ball {
            velocity: Vector3::new(level.x, level.y, -landing.down_mps),
            spin: Vector3::new(spin.x, spin.y, 0.0),
        }
    }

    /// Energy of motion and spin over the mass, J/kg (a uniform sphere).
    #[must_use]
    pub fn energy(&self) -> f64 {
        0.5 * self.velocity.norm_squared()
            + 0.2 * BALL_RADIUS * BALL_RADIUS * self.spin.norm_squared()
    }
}

/// A planar piece of ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slope {
    /// Rise over run towards +x and +y.
    gradient: Vector,
    /// Unit normal, upwards.
    normal: Vector3<f64>,
    /// One over its z.
    steepness: f64,
}

impl Default for Slope {
    fn default() -> Self {
        Self::LEVEL
    }
}

impl Slope {
    /// Level ground.
    pub const LEVEL: Slope = Slope {
        gradient: Vector::new(0.0, 0.0),
        normal: Vector3::new(0.0, 0.0, 1.0),
        steepness: 1.0,
    };

    /// Ground that rises by `gradient` (rise over run towards +x and +y). Finite, as the ground of a valid
    /// hole is.
    #[must_use]
    #[inline]
    pub fn rising(gradient: Vector) -> Self {
        let steepness = (1.0 + gradient.norm_squared()).sqrt();
        let scale = 1.0 / steepness;
        Slope {
            gradient,
            normal: Vector3::new(-gradient.x * scale, -gradient.y * scale, scale),
            steepness,
        }
    }

    /// Rise over run towards +x and +y.
    #[must_use]
    pub fn gradient(&self) -> Vector {
        self.gradient
    }

    /// Unit normal, upwards.
    #[must_use]
    pub fn normal(&self) -> Vector3<f64> {
        self.normal
    }
}

/// A ball that stays on or next to the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rolling {
    /// Velocity along the ground, m/s.
    pub velocity: Vector3<f64>,
    /// True while it still skips along in ever smaller hops; it rolls when it has become slow enough.
    pub skips: bool,
}

impl Rolling {
    /// A ball that rolls off along the unit vector `forward` and on level ground of a rolling resistance would roll
    /// `yards`: what a topped ball does, or one that is putted from off the green.
    #[must_use]
    #[inline]
    pub fn going(forward: Vector, yards: f64, resistance: f64) -> Self {
        Pace::to_roll(yards, resistance).along(forward)
    }
}

/// What a ball does when it has touched down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum After {
    /// It leaves the ground again; [`hop`] takes it to its next touch.
    Hop(Ball),
    /// It runs along the ground; [`roll`](super::roll) takes it on.
    Roll(Rolling),
}

/// One blow on a rigid surface tilted towards the ball, as Penner (2002, Can. J. Phys. 80) replaces turf that
/// gives; in three dimensions, so that a ball may be struck sideways by a slope.
///
/// The tilt grows with the speed and with the angle from the normal; the restitution falls with the speed
/// into the surface; friction turns sliding into roll if it can, else acts throughout. Energy
/// never grows. A ball that moves away from the ground is left alone.
#[must_use]
#[inline]
pub fn bounce(ball: &Ball, slope: &Slope, turf: &Turf) -> Ball {
    let Some(surface) = tilted(&ball.velocity, &slope.normal, turf.give) else {
        return *ball;
    };
    let into = -ball.velocity.dot(&surface);
    let restitution = restitution(into);
    let along = ball.velocity + surface * into;
    // What the lowest point of the ball does against the ground.
    let slip = along + surface.cross(&ball.spin) * BALL_RADIUS;
    let most = turf.friction * (1.0 + restitution) * into;
    let square = slip.norm_squared();
    let share = if square * (GRIP * GRIP) <= most * most {
        GRIP
    } else {
        most / square.sqrt()
    };
    let change = slip * share;
    Ball {
        velocity: along - change + surface * (restitution * into),
        spin: ball.spin + surface.cross(&change) * (2.5 / BALL_RADIUS),
    }
}

/// The normal of the surface that stands for the turf under a blow. None when the ball does not move into
/// the ground.
#[inline]
fn tilted(velocity: &Vector3<f64>, normal: &Vector3<f64>, give: f64) -> Option<Vector3<f64>> {
    let into = -velocity.dot(normal);
    if !(into > 0.0) {
        return None;
    }
    let along = velocity + normal * into;
    let length = along.norm();
    if !(length > 0.0) {
        return Some(*normal);
    }
    let speed = (length * length + into * into).sqrt();
    let angle = 2.0 * arc_tangent(length / (speed + into));
    let tilt = (angle * (GIVE * speed * give).min(MOST_OF_ANGLE)).min(MOST_GIVE);
    let sin = sine(tilt);
    // From the sine, so that the normal is a unit vector whatever the sine's last digits.
    let cos = (1.0 - sin * sin).sqrt();
    Some(normal * cos - along * (sin / length))
}

/// Arc tangent on 0 to 1 within 1.2e-5 (Abramowitz & Stegun 1964, 4.4.47): far closer than turf is known.
///
/// Here as in the next function terms are taken in pairs, so that a processor need not wait for each.
#[inline]
fn arc_tangent(x: f64) -> f64 {
    let s = x * x;
    let square = s * s;
    let low = 0.999_866_0 - 0.330_299_5 * s;
    let high = (0.180_141_0 - 0.085_133_0 * s) + 0.020_835_1 * square;
    x * (low + square * high)
}

/// Sine on 0 to pi/4 within 2e-9: its series.
#[inline]
fn sine(x: f64) -> f64 {
    let s = x * x;
    let square = s * s;
    let low = 1.0 - (1.0 / 6.0) * s;
    let high = (1.0 / 120.0 - (1.0 / 5040.0) * s) + (1.0 / 362_880.0) * square;
    x * (low + square * high)
}

/// Restitution of turf at a speed into it, m/s.
#[inline]
fn restitution(into: f64) -> f64 {
    let (fast, at_speed) = FAST_RESTITUTION;
    if into > fast {
        at_speed
    } else {
        let [a, b, c] = RESTITUTION;
        a - into * (b - c * into)
    }
}

/// What becomes of a ball that touches down: another hop, or a run along the ground.
///
/// A ball that has hopped less than 30 cm high and spins as it rolls goes on skipping, which is taken as a
/// run against a resistance of its own (see [`Turf`]) instead of a dozen ever smaller hops: within 0.6 yards of
/// them, a test says. Otherwise there is a blow. If the rebound does not clear the grass the ball
/// rolls, at 5/7 of its speed less 2/7 of its spin (mechanics of a rigid sphere).
#[must_use]
#[inline]
pub fn touch(ball: &Ball, slope: &Slope, turf: &Turf) -> After {
    if let Some(velocity) = skipping(ball, &slope.normal) {
        return After::Roll(Rolling {
            velocity,
            skips: true,
        });
    }
    let ball = bounce(ball, slope, turf);
    if clears(&ball, slope, turf) {
        After::Hop(ball)
    } else {
        After::Roll(Rolling {
            velocity: rolling(&ball, &slope.normal),
            skips: false,
        })
    }
}

/// True when a ball that leaves the ground rises above the grass.
#[inline]
pub(super) fn clears(ball: &Ball, slope: &Slope, turf: &Turf) -> bool {
    let away = ball.velocity.dot(&slope.normal);
    away > 0.0 && away * away > 2.0 * GRAVITY * turf.clearance * slope.normal.z
}

/// The velocity along the ground of a ball that has found its roll.
#[inline]
pub(super) fn rolling(ball: &Ball, normal: &Vector3<f64>) -> Vector3<f64> {
    let along = ball.velocity - normal * ball.velocity.dot(normal);
    let slip = along + normal.cross(&ball.spin) * BALL_RADIUS;
    along - slip * GRIP
}

/// The velocity along the ground of a ball that comes down from a low hop and all but rolls.
#[inline]
fn skipping(ball: &Ball, normal: &Vector3<f64>) -> Option<Vector3<f64>> {
    let into = -ball.velocity.dot(normal);
    if !(into * into < 2.0 * GRAVITY * LOW_HOP) {
        return None;
    }
    let along = ball.velocity + normal * into;
    let slip = along + normal.cross(&ball.spin) * BALL_RADIUS;
    let rolls = slip.norm_squared() < 0.01 * along.norm_squared();
    rolls.then(|| along - slip * GRIP)
}

/// A ball's way through the air from one touch to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hop {
    /// Yards moved in the plan.
    pub moved: Vector,
    /// The ball as it touches down again.
    pub ball: Ball,
}

/// The hop of a ball that leaves ground of a slope, to where it meets the same plane again: a parabola, as hops
/// are too slow for the air to matter. A ball that does not leave the ground does not move.
#[must_use]
#[inline]
pub fn hop(ball: &Ball, slope: &Slope) -> Hop {
    let away = ball.velocity.dot(&slope.normal).max(0.0);
    let seconds = away * slope.steepness * (2.0 / GRAVITY);
    let mut down = *ball;
    down.velocity.z -= GRAVITY * seconds;
    Hop {
        moved: ball.velocity.xy() * (seconds * (1.0 / METRES_PER_YARD)),
        ball: down,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_series_are_as_close_as_they_say() {
        for i in 0..=1000 {
            let x = f64::from(i) / 1000.0;
            assert!((arc_tangent(x) - libm::atan(x)).abs() < 1.2e-5, "{x}");
            let angle = x * std::f64::consts::FRAC_PI_4;
            assert!((sine(angle) - libm::sin(angle)).abs() < 2e-9, "{x}");
        }
    }

    #[test]
    fn restitution_is_all_but_continuous() {
        assert!((restitution(20.0) - restitution(20.0 + 1e-9)).abs() < 0.0013);
        assert_eq!(restitution(0.0), 0.510);
    }

    #[test]
    fn a_ball_that_leaves_the_ground_is_left_alone() {
        let turf = Turf::fairway(crate::hole::Firmness::MEDIUM);
        let ball = Ball {
            velocity: Vector3::new(1.0, 5.0, 0.5),
            spin: Vector3::new(100.0, 0.0, 0.0),
        };
        assert_eq!(bounce(&ball, &Slope::LEVEL, &turf), ball);
    }

    #[test]
    fn a_hop_ends_on_its_own_plane() {
        let slope = Slope::rising(Vector::new(0.05, -0.2));
        let ball = Ball {
            velocity: Vector3::new(1.0, 5.0, 3.0),
            spin: Vector3::zeros(),
        };
        let hop = hop(&ball, &slope);
        // Height of the plane, and of the ball by the parabola, after the time the plan displacement took.
        let seconds = hop.moved.y * METRES_PER_YARD / 5.0;
        let rise = 3.0 * seconds - 0.5 * GRAVITY * seconds * seconds;
        let ground = slope.gradient.dot(&hop.moved) * METRES_PER_YARD;
        assert!((rise - ground).abs() < 1e-12, "{rise} {ground}");
        let fallen = 0.5 * (ball.velocity.norm_squared() - hop.ball.velocity.norm_squared());
        assert!((fallen - GRAVITY * rise).abs() < 1e-12);
    }
}
