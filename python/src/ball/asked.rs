//! What a flight is asked to be.

use pyo3::prelude::*;
use std::sync::Arc;
use wideberth::flight::{Aerodynamics, FlightFault, Launch, Weather, WindProfile};
use wideberth::hole::Conditions;

use super::flight::PyFlight;
use crate::conditions::PyWind;
use crate::errors::refused;
use crate::fork;
use crate::given::{given, taken_for};

/// A law of drag and lift by name, or coefficients that never change.
#[derive(FromPyObject)]
pub(crate) enum Law {
    Name(String),
    Fixed(f64, f64),
}

taken_for!(Law, "a name such as \"smooth\", or (drag, lift)");

impl Law {
    fn aerodynamics(self) -> Result<Aerodynamics, FlightFault> {
        match self {
            Law::Name(name) => Aerodynamics::from_name(&name),
            Law::Fixed(drag, lift) => Aerodynamics::fixed(drag, lift),
        }
    }
}

/// What a flight was asked to be.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Asked {
    pub(super) launch: Launch,
    pub(super) day: Conditions,
    pub(super) profile: WindProfile,
    pub(super) aerodynamics: Aerodynamics,
    pub(super) target_height_ft: f64,
}

impl Asked {
    pub(super) fn fly(self) -> Result<PyFlight, FlightFault> {
        let weather = Weather {
            profile: self.profile,
            aerodynamics: self.aerodynamics,
            ..Weather::of(&self.day)?
        };
        let flight = wideberth::flight::fly(&self.launch, &weather, self.target_height_ft)?;
        Ok(PyFlight {
            asked: self,
            flight: Arc::new(flight),
        })
    }
}

/// Flies a ball: drag, lift and gravity on a spinning ball, integrated up to its landing.
///
/// Args:
///     speed_mph: speed of the ball as it leaves the club, miles an hour: above 0, at most 250.
///     launch_deg: angle of its start above the horizontal, degrees: 0.1 to 85.
///     spin_rpm: backspin, revolutions a minute: 0 to 15,000.
///     axis_tilt_deg: tilt of the axis of the spin, degrees, -60 to 60; positive curves the ball to the right.
///     bearing_deg: bearing of the aim, degrees clockwise from +y, -360 to 720. It matters only against the wind.
///     wind: a `wideberth.Wind`; None for no wind.
///     wind_profile: how the wind grows with height: `"logarithmic"`, as over open grass, or `"flat"`, the same at
///         every height.
///     temperature_f: temperature of the air, degrees Fahrenheit: -40 to 130.
///     altitude_ft: height above the sea, feet: -1500 to 20,000.
///     aerodynamics: the law of drag and lift. `"penner-2001"` and `"smits-smith-1994"` are published, for drives;
///         `"smooth"` is this project's own form, which holds from driver to wedge: fitted to commonly quoted averages
///         of tour professionals (from memory), it misses those by up to about 8 yards of carry. A pair of numbers is
///         a coefficient of drag and one of lift, each 0 to 2, that never change; the spin then lasts. Balls differ:
///         no law is better than about 3 % for an unknown ball.
///     target_height_ft: height of the place it lands on above where it was struck, feet, -600 to 600 (negative:
///         below).
///
/// Returns:
///     The `Flight`.
///
/// Raises:
///     InputError: a value out of range, a name that is none, a target higher than the ball flies, or a ball that is
///         still in the air after a minute.
///
/// Example:
///     >>> import wideberth as wb
///     >>> from wideberth import ball
///     >>> still = ball.fly(speed_mph=150, launch_deg=12, spin_rpm=2800)
///     >>> still
///     Flight: carry 237.0 yd, 0.0 yd off line, apex 85 ft, lands at 36.4 degrees
///     >>> into = ball.fly(speed_mph=150, launch_deg=12, spin_rpm=2800, wind=wb.Wind(mph=10, from_deg=0))
///     >>> 15 < still.carry - into.carry < 25
///     True
///     >>> still.path.shape[1], still.path[0].tolist()
///     (3, [0.0, 0.0, 0.0])
#[pyfunction]
#[pyo3(
    signature = (
        *, speed_mph, launch_deg, spin_rpm, axis_tilt_deg = 0.0, bearing_deg = 0.0, wind = None,
        wind_profile = "logarithmic", temperature_f = 59.0, altitude_ft = 0.0, aerodynamics = Law::Name("smooth".to_owned()),
        target_height_ft = 0.0
    ),
    text_signature = "(*, speed_mph, launch_deg, spin_rpm, axis_tilt_deg=0.0, bearing_deg=0.0, wind=None, \
        wind_profile='logarithmic', temperature_f=59.0, altitude_ft=0.0, aerodynamics='smooth', target_height_ft=0.0)"
)]
#[expect(
    clippy::too_many_arguments,
    reason = "keyword arguments of the Python function"
)]
pub(crate) fn fly(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] speed_mph: f64,
    #[pyo3(from_py_with = given)] launch_deg: f64,
    #[pyo3(from_py_with = given)] spin_rpm: f64,
    #[pyo3(from_py_with = given)] axis_tilt_deg: f64,
    #[pyo3(from_py_with = given)] bearing_deg: f64,
    #[pyo3(from_py_with = given)] wind: Option<PyWind>,
    #[pyo3(from_py_with = given)] wind_profile: &str,
    #[pyo3(from_py_with = given)] temperature_f: f64,
    #[pyo3(from_py_with = given)] altitude_ft: f64,
    #[pyo3(from_py_with = given)] aerodynamics: Law,
    #[pyo3(from_py_with = given)] target_height_ft: f64,
) -> PyResult<PyFlight> {
    let asked = Asked {
        launch: Launch {
            speed_mph,
            launch_deg,
            spin_rpm,
            axis_tilt_deg,
            bearing_deg,
        },
        day: Conditions {
            wind: wind.map(|wind| wind.0).unwrap_or_default(),
            temperature_f,
            altitude_ft,
            ..Conditions::default()
        },
        profile: WindProfile::from_name(wind_profile).map_err(refused)?,
        aerodynamics: aerodynamics.aerodynamics().map_err(refused)?,
        target_height_ft,
    };
    fork::at_work(py, || asked.fly()).map_err(refused)
}
