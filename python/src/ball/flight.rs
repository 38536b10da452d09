//! A ball in the air.

use numpy::PyArray2;
use pyo3::prelude::*;
use pyo3::types::{IntoPyDict, PyDict};
use std::sync::Arc;
use wideberth::flight::{
    Aerodynamics, Flight, FlightFault, Launch, Weather, WindProfile, full_strike,
};
use wideberth::hole::Conditions;
use wideberth::player::Club;

use super::public;
use crate::conditions::PyWind;
use crate::errors::refused;
use crate::travel::{Made, made};

/// A law of drag and lift by name, or coefficients that never change.
#[derive(FromPyObject)]
pub(crate) enum Law {
    Name(String),
    Fixed(f64, f64),
}

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
struct Asked {
    launch: Launch,
    day: Conditions,
    profile: WindProfile,
    aerodynamics: Aerodynamics,
    target_height_ft: f64,
}

impl Asked {
    fn fly(self) -> Result<PyFlight, FlightFault> {
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

/// A ball in the air from the club to its landing; `fly` makes one, and `wideberth.Club.flight` is one.
///
/// It is told in the frame of its shot: to the right of the aim, along it, up, from where the ball was struck.
/// Immutable; equal when it was asked to be the same; can be pickled.
#[pyclass(frozen, eq, from_py_object, name = "Flight", module = "wideberth.ball")]
#[derive(Clone)]
pub(crate) struct PyFlight {
    asked: Asked,
    pub(crate) flight: Arc<Flight>,
}

impl PartialEq for PyFlight {
    /// The rest follows from what was asked.
    fn eq(&self, other: &Self) -> bool {
        self.asked == other.asked
    }
}

impl PyFlight {
    /// The flight of a club's full strike in still standard air.
    pub(crate) fn of_club(club: &Club) -> Result<Self, FlightFault> {
        let asked = Asked {
            launch: full_strike(club)?,
            day: Conditions::default(),
            profile: WindProfile::default(),
            aerodynamics: Aerodynamics::default(),
            target_height_ft: 0.0,
        };
        asked.fly()
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
    speed_mph: f64,
    launch_deg: f64,
    spin_rpm: f64,
    axis_tilt_deg: f64,
    bearing_deg: f64,
    wind: Option<PyWind>,
    wind_profile: &str,
    temperature_f: f64,
    altitude_ft: f64,
    aerodynamics: Law,
    target_height_ft: f64,
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
    py.detach(|| asked.fly()).map_err(refused)
}

#[pymethods]
impl PyFlight {
    /// The path, an array of shape (n, 3), float64: yards to the right of the aim, along it, and up.
    ///
    /// The first point is where the ball was struck, the last where it lands; between them they lie 20 ms apart. It is a
    /// new array at every look.
    #[getter]
    fn path<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyArray2<f64>>> {
        let rows: Vec<Vec<f64>> = self.flight.path.iter().map(|p| p.to_vec()).collect();
        PyArray2::from_vec2(py, &rows).map_err(refused)
    }

    /// Yards along the aim to the landing.
    #[getter]
    fn carry(&self) -> f64 {
        self.flight.carry
    }

    /// Yards to the right of the aim at the landing.
    #[getter]
    fn lateral(&self) -> f64 {
        self.flight.lateral
    }

    /// Greatest height above where the ball was struck, feet.
    #[getter]
    fn apex_ft(&self) -> f64 {
        self.flight.apex_ft
    }

    /// Yards along the aim to the highest point.
    #[getter]
    fn apex_at(&self) -> f64 {
        self.flight.apex_at
    }

    /// Seconds in the air.
    #[getter]
    fn time_s(&self) -> f64 {
        self.flight.time_s
    }

    /// Angle of the path below the horizontal at the landing, degrees.
    #[getter]
    fn landing_deg(&self) -> f64 {
        self.flight.landing_deg
    }

    /// Speed at the landing, miles an hour.
    #[getter]
    fn landing_speed_mph(&self) -> f64 {
        self.flight.landing_speed_mph
    }

    /// Spin at the landing, revolutions a minute.
    #[getter]
    fn landing_spin_rpm(&self) -> f64 {
        self.flight.landing_spin_rpm
    }

    /// Speed of the ball as it left the club, miles an hour.
    #[getter]
    fn speed_mph(&self) -> f64 {
        self.asked.launch.speed_mph
    }

    /// Angle of its start above the horizontal, degrees.
    #[getter]
    fn launch_deg(&self) -> f64 {
        self.asked.launch.launch_deg
    }

    /// Backspin at the start, revolutions a minute.
    #[getter]
    fn spin_rpm(&self) -> f64 {
        self.asked.launch.spin_rpm
    }

    /// Tilt of the axis of the spin, degrees; positive curves the ball to the right. It does not change in flight.
    #[getter]
    fn axis_tilt_deg(&self) -> f64 {
        self.asked.launch.axis_tilt_deg
    }

    /// Bearing of the aim, degrees clockwise from +y.
    #[getter]
    fn bearing_deg(&self) -> f64 {
        self.asked.launch.bearing_deg
    }

    /// The wind; `Wind(0, 0)` in still air.
    #[getter]
    fn wind(&self) -> PyWind {
        PyWind(self.asked.day.wind)
    }

    /// How the wind grows with height: `"logarithmic"` or `"flat"`.
    #[getter]
    fn wind_profile(&self) -> &'static str {
        self.asked.profile.name()
    }

    /// Temperature of the air, degrees Fahrenheit.
    #[getter]
    fn temperature_f(&self) -> f64 {
        self.asked.day.temperature_f
    }

    /// Height above the sea, feet.
    #[getter]
    fn altitude_ft(&self) -> f64 {
        self.asked.day.altitude_ft
    }

    /// The law of drag and lift: its name, or the pair of coefficients.
    #[getter]
    fn aerodynamics<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        use pyo3::IntoPyObjectExt;
        let law = self.asked.aerodynamics;
        match law.fixed_coefficients() {
            Some(pair) => pair.into_bound_py_any(py),
            None => law.name().into_bound_py_any(py),
        }
    }

    /// Height of the place it lands on above where it was struck, feet.
    #[getter]
    fn target_height_ft(&self) -> f64 {
        self.asked.target_height_ft
    }

    /// Height of the ball above where it was struck when it first is `at` yards along the aim, feet.
    ///
    /// Args:
    ///     at: yards along the aim, 0 to as far as the ball comes.
    ///
    /// Raises:
    ///     InputError: a place before the start or beyond the reach of the ball.
    #[pyo3(signature = (at))]
    fn height_ft(&self, at: f64) -> PyResult<f64> {
        self.flight.height_ft(at).map_err(refused)
    }

    fn __repr__(&self) -> String {
        let f = &self.flight;
        format!(
            "Flight: carry {:.1} yd, {} off line, apex {:.0} ft, lands at {:.1} degrees",
            f.carry,
            super::aside(f.lateral),
            f.apex_ft,
            f.landing_deg
        )
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Made<'py>> {
        made(public(py, "fly")?, Vec::new(), &self.keywords(py)?)
    }
}

impl PyFlight {
    /// What was asked, as the keywords of `fly`.
    fn keywords<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let Asked { launch, day, .. } = &self.asked;
        let keywords = [
            ("speed_mph", launch.speed_mph),
            ("launch_deg", launch.launch_deg),
            ("spin_rpm", launch.spin_rpm),
            ("axis_tilt_deg", launch.axis_tilt_deg),
            ("bearing_deg", launch.bearing_deg),
            ("temperature_f", day.temperature_f),
            ("altitude_ft", day.altitude_ft),
            ("target_height_ft", self.asked.target_height_ft),
        ]
        .into_py_dict(py)?;
        keywords.set_item("wind", self.wind())?;
        keywords.set_item("wind_profile", self.wind_profile())?;
        keywords.set_item("aerodynamics", self.aerodynamics(py)?)?;
        Ok(keywords)
    }
}
