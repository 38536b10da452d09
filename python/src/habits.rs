//! What a golfer chooses by habit, and what that costs.

use pyo3::prelude::*;
use pyo3::types::PyType;
use wideberth::player::Habits;
use wideberth::rank::{HabitsRun, Length};

use crate::asked::Asked;
use crate::compare::PyDifference;
use crate::errors::refused;
use crate::getters::getters;
use crate::given::{given, taken_as};
use crate::travel::by_json;

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

getters! {
    PyHabits, self:
    /// The share of the way by which a swing at the pin is chosen too short.
    too_little_club: f64 = self.0.too_little_club;
    /// True for a golfer who aims at every flag.
    every_flag: bool = self.0.every_flag;
    /// True for a golfer who chips or pitches where a putt would do.
    always_chips: bool = self.0.always_chips;
}

by_json! {
    PyHabits(Habits), checked, "habits", "habits",
    "The habits as JSON text; `from_json` gives equal ones back."
}

/// Habits whose numbers are in range.
fn checked(habits: Habits) -> PyResult<PyHabits> {
    habits.check().map_err(refused)?;
    Ok(PyHabits(habits))
}

/// What habits cost on a hole: the seed that was used, and strokes with the player's habits less strokes without.
///
/// Without too little club, every flag, always chipping, and without any.
#[pyfunction]
pub(crate) fn price_of_habits(asked: Asked<'_>) -> PyResult<(u64, [PyDifference; 4])> {
    let (hole, player) = asked.on()?;
    let mut question = asked.question(hole.get())?;
    question.length = Length::Plays(asked.count("plays", "1 to 1,000,000,000")?);
    let seed = question.seed.0;
    let workers = asked.workers()?;
    let (hole, bag) = (hole.get().0.clone(), player.get().bag.clone());
    let run = workers.ask(move || HabitsRun::new(&hole, &bag, question))?;
    let price = workers.run(run.map_err(refused)?)?.price();
    let prices = [
        price.too_little_club,
        price.every_flag,
        price.always_chips,
        price.all,
    ];
    Ok((seed, prices.map(PyDifference::from)))
}
