//! A ball on the ground: its bounces and its roll.

use numpy::PyArray2;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::geometry::Vector;
use wideberth::ground::{Ball, GroundFault, RunOut, Slope, Turf, run_out};
use wideberth::hole::Firmness;

use super::flight::PyFlight;
use super::{aside, public};
use crate::conditions::{FirmnessLike, told};
use crate::errors::refused;
use crate::fork;
use crate::getters::getters;
use crate::given::given;
use crate::travel::{Made, made};

/// How a ball comes down.
#[derive(Clone, PartialEq)]
enum Landing {
    /// At the end of a flight.
    Of(PyFlight),
    /// At a speed, an angle and with a backspin, along the aim.
    Numbers([f64; 3]),
}

impl Landing {
    fn ball(&self) -> Result<Ball, GroundFault> {
        match self {
            Landing::Of(flight) => Ok(Ball::after(&flight.flight)),
            &Landing::Numbers([mph, degrees, rpm]) => Ball::coming_down(mph, degrees, rpm),
        }
    }
}

/// What a run was asked to be.
#[derive(Clone, PartialEq)]
struct Asked {
    landing: Landing,
    firmness: Firmness,
    surface: String,
    green_speed: f64,
    slope_percent: (f64, f64),
}

impl Asked {
    fn run(self) -> Result<PyRun, GroundFault> {
        let turf = Turf::of_name(&self.surface, self.firmness, self.green_speed)?;
        let slope = Slope::falling(self.slope_percent.0, self.slope_percent.1)?;
        let run = run_out(&self.landing.ball()?, &slope, &turf);
        Ok(PyRun { asked: self, run })
    }
}

/// What a ball does after its landing, on one plane of one surface; `run` makes one.
///
/// It is told in the frame of its shot, from the landing: to the right of the aim and along it. Immutable; equal when it
/// was asked to be the same; can be pickled.
#[pyclass(frozen, eq, name = "Run", module = "wideberth.ball")]
#[derive(PartialEq)]
pub(crate) struct PyRun {
    asked: Asked,
    run: RunOut,
}

/// Runs a ball out after its landing: every blow on the turf and every hop, then the roll.
///
/// A blow is that of Penner 2002 ("The run of a golf ball", Can. J. Phys. 80; from memory), whose turf is a medium
/// fairway; what other surfaces and firmnesses do is engineering, not published. Give it a flight, or the three numbers
/// of a landing.
///
/// Args:
///     flight: the `Flight` that ends in the landing.
///     landing_speed_mph: instead of a flight: speed at the landing, miles an hour, 0 to 250.
///     landing_deg: angle of the path below the horizontal, degrees, 0 to 90.
///     landing_spin_rpm: backspin, revolutions a minute, -15,000 to 15,000.
///     firmness: `"soft"`, `"medium"`, `"firm"`, `"links-firm"`, or the factor on the give of the turf under a landing
///         ball, 0.5 (hardest) to 2 (softest); the names are 1.25, 1, 0.75 and 0.6.
///     surface: the name of the surface, such as `"fairway"`, `"green"` or `"rough"`; no penalty area.
///     green_speed: Stimpmeter reading of the greens, feet, 3 to 20; it matters on a green.
///     slope_percent: by how much the ground falls to the right and ahead, per cent, each -60 to 60 (negative: it rises).
///
/// Returns:
///     The `Run`.
///
/// Raises:
///     InputError: a value out of range, or a name that is none.
///     TypeError: neither a flight nor all of a landing, or both.
///
/// Example:
///     >>> import wideberth as wb
///     >>> from wideberth import ball
///     >>> iron = wb.Club("7-iron", carry=132, carry_sd=10, lateral_sd=12)
///     >>> soft, firm = ball.run(iron.flight, firmness="soft"), ball.run(iron.flight, firmness="firm")
///     >>> soft.distance < firm.distance
///     True
///     >>> ball.run(iron.flight, slope_percent=(4, 0)).lateral > 0
///     True
#[pyfunction]
#[pyo3(
    signature = (
        flight = None, *, landing_speed_mph = None, landing_deg = None, landing_spin_rpm = None,
        firmness = FirmnessLike::Factor(1.0), surface = "fairway", green_speed = 9.0, slope_percent = (0.0, 0.0)
    ),
    text_signature = "(flight=None, *, landing_speed_mph=None, landing_deg=None, landing_spin_rpm=None, \
        firmness='medium', surface='fairway', green_speed=9.0, slope_percent=(0.0, 0.0))"
)]
#[expect(
    clippy::too_many_arguments,
    reason = "keyword arguments of the Python function"
)]
pub(crate) fn run(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] flight: Option<PyFlight>,
    #[pyo3(from_py_with = given)] landing_speed_mph: Option<f64>,
    #[pyo3(from_py_with = given)] landing_deg: Option<f64>,
    #[pyo3(from_py_with = given)] landing_spin_rpm: Option<f64>,
    #[pyo3(from_py_with = given)] firmness: FirmnessLike,
    #[pyo3(from_py_with = given)] surface: &str,
    #[pyo3(from_py_with = given)] green_speed: f64,
    #[pyo3(from_py_with = given)] slope_percent: (f64, f64),
) -> PyResult<PyRun> {
    let landing = match (flight, landing_speed_mph, landing_deg, landing_spin_rpm) {
        (Some(flight), None, None, None) => Landing::Of(flight),
        (None, Some(mph), Some(degrees), Some(rpm)) => Landing::Numbers([mph, degrees, rpm]),
        _ => {
            let needed = "run() takes a flight, or else all of landing_speed_mph, landing_deg and landing_spin_rpm";
            return Err(PyTypeError::new_err(needed));
        }
    };
    let asked = Asked {
        landing,
        firmness: firmness.firmness()?,
        surface: surface.to_owned(),
        green_speed,
        slope_percent,
    };
    fork::at_work(py, || asked.run()).map_err(refused)
}

