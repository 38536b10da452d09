//! The whole run of a ball on one planar piece of ground: every touch, then the roll.
use super::bounce::{Rolling, clears, rolling};
use super::fault::{GroundFault, check};
use super::{After, Ball, Slope, Turf, bounce, hop, roll, touch};
use crate::flight::{Flight, Landing};
use crate::geometry::Vector;
use nalgebra::Vector3;

/// Hops after which a ball is made to skip: a hard landing on firm level ground makes six.
pub const MOST_HOPS: usize = 12;
/// The same when every hop is worked out.
const MOST_SMALL_HOPS: usize = 60;
/// Yards of hops, and yards of roll, after which a ball that will not stop is left where it is.
pub const LONGEST_ROLL: f64 = 500.0;

/// A run on one planar piece of ground.
#[derive(Clone, Debug, PartialEq)]
pub struct RunOut {
    /// Where the ball touched down again after each hop, the last of which it rolled on from: yards from the landing.
    pub touches: Vec<Vector>,
    /// How it began to roll, or to skip.
    pub rolling: Rolling,
    /// Where it came to rest, yards from the landing.
    pub rest: Vector,
    /// False when the slope is too steep for the ball to stop: it was left after [`LONGEST_ROLL`] yards.
    pub stopped: bool,
}

/// Runs a ball out on an endless slope, as across a map: [`touch`], then [`hop`] or [`roll`].
#[must_use]
pub fn run_out(landing: &Ball, slope: &Slope, turf: &Turf) -> RunOut {
    run_by(landing, slope, turf, MOST_HOPS, |ball| {
        touch(ball, slope, turf)
    })
}

/// Runs a ball out on an endless slope with every hop worked out, down to those that no longer clear the
/// grass: what [`run_out`] is held against on level ground.
///
/// Down a slope of more than about a third of the rolling resistance small hops run away: the turf of Penner
/// 2002 gives ever less as the ball slows.
#[must_use]
pub fn run_out_by_hops(landing: &Ball, slope: &Slope, turf: &Turf) -> RunOut {
    run_by(landing, slope, turf, MOST_SMALL_HOPS, |ball| {
        let ball = bounce(ball, slope, turf);
        if clears(&ball, slope, turf) {
            After::Hop(ball)
        } else {
            After::Roll(Rolling {
                velocity: rolling(&ball, &slope.normal()),
                skips: false,
            })
        }
    })
}

fn run_by(
    landing: &Ball,
    slope: &Slope,
    turf: &Turf,
    most_hops: usize,
    touch: impl Fn(&Ball) -> After,
) -> RunOut {
    let mut at = Vector::zeros();
    let mut touches = Vec::new();
    let mut ball = *landing;
    let start = loop {
        match touch(&ball) {
            After::Hop(leaving) if touches.len() < most_hops && at.norm() < LONGEST_ROLL => {
                let hop = hop(&leaving, slope);
                at += hop.moved;
                touches.push(at);
                ball = hop.ball;
            }
            After::Hop(leaving) => {
                break Rolling {
                    velocity: leaving.velocity,
                    skips: true,
                };
            }
            After::Roll(rolling) => break rolling,
        }
    };
    let (rolled, stopped) = roll_on(start, slope, turf);
    RunOut {
        touches,
        rolling: start,
        rest: at + rolled,
        stopped,
    }
}

/// Rolls until the ball rests or has gone too far.
fn roll_on(mut ball: Rolling, slope: &Slope, turf: &Turf) -> (Vector, bool) {
    let mut moved = Vector::zeros();
    let mut left = LONGEST_ROLL;
    while left > 0.0 {
        let piece = roll(&ball, slope, turf, left);
        moved += piece.moved;
        ball = piece.ball;
        if piece.at_rest {
            return (moved, true);
        }
        // A piece that ends early has gone at least a little way.
        left -= piece.moved.norm().max(1e-3);
    }
    (moved, false)
}

impl Ball {
    /// A ball at the end of a flight, in the frame of its shot: x to the right of the aim, y along it.
    #[must_use]
    pub fn after(flight: &Flight) -> Self {
        let (sin, cos) = libm::sincos(flight.axis_tilt_deg.to_radians());
        let spin = flight.landing_spin_rpm * crate::flight::RAD_PER_RPM;
        Ball {
            velocity: Vector3::from(flight.landing_velocity_mps),
            spin: Vector3::new(cos, 0.0, -sin) * spin,
        }
    }

    /// A ball that comes down at a speed and an angle along +y, with backspin.
    ///
    /// # Errors
    /// A speed outside 0 to 250 mph, an angle outside 0 to 90 degrees, a spin outside -15,000 to 15,000 rpm.
    pub fn coming_down(
        speed_mph: f64,
        landing_deg: f64,
        spin_rpm: f64,
    ) -> Result<Self, GroundFault> {
        check("landing_speed_mph", speed_mph, 0.0..=250.0, "0 to 250 mph")?;
        check("landing_deg", landing_deg, 0.0..=90.0, "0 to 90 degrees")?;
        check(
            "landing_spin_rpm",
            spin_rpm,
            -15_000.0..=15_000.0,
            "-15000 to 15000 rpm",
        )?;
        let speed = speed_mph * crate::flight::MPS_PER_MPH;
        let (sin, cos) = libm::sincos(landing_deg.to_radians());
        let landing = Landing {
            forward_mps: speed * cos,
            side_mps: 0.0,
            down_mps: speed * sin,
            backspin_rad_s: spin_rpm * crate::flight::RAD_PER_RPM,
        };
        Ok(Ball::landing(&landing, Vector::y()))
    }
}

impl Slope {
    /// Ground that falls by `right_percent` to the right and `ahead_percent` ahead of a shot along +y (negative:
    /// rises).
    ///
    /// # Errors
    /// A slope outside -60 to 60 %.
    pub fn falling(right_percent: f64, ahead_percent: f64) -> Result<Self, GroundFault> {
        let allowed = "-60 to 60 %";
        check(
            "slope_percent (right)",
            right_percent,
            -60.0..=60.0,
            allowed,
        )?;
        check(
            "slope_percent (ahead)",
            ahead_percent,
            -60.0..=60.0,
            allowed,
        )?;
        Ok(Slope::rising(
            Vector::new(right_percent, ahead_percent) * -0.01,
        ))
    }
}
