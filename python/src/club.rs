//! Clubs in one player's hands.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};
use wideberth::player::{Club, ClubParts, MishitShape};

use crate::ball::PyFlight;
use crate::errors::{input_error, refused};
use crate::fork;
use crate::getters::getters;
use crate::given::{given, items, taken_as};
use crate::mishit_shape::PyMishitShape;
use crate::travel::by_json;

/// A club in one player's hands: how far it carries, and how its shots scatter.
///
/// The figures are those of the lie the club is at home on, a driver on its tee, an iron on the fairway. Flush strikes
/// are a bivariate normal of carry and lateral. All others are missed by more or less, without a gap from flush to duffed
/// or wild (`MishitShape`): a mishit is one of the worse half of them. Every argument is an attribute, so that a club made
/// of another one's attributes is equal to it. Immutable; equal when its parts are; can be pickled.
///
/// Args:
///     name: such as `7-iron`; 1 to 60 characters, and not `putter`.
///     carry: carry of a flush full strike in the middle of the pattern, 1 to 450 yards, as far as its launch lets a ball
///         fly.
///     carry_sd: standard deviation of that carry, yards, 0 to half the carry. Beyond the middle it is no more than 6 %
///         of the carry: nobody hits a club much farther than it gives.
///     lateral_sd: standard deviation of the lateral of flush strikes at landing, yards, 0 to half the carry.
///     lateral_bias: mean lateral, yards, positive to the right of the aim; within a quarter of the carry.
///     correlation: of carry and lateral, -0.99 to 0.99.
///     mishit_share: share of strikes that are mishits, 0 to 0.45; as many again are missed slightly.
///     mishit_shape: how missed strikes behave; None for a middling golfer's, `MishitShape()`.
///     run: run on a level fairway per yard of carry, 0 to 1; None for what is usual at that carry.
///     off_ground: carry off the ground as a share of the carry from a tee, 0.3 to 1: below 1 for a driver, whose face
///         is too deep and too upright for it.
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

taken_as!(PyClub, "what Club() makes");
items!(PyClub, "what Club() makes");

impl PyClub {
    /// The club, if a ball can be struck so far with its launch: a carry may be a number and yet no ball's.
    fn playable(parts: ClubParts) -> PyResult<Self> {
        let club = Club::new(parts).map_err(refused)?;
        PyFlight::of_club(&club).map_err(|fault| input_error(format!("{}: {fault}", club.name)))?;
        Ok(PyClub(club))
    }
}

