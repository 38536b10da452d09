//! Plans, instructions and aims.

use pyo3::IntoPyObjectExt;
use pyo3::basic::CompareOp;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyType;
use std::sync::Arc;
use wideberth::plan as core;

use crate::errors::{input_error, refused};
use crate::getters::getters;
use crate::given::{Text, given, items, taken_as};
use crate::hole::PyHole;
use crate::player::PyPlayer;
use crate::solve::PySolution;
use crate::travel::{by_json, check_object, written};
use crate::wave::{PyWave, Shared};
use crate::whole::Whole;

/// A place to aim at: made with `along`, `at` or `short_of_green`.
///
/// Immutable; equal when its numbers are; can be pickled.
#[pyclass(frozen, eq, from_py_object, name = "Aim", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyAim(pub(crate) core::Aim);

taken_as!(PyAim, "a place such as along(230)");

#[pymethods]
impl PyAim {
    pub(crate) fn __repr__(&self) -> String {
        let aside = |place: &str, yards: f64, right: f64| match right {
            right if right < 0.0 => format!("{place}({yards}, left={})", -right),
            right if right > 0.0 => format!("{place}({yards}, right={right})"),
            _ => format!("{place}({yards})"),
        };
        match self.0 {
            core::Aim::Along { along, right } => aside("along", along, right),
            core::Aim::At { x, y } => format!("at({x}, {y})"),
            core::Aim::ShortOfGreen { yards, right } => aside("short_of_green", yards, right),
        }
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (f64, f64))> {
        let module = py.import("wideberth._wideberth")?;
        match self.0 {
            core::Aim::Along { along, right } => Ok((module.getattr("along")?, (along, right))),
            core::Aim::At { x, y } => Ok((module.getattr("at")?, (x, y))),
            core::Aim::ShortOfGreen { yards, right } => {
                Ok((module.getattr("short_of_green")?, (yards, right)))
            }
        }
    }
}

/// What to do with one stroke of a plan.
///
/// Made with `shot`, `leave`, `advance`, `at_pin`, `carry_over` or `exactly`. Immutable; equal when its parts are; can be
/// pickled.
#[pyclass(frozen, eq, name = "Instruction", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyInstruction(pub(crate) core::Instruction);

items!(PyInstruction, "instructions such as shot(...)");

#[pymethods]
impl PyInstruction {
    fn __repr__(&self) -> String {
        match &self.0 {
            core::Instruction::Shot { club, aim, carry } => {
                let aim = PyAim(*aim).__repr__();
                let carry = carry.map_or(String::new(), |c| format!(", carry={c}"));
                format!("shot({club:?}, {aim}{carry})")
            }
            core::Instruction::Leave { yards } => format!("leave({yards})"),
            core::Instruction::Advance { yards } => format!("advance({yards})"),
            core::Instruction::AtPin { clubs: 0 } => "at_pin()".to_owned(),
            core::Instruction::AtPin { clubs } => format!("at_pin(clubs={clubs:+})"),
            core::Instruction::Carry { over, by } => {
                format!("carry_over({}, by={by})", PyAim(*over).__repr__())
            }
            core::Instruction::Exactly {
                stroke,
                over,
                carry,
            } => {
                let carry = carry.map_or(String::new(), |c| format!(", carry={c}"));
                format!("exactly({stroke:?}, {}{carry})", PyAim(*over).__repr__())
            }
        }
    }
}

by_json! {
    PyInstruction(core::Instruction), checked, "an instruction", "instruction",
    "The instruction as JSON text; `from_json` gives an equal one back."
}

/// An instruction whose numbers are in range.
fn checked(instruction: core::Instruction) -> PyResult<PyInstruction> {
    instruction.check().map_err(refused)?;
    Ok(PyInstruction(instruction))
}

