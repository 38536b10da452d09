//! The line and pace that a putt on a plane wants.
use super::fault::check;
use super::plane::enter;
use super::{
    Green, Path, PuttFault, RESISTANCE, ROLL_DECELERATION, make_chance, no_rest_grade, roll,
};
use crate::geometry::{Point, Vector};
use crate::player::Putting;
use crate::units::{FEET_PER_YARD, INCHES_PER_YARD};

/// A putt on a plane, and the launch that without error enters the centre of the hole at the speed that would
/// run a given distance past on the level.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct Choice {
    /// Distance from ball to hole, yards.
    pub length: f64,
    /// Rise over run to the right and ahead of the line from ball to hole.
    pub gradient: Vector,
    /// Stimpmeter reading, feet.
    pub green_speed: f64,
    /// Where the ball starts, degrees clockwise from the line from ball to hole.
    pub aim_deg: f64,
    /// How far the putt breaks, inches, positive to the right: the point aimed at lies as far to the other
    /// side of the hole, square to the line.
    pub break_in: f64,
    /// Speed of launch, pure rolling, yards a second.
    pub launch_speed: f64,
}

/// The widest start from the line to the hole, degrees.
const WIDEST_DEG: f64 = 80.0;

impl Choice {
    /// Works out the launch for a putt of `length_ft` over ground that falls by `slope_percent` to the right and
    /// ahead (negative: rises), to reach the hole with `past_ft` of roll left on the level.
    ///
    /// # Errors
    /// A number out of range, a slope on which a ball does not come to rest, or a break so large that there is no line.
    pub fn new(
        length_ft: f64,
        slope_percent: (f64, f64),
        green_speed: f64,
        past_ft: f64,
    ) -> Result<Self, PuttFault> {
        check("length_ft", length_ft, 0.5..=300.0, "0.5 to 300 feet")?;
        let (right, ahead) = slope_percent;
        check("slope_percent (right)", right, -20.0..=20.0, "-20 to 20 %")?;
        check("slope_percent (ahead)", ahead, -20.0..=20.0, "-20 to 20 %")?;
        check(
            "green_speed",
            green_speed,
            3.0..=20.0,
            "a Stimpmeter reading of 3 to 20 feet",
        )?;
        check("past_ft", past_ft, 0.05..=20.0, "0.05 to 20 feet")?;
        let gradient = Vector::new(right, ahead) * -0.01;
        let most = no_rest_grade(green_speed);
        let grade = gradient.norm();
        // Close to the limit a putt downhill runs on for ever: there is no pace to choose.
        if !(grade < 0.995 * most) {
            return Err(PuttFault::TooSteep {
                percent: 100.0 * grade,
                green_speed,
                most: 100.0 * most,
            });
        }
        Self::solve(
            length_ft / FEET_PER_YARD,
            gradient,
            green_speed,
            past_ft / length_ft,
        )
    }

    fn solve(
        length: f64,
        gradient: Vector,
        green_speed: f64,
        past: f64,
    ) -> Result<Self, PuttFault> {
        let fall = gradient * (-green_speed / RESISTANCE);
        let k = fall.norm();
        let (roll, turn) = if k > 0.0 {
            let (along, across) = (fall.y / k, fall.x.abs() / k);
            let found = enter(k, along, across, past).ok_or(PuttFault::NoLine { aim_deg: 90.0 })?;
            (found.roll, found.aim)
        } else {
            (1.0 + past, 0.0)
        };
        // Turned uphill: to the left where the ground falls to the right.
        let aim_deg = -turn.to_degrees().copysign(fall.x);
        if !(aim_deg.abs() <= WIDEST_DEG) {
            return Err(PuttFault::NoLine {
                aim_deg: aim_deg.abs(),
            });
        }
        Ok(Choice {
            length,
            gradient,
            green_speed,
            aim_deg,
            break_in: -length * INCHES_PER_YARD * libm::tan(aim_deg.to_radians()),
            launch_speed: (2.0 * ROLL_DECELERATION / green_speed * roll * length).sqrt(),
        })
    }

    /// The path from the ball at the origin to the hole ahead, as [`roll`] integrates it.
    #[must_use]
    pub fn path(&self) -> Path {
        let hole = Point::new(0.0, self.length);
        roll(
            Point::origin(),
            self.velocity(),
            |_| self.gradient,
            self.green_speed,
            Some(hole),
        )
    }

    /// Chance that this player holes the putt; see [`make_chance`].
    #[must_use]
    pub fn make_chance(&self, skill: &Putting) -> f64 {
        let green = Green::plane(self.green_speed, self.gradient);
        make_chance(skill, &green, Vector::new(0.0, self.length))
    }

    /// The launch as a velocity, yards a second to the right and ahead of the line.
    #[must_use]
    pub fn velocity(&self) -> Vector {
        let (sin, cos) = libm::sincos(self.aim_deg.to_radians());
        Vector::new(sin, cos) * self.launch_speed
    }
}
