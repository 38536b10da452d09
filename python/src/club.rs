//! Clubs in one player's hands.

use pyo3::prelude::*;
use pyo3::types::PyType;
use wideberth::player::{Club, ClubParts};

use crate::ball::PyFlight;
use crate::errors::refused;
use crate::travel::{Written, written};

/// A club in one player's hands: how far it carries, and how its shots scatter.
///
/// The figures are those of the lie the club is at home on, a driver on its tee, an iron on the fairway. Solid
/// strikes are a bivariate normal of carry and lateral; a share of mishits comes up short or flies wild.
/// Immutable; equal when its parts are; can be pickled.
///
/// Args:
///     name: such as `7-iron`; 1 to 60 characters, and not `putter`.
///     carry: mean carry of a solid full strike, 1 to 450 yards.
///     carry_sd: standard deviation of that carry, yards, 0 to half the carry.
///     lateral_sd: standard deviation of the lateral at landing, yards, 0 to half the carry.
///     lateral_bias: mean lateral, yards, positive to the right of the aim; within a quarter of the carry.
///     correlation: of carry and lateral, -0.99 to 0.99.
///     mishit_share: share of strikes that are not solid, 0 to 0.9.
///     run: run on a level fairway per yard of carry, 0 to 1; None for what is usual at that carry.
///     launch_deg: launch angle of a full strike, 0.1 to 85 degrees; None for what is usual with a club of that name and
///         carry.
///     spin_rpm: backspin of a full strike, 0 to 15000 rpm; None for what is usual.
///
/// Raises:
///     InputError: the first number outside its range.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.Club("7-iron", carry=150, carry_sd=7, lateral_sd=8, mishit_share=0.1)
///     7-iron: carry 150 yd (sd 7.0), lateral +0.0 yd (sd 8.0), mishits 10 %
#[pyclass(frozen, eq, from_py_object, name = "Club", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyClub(pub(crate) Club);

#[pymethods]
impl PyClub {
    #[new]
    #[pyo3(signature = (
        name, *, carry, carry_sd, lateral_sd, lateral_bias = 0.0, correlation = 0.0, mishit_share = 0.0, run = None,
        launch_deg = None, spin_rpm = None
    ))]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python class"
    )]
    fn new(
        name: &str,
        carry: f64,
        carry_sd: f64,
        lateral_sd: f64,
        lateral_bias: f64,
        correlation: f64,
        mishit_share: f64,
        run: Option<f64>,
        launch_deg: Option<f64>,
        spin_rpm: Option<f64>,
    ) -> PyResult<Self> {
        let parts = ClubParts {
            carry_sd,
            lateral_bias,
            lateral_sd,
            correlation,
            mishit_share,
            run: run.unwrap_or_else(|| ClubParts::usual_run(carry)),
            launch_deg,
            spin_rpm,
            ..ClubParts::exact(name, carry)
        };
        Club::new(parts).map(PyClub).map_err(refused)
    }

    /// Name of the club.
    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }

    /// Mean carry of a solid full strike, yards.
    #[getter]
    fn carry(&self) -> f64 {
        self.0.carry
    }

    /// Standard deviation of the carry of solid strikes, yards.
    #[getter]
    fn carry_sd(&self) -> f64 {
        self.0.carry_sd
    }

    /// Standard deviation of the lateral of solid strikes at landing, yards.
    #[getter]
    fn lateral_sd(&self) -> f64 {
        self.0.lateral_sd
    }

    /// Mean lateral at landing, yards, positive to the right of the aim.
    #[getter]
    fn lateral_bias(&self) -> f64 {
        self.0.lateral_bias
    }

    /// Correlation of carry and lateral of solid strikes.
    #[getter]
    fn correlation(&self) -> f64 {
        self.0.correlation
    }

    /// Share of strikes that are not solid, 0 to 1.
    #[getter]
    fn mishit_share(&self) -> f64 {
        self.0.mishit_share
    }

    /// Run on a level fairway per yard of carry.
    #[getter]
    fn run(&self) -> f64 {
        self.0.run
    }

    /// Mean carry plus run of a solid strike on a level fairway, yards.
    #[getter]
    fn total(&self) -> f64 {
        self.0.total()
    }

    /// Launch angle of a full strike, degrees; None where it is what is usual.
    #[getter]
    fn launch_deg(&self) -> Option<f64> {
        self.0.launch_deg
    }

    /// Backspin of a full strike, revolutions a minute; None where it is what is usual.
    #[getter]
    fn spin_rpm(&self) -> Option<f64> {
        self.0.spin_rpm
    }

    /// The flight of a solid full strike that carries the mean carry in still standard air, a `wideberth.ball.Flight`.
    ///
    /// The launch is the club's own or the usual one of a club of that name and carry; the ball speed is solved for.
    ///
    /// Raises:
    ///     InputError: a carry that no ball launched like that reaches.
    #[getter]
    fn flight(&self, py: Python<'_>) -> PyResult<PyFlight> {
        py.detach(|| PyFlight::of_club(&self.0)).map_err(refused)
    }

    /// Height of that flight above level ground, feet.
    ///
    /// Args:
    ///     at: yards from where the ball was struck, 0 to the carry.
    ///
    /// Raises:
    ///     InputError: a place before the start or beyond the carry.
    fn height_ft(&self, py: Python<'_>, at: f64) -> PyResult<f64> {
        let flight = self.flight(py)?.flight;
        flight.height_ft(at).map_err(refused)
    }

    /// Reads a club back from the text that `to_json` wrote.
    ///
    /// Args:
    ///     text: the JSON text.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or no club, or a number in it is out of range.
    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        let parts: ClubParts = serde_json::from_str(text).map_err(refused)?;
        Club::new(parts).map(PyClub).map_err(refused)
    }

    /// The club as JSON text with all its figures; `from_json` gives an equal club back.
    fn to_json(&self) -> PyResult<String> {
        let parts: &ClubParts = &self.0;
        serde_json::to_string(parts).map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json()?)
    }

    fn __repr__(&self) -> String {
        let c = &self.0;
        format!(
            "{}: carry {:.0} yd (sd {:.1}), lateral {:+.1} yd (sd {:.1}), mishits {:.0} %",
            c.name,
            c.carry,
            c.carry_sd,
            c.lateral_bias,
            c.lateral_sd,
            100.0 * c.mishit_share
        )
    }
}