/// Instructions for the first strokes, then a strategy for the rest.
///
/// An instruction is meant for a ball in play on tee, fairway, first cut or rough. From trouble and on the
/// green the strategy decides, and the instruction stays due. One whose place is behind the ball or no more than 20
/// yards ahead is done: the ball plays the next one, or the strategy's shot after the last. A hole on which that is so
/// from the tee on is refused when the plan is to be played there.
/// Immutable; equal when its parts are; can be pickled.
///
/// Args:
///     name: tells the plan from others; not empty.
///     instructions: for the first strokes, in order; may be empty.
///     then: `"steady"` (where the whole pattern fits, out of trouble by the safest way), `"direct"` (at the
///         pin whenever it can be reached), `"best"` (the hole is solved for the player when the plan is first played, once
///         for all plans, and the ball goes on by the best play there is), a solution by `solve` for the hole and the
///         player that play, or a strategy of your own by `strategy`.
///
/// Raises:
///     InputError: an empty name, or a strategy that is not known.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.Plan("lay up", [wb.shot("5-wood", wb.along(190, left=5)), wb.leave(100)])
///     Plan("lay up", [shot("5-wood", along(190, left=5)), leave(100)], then="steady")
///     >>> wb.Plan("hit it", [wb.shot("driver", wb.along(220))], then="reckless")
///     Traceback (most recent call last):
///         ...
///     wideberth.InputError: then is "reckless"; it must be "direct", "steady", "best" or a solution
#[pyclass(frozen, name = "Plan", module = "wideberth")]
#[derive(Clone)]
pub(crate) struct PyPlan {
    pub(crate) plan: core::Plan,
    own: Own,
}

taken_as!(PyPlan, "a Plan");
items!(PyPlan, "plans");

/// The Python object behind a strategy that has no name in the core.
#[derive(Clone)]
enum Own {
    Nothing,
    Solution(Box<PySolution>),
    Strategy(Shared),
}

#[pymethods]
impl PyPlan {
    #[new]
    #[pyo3(
        signature = (name, instructions, then = Given::Nothing),
        text_signature = "(name, instructions, then='steady')"
    )]
    fn new(
        #[pyo3(from_py_with = given)] name: &str,
        #[pyo3(from_py_with = given)] instructions: Vec<PyInstruction>,
        then: Given<'_>,
    ) -> PyResult<Self> {
        let instructions = instructions.into_iter().map(|i| i.0).collect();
        let (then, own) = strategy(then)?;
        core::Plan::new(name, instructions, then)
            .map(|plan| PyPlan { plan, own })
            .map_err(refused)
    }

    /// The strategy that takes over: its name, a solution or a strategy of your own.
    #[getter]
    fn then<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        match &self.own {
            Own::Solution(solution) => py
                .import("wideberth._solution")?
                .getattr("Solution")?
                .call_method1("_of", ((**solution).clone(),)),
            Own::Strategy(strategy) => Ok(strategy.0.bind(py).clone()),
            Own::Nothing => self.plan.then().name().into_bound_py_any(py),
        }
    }

    /// Reads a plan from the text of a wideberth document, as `to_json` writes it. Unknown fields are errors.
    ///
    /// Args:
    ///     text: the JSON text.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or no plan, or a number in it is out of range.
    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: Text) -> PyResult<Self> {
        check_object(&text, "a plan")?;
        core::Plan::from_json(&text)
            .map(PyPlan::from)
            .map_err(refused)
    }

    /// The plan as the text of a wideberth document; `from_json` gives an equal plan back.
    fn to_json(&self) -> PyResult<String> {
        self.plan.to_json().map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Bound<'py, PyAny>> {
        let (py, plan) = (slf.py(), slf.get());
        if matches!(plan.own, Own::Nothing) {
            return written(slf, plan.to_json()?)?.into_bound_py_any(py);
        }
        let parts = (plan.plan.name(), plan.instructions(), plan.then(py)?);
        (slf.get_type(), parts).into_bound_py_any(py)
    }

    fn __richcmp__(&self, other: &Self, py: Python<'_>, op: CompareOp) -> PyResult<bool> {
        let (one, two) = (&self.plan, &other.plan);
        let same = match (&self.own, &other.own) {
            (Own::Nothing, Own::Nothing) => one.then() == two.then(),
            (Own::Solution(one), Own::Solution(two)) => one.is_like(two),
            (Own::Strategy(one), Own::Strategy(two)) => one.0.bind(py).eq(two.0.bind(py))?,
            _ => false,
        };
        let same = same && one.name() == two.name() && one.instructions() == two.instructions();
        match op {
            CompareOp::Eq => Ok(same),
            CompareOp::Ne => Ok(!same),
            _ => Err(pyo3::exceptions::PyTypeError::new_err(
                "plans have no order",
            )),
        }
    }

    fn __repr__(&self, py: Python<'_>) -> PyResult<String> {
        let steps: Vec<String> = self
            .instructions()
            .iter()
            .map(PyInstruction::__repr__)
            .collect();
        let then = match &self.own {
            Own::Strategy(strategy) => strategy.0.bind(py).repr()?.to_string(),
            Own::Solution(_) => "<solution>".to_owned(),
            Own::Nothing => format!("{:?}", self.plan.then().name().unwrap_or_default()),
        };
        Ok(format!(
            "Plan({:?}, [{}], then={then})",
            self.plan.name(),
            steps.join(", "),
        ))
    }
}

