//! The day: wind, weather, firmness, green speed.

use pyo3::prelude::*;
use pyo3::types::{IntoPyDict, PyType};
use wideberth::hole::{Conditions, Firmness, Wind};

use crate::errors::refused;
use crate::getters::getters;
use crate::given::{given, taken_for};
use crate::travel::{Made, made};

/// A steady wind: its speed and where it blows *from*.
///
/// Immutable; equal when its numbers are; can be pickled.
///
/// Args:
///     mph: speed 10 m above the ground, miles an hour, 0 to 60.
///     from_deg: the bearing it blows from, degrees clockwise from +y of the plan, -360 to 720. A sketched hole starts
///         along +y: 0 is in the face of its tee shot, 90 from the right, 180 from behind. On a map +y is north.
///
/// Raises:
///     InputError: a value out of range.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.Wind(mph=12, from_deg=270)
///     Wind(mph=12.0, from_deg=270.0)
#[pyclass(frozen, eq, from_py_object, name = "Wind", module = "wideberth")]
#[derive(Clone, Copy, PartialEq)]
pub(crate) struct PyWind(pub(crate) Wind);

taken_for!(PyWind, "what Wind() makes");

#[pymethods]
impl PyWind {
    #[new]
    fn new(
        #[pyo3(from_py_with = given)] mph: f64,
        #[pyo3(from_py_with = given)] from_deg: f64,
    ) -> PyResult<Self> {
        Wind::new(mph, from_deg).map(PyWind).map_err(refused)
    }

    /// Speed 10 m above the ground, miles an hour.
    #[getter]
    fn mph(&self) -> f64 {
        self.0.mph()
    }

    /// The bearing it blows from, degrees clockwise from +y of the plan.
    #[getter(from_deg)]
    fn bearing(&self) -> f64 {
        self.0.from_deg()
    }

    fn __repr__(&self) -> String {
        let (mph, from_deg) = (self.0.mph(), self.0.from_deg());
        format!("Wind(mph={mph:?}, from_deg={from_deg:?})")
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> (Bound<'py, PyType>, (f64, f64)) {
        let wind = slf.get().0;
        (slf.get_type(), (wind.mph(), wind.from_deg()))
    }
}

/// A firmness by name or by factor.
#[derive(FromPyObject)]
pub(crate) enum FirmnessLike {
    Name(String),
    Factor(f64),
}

taken_for!(FirmnessLike, "a name such as \"firm\", or a number");

impl FirmnessLike {
    pub(crate) fn firmness(self) -> PyResult<Firmness> {
        match self {
            FirmnessLike::Name(name) => Firmness::from_name(&name),
            FirmnessLike::Factor(factor) => Firmness::new(factor),
        }
        .map_err(refused)
    }
}

/// A firmness as Python is told it: its name, or its factor where it has none.
pub(crate) fn told(firmness: Firmness, py: Python<'_>) -> PyResult<Bound<'_, PyAny>> {
    use pyo3::IntoPyObjectExt;
    match firmness.name() {
        Some(name) => name.into_bound_py_any(py),
        None => firmness.factor().into_bound_py_any(py),
    }
}

/// The conditions of a day, for `Hole.under`.
///
/// Immutable; equal when its values are; can be pickled. The defaults are a still day of 59 F at sea level, ordinary
/// ground, the green as fast as the hole's own and the hole as wide as the Rules of Golf tell.
///
/// Args:
///     wind: a `Wind`; None for no wind.
///     firmness: `"soft"`, `"medium"`, `"firm"`, `"links-firm"`, or the factor on the give of the turf under a landing
///         ball, 0.5 (hardest) to 2 (softest); the names are 1.25, 1, 0.75 and 0.6.
///     green_speed: Stimpmeter reading, feet, 4 to 16; None leaves it to the hole.
///     temperature_f: degrees Fahrenheit, -40 to 130.
///     altitude_ft: feet above the sea, -1500 to 20000.
///     hole_diameter_in: inches across the hole, 2 to 36; 4.25 by the Rules.
///
/// Raises:
///     InputError: every value out of range at once.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.Conditions(wind=wb.Wind(mph=18, from_deg=0), firmness="firm")
///     Conditions(wind=Wind(mph=18.0, from_deg=0.0), firmness='firm')
#[pyclass(frozen, eq, from_py_object, name = "Conditions", module = "wideberth")]
#[derive(Clone, Copy, PartialEq)]
pub(crate) struct PyConditions(pub(crate) Conditions);

taken_for!(PyConditions, "what Conditions() makes");

#[pymethods]
impl PyConditions {
    #[new]
    #[pyo3(
        signature = (
            *, wind = None, firmness = None, green_speed = None, temperature_f = 59.0, altitude_ft = 0.0,
            hole_diameter_in = 4.25
        ),
        text_signature = "(*, wind=None, firmness='medium', green_speed=None, temperature_f=59.0, altitude_ft=0.0, \
            hole_diameter_in=4.25)"
    )]
    fn new(
        #[pyo3(from_py_with = given)] wind: Option<PyWind>,
        #[pyo3(from_py_with = given)] firmness: Option<FirmnessLike>,
        #[pyo3(from_py_with = given)] green_speed: Option<f64>,
        #[pyo3(from_py_with = given)] temperature_f: f64,
        #[pyo3(from_py_with = given)] altitude_ft: f64,
        #[pyo3(from_py_with = given)] hole_diameter_in: f64,
    ) -> PyResult<Self> {
        let firmness = firmness.map(FirmnessLike::firmness).transpose()?;
        let day = Conditions {
            wind: wind.map(|wind| wind.0).unwrap_or_default(),
            firmness: firmness.unwrap_or_default(),
            green_speed,
            temperature_f,
            altitude_ft,
            hole_diameter_in,
        };
        day.checked().map(PyConditions).map_err(refused)
    }

