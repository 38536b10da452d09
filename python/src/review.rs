//! A round as it was written down, judged.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::collections::BTreeMap;
use std::sync::Arc;
use wideberth::plan::Scene;
use wideberth::round::HoleWay;
use wideberth::round::review::{Part, Review, Reviewing, Summed, WrittenRound};
use wideberth::solve::{Solution, Solving, Task};

use crate::asked::Asked;
use crate::columns::Columns;
use crate::errors::refused;
use crate::given::given;
use crate::player::PyPlayer;
use crate::solve::solved;

/// Strokes, outcomes, notes, sums by kind, and the score next to what was to be expected.
type Told<'py> = (
    Bound<'py, PyDict>,
    Bound<'py, PyDict>,
    Vec<String>,
    Bound<'py, PyDict>,
    (u32, f64, f64),
);

/// Judges a round, `text` being that of its table.
///
/// Returns:
///     Columns of its strokes, columns of the shots of which the outcome is known, notes on the table, columns of what the
///     strokes come to by part, hole, club and in all, and the score, the score to be expected and how much it is over.
#[pyfunction]
pub(crate) fn review<'py>(
    asked: Asked<'py>,
    #[pyo3(from_py_with = given)] text: &str,
) -> PyResult<Told<'py>> {
    let (course, player) = (asked.course()?, asked.one::<PyPlayer>("player")?);
    let (course, player) = (course.get(), player.get());
    // It changes nothing, and what is no seed is refused as by every question.
    asked.seed()?;
    let cell: f64 = asked.get("cell")?;
    let round = WrittenRound::read(text, &course.0, &player.bag).map_err(refused)?;
    let workers = asked.workers()?;
    let mut solutions: BTreeMap<usize, Arc<Solution>> = BTreeMap::new();
    let kept = course.kept(&player.player, cell);
    for strokes in round.holes() {
        let place = strokes[0].place;
        let solution = match &kept {
            Some(ways) => ways.solution(place, HoleWay::Fewest).clone(),
            None => {
                let (hole, bag) = (course.0.holes()[place].clone(), player.bag.clone());
                let task = Task {
                    cell,
                    ..Task::default()
                };
                solved(&workers, move || {
                    let scene = Scene::new(hole, bag).map_err(refused)?;
                    Solving::new(Arc::new(scene), task).map_err(refused)
                })?
            }
        };
        solutions.insert(place, solution);
    }
    let of = |place: usize| solutions[&place].clone();
    let reviewing = Reviewing::new(&course.0, &round, of).map_err(refused)?;
    let review = workers.run(reviewing)?.review();
    let numbers = course.0.numbers();

    let strokes = Columns::of(asked.py(), &review.strokes);
    strokes.whole("row", |s| s.row as i64)?;
    strokes.whole("hole", |s| numbers[s.place])?;
    strokes.whole("stroke", |s| s.number)?;
    strokes.texts("club", |s| &s.club)?;
    strokes.texts("part", |s| s.part.name())?;
    strokes.texts("lie", |s| s.from.lie.name())?;
    strokes.add("x", |s| s.from.at.x)?;
    strokes.add("y", |s| s.from.at.y)?;
    strokes.add("to_pin", |s| s.to_pin)?;
    strokes.add("before", |s| s.gained.before)?;
    strokes.add("after", |s| s.gained.after)?;
    strokes.whole("used", |s| s.gained.used)?;
    strokes.add("gained", |s| s.gained.gained)?;
    strokes.add("choice", |s| s.choice)?;
    strokes.add("execution", |s| s.execution)?;
    strokes.add("luck", |s| s.luck)?;
    strokes.texts("best", |s| &s.best)?;
    strokes.add("judged", |s| s.is_judged)?;

    let outcomes = PyDict::new(asked.py());
    let known = &review.outcomes;
    outcomes.set_item("club", column(known, |o| o.club.clone()))?;
    outcomes.set_item("finish", column(known, |o| o.finish))?;
    outcomes.set_item("width", column(known, |o| o.width))?;
    outcomes.set_item("depth", column(known, |o| o.depth))?;
    outcomes.set_item("lie", column(known, |o| o.lie.name()))?;
    let sums = sums(asked.py(), &review, numbers)?;
    let score = (review.score(), review.expected(), review.over_expected());
    Ok((strokes.made, outcomes, review.notes, sums, score))
}

/// What the strokes come to by part of the game, hole and club, and in all, as columns by the name of the kind.
fn sums<'py>(py: Python<'py>, review: &Review, numbers: &[u8]) -> PyResult<Bound<'py, PyDict>> {
    let (parts, holes) = (review.by_part(), review.by_hole());
    let (clubs, all) = (review.by_club(), [("all", review.in_all())]);
    let tables = PyDict::new(py);
    let part = Columns::of(py, &parts);
    part.texts("part", |(part, _): &(Part, _)| part.name())?;
    tables.set_item("part", summed(part)?)?;
    let hole = Columns::of(py, &holes);
    hole.whole("hole", |&(place, _)| numbers[place])?;
    tables.set_item("hole", summed(hole)?)?;
    for (name, rows) in [("club", &*clubs), ("all", &all)] {
        let table = Columns::of(py, rows);
        table.texts(name, |(kind, _)| kind)?;
        tables.set_item(name, summed(table)?)?;
    }
    Ok(tables)
}

/// Adds the columns of the sums of each kind.
fn summed<'py, K>(table: Columns<'py, '_, (K, Summed)>) -> PyResult<Bound<'py, PyDict>> {
    table.whole("strokes", |(_, sum)| sum.strokes)?;
    table.add("gained", |(_, sum)| sum.gained)?;
    table.add("choice", |(_, sum)| sum.choice)?;
    table.add("execution", |(_, sum)| sum.execution)?;
    table.add("luck", |(_, sum)| sum.luck)?;
    table.add("beyond_luck", |(_, sum)| sum.beyond_luck)?;
    Ok(table.made)
}

/// A column as a list, which may have gaps.
fn column<R, T>(rows: &[R], of: impl Fn(&R) -> T) -> Vec<T> {
    rows.iter().map(of).collect()
}
