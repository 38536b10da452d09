//! A ball in the air.

use numpy::PyArray2;
use pyo3::prelude::*;
use pyo3::types::{IntoPyDict, PyDict};
use std::sync::Arc;
use wideberth::flight::{Aerodynamics, Flight, FlightFault, WindProfile, full_strike};
use wideberth::hole::Conditions;
use wideberth::player::Club;

use super::asked::Asked;
use super::public;
use crate::conditions::PyWind;
use crate::errors::refused;
use crate::getters::getters;
use crate::given::{given, taken_for};
use crate::travel::{Made, made};

/// A ball in the air from the club to its landing; `fly` makes one, and `wideberth.Club.flight` is one.
///
/// It is told in the frame of its shot: to the right of the aim, along it, up, from where the ball was struck.
/// Immutable; equal when it was asked to be the same; can be pickled.
#[pyclass(frozen, eq, from_py_object, name = "Flight", module = "wideberth.ball")]
#[derive(Clone)]
pub(crate) struct PyFlight {
    pub(super) asked: Asked,
    pub(crate) flight: Arc<Flight>,
}

taken_for!(PyFlight, "what ball.fly() makes");

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

    /// Height of the ball above where it was struck when it first is `at` yards along the aim, feet.
    ///
    /// Args:
    ///     at: yards along the aim, 0 to as far as the ball comes.
    ///
    /// Raises:
    ///     InputError: a place before the start or beyond the reach of the ball.
    fn height_ft(&self, #[pyo3(from_py_with = given)] at: f64) -> PyResult<f64> {
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

getters! {
    PyFlight, self:
    /// Yards along the aim to the landing.
    carry: f64 = self.flight.carry;
    /// Yards to the right of the aim at the landing.
    lateral: f64 = self.flight.lateral;
    /// Greatest height above where the ball was struck, feet.
    apex_ft: f64 = self.flight.apex_ft;
    /// Yards along the aim to the highest point.
    apex_at: f64 = self.flight.apex_at;
    /// Seconds in the air.
    time_s: f64 = self.flight.time_s;
    /// Angle of the path below the horizontal at the landing, degrees.
    landing_deg: f64 = self.flight.landing_deg;
    /// Speed at the landing, miles an hour.
    landing_speed_mph: f64 = self.flight.landing_speed_mph;
    /// Spin at the landing, revolutions a minute.
    landing_spin_rpm: f64 = self.flight.landing_spin_rpm;
    /// Speed of the ball as it left the club, miles an hour.
    speed_mph: f64 = self.asked.launch.speed_mph;
    /// Angle of its start above the horizontal, degrees.
    launch_deg: f64 = self.asked.launch.launch_deg;
    /// Backspin at the start, revolutions a minute.
    spin_rpm: f64 = self.asked.launch.spin_rpm;
    /// Tilt of the axis of the spin, degrees; positive curves the ball to the right. It does not change in flight.
    axis_tilt_deg: f64 = self.asked.launch.axis_tilt_deg;
    /// Bearing of the aim, degrees clockwise from +y.
    bearing_deg: f64 = self.asked.launch.bearing_deg;
    /// The wind; `Wind(0, 0)` in still air.
    wind: PyWind = PyWind(self.asked.day.wind);
    /// How the wind grows with height: `"logarithmic"` or `"flat"`.
    wind_profile: &'static str = self.asked.profile.name();
    /// Temperature of the air, degrees Fahrenheit.
    temperature_f: f64 = self.asked.day.temperature_f;
    /// Height above the sea, feet.
    altitude_ft: f64 = self.asked.day.altitude_ft;
    /// Height of the place it lands on above where it was struck, feet.
    target_height_ft: f64 = self.asked.target_height_ft;
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
