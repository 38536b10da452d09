//! A hole solved: the best shot from everywhere.

use numpy::ndarray::Array2;
use numpy::{IntoPyArray, PyArray1, PyArray2};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::sync::Arc;
use wideberth::geometry::Point;
use wideberth::plan::Then;
use wideberth::player::Lie;
use wideberth::situation::Situation;
use wideberth::solve::{
    Fronting, Mapping, Objective, Other, Pointed, Solution, SolveFault, Solving, Task,
};

use crate::asked::{Asked, Workers};
use crate::errors::{input_error, refused};
use crate::getters::getters;
use crate::given::{given, taken_as};
use crate::hole::PyHole;
use crate::places::Place;
use crate::plan::PyInstruction;
use crate::player::PyPlayer;
use crate::pool;
use crate::prepared::prepared;
use crate::steps::Steps;
use crate::whole::Whole;

/// A solved hole; `wideberth.Solution` asks it.
///
/// Places are (x, y) or an aim; a lie is a name, or None for what the place gives.
#[pyclass(
    frozen,
    from_py_object,
    name = "Solution",
    module = "wideberth._wideberth"
)]
#[derive(Clone)]
pub(crate) struct PySolution {
    pub(crate) solution: Arc<Solution>,
    hole: PyHole,
    player: PyPlayer,
    /// The name of a strategy that was valued.
    given: Option<&'static str>,
}

taken_as!(PySolution, "a Solution");

/// The lie of a name.
pub(crate) fn lie(name: Option<&str>) -> PyResult<Option<Lie>> {
    let Some(name) = name else { return Ok(None) };
    Lie::from_name(name).map(Some).ok_or_else(|| {
        refused(SolveFault::UnknownLie {
            given: name.to_owned(),
            known: Lie::ALL.map(Lie::name).join(", "),
        })
    })
}

fn strokes(at_most: Option<Whole>) -> PyResult<Option<u8>> {
    at_most
        .map(|n| n.fit("at_most", "a small number of strokes, at least 1"))
        .transpose()
}

/// What an objective's name and numbers say.
fn objective(kind: &str, whole: Option<Whole>, price: f64) -> PyResult<Objective> {
    match (kind, whole) {
        ("at_most", Some(strokes)) => Ok(Objective::AtMost(
            strokes.fit("at_most", "1 to 30 strokes")?,
        )),
        ("safe", Some(blow_up)) => Ok(Objective::Safe {
            blow_up: blow_up.fit("blow_up", "1 to 14 over par")?,
            price,
        }),
        ("fewest", _) => Ok(Objective::Fewest),
        _ => Err(input_error(format!(
            "objective is {kind:?}; it must be None, at_most(...) or safe(...)"
        ))),
    }
}

/// x, y and the values of a map.
type MapColumns<'py> = (
    Bound<'py, PyArray1<f64>>,
    Bound<'py, PyArray1<f64>>,
    Bound<'py, PyArray2<f64>>,
);

/// Kind, strokes, price, cell and strategy.
type MadeRow = (&'static str, Option<u8>, f64, f64, Option<&'static str>);

/// A row of what another shot would come to: name, words, strokes, chance, cost.
type OtherRow = (String, String, f64, Option<f64>, f64);

fn other(other: Other) -> OtherRow {
    (
        other.name,
        other.words,
        other.strokes,
        other.chance,
        other.cost,
    )
}

