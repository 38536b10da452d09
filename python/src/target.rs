//! A target score on a course: the best chance to break it, and the plan.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::sync::Arc;
use wideberth::round::{
    CheckpointTold, CourseWays, Field, HoleWay, Scoring, SolvingWays, Target, check_target,
};

use crate::course::PyCourse;
use crate::errors::{input_error, refused};
use crate::given::given;
use crate::player::PyPlayer;
use crate::pool;
use crate::ranking::pair;
use crate::solve::threads as threads_given;
use crate::steps::Steps;
use crate::whole::{SeedGiven, Whole};

/// The chance to break a score; `wideberth.Target` asks it.
#[pyclass(frozen, eq, name = "Target", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyTarget(Target);

/// A mean and its standard error.
type Told = (f64, f64);

/// A milestone: what it is, the feet of a putt, how often it is reached and what it is worth.
type MilestoneRow = (&'static str, Option<u16>, Told, Option<f64>);

fn milestone(told: &CheckpointTold) -> MilestoneRow {
    (
        told.kind.name(),
        told.within_ft,
        pair(told.made),
        told.worth,
    )
}

#[pymethods]
impl PyTarget {
    /// The score to be broken.
    #[getter]
    fn to_break(&self) -> u16 {
        self.0.found.to_break
    }

    /// Plays of every way on every hole.
    #[getter]
    fn plays(&self) -> u64 {
        self.0.found.plays
    }

    /// The seed that fixed the luck.
    #[getter]
    fn seed(&self) -> u64 {
        self.0.found.seed.0
    }

    /// Yards between the places that were solved.
    #[getter]
    fn cell(&self) -> f64 {
        self.0.found.cell
    }

    /// The chance by the plan and its standard error.
    #[getter]
    fn chance(&self) -> Told {
        pair(self.0.found.chance)
    }

    /// The chance by fewest strokes everywhere and its standard error.
    #[getter]
    fn by_fewest(&self) -> Told {
        pair(self.0.found.by_fewest)
    }

    /// What the plan gains, paired, and its standard error.
    #[getter]
    fn gain(&self) -> Told {
        pair(self.0.found.gain)
    }

    /// The chance from the tee of a hole with so many strokes so far.
    fn chance_from(&self, hole: Whole, strokes_so_far: Whole) -> PyResult<f64> {
        let (hole, strokes) = stands(hole, strokes_so_far)?;
        self.0.chance_from(hole, strokes).map_err(refused)
    }

    /// The way that is taken there.
    fn way_from(&self, hole: Whole, strokes_so_far: Whole) -> PyResult<&'static str> {
        let (hole, strokes) = stands(hole, strokes_so_far)?;
        let way = self.0.way_from(hole, strokes).map_err(refused)?;
        Ok(way.name())
    }

    /// How likely the plan comes to the tee of the hole at a place (or, past the last, to the end) by strokes so far.
    fn likely(&self, place: usize) -> PyResult<Vec<f64>> {
        let rows = &self.0.found.likely;
        rows.get(place).cloned().ok_or_else(|| {
            input_error(format!("place is {place}; it must be below {}", rows.len()))
        })
    }

    /// Names of the ways.
    #[getter]
    fn ways(&self) -> Vec<&'static str> {
        HoleWay::ALL.into_iter().map(HoleWay::name).collect()
    }

    /// A dict a hole, in the order of play.
    fn plan<'py>(&self, py: Python<'py>) -> PyResult<Vec<Bound<'py, PyDict>>> {
        let told = |plan: &wideberth::round::HolePlan| {
            let row = PyDict::new(py);
            row.set_item("way", HoleWay::ALL[usize::from(plan.way)].name())?;
            row.set_item("score_to_make", plan.score_to_make)?;
            row.set_item("made", pair(plan.made))?;
            row.set_item("mean", pair(plan.mean))?;
            row.set_item("bogey_or_better", pair(plan.bogey_or_better))?;
            row.set_item("club", &plan.club)?;
            row.set_item("aim", &plan.aim)?;
            row.set_item("leave", plan.leave)?;
            row.set_item("words", &plan.words)?;
            row.set_item("press", &plan.press)?;
            let checkpoints: Vec<MilestoneRow> = plan.checkpoints.iter().map(milestone).collect();
            row.set_item("checkpoints", checkpoints)?;
            row.set_item("scores", plan.scores.clone())?;
            Ok(row)
        };
        self.0.found.plan.iter().map(told).collect()
    }

    /// Puts a pickled target together again.
    #[staticmethod]
    fn _restore(course: &PyCourse, found: &str) -> PyResult<Self> {
        let found = serde_json::from_str(found).map_err(refused)?;
        Target::restored(course.0.clone(), found)
            .map(PyTarget)
            .ok_or_else(|| input_error("found is of another course"))
    }

    fn __reduce__<'py>(
        slf: &Bound<'py, Self>,
    ) -> PyResult<(Bound<'py, PyAny>, (PyCourse, String))> {
        let target = &slf.get().0;
        let found = serde_json::to_string(&target.found).map_err(refused)?;
        let course = PyCourse::from(target.course.clone());
        Ok((slf.get_type().getattr("_restore")?, (course, found)))
    }
}

/// The number of a hole and the strokes so far.
fn stands(hole: Whole, strokes: Whole) -> PyResult<(i64, u32)> {
    let hole = hole.fit("hole", "the number of a hole")?;
    let strokes = strokes.fit("strokes_so_far", "0 or more")?;
    Ok((hole, strokes))
}

/// The ways to play a course, solved or as they are kept with it.
pub(crate) fn ways(
    py: Python<'_>,
    pool: &Arc<rayon::ThreadPool>,
    course: &PyCourse,
    player: &PyPlayer,
    cell: f64,
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<CourseWays> {
    if let Some(kept) = course.kept(&player.player, cell) {
        return Ok(kept);
    }
    let (map, bag) = (course.0.clone(), player.bag.clone());
    let solving = pool::ask(py, pool, move || {
        SolvingWays::new(Field::new(map, &bag)?, cell)
    })?;
    let steps = pool::run(py, pool, Steps(solving.map_err(refused)?), progress)?;
    let ways = steps.0.ways().ok_or_else(|| input_error("not solved"))?;
    course.keep(player.player.clone(), cell, ways.clone());
    Ok(ways)
}

/// The best chance to break a score; `wideberth.break_score` says what each argument is.
///
/// Raises:
///     InputError: before anything is solved, naming the field, the value and what is allowed.
#[pyfunction]
#[pyo3(signature = (course, player, target, *, plays, seed, cell, threads, progress))]
#[expect(
    clippy::too_many_arguments,
    reason = "keyword arguments of the Python function"
)]
pub(crate) fn break_score(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] course: &PyCourse,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    target: Whole,
    plays: Whole,
    seed: SeedGiven,
    #[pyo3(from_py_with = given)] cell: f64,
    threads: Option<Whole>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<PyTarget> {
    let target: u16 = target.fit("target", "a total of a round")?;
    check_target(&course.0, target).map_err(refused)?;
    let plays = plays.fit("plays", "200 to 100,000")?;
    Scoring::check(plays).map_err(refused)?;
    let seed = seed.fit()?;
    let pool = pool::pool(threads_given(threads)?)?;
    let ways = ways(py, &pool, course, player, cell, progress.as_ref())?;
    let scoring = Scoring::new(ways, seed, plays).map_err(refused)?;
    let scoring = pool::run(py, &pool, scoring, progress.as_ref())?;
    let found = pool::ask(py, &pool, move || Target::of(&scoring, target))?;
    Ok(PyTarget(found.map_err(refused)?))
}