getters! {
    PyRun, self:
    /// Yards along the aim from the landing to where the ball comes to rest; negative when it spins or rolls back.
    distance: f64 = self.run.rest.y;
    /// Yards to the right of the aim's line through the landing where it comes to rest.
    lateral: f64 = self.run.rest.x;
    /// False when the slope is too steep for the ball to come to rest: it was left after 500 yards of roll.
    stopped: bool = self.run.stopped;
    /// Name of the surface.
    surface: &str = &self.asked.surface;
    /// Stimpmeter reading of the greens, feet.
    green_speed: f64 = self.asked.green_speed;
    /// Fall of the ground to the right and ahead, per cent.
    slope_percent: (f64, f64) = self.asked.slope_percent;
}

#[pymethods]
impl PyRun {
    /// Where the ball touched the ground, an array of shape (n, 2), float64: yards to the right and along.
    ///
    /// The first row is the landing, the last where the ball rests; between them it touched down again, and from the last
    /// of those it rolled. It is a new array at every look.
    #[getter]
    fn path<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyArray2<f64>>> {
        let touches = self.run.touches.iter().copied();
        let rows: Vec<Vec<f64>> = std::iter::once(Vector::zeros())
            .chain(touches)
            .chain([self.run.rest])
            .map(|place| vec![place.x, place.y])
            .collect();
        PyArray2::from_vec2(py, &rows).map_err(refused)
    }

    /// The firmness: its name, or its factor where it has none.
    #[getter]
    fn firmness<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        told(self.asked.firmness, py)
    }

    fn __repr__(&self) -> String {
        let rest = self.run.rest;
        let end = if self.run.stopped {
            ""
        } else {
            ", not at rest"
        };
        format!("Run: {:.1} yd, {} off line{end}", rest.y, aside(rest.x))
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Made<'py>> {
        let keywords = PyDict::new(py);
        keywords.set_item("firmness", told(self.asked.firmness, py)?)?;
        keywords.set_item("surface", &self.asked.surface)?;
        keywords.set_item("green_speed", self.asked.green_speed)?;
        keywords.set_item("slope_percent", self.asked.slope_percent)?;
        let flight = match &self.asked.landing {
            Landing::Of(flight) => vec![flight.clone().into_pyobject(py)?.into_any()],
            Landing::Numbers([mph, degrees, rpm]) => {
                keywords.set_item("landing_speed_mph", mph)?;
                keywords.set_item("landing_deg", degrees)?;
                keywords.set_item("landing_spin_rpm", rpm)?;
                Vec::new()
            }
        };
        made(public(py, "run")?, flight, &keywords)
    }
}