/// A shot with what a map and a sentence need of it.
fn pointed(py: Python<'_>, shot: Pointed) -> PyResult<Bound<'_, PyDict>> {
    let told = PyDict::new(py);
    told.set_item("club", shot.club)?;
    told.set_item("target", (shot.shot.target.x, shot.shot.target.y))?;
    told.set_item("carry", shot.shot.carry)?;
    told.set_item("finish", (shot.finish.x, shot.finish.y))?;
    told.set_item("words", shot.words)?;
    let instruction = PyInstruction(shot.instruction).into_pyobject(py)?;
    told.set_item("instruction", instruction)?;
    Ok(told)
}

impl PySolution {
    /// A solution of a hole for a player, or what a strategy of that name is worth there.
    fn of(
        solution: Arc<Solution>,
        (hole, player): (&PyHole, &PyPlayer),
        given: Option<&'static str>,
    ) -> Self {
        PySolution {
            solution,
            hole: hole.clone(),
            player: player.clone(),
            given,
        }
    }

    /// True of solutions of the same task, hole and player.
    pub(crate) fn is_like(&self, other: &Self) -> bool {
        self.solution.task() == other.solution.task()
            && self.given == other.given
            && *self.hole.0 == *other.hole.0
            && self.player.player == other.player.player
    }

    fn situation(&self, at: &Place, name: Option<&str>) -> PyResult<Situation> {
        let at: Point = at.on(self.solution.scene().hole(), "where")?;
        self.solution.situation(at, lie(name)?).map_err(refused)
    }

    /// A shot from a place, as a dict.
    fn pointed_from<'py>(
        &self,
        py: Python<'py>,
        at: &Place,
        lie: Option<&str>,
        shot: fn(&Solution, Situation) -> Pointed,
    ) -> PyResult<Bound<'py, PyDict>> {
        let from = self.situation(at, lie)?;
        pointed(py, self.ask(py, move |solution| shot(solution, from))?)
    }

    /// Asks something on our own threads, with the GIL released.
    pub(crate) fn ask<T: Send + 'static>(
        &self,
        py: Python<'_>,
        ask: impl FnOnce(&Solution) -> T + Send + 'static,
    ) -> PyResult<T> {
        let pool = pool::pool(None)?;
        let solution = self.solution.clone();
        pool::ask(py, &pool, move || ask(&solution))
    }
}

getters! {
    PySolution, self:
    /// The hole.
    hole: PyHole = self.hole.clone();
    /// The player.
    player: PyPlayer = self.player.clone();
    /// What the costs of other shots are told in: "strokes" or "chance".
    costs_are_in: &'static str = self.solution.costs_are_in();
}

#[pymethods]
impl PySolution {
    /// How it was made: the objective's kind, its strokes and price, the cell, and the strategy that was valued.
    #[getter]
    fn made(&self) -> MadeRow {
        let task = self.solution.task();
        let (kind, strokes, price) = match task.objective {
            Objective::AtMost(most) => ("at_most", Some(most), 0.0),
            Objective::Safe { blow_up, price } => ("safe", Some(blow_up), price),
            _ => ("fewest", None, 0.0),
        };
        (kind, strokes, price, task.cell, self.given)
    }

    /// True where the hole is seldom or never finished from the tee: values say no more then.
    fn cannot_be_finished(&self, py: Python<'_>) -> PyResult<bool> {
        self.ask(py, Solution::cannot_be_finished)
    }

    /// Strokes a play from the tee gained on another solution of the same hole and player.
    fn gain_over(&self, #[pyo3(from_py_with = given)] other: &PySolution) -> f64 {
        self.solution.gain_over(&other.solution)
    }