#[pymethods]
impl PyClub {
    #[new]
    #[pyo3(signature = (
        name, *, carry, carry_sd, lateral_sd, lateral_bias = 0.0, correlation = 0.0, mishit_share = 0.0,
        mishit_shape = None, run = None, off_ground = 1.0, launch_deg = None, spin_rpm = None
    ))]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python class"
    )]
    fn new(
        #[pyo3(from_py_with = given)] name: &str,
        #[pyo3(from_py_with = given)] carry: f64,
        #[pyo3(from_py_with = given)] carry_sd: f64,
        #[pyo3(from_py_with = given)] lateral_sd: f64,
        #[pyo3(from_py_with = given)] lateral_bias: f64,
        #[pyo3(from_py_with = given)] correlation: f64,
        #[pyo3(from_py_with = given)] mishit_share: f64,
        #[pyo3(from_py_with = given)] mishit_shape: Option<PyMishitShape>,
        #[pyo3(from_py_with = given)] run: Option<f64>,
        #[pyo3(from_py_with = given)] off_ground: f64,
        #[pyo3(from_py_with = given)] launch_deg: Option<f64>,
        #[pyo3(from_py_with = given)] spin_rpm: Option<f64>,
    ) -> PyResult<Self> {
        let parts = ClubParts {
            carry_sd,
            lateral_bias,
            lateral_sd,
            correlation,
            mishit_share,
            mishit_shape: mishit_shape.map_or_else(MishitShape::default, |shape| shape.0),
            run: run.unwrap_or_else(|| ClubParts::usual_run(carry)),
            off_ground,
            launch_deg,
            spin_rpm,
            ..ClubParts::exact(name, carry)
        };
        PyClub::playable(parts)
    }

    /// The same club with some figures changed.
    ///
    /// Every figure is carried over as it is: a change of the carry leaves spreads and bias at the yards they have.
    ///
    /// Args:
    ///     club: the club to begin from.
    ///     **changes: arguments of `Club` with other values, `name` among them.
    ///
    /// Raises:
    ///     InputError: the first number outside its range.
    ///     TypeError: an argument that `Club` does not have.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> iron = wb.Player.from_handicap(18).club("6-iron")
    ///     >>> wb.Club.like(iron) == iron
    ///     True
    ///     >>> mine = wb.Club.like(iron, name="my 6-iron", carry=140)
    ///     >>> mine.name, mine.carry, mine.mishit_share == iron.mishit_share
    ///     ('my 6-iron', 140.0, True)
    #[classmethod]
    #[pyo3(signature = (club, **changes))]
    fn like<'py>(
        class: &Bound<'py, PyType>,
        #[pyo3(from_py_with = given)] club: &Self,
        changes: Option<&Bound<'py, PyDict>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let figures = PyDict::new(class.py());
        figures.set_item("name", club.name())?;
        figures.set_item("carry", club.carry())?;
        figures.set_item("carry_sd", club.carry_sd())?;
        figures.set_item("lateral_sd", club.lateral_sd())?;
        figures.set_item("lateral_bias", club.lateral_bias())?;
        figures.set_item("correlation", club.correlation())?;
        figures.set_item("mishit_share", club.mishit_share())?;
        figures.set_item("mishit_shape", club.mishit_shape())?;
        figures.set_item("run", club.run())?;
        figures.set_item("off_ground", club.off_ground())?;
        figures.set_item("launch_deg", club.launch_deg())?;
        figures.set_item("spin_rpm", club.spin_rpm())?;
        if let Some(changes) = changes {
            figures.update(changes.as_mapping())?;
        }
        class.call((), Some(&figures))
    }

    /// The flight of a flush full strike that carries the mean carry in still standard air, a `wideberth.ball.Flight`.
    ///
    /// The launch is the club's own or the usual one of a club of that name and carry; the ball speed is solved for.
    ///
    /// Raises:
    ///     InputError: a carry that no ball launched like that reaches.
    #[getter]
    fn flight(&self, py: Python<'_>) -> PyResult<PyFlight> {
        fork::at_work(py, || PyFlight::of_club(&self.0)).map_err(refused)
    }

    /// Height of that flight above level ground, feet.
    ///
    /// Args:
    ///     at: yards from where the ball was struck, 0 to the carry.
    ///
    /// Raises:
    ///     InputError: a place before the start or beyond the carry.
    fn height_ft(&self, py: Python<'_>, #[pyo3(from_py_with = given)] at: f64) -> PyResult<f64> {
        let flight = self.flight(py)?.flight;
        flight.height_ft(at).map_err(refused)
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

getters! {
    PyClub, self:
    /// Name of the club.
    name: &str = &self.0.name;
    /// Mean carry of a flush full strike, yards.
    carry: f64 = self.0.carry;
    /// Standard deviation of the carry of flush strikes, yards.
    carry_sd: f64 = self.0.carry_sd;
    /// Standard deviation of the lateral of flush strikes at landing, yards.
    lateral_sd: f64 = self.0.lateral_sd;
    /// Mean lateral at landing, yards, positive to the right of the aim.
    lateral_bias: f64 = self.0.lateral_bias;
    /// Correlation of carry and lateral of flush strikes.
    correlation: f64 = self.0.correlation;
    /// Share of strikes that are mishits, 0 to 0.45; as many again are missed slightly.
    mishit_share: f64 = self.0.mishit_share;
    /// How missed strikes behave.
    mishit_shape: PyMishitShape = PyMishitShape(self.0.mishit_shape);
    /// Run on a level fairway per yard of carry.
    run: f64 = self.0.run;
    /// Carry off the ground as a share of the carry from a tee.
    off_ground: f64 = self.0.off_ground;
    /// Mean carry plus run of a flush strike on a level fairway, yards.
    total: f64 = self.0.total();
    /// Launch angle of a full strike, degrees; None where it is what is usual.
    launch_deg: Option<f64> = self.0.launch_deg;
    /// Backspin of a full strike, revolutions a minute; None where it is what is usual.
    spin_rpm: Option<f64> = self.0.spin_rpm;
}

by_json! {
    PyClub(ClubParts), PyClub::playable, "a club", "club",
    "The club as JSON text with all its figures; `from_json` gives an equal club back."
}