getters! {
    PyPlan, self:
    /// Name of the plan.
    name: &str = self.plan.name();
    /// The instructions for the first strokes, in order.
    instructions: Vec<PyInstruction> = self.plan.instructions().iter().cloned().map(PyInstruction).collect();
}

impl From<core::Plan> for PyPlan {
    /// A plan that goes on by a strategy of the core.
    fn from(plan: core::Plan) -> Self {
        let own = Own::Nothing;
        PyPlan { plan, own }
    }
}

impl PyPlan {
    /// The best play of the whole hole.
    pub(crate) fn best() -> PyResult<Self> {
        let plan = core::Plan::new("best", Vec::new(), core::Then::Best);
        plan.map(PyPlan::from).map_err(refused)
    }
}

/// An argument that may be left out, but if given, given as something: None is no strategy.
enum Given<'py> {
    Nothing,
    Something(Bound<'py, PyAny>),
}

impl<'a, 'py> FromPyObject<'a, 'py> for Given<'py> {
    type Error = PyErr;

    fn extract(argument: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        Ok(Given::Something(argument.to_owned()))
    }
}

/// The strategy that takes over, from its name, a solution or one of the caller's own; the steady one if none is given.
fn strategy(then: Given<'_>) -> PyResult<(core::Then, Own)> {
    let Given::Something(then) = then else {
        return Ok((core::Then::Steady, Own::Nothing));
    };
    if let Ok(name) = then.extract::<String>() {
        return Ok((core::Then::from_name(&name).map_err(refused)?, Own::Nothing));
    }
    let solution = then.getattr_opt("_solution")?;
    let solution: Option<PySolution> = solution.and_then(|s| s.extract().ok());
    if let Some(solution) = solution {
        let then = core::Then::Custom(solution.solution.clone());
        return Ok((then, Own::Solution(Box::new(solution))));
    }
    let class = then
        .py()
        .import("wideberth._strategy")?
        .getattr("Strategy")?;
    if then.is_instance(&class)? {
        let otherwise = then.getattr("otherwise")?;
        let (otherwise, _) = strategy(Given::Something(otherwise))?;
        let shared = Arc::new(PyWave(then.unbind()));
        let waves = core::Waves {
            strategy: shared.clone(),
            otherwise: Box::new(otherwise),
        };
        return Ok((core::Then::Waves(waves), Own::Strategy(shared)));
    }
    Err(PyTypeError::new_err(format!(
        "then is of type {}; it must be \"direct\", \"steady\", \"best\", a solution or a strategy of your own",
        then.get_type().name()?
    )))
}

/// An aim told along the line of play: so many yards from the tee, so many to the side.
///
/// Args:
///     yards: yards along the line of play from the tee; a plan allows 0 to 2000.
///     right: yards to the right of the line of play; a plan allows -500 to 500.
///     left: the same to the left; give one of the two.
///
/// Raises:
///     InputError: NaN or infinity, or both sides given.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.along(230, left=6)
///     along(230, left=6)
///     >>> wb.along(230, left=6) == wb.along(230, -6)
///     True
#[pyfunction]
#[pyo3(signature = (yards, right = None, *, left = None))]
pub(crate) fn along(
    #[pyo3(from_py_with = given)] yards: f64,
    #[pyo3(from_py_with = given)] right: Option<f64>,
    #[pyo3(from_py_with = given)] left: Option<f64>,
) -> PyResult<PyAim> {
    let right = to_the_side("along", yards, right, left)?;
    Ok(PyAim(core::Aim::Along {
        along: yards,
        right,
    }))
}

/// Yards to the right of the line of play, of a side given one way or the other; `yards` must be finite, too.
fn to_the_side(of: &str, yards: f64, right: Option<f64>, left: Option<f64>) -> PyResult<f64> {
    let right = match (right, left) {
        (Some(_), Some(_)) => {
            return Err(input_error(format!("{of}: give left or right, not both")));
        }
        (right, left) => right.unwrap_or(0.0) - left.unwrap_or(0.0),
    };
    if yards.is_finite() && right.is_finite() {
        Ok(right)
    } else {
        Err(input_error(format!(
            "{of}: yards is {yards} and right is {right}; both must be finite numbers"
        )))
    }
}

