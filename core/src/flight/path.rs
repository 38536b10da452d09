//! One flight, integrated: the reference that everything prepared from it is held against.
use super::equations::{Forces, Landed, State};
use super::fault::{FlightFault, check};
use super::wind::Stream;
use super::{Launch, MPS_PER_MPH, RAD_PER_RPM, Weather};
use crate::units::{feet_from_yards, metres_from_yards, yards_from_feet, yards_from_metres};

/// Step of the integration, s. Against steps chosen for eleven digits carries differ by at most 1.4e-4
/// yards over the independent flights of the tests.
const STEP: f64 = 0.005;

/// Yards beyond the reach of a ball that are still where it comes down: a flight that is to carry 132 yards carries
/// 131.99999.
const BEYOND: f64 = 1e-3;

/// Every how many steps a point of the path is kept.
const KEPT: usize = 4;

/// A ball from club to landing.
#[derive(Clone, Debug, PartialEq)]
pub struct Flight {
    /// Points of the path, yards: to the right of the aim, along it, up. The first is where the ball was
    /// struck, the last where it lands; between them they lie 20 ms apart.
    pub path: Vec<[f64; 3]>,
    /// Yards along the aim to the landing.
    pub carry: f64,
    /// Yards to the right of the aim at the landing.
    pub lateral: f64,
    /// Greatest height above where the ball was struck, feet.
    pub apex_ft: f64,
    /// Yards along the aim to the highest point.
    pub apex_at: f64,
    /// Seconds in the air.
    pub time_s: f64,
    /// Angle of the path below the horizontal at the landing, degrees.
    pub landing_deg: f64,
    /// Speed at the landing, mph.
    pub landing_speed_mph: f64,
    /// Spin at the landing, rpm.
    pub landing_spin_rpm: f64,
    /// Velocity at the landing, m/s: right, along, up.
    pub landing_velocity_mps: [f64; 3],
    /// Tilt of the spin axis, degrees; it does not change in flight.
    pub axis_tilt_deg: f64,
}

impl Flight {
    /// Height above where the ball was struck when it first is `at` yards along the aim, feet: straight between
    /// the points of the path. A place less than a thousandth of a yard beyond is where it comes down.
    ///
    /// # Errors
    /// A place before the start or farther than the ball comes.
    pub fn height_ft(&self, at: f64) -> Result<f64, FlightFault> {
        let reach = self.path.iter().map(|[_, y, _]| *y).fold(0.0, f64::max);
        let place = if at > reach && at < reach + BEYOND {
            reach
        } else {
            at
        };
        let height = self.path.windows(2).find_map(|pair| {
            let ([_, y0, z0], [_, y1, z1]) = (pair[0], pair[1]);
            let reached = y0 <= place && place <= y1 && y0 < y1;
            reached.then(|| feet_from_yards(z0 + (z1 - z0) * (place - y0) / (y1 - y0)))
        });
        height.ok_or(FlightFault::NotOnTheWay { at, reach })
    }
}

/// Flies a ball through the weather until it comes down to `target_height_ft` feet above where it was struck
/// (negative: below).
///
/// Drag, lift and gravity as in Smits & Smith 1994, integrated by the classical Runge-Kutta method in
/// steps of 5 ms; the landing is solved for within its step. A tilted spin axis turns the lift to the
/// side, and the axis keeps its direction.
///
/// # Errors
/// A field outside its range; a target the ball never rises to; a ball that never lands.
pub fn fly(
    launch: &Launch,
    weather: &Weather,
    target_height_ft: f64,
) -> Result<Flight, FlightFault> {
    launch.check()?;
    check(
        "target_height_ft",
        target_height_ft,
        -600.0..=600.0,
        "-600 to 600 feet",
    )?;
    let height = metres_from_yards(yards_from_feet(target_height_ft));
    let stream = Stream::over(weather.wind, weather.profile, launch.bearing_deg);
    let forces = Forces::new(
        weather.aerodynamics,
        weather.air,
        stream,
        launch.axis_tilt_deg,
    );
    let mut path = Vec::new();
    let mut seen = 0;
    let landed = forces.land(start(launch), STEP, height, |state| {
        if seen % KEPT == 0 {
            path.push(state.at.map(yards_from_metres));
        }
        seen += 1;
    })?;
    if (seen - 1) % KEPT != 0 {
        path.push(landed.end.at.map(yards_from_metres));
    }
    Ok(told(launch, &landed, path))
}

/// A ball as it leaves the club.
pub(super) fn start(launch: &Launch) -> State {
    let speed = launch.speed_mph * MPS_PER_MPH;
    let (sin, cos) = libm::sincos(launch.launch_deg.to_radians());
    State {
        at: [0.0; 3],
        velocity: [0.0, speed * cos, speed * sin],
        spin: launch.spin_rpm * RAD_PER_RPM,
    }
}

fn told(launch: &Launch, landed: &Landed, path: Vec<[f64; 3]>) -> Flight {
    let [x, y, z] = landed.end.velocity;
    let level = (x * x + y * y).sqrt();
    Flight {
        path,
        carry: yards_from_metres(landed.end.at[1]),
        lateral: yards_from_metres(landed.end.at[0]),
        apex_ft: feet_from_yards(yards_from_metres(landed.apex.at[2])),
        apex_at: yards_from_metres(landed.apex.at[1]),
        time_s: landed.seconds,
        landing_deg: libm::atan2(-z, level).to_degrees(),
        landing_speed_mph: (level * level + z * z).sqrt() / MPS_PER_MPH,
        landing_spin_rpm: landed.end.spin / RAD_PER_RPM,
        landing_velocity_mps: landed.end.velocity,
        axis_tilt_deg: launch.axis_tilt_deg,
    }
}