    /// Strokes to hole out, penalties included.
    fn expected_strokes(
        &self,
        py: Python<'_>,
        #[pyo3(from_py_with = given)] r#where: Place,
        #[pyo3(from_py_with = given)] lie: Option<&str>,
    ) -> PyResult<f64> {
        let from = self.situation(&r#where, lie)?;
        self.ask(py, move |solution| solution.expected_strokes(from))
    }

    /// The chance of holing out in so many strokes or fewer; None for as many as the solution plays for.
    fn chance(
        &self,
        py: Python<'_>,
        #[pyo3(from_py_with = given)] r#where: Place,
        #[pyo3(from_py_with = given)] lie: Option<&str>,
        at_most: Option<Whole>,
    ) -> PyResult<f64> {
        let (from, at_most) = (self.situation(&r#where, lie)?, strokes(at_most)?);
        self.ask(py, move |solution| solution.chance(from, at_most))?
            .map_err(refused)
    }

    /// Shares of plays from the tee by score, from 0; the last holds that score and more.
    fn distribution<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyArray1<f64>>> {
        let shares = self.ask(py, Solution::distribution)?;
        Ok(shares.into_pyarray(py))
    }

    /// The shot that is played from a place, with what others cost, as a dict.
    fn shot_from<'py>(
        &self,
        py: Python<'py>,
        #[pyo3(from_py_with = given)] r#where: Place,
        #[pyo3(from_py_with = given)] lie: Option<&str>,
        at_most: Option<Whole>,
    ) -> PyResult<Bound<'py, PyDict>> {
        let (from, left) = (self.situation(&r#where, lie)?, strokes(at_most)?);
        let advice = self
            .ask(py, move |solution| solution.advice(from, left))?
            .map_err(refused)?;
        let told = pointed(
            py,
            Pointed {
                club: advice.club,
                shot: advice.shot,
                finish: advice.finish,
                words: advice.words,
                instruction: advice.instruction,
            },
        )?;
        told.set_item("where", (from.at.x, from.at.y))?;
        told.set_item("lie", from.lie.name())?;
        told.set_item("expected_strokes", advice.strokes)?;
        told.set_item("chance", advice.chance)?;
        told.set_item("runner_up", advice.runner_up.map(other))?;
        let mistakes: Vec<OtherRow> = advice.mistakes.into_iter().map(other).collect();
        told.set_item("mistakes", mistakes)?;
        Ok(told)
    }

    /// The shot that is played from a place, without a look at others, as a dict.
    fn best_shot<'py>(
        &self,
        py: Python<'py>,
        #[pyo3(from_py_with = given)] r#where: Place,
        #[pyo3(from_py_with = given)] lie: Option<&str>,
    ) -> PyResult<Bound<'py, PyDict>> {
        self.pointed_from(py, &r#where, lie, Solution::best_shot)
    }

    /// The ordinary shot at the flag, whatever lies there, as a dict.
    fn flag_shot<'py>(
        &self,
        py: Python<'py>,
        #[pyo3(from_py_with = given)] r#where: Place,
        #[pyo3(from_py_with = given)] lie: Option<&str>,
    ) -> PyResult<Bound<'py, PyDict>> {
        self.pointed_from(py, &r#where, lie, Solution::pointed_at_the_flag)
    }

    /// A stroke aimed over a place with nothing held off, as a dict: `full`, or as far as the place.
    ///
    /// None where it does not suit the lie.
    fn pointed_shot<'py>(
        &self,
        py: Python<'py>,
        club: &str,
        #[pyo3(from_py_with = given)] over: Place,
        full: bool,
        #[pyo3(from_py_with = given)] r#where: Place,
        #[pyo3(from_py_with = given)] lie: Option<&str>,
    ) -> PyResult<Option<Bound<'py, PyDict>>> {
        let from = self.situation(&r#where, lie)?;
        let scene = self.solution.scene();
        let (over, stroke) = (
            over.on(scene.hole(), "over")?,
            scene.stroke(club).map_err(refused)?,
        );
        let shot = self.ask(py, move |solution| {
            solution.pointed(from, stroke, over, full)
        })?;
        shot.map(|shot| pointed(py, shot)).transpose()
    }

    /// The lie of a ball, and the strokes that suit it with the longest carry of each, yards; longest clubs first.
    fn strokes_from(
        &self,
        #[pyo3(from_py_with = given)] r#where: Place,
        #[pyo3(from_py_with = given)] lie: Option<&str>,
    ) -> PyResult<(&'static str, Vec<(String, f64)>)> {
        let from = self.situation(&r#where, lie)?;
        Ok((from.lie.name(), self.solution.strokes_from(from)))
    }

    /// Strokes to come over the hole from a lie, or with `at_most` chances.
    ///
    /// Returns:
    ///     x, y and the values, of shape (len(y), len(x)), with NaN where no ball is played from.
    fn map<'py>(
        &self,
        py: Python<'py>,
        #[pyo3(from_py_with = given)] lie: &str,
        #[pyo3(from_py_with = given)] cell: f64,
        at_most: Option<Whole>,
    ) -> PyResult<MapColumns<'py>> {
        let lie = self::lie(Some(lie))?.unwrap_or(Lie::Fairway);
        let at_most = strokes(at_most)?;
        let mapping = Mapping::new(self.solution.clone(), lie, cell, at_most).map_err(refused)?;
        let pool = pool::pool(None)?;
        let steps = pool::run(py, &pool, Steps(mapping), None)?;
        let map = steps.0.map().ok_or_else(|| input_error("no map"))?;
        let shape = (map.y.len(), map.x.len());
        let values = Array2::from_shape_vec(shape, map.values).map_err(refused)?;
        Ok((
            map.x.into_pyarray(py),
            map.y.into_pyarray(py),
            values.into_pyarray(py),
        ))
    }
}