/// A place so many yards short of the front edge of the green on the line of play.
///
/// Args:
///     yards: yards along the line of play before the front edge of the green; negative is past the edge.
///     right: yards to the right of the line of play.
///     left: the same to the left; give one of the two.
///
/// Raises:
///     InputError: NaN or infinity, or both sides given.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.short_of_green(8, left=3)
///     short_of_green(8, left=3)
///     >>> hole = wb.Hole.sketch(par=4, length=392, fringe_width=1.5)
///     >>> hole.surface_at(wb.short_of_green(-1)), hole.surface_at(wb.short_of_green(1))
///     ('green', 'fringe')
#[pyfunction]
#[pyo3(signature = (yards, right = None, *, left = None))]
pub(crate) fn short_of_green(
    #[pyo3(from_py_with = given)] yards: f64,
    #[pyo3(from_py_with = given)] right: Option<f64>,
    #[pyo3(from_py_with = given)] left: Option<f64>,
) -> PyResult<PyAim> {
    let right = to_the_side("short_of_green", yards, right, left)?;
    Ok(PyAim(core::Aim::ShortOfGreen { yards, right }))
}

/// An aim at a point of the plan.
///
/// Args:
///     x: yards to the right of the plan's origin.
///     y: yards up from the plan's origin.
///
/// Raises:
///     InputError: NaN or infinity.
#[pyfunction]
pub(crate) fn at(
    #[pyo3(from_py_with = given)] x: f64,
    #[pyo3(from_py_with = given)] y: f64,
) -> PyResult<PyAim> {
    if x.is_finite() && y.is_finite() {
        Ok(PyAim(core::Aim::At { x, y }))
    } else {
        Err(input_error(format!(
            "at: x is {x} and y is {y}; both must be finite numbers"
        )))
    }
}

/// An instruction: swing a club over an aim.
///
/// Args:
///     club: name of the club; that the player has it is checked when the plan is played.
///     aim: the place aimed over, `along(...)` or `at(...)`. A full swing goes as far as the club goes, not as
///         far as the aim.
///     carry: carry meant, 1 to 450 yards; None for a full swing.
///
/// Raises:
///     InputError: a number out of range.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.shot("7-iron", wb.along(140, right=3), carry=120)
///     shot("7-iron", along(140, right=3), carry=120)
#[pyfunction]
#[pyo3(signature = (club, aim, *, carry = None))]
pub(crate) fn shot(
    #[pyo3(from_py_with = given)] club: &str,
    #[pyo3(from_py_with = given)] aim: &PyAim,
    #[pyo3(from_py_with = given)] carry: Option<f64>,
) -> PyResult<PyInstruction> {
    checked(core::Instruction::Shot {
        club: club.to_owned(),
        aim: aim.0,
        carry,
    })
}

/// An instruction: play to the place on the line of play that leaves so many yards to the pin.
///
/// A lay-up that is nearly reached is done: a ball no more than 20 yards farther from the pin than that plays the next
/// instruction of the plan, or the strategy's shot. On a hole that is no longer than that from the tee on, running the plan
/// is refused.
///
/// Args:
///     yards: yards left to the pin, 1 to 1000.
///
/// Raises:
///     InputError: a number out of range.
#[pyfunction]
pub(crate) fn leave(#[pyo3(from_py_with = given)] yards: f64) -> PyResult<PyInstruction> {
    checked(core::Instruction::Leave { yards })
}

/// An instruction: move the ball so many yards down the line of play.
///
/// Passed over, as done, where that would leave 20 yards to the pin or less.
///
/// Args:
///     yards: yards along the line of play, 1 to 450.
///
/// Raises:
///     InputError: a number out of range.
#[pyfunction]
pub(crate) fn advance(#[pyo3(from_py_with = given)] yards: f64) -> PyResult<PyInstruction> {
    checked(core::Instruction::Advance { yards })
}

