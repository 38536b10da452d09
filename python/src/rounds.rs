//! Rounds of a course: played, and a course rated.

use numpy::ndarray::Array2;
use numpy::{IntoPyArray, PyArray2};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::collections::BTreeMap;
use wideberth::course::Course;
use wideberth::plan::Plan;
use wideberth::player::Reference;
use wideberth::round::{Field, PlayedRounds, Rating, RatingRun, Rounds, Statistic, Way};
use wideberth::simulate::Cause;

use crate::asked::{Asked, Workers};
use crate::best;
use crate::columns::Columns;
use crate::course::PyCourse;
use crate::errors::{input_error, refused};
use crate::getters::getters;
use crate::given::{checked_share, given};
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::ranking::pair;
use crate::travel::by_course;
use crate::whole::Whole;

/// What rounds of a course came to; `wideberth.PlayedRounds` asks it.
#[pyclass(frozen, eq, name = "PlayedRounds", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyPlayedRounds(pub(crate) PlayedRounds);

/// A mean and its standard error.
type Told = (f64, f64);

getters! {
    PyPlayedRounds, self:
    /// Rounds.
    plays: u64 = self.0.counts().rounds;
    /// The seed that fixed the luck.
    seed: u64 = self.0.counts().seed.0;
    /// How much the mean total is over the par of the course.
    over_par: f64 = self.0.over_par();
    /// Plays of holes broken off at the stroke cap.
    unfinished: u64 = self.0.unfinished();
}

#[pymethods]
impl PyPlayedRounds {
    /// The mean total, its standard error and the standard deviation of a round.
    fn mean(&self) -> (f64, f64, f64) {
        let (mean, deviation) = self.0.mean();
        (mean.mean, mean.standard_error, deviation)
    }

    /// The share of rounds by total, lowest first.
    fn distribution(&self) -> BTreeMap<u16, f64> {
        self.0.distribution().collect()
    }

    /// The share of rounds of at most a total, and its standard error.
    fn at_most(&self, total: Whole) -> PyResult<Told> {
        let total: u16 = total.fit("total", "0 to 65,535")?;
        Ok(pair(self.0.at_most(total)))
    }

    /// The smallest total that a share of rounds do not exceed.
    fn quantile(&self, #[pyo3(from_py_with = given)] share: f64) -> PyResult<u16> {
        Ok(self.0.quantile(checked_share(share)?))
    }

    /// Columns of what golfers keep count of; `wideberth.PlayedRounds.statistics` says what they are.
    fn statistics<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let table = Columns::of(py, &Statistic::ALL);
        table.texts("statistic", |statistic| statistic.name())?;
        table.estimate("a_round", |&statistic| self.0.a_round(statistic))?;
        table.add("chances", |&statistic| self.0.chances(statistic))?;
        table.estimate("share", |&statistic| self.0.share(statistic))?;
        Ok(table.made)
    }

    /// What each hole came to, as columns in the order of play; `wideberth.PlayedRounds.by_hole` says what they are.
    fn by_hole<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let (holes, plans) = (self.0.holes(), &self.0.counts().plans);
        let table = on_card(py, &self.0.course)?;
        table.set_item("plan", py.import("numpy")?.call_method1("array", (plans,))?)?;
        let played = Columns::of(py, &holes);
        played.estimate("mean", |hole| hole.mean)?;
        played.estimate("par_or_better", |hole| hole.par_or_better)?;
        played.estimate("double_or_worse", |hole| hole.double_or_worse)?;
        played.estimate("putts", |hole| hole.putts)?;
        played.estimate("penalties", |hole| hole.penalties)?;
        played.estimate("fairway", |hole| hole.fairway)?;
        played.estimate("green", |hole| hole.green)?;
        played.texts("went_wrong", |hole| hole.cause.map_or("", Cause::name))?;
        table.update(played.made.as_mapping())?;
        Ok(table)
    }

    /// The share of plays of the hole at a place by score.
    fn hole_scores(&self, place: usize) -> PyResult<Vec<(u8, f64)>> {
        let holes = self.0.course.holes().len();
        if place >= holes {
            return Err(input_error(format!(
                "place is {place}; it must be below {holes}"
            )));
        }
        Ok(self.0.hole_scores(place).collect())
    }

    /// What began holes two over par or worse, and how often a round.
    fn blow_up_causes(&self) -> Vec<(&'static str, f64)> {
        let names = Cause::ALL.into_iter().map(Cause::name);
        let names = names.chain(["no single thing"]);
        names.zip(self.0.blow_up_causes()).collect()
    }

    /// Scores of the first twenty thousand rounds at most, shape (rounds, holes), uint8.
    fn scores<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyArray2<u8>>> {
        let scores = self.0.scores();
        let holes = self.0.course.holes().len();
        let shape = (scores.len() / holes, holes);
        let rows = Array2::from_shape_vec(shape, scores.to_vec()).map_err(refused)?;
        Ok(rows.into_pyarray(py))
    }

    /// The Handicap Index that rounds like these make on a rated course, and its standard error.
    fn index(&self, rating: &PyRating) -> PyResult<Told> {
        self.0.index(&rating.0).map(pair).map_err(refused)
    }
}

by_course!(PyPlayedRounds, PlayedRounds::of, counts());

/// The columns with which a table of the holes of a course begins: number, par and length in yards.
pub(crate) fn on_card<'py>(py: Python<'py>, course: &Course) -> PyResult<Bound<'py, PyDict>> {
    let holes: Vec<_> = course.numbers().iter().zip(course.holes()).collect();
    let table = Columns::of(py, &holes);
    table.whole("hole", |(number, _)| **number)?;
    table.whole("par", |(_, hole)| hole.par())?;
    table.add("length", |(_, hole)| hole.length())?;
    Ok(table.made)
}

