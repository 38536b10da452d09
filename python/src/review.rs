//! A round as it was written down, judged.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::collections::BTreeMap;
use std::sync::Arc;
use wideberth::plan::Scene;
use wideberth::round::HoleWay;
use wideberth::round::review::{JudgedStroke, Reviewing, WrittenRound};
use wideberth::solve::{Solution, Solving, Task};

use crate::course::PyCourse;
use crate::errors::{input_error, refused};
use crate::given::given;
use crate::player::PyPlayer;
use crate::pool;
use crate::solve::threads as threads_given;
use crate::steps::Steps;
use crate::whole::Whole;

/// A dict a row.
type Rows<'py> = Vec<Bound<'py, PyDict>>;

/// Judges a round; `wideberth.review` says what each argument is. `text` is that of the table.
///
/// Returns:
///     A dict a stroke, a dict a shot of which the outcome is known, and notes on the table.
///
/// Raises:
///     InputError: before anything is solved, every fault of the table.
#[pyfunction]
#[pyo3(signature = (course, player, text, *, cell, threads, progress))]
pub(crate) fn review<'py>(
    py: Python<'py>,
    #[pyo3(from_py_with = given)] course: &PyCourse,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    #[pyo3(from_py_with = given)] text: &str,
    #[pyo3(from_py_with = given)] cell: f64,
    threads: Option<Whole>,
    progress: Option<Bound<'py, PyAny>>,
) -> PyResult<(Rows<'py>, Rows<'py>, Vec<String>)> {
    let round = WrittenRound::read(text, &course.0, &player.bag).map_err(refused)?;
    let pool = pool::pool(threads_given(threads)?)?;
    let mut solutions: BTreeMap<usize, Arc<Solution>> = BTreeMap::new();
    let kept = course.kept(&player.player, cell);
    for strokes in round.holes() {
        let place = strokes[0].place;
        let solution = match &kept {
            Some(ways) => ways.solution(place, HoleWay::Fewest).clone(),
            None => solved(py, &pool, course, player, (place, cell), progress.as_ref())?,
        };
        solutions.insert(place, solution);
    }
    let of = |place: usize| solutions[&place].clone();
    let reviewing = Reviewing::new(&course.0, &round, of).map_err(refused)?;
    let reviewing = pool::run(py, &pool, reviewing, progress.as_ref())?;
    let review = reviewing.review();
    let numbers = course.0.numbers();
    let strokes = review.strokes.iter().map(|s| stroke(py, s, numbers));
    let outcomes = review.outcomes.iter().map(|outcome| {
        let row = PyDict::new(py);
        row.set_item("club", &outcome.club)?;
        row.set_item("finish", outcome.finish)?;
        row.set_item("width", outcome.width)?;
        row.set_item("depth", outcome.depth)?;
        row.set_item("lie", outcome.lie.name())?;
        Ok(row)
    });
    Ok((
        strokes.collect::<PyResult<_>>()?,
        outcomes.collect::<PyResult<_>>()?,
        review.notes,
    ))
}

/// A hole solved for fewest strokes.
fn solved(
    py: Python<'_>,
    pool: &Arc<rayon::ThreadPool>,
    course: &PyCourse,
    player: &PyPlayer,
    (place, cell): (usize, f64),
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<Arc<Solution>> {
    let task = Task {
        cell,
        ..Task::default()
    };
    let hole = course.0.holes()[place].clone();
    let bag = player.bag.clone();
    let solving = pool::ask(py, pool, move || {
        let scene = Scene::new(hole, bag).map_err(refused)?;
        Solving::new(Arc::new(scene), task).map_err(refused)
    })??;
    let steps = pool::run(py, pool, Steps(solving), progress)?;
    let solution = steps.0.solution();
    Ok(Arc::new(solution.ok_or_else(|| input_error("not solved"))?))
}

/// A stroke as a dict.
fn stroke<'py>(
    py: Python<'py>,
    judged: &JudgedStroke,
    numbers: &[u8],
) -> PyResult<Bound<'py, PyDict>> {
    let row = PyDict::new(py);
    row.set_item("row", judged.row)?;
    row.set_item("hole", numbers[judged.place])?;
    row.set_item("stroke", judged.number)?;
    row.set_item("club", &judged.club)?;
    row.set_item("part", judged.part.name())?;
    row.set_item("lie", judged.from.lie.name())?;
    row.set_item("x", judged.from.at.x)?;
    row.set_item("y", judged.from.at.y)?;
    row.set_item("to_pin", judged.to_pin)?;
    row.set_item("before", judged.gained.before)?;
    row.set_item("after", judged.gained.after)?;
    row.set_item("used", judged.gained.used)?;
    row.set_item("gained", judged.gained.gained)?;
    row.set_item("choice", judged.choice)?;
    row.set_item("execution", judged.execution)?;
    row.set_item("luck", judged.luck)?;
    row.set_item("best", &judged.best)?;
    row.set_item("judged", judged.is_judged)?;
    Ok(row)
}