/// An instruction: play at the pin, as far towards it as the longest club goes.
///
/// The club is the shortest one that gets there in the middle of its pattern, as always. With `clubs` it is so many more or
/// less, swung by the same share: "take one more club, and swing it as you would have". A bag that ends before that gives
/// the longest or the shortest club. What is no swing of a club (a chip, a pitch, a putt) stays as it is.
///
/// Args:
///     clubs: clubs more than that, -6 to 6; below 0 for less.
///
/// Raises:
///     InputError: a number out of range.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.at_pin(clubs=+1)
///     at_pin(clubs=+1)
#[pyfunction]
#[pyo3(signature = (*, clubs = Whole::from(0)), text_signature = "(*, clubs=0)")]
pub(crate) fn at_pin(clubs: Whole) -> PyResult<PyInstruction> {
    let clubs = clubs.fit("clubs", "-6 to 6")?;
    checked(core::Instruction::AtPin { clubs })
}

/// An instruction: carry a place, such as the far edge of the water, and be sure of it.
///
/// The club is the shortest one whose ball lands `by` yards beyond the place in the middle of its pattern (half of its
/// shots land farther, half shorter), on the day and with the heights there are, swung fully over the place; the longest
/// club if none does. Passed over, as done, when the place is not ahead by more than 20 yards.
///
/// Course rating counts an obstacle as carried safely when it is cleared by 10 yards or more (Course Rating System Manual,
/// published): hence the default.
///
/// Args:
///     over: the place to carry, `along(...)`, `at(...)` or `short_of_green(...)`.
///     by: yards beyond it at which the ball is to land, 0 to 100.
///
/// Raises:
///     InputError: a number out of range.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.carry_over(wb.along(180))
///     carry_over(along(180), by=10)
#[pyfunction]
#[pyo3(signature = (over, *, by = 10.0))]
pub(crate) fn carry_over(
    #[pyo3(from_py_with = given)] over: &PyAim,
    #[pyo3(from_py_with = given)] by: f64,
) -> PyResult<PyInstruction> {
    checked(core::Instruction::Carry { over: over.0, by })
}

/// An instruction: the very stroke, from whatever lie it suits and wherever the ball is.
///
/// Nothing is held off for wind or slope, and nothing is passed over because it lies behind: what `Solution.shot_from`
/// tells is played so. A stroke that does not suit the lie of the ball (a bunker shot from grass, a putt from rough) is
/// passed over.
///
/// Args:
///     stroke: name of a club, or of a stroke around the green: `"putt"`, `"putter"` (from off the green), `"chip"`,
///         `"pitch"`, `"lob"`, `"bunker shot"`, `"punch"`.
///     over: the place that is aimed over. A putt is at the hole wherever that is.
///     carry: carry meant, 0 to 450 yards (of the putter off the green, the roll); None for a full stroke.
///
/// Raises:
///     InputError: a number out of range.
///
/// Example:
///     >>> import wideberth as wb
///     >>> wb.exactly("pitch", wb.at(2, 381), carry=24)
///     exactly("pitch", at(2, 381), carry=24)
#[pyfunction]
#[pyo3(signature = (stroke, over, *, carry = None))]
pub(crate) fn exactly(
    #[pyo3(from_py_with = given)] stroke: &str,
    #[pyo3(from_py_with = given)] over: &PyAim,
    #[pyo3(from_py_with = given)] carry: Option<f64>,
) -> PyResult<PyInstruction> {
    checked(core::Instruction::Exactly {
        stroke: stroke.to_owned(),
        over: over.0,
        carry,
    })
}

/// Proposes plans: every sensible club off the tee, aimed where its pattern does best, and the ways to go on.
///
/// Where the green is in reach: the clubs about that distance, at the pin and at the middle of the green, and a
/// lay-up. The same hole and player always get the same proposals. The first is the boldest.
///
/// Args:
///     hole: the hole.
///     player: the player.
///
/// Example:
///     >>> import wideberth as wb
///     >>> plans = wb.suggest_plans(wb.Hole.sketch(par=4, length=392), wb.Player.from_handicap(18))
///     >>> plans[0].name
///     'driver, then at the pin'
#[pyfunction]
pub(crate) fn suggest_plans(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] hole: &PyHole,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
) -> PyResult<Vec<PyPlan>> {
    let pool = crate::pool::pool(None)?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let plans = crate::pool::ask(py, &pool, move || {
        let scene = core::Scene::new(hole, bag).map_err(refused)?;
        Ok::<_, PyErr>(core::suggest_plans(&scene))
    })??;
    Ok(plans.into_iter().map(PyPlan::from).collect())
}