    /// The firmness: its name, or its factor where it has none.
    #[getter]
    fn firmness<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        told(self.0.firmness, py)
    }

    /// What is not as usual, as keyword arguments.
    fn __repr__(&self) -> String {
        let (own, usual) = (&self.0, Conditions::default());
        let mut words = Vec::new();
        if own.wind != usual.wind {
            words.push(format!("wind={}", PyWind(own.wind).__repr__()));
        }
        if own.firmness != usual.firmness {
            let factor = || format!("{:?}", own.firmness.factor());
            let firmness = own
                .firmness
                .name()
                .map_or_else(factor, |name| format!("'{name}'"));
            words.push(format!("firmness={firmness}"));
        }
        if let Some(speed) = own.green_speed {
            words.push(format!("green_speed={speed:?}"));
        }
        for (name, own, usual) in [
            ("temperature_f", own.temperature_f, usual.temperature_f),
            ("altitude_ft", own.altitude_ft, usual.altitude_ft),
            (
                "hole_diameter_in",
                own.hole_diameter_in,
                usual.hole_diameter_in,
            ),
        ] {
            if own != usual {
                words.push(format!("{name}={own:?}"));
            }
        }
        format!("Conditions({})", words.join(", "))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Made<'py>> {
        let (py, day) = (slf.py(), &slf.get().0);
        let keywords = [
            ("temperature_f", day.temperature_f),
            ("altitude_ft", day.altitude_ft),
            ("hole_diameter_in", day.hole_diameter_in),
        ]
        .into_py_dict(py)?;
        keywords.set_item("wind", PyWind(day.wind))?;
        keywords.set_item("firmness", day.firmness.factor())?;
        keywords.set_item("green_speed", day.green_speed)?;
        made(slf.get_type().into_any(), Vec::new(), &keywords)
    }
}

getters! {
    PyConditions, self:
    /// The wind; `Wind(0, 0)` on a still day.
    wind: PyWind = PyWind(self.0.wind);
    /// Stimpmeter reading of the greens, feet; None where the hole's own holds.
    green_speed: Option<f64> = self.0.green_speed;
    /// Degrees Fahrenheit.
    temperature_f: f64 = self.0.temperature_f;
    /// Feet above the sea.
    altitude_ft: f64 = self.0.altitude_ft;
    /// Inches across the hole.
    hole_diameter_in: f64 = self.0.hole_diameter_in;
}