/// Plays rounds.
#[pyfunction]
pub(crate) fn play_rounds(asked: Asked<'_>) -> PyResult<PyPlayedRounds> {
    let (course, player) = (asked.course()?, asked.one::<PyPlayer>("player")?);
    let (course, player) = (course.get(), player.get());
    let then: String = asked.get("then")?;
    let plans: Option<Vec<PyPlan>> = asked.get("plans")?;
    let way = if then == "best" {
        None
    } else {
        Some(way(&then, "\"direct\", \"steady\" or \"best\"")?)
    };
    let plays = asked.count("plays", "1 to 100,000,000")?;
    let seed = asked.seed()?;
    let workers = asked.workers()?;
    let plans = match (plans, way) {
        (Some(plans), _) => Some(plans),
        (None, Some(_)) => None,
        (None, None) => Some(vec![PyPlan::best()?; course.0.holes().len()]),
    };
    let plans = plans.map(|plans| on_each(&workers, (course, player), &plans));
    let plans = plans.transpose()?;
    let (course, bag) = (course.0.clone(), player.bag.clone());
    let rounds = workers.ask(move || {
        let field = Field::new(course, &bag)?;
        match plans {
            None => Rounds::new(field, way.unwrap_or_default(), seed, plays),
            Some(plans) => Rounds::of_plans(field, &plans, seed, plays),
        }
    })?;
    let rounds = workers.run(rounds.map_err(refused)?)?;
    Ok(PyPlayedRounds(rounds.played()))
}

/// The plans of the holes of a course as a player plays them; as they are where there are not as many as holes.
fn on_each(
    workers: &Workers<'_>,
    (course, player): (&PyCourse, &PyPlayer),
    plans: &[PyPlan],
) -> PyResult<Vec<Plan>> {
    let holes = course.0.holes();
    if plans.len() != holes.len() {
        return Ok(plans.iter().map(|plan| plan.plan.clone()).collect());
    }
    let holes: Vec<PyHole> = holes.iter().cloned().map(PyHole).collect();
    let each = || holes.iter().zip(plans);
    let best = each().filter(|(_, plan)| plan.plan.then().is_best());
    best::prepare(workers, best.map(|(hole, _)| hole), player)?;
    let mut all = Vec::with_capacity(plans.len());
    for (hole, plan) in each() {
        let on = (hole, player);
        all.extend(best::played(workers, on, std::slice::from_ref(plan))?);
    }
    Ok(all)
}

/// A way to play every hole, by name.
pub(crate) fn way(name: &str, allowed: &str) -> PyResult<Way> {
    let known = Way::ALL.into_iter().find(|way| way.name() == name);
    known.ok_or_else(|| input_error(format!("then is {name:?}; it must be {allowed}")))
}

/// A rated course; `wideberth.Rating` asks it.
#[pyclass(frozen, eq, name = "Rating", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyRating(pub(crate) Rating);

getters! {
    PyRating, self:
    /// Rounds of each golfer.
    plays: u64 = self.0.found.rounds;
    /// The seed that fixed the luck.
    seed: u64 = self.0.found.seed.0;
    /// The Course Rating and its standard error.
    scratch: Told = pair(self.0.found.scratch);
    /// The bogey rating and its standard error.
    bogey: Told = pair(self.0.found.bogey);
    /// The Slope Rating and its standard error.
    slope: Told = pair(self.0.found.slope);
}

#[pymethods]
impl PyRating {
    /// Whose reference golfers played: "men" or "women".
    #[getter]
    fn reference(&self) -> &'static str {
        match self.0.found.reference {
            Reference::Men => "men",
            Reference::Women => "women",
        }
    }

    /// What each hole is to both golfers, as columns in the order of play; `wideberth.Rating.by_hole` says what they are.
    fn by_hole<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let table = on_card(py, &self.0.course)?;
        table.del_item("length")?;
        let used = self.0.stroke_indexes();
        let holes: Vec<_> = self.0.found.holes.iter().zip(used).collect();
        let rated = Columns::of(py, &holes);
        rated.estimate("scratch", |(hole, _)| hole.scratch)?;
        rated.estimate("bogey", |(hole, _)| hole.bogey)?;
        rated.whole("stroke_index", |(_, used)| *used)?;
        rated.whole("by_procedure", |(hole, _)| hole.stroke_index)?;
        table.update(rated.made.as_mapping())?;
        Ok(table)
    }

    /// The stroke indexes in use: the card's, or else those by the procedure.
    fn stroke_indexes(&self) -> Vec<i64> {
        let indexes = self.0.stroke_indexes();
        indexes.into_iter().map(i64::from).collect()
    }
}

by_course!(PyRating, Rating::of, found);

/// Rates a course.
#[pyfunction]
pub(crate) fn rating(asked: Asked<'_>) -> PyResult<PyRating> {
    let course = asked.course()?.get().0.clone();
    let reference: String = asked.get("reference")?;
    let reference = Reference::from_name(&reference).map_err(refused)?;
    let plays = asked.count("plays", "2 to 100,000,000")?;
    let seed = asked.seed()?;
    let workers = asked.workers()?;
    let run = workers.ask(move || RatingRun::new(&course, reference, seed, plays))?;
    let run = workers.run(run.map_err(refused)?)?;
    Ok(PyRating(run.rating()))
}
