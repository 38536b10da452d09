//! A target score on a course: the best chance to break it, and the plan.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::round::{
    CheckpointTold, CourseWays, Field, HolePlan, HoleWay, Scoring, SolvingWays, Target,
    check_target,
};

use crate::asked::{Asked, Workers};
use crate::columns::Columns;
use crate::course::PyCourse;
use crate::errors::{input_error, refused};
use crate::getters::getters;
use crate::player::PyPlayer;
use crate::ranking::pair;
use crate::rounds::on_card;
use crate::steps::Steps;
use crate::travel::by_course;
use crate::whole::Whole;

/// The chance to break a score; `wideberth.Target` asks it.
#[pyclass(frozen, eq, name = "Target", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyTarget(Target);

/// A mean and its standard error.
type Told = (f64, f64);

getters! {
    PyTarget, self:
    /// The score to be broken.
    to_break: u16 = self.0.found.to_break;
    /// Plays of every way on every hole.
    plays: u64 = self.0.found.plays;
    /// The seed that fixed the luck.
    seed: u64 = self.0.found.seed.0;
    /// The chance by the plan and its standard error.
    chance: Told = pair(self.0.found.chance);
    /// The chance by fewest strokes everywhere and its standard error.
    by_fewest: Told = pair(self.0.found.by_fewest);
    /// What the plan gains, paired, and its standard error.
    gain: Told = pair(self.0.found.gain);
    /// Names of the ways.
    ways: Vec<&'static str> = HoleWay::ALL.into_iter().map(HoleWay::name).collect();
}

#[pymethods]
impl PyTarget {
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

    /// The plan as columns in the order of play; `wideberth.Target.plan` says what they are.
    fn plan<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let table = on_card(py, &self.0.course)?;
        let plan = &self.0.found.plan;
        let budget = Columns::of(py, plan);
        budget.whole("score_to_make", |hole| hole.score_to_make)?;
        budget.texts("way", |hole| HoleWay::ALL[usize::from(hole.way)].name())?;
        budget.texts("club", |hole| &hole.club)?;
        budget.texts("aim", |hole| &hole.aim)?;
        budget.add("leave", |hole| hole.leave)?;
        budget.texts("words", |hole| &hole.words)?;
        budget.texts("press", |hole| &hole.press)?;
        budget.estimate("made", |hole| hole.made)?;
        budget.estimate("mean", |hole| hole.mean)?;
        budget.estimate("bogey_or_better", |hole| hole.bogey_or_better)?;
        for (place, name) in ["in_play", "putt_for_par", "putt_for_bogey"]
            .into_iter()
            .enumerate()
        {
            let milestone = |hole: &HolePlan| hole.checkpoints[place].clone();
            if plan.iter().any(|hole| milestone(hole).within_ft.is_some()) {
                let feet = |hole: &HolePlan| milestone(hole).within_ft.unwrap_or_default();
                budget.whole(&format!("{name}_ft"), feet)?;
            }
            budget.estimate(name, |hole| milestone(hole).made)?;
            let worth = |hole: &HolePlan| milestone(hole).worth.unwrap_or(f64::NAN);
            budget.add(&format!("{name}_worth"), worth)?;
        }
        let most: Vec<String> = plan.iter().map(worth_most).collect();
        let worth = Columns::of(py, &most);
        worth.texts("worth_most", |words| words)?;
        for columns in [budget.made, worth.made] {
            table.update(columns.as_mapping())?;
        }
        Ok(table)
    }

    /// Share of plays by score on the hole at a place, way by way.
    fn hole_scores(&self, place: usize) -> PyResult<Vec<Vec<(u8, f64)>>> {
        let hole = self.0.found.plan.get(place);
        let hole = hole.ok_or_else(|| input_error(format!("there is no hole at place {place}")))?;
        Ok(hole.scores.clone())
    }
}

by_course!(PyTarget, Target::restored, found);

/// The milestone of a hole that is worth most, with its feet; nothing where none is known to be worth anything.
fn worth_most(hole: &HolePlan) -> String {
    let worth = |told: &CheckpointTold| (told.worth.unwrap_or(f64::NEG_INFINITY), told.kind.name());
    let known = hole.checkpoints.iter().filter(|told| told.worth.is_some());
    let most = known.max_by(|a, b| {
        let (a, b) = (worth(a), worth(b));
        a.0.total_cmp(&b.0).then(a.1.cmp(b.1))
    });
    match most.map(|told| (told.kind.name(), told.within_ft)) {
        None => String::new(),
        Some((name, None)) => name.to_owned(),
        Some((name, Some(feet))) => format!("{name} within {feet} ft"),
    }
}

/// The number of a hole and the strokes so far.
fn stands(hole: Whole, strokes: Whole) -> PyResult<(i64, u32)> {
    let hole = hole.fit("hole", "the number of a hole")?;
    let strokes = strokes.fit("strokes_so_far", "0 or more")?;
    Ok((hole, strokes))
}

/// The ways to play a course, solved or as they are kept with it.
fn ways(
    workers: &Workers<'_>,
    course: &PyCourse,
    player: &PyPlayer,
    cell: f64,
) -> PyResult<CourseWays> {
    if let Some(kept) = course.kept(&player.player, cell) {
        return Ok(kept);
    }
    let (map, bag) = (course.0.clone(), player.bag.clone());
    let solving = workers.ask(move || SolvingWays::new(Field::new(map, &bag)?, cell))?;
    let steps = workers.run(Steps(solving.map_err(refused)?))?;
    let ways = steps.0.ways().ok_or_else(|| input_error("not solved"))?;
    course.keep(player.player.clone(), cell, ways.clone());
    Ok(ways)
}

/// The best chance to break a score.
#[pyfunction]
pub(crate) fn break_score(asked: Asked<'_>) -> PyResult<PyTarget> {
    let (course, player) = (asked.course()?, asked.one::<PyPlayer>("player")?);
    let (course, cell) = (course.get(), asked.get("cell")?);
    let target: u16 = asked.count("target", "a total of a round")?;
    check_target(&course.0, target).map_err(refused)?;
    let plays = asked.count("plays", "200 to 100,000")?;
    Scoring::check(plays).map_err(refused)?;
    let seed = asked.seed()?;
    let workers = asked.workers()?;
    let ways = ways(&workers, course, player.get(), cell)?;
    let scoring = workers.run(Scoring::new(ways, seed, plays).map_err(refused)?)?;
    let found = workers.ask(move || Target::of(&scoring, target))?;
    Ok(PyTarget(found.map_err(refused)?))
}