/// Solves a hole for a player.
#[pyfunction]
pub(crate) fn solve(
    asked: Asked<'_>,
    #[pyo3(from_py_with = given)] kind: &str,
    strokes: Option<Whole>,
    #[pyo3(from_py_with = given)] price: f64,
) -> PyResult<PySolution> {
    let (hole, player) = asked.on()?;
    let (hole, player) = (hole.get(), player.get());
    let task = Task {
        objective: objective(kind, strokes, price)?,
        cell: asked.get("cell")?,
        thorough: false,
    };
    let (map, bag) = (hole.0.clone(), player.bag.clone());
    let solution = solved(&asked.workers()?, move || {
        Solving::new(prepared(&map, &bag)?, task).map_err(refused)
    })?;
    Ok(PySolution::of(solution, (hole, player), None))
}

/// Prepares what is to be solved, and solves it to the end.
pub(crate) fn solved(
    workers: &Workers<'_>,
    solving: impl FnOnce() -> PyResult<Solving> + Send + 'static,
) -> PyResult<Arc<Solution>> {
    let solving = workers.ask(solving)??;
    let steps = workers.run(Steps(solving))?;
    let solution = steps.0.solution().map(Arc::new);
    solution.ok_or_else(|| input_error("not solved"))
}

/// Values a strategy as it is.
#[pyfunction]
pub(crate) fn evaluate(asked: Asked<'_>) -> PyResult<PySolution> {
    let (hole, player) = asked.on()?;
    let (hole, player) = (hole.get(), player.get());
    let (then, cell): (String, f64) = (asked.get("then")?, asked.get("cell")?);
    let workers = asked.workers()?;
    let given = Then::from_name(&then).map_err(refused)?;
    let name = given.name();
    let (map, bag) = (hole.0.clone(), player.bag.clone());
    let solution = solved(&workers, move || {
        let scene = prepared(&map, &bag)?;
        let strategy = given.strategy(&scene).map_err(refused)?;
        Solving::valuing(scene, strategy, cell).map_err(refused)
    })?;
    Ok(PySolution::of(solution, (hole, player), name))
}

/// A point of a frontier: solution, price, mean and chance of a blow-up.
type PointRow = (PySolution, f64, f64, f64);

/// Works out the frontier between average and safety.
#[pyfunction]
pub(crate) fn frontier(asked: Asked<'_>) -> PyResult<Vec<PointRow>> {
    let (hole, player) = asked.on()?;
    let (hole, player) = (hole.get(), player.get());
    let cell: f64 = asked.get("cell")?;
    let blow_up = asked.count("blow_up", "1 to 14 over par")?;
    let workers = asked.workers()?;
    let (map, bag) = (hole.0.clone(), player.bag.clone());
    let fronting = workers
        .ask(move || Fronting::new(prepared(&map, &bag)?, blow_up, cell).map_err(refused))??;
    let steps = workers.run(Steps(fronting))?;
    let points = workers.ask(move || steps.0.points())?;
    let row = |point: wideberth::solve::FrontierPoint| {
        let solution = PySolution::of(point.solution, (hole, player), None);
        (solution, point.price, point.mean, point.blow_up)
    };
    Ok(points.into_iter().map(row).collect())
}
