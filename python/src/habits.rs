//! What a golfer chooses by habit, and what that costs.

use pyo3::prelude::*;
use pyo3::types::PyType;
use wideberth::player::Habits;
use wideberth::rank::{HabitsRun, Length, Question};

use crate::compare::PyDifference;
use crate::errors::refused;
use crate::given::{given, taken_as};
use crate::hole::PyHole;
use crate::player::PyPlayer;
use crate::pool;
use crate::solve;
use crate::start::start;
use crate::travel::{Written, written};
use crate::whole::{SeedGiven, Whole};

/// What a golfer chooses by habit when nobody advises.
///
/// Habits are no part of how the ball is struck. The strategy `"direct"` alone follows them; `"steady"`, a solution and the
/// instructions of a plan do not. What they cost is told by `price_of_habits`. Immutable; equal when its parts are; can be
/// pickled.
///
/// Args:
///     too_little_club: a swing at the pin is chosen as if the way were shorter by this share of it, 0 to 0.3: the golfer
///         goes by the best strikes, not by the middle of all.
///     every_flag: True for a golfer who aims at every flag, and not at the middle of the green.
///     always_chips: True for a golfer who chips or pitches from mown ground off the green where a putt would do. From
///         within 15 yards of the hole on the fringe everybody putts.
///
/// Raises:
///     InputError: a number outside its range.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.Habits(too_little_club=0.04, every_flag=True)
///     Habits(too_little_club=0.04, every_flag=True, always_chips=False)
///     >>> wb.Habits() == wb.Habits.none()
///     True
#[pyclass(frozen, eq, from_py_object, name = "Habits", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyHabits(pub(crate) Habits);

taken_as!(PyHabits, "what Habits() makes");

#[pymethods]
impl PyHabits {
    #[new]
    #[pyo3(signature = (*, too_little_club = 0.0, every_flag = false, always_chips = false))]
    fn new(
        #[pyo3(from_py_with = given)] too_little_club: f64,
        #[pyo3(from_py_with = given)] every_flag: bool,
        #[pyo3(from_py_with = given)] always_chips: bool,
    ) -> PyResult<Self> {
        checked(Habits {
            too_little_club,
            every_flag,
            always_chips,
        })
    }

    /// No habits: the right club for the middle of the green, and the putter where it does.
    #[classmethod]
    fn none(_: &Bound<'_, PyType>) -> Self {
        PyHabits(Habits::NONE)
    }

    /// The share of the way by which a swing at the pin is chosen too short.
    #[getter]
    fn too_little_club(&self) -> f64 {
        self.0.too_little_club
    }

    /// True for a golfer who aims at every flag.
    #[getter]
    fn every_flag(&self) -> bool {
        self.0.every_flag
    }

    /// True for a golfer who chips or pitches where a putt would do.
    #[getter]
    fn always_chips(&self) -> bool {
        self.0.always_chips
    }

    /// Reads habits back from the text that `to_json` wrote.
    ///
    /// Args:
    ///     text: the JSON text.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or no habits, or a number in it is out of range.
    #[classmethod]
    fn from_json(
        _: &Bound<'_, PyType>,
        #[pyo3(from_py_with = given)] text: &str,
    ) -> PyResult<Self> {
        serde_json::from_str(text)
            .map_err(refused)
            .and_then(checked)
    }

    /// The habits as JSON text; `from_json` gives equal ones back.
    fn to_json(&self) -> PyResult<String> {
        serde_json::to_string(&self.0).map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json()?)
    }

    fn __repr__(&self) -> String {
        let told = |yes| if yes { "True" } else { "False" };
        format!(
            "Habits(too_little_club={}, every_flag={}, always_chips={})",
            self.0.too_little_club,
            told(self.0.every_flag),
            told(self.0.always_chips)
        )
    }
}

/// Habits whose numbers are in range.
fn checked(habits: Habits) -> PyResult<PyHabits> {
    habits.check().map_err(refused)?;
    Ok(PyHabits(habits))
}

/// What habits cost on a hole; `wideberth.price_of_habits` says what each argument is.
///
/// Returns:
///     Strokes with the player's habits less strokes without: without too little club, without every flag, without always
///     chipping, without any.
///
/// Raises:
///     InputError: before anything is played, naming the field, the value and what is allowed.
#[pyfunction]
#[pyo3(signature = (hole, player, *, plays, seed, at, lie, threads, progress))]
#[expect(
    clippy::too_many_arguments,
    clippy::needless_pass_by_value,
    reason = "keyword arguments of the Python function"
)]
pub(crate) fn price_of_habits(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] hole: &PyHole,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    plays: Whole,
    seed: SeedGiven,
    at: Option<Bound<'_, PyAny>>,
    #[pyo3(from_py_with = given)] lie: Option<&str>,
    threads: Option<Whole>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<(PyDifference, PyDifference, PyDifference, PyDifference)> {
    let mut question = Question::new(seed.fit()?);
    question.length = Length::Plays(plays.fit("plays", "1 to 1,000,000,000")?);
    question.start = start(&hole.0, at.as_ref(), lie)?;
    let pool = pool::pool(solve::threads(threads)?)?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let run = pool::ask(py, &pool, move || HabitsRun::new(&hole, &bag, question))?;
    let run = pool::run(py, &pool, run.map_err(refused)?, progress.as_ref())?;
    let price = run.price();
    Ok((
        price.too_little_club.into(),
        price.every_flag.into(),
        price.always_chips.into(),
        price.all.into(),
    ))
}
