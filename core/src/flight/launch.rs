//! How a ball leaves the club.
use super::fault::{FlightFault, check};
use crate::figures::launch as figures;

/// One ball leaving the club.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Launch {
    /// Speed of the ball, mph, above 0 to 250.
    pub speed_mph: f64,
    /// Angle above the horizontal, 0.1 to 85 degrees.
    pub launch_deg: f64,
    /// Backspin, 0 to 15,000 rpm.
    pub spin_rpm: f64,
    /// Tilt of the spin axis, -60 to 60 degrees; positive curves the ball to the right.
    pub axis_tilt_deg: f64,
    /// Bearing of the aim, degrees clockwise from +y, -360 to 720. It matters only against the wind.
    pub bearing_deg: f64,
}

impl Launch {
    /// A straight shot with bearing 0.
    #[must_use]
    pub fn straight(speed_mph: f64, launch_deg: f64, spin_rpm: f64) -> Self {
        Launch {
            speed_mph,
            launch_deg,
            spin_rpm,
            axis_tilt_deg: 0.0,
            bearing_deg: 0.0,
        }
    }

    pub(super) fn check(&self) -> Result<(), FlightFault> {
        let speeds = "above 0, at most 250 mph";
        check(
            "speed_mph",
            self.speed_mph,
            f64::MIN_POSITIVE..=250.0,
            speeds,
        )?;
        let conditions = LaunchConditions {
            launch_deg: self.launch_deg,
            spin_rpm: self.spin_rpm,
        };
        conditions.check()?;
        check(
            "axis_tilt_deg",
            self.axis_tilt_deg,
            -60.0..=60.0,
            "-60 to 60 degrees",
        )?;
        check(
            "bearing_deg",
            self.bearing_deg,
            -360.0..=720.0,
            "-360 to 720 degrees",
        )
    }
}

/// How a club launches a full shot: all of a launch but the speed, which the carry decides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LaunchConditions {
    /// Angle above the horizontal, 0.1 to 85 degrees.
    pub launch_deg: f64,
    /// Backspin of a full shot, 0 to 15,000 rpm.
    pub spin_rpm: f64,
}

impl LaunchConditions {
    /// A chip: low, most of the way along the ground.
    pub const CHIP: Self = Self::told(figures::CHIP);
    /// A pitch: high, most of the way through the air.
    pub const PITCH: Self = Self::told(figures::PITCH);
    /// A lob: as high as it goes.
    pub const LOB: Self = Self::told(figures::LOB);
    /// A splash from a bunker near the green.
    pub const BUNKER_SHOT: Self = Self::told(figures::BUNKER_SHOT);

    const fn told((launch_deg, spin_rpm): (f64, f64)) -> Self {
        Self::of(launch_deg, spin_rpm)
    }

    pub(super) const fn of(launch_deg: f64, spin_rpm: f64) -> Self {
        LaunchConditions {
            launch_deg,
            spin_rpm,
        }
    }

    /// Checks a launch a player gives.
    ///
    /// # Errors
    /// The field that cannot be true, with its value and what is allowed.
    pub fn new(launch_deg: f64, spin_rpm: f64) -> Result<Self, FlightFault> {
        let conditions = Self::of(launch_deg, spin_rpm);
        conditions.check()?;
        Ok(conditions)
    }

    pub(super) fn check(&self) -> Result<(), FlightFault> {
        check(
            "launch_deg",
            self.launch_deg,
            0.1..=85.0,
            "0.1 to 85 degrees",
        )?;
        check("spin_rpm", self.spin_rpm, 0.0..=15_000.0, "0 to 15000 rpm")
    }

    /// The same club swung low to keep the ball under branches or wind.
    #[must_use]
    pub fn punched(self) -> Self {
        let (launch, spin) = figures::PUNCHED;
        Self::of(launch * self.launch_deg, spin * self.spin_rpm)
    }

    /// The ball at a speed, bearing 0, straight.
    #[must_use]
    pub fn at_speed(self, speed_mph: f64) -> Launch {
        Launch::straight(speed_mph, self.launch_deg, self.spin_rpm)
    }
}
