//! Rounds of a course: played, and a course rated.

use numpy::ndarray::Array2;
use numpy::{IntoPyArray, PyArray2};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use rayon::ThreadPool;
use std::sync::Arc;
use wideberth::plan::Plan;
use wideberth::player::Reference;
use wideberth::round::{Field, PlayedRounds, Rating, RatingRun, Rounds, Statistic, Way};
use wideberth::simulate::Cause;
use wideberth::stats::Estimate;

use crate::best;
use crate::course::PyCourse;
use crate::errors::{input_error, refused};
use crate::given::given;
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::pool;
use crate::ranking::pair;
use crate::solve::threads as threads_given;
use crate::whole::{SeedGiven, Whole};

/// What rounds of a course came to; `wideberth.PlayedRounds` asks it.
#[pyclass(frozen, eq, name = "PlayedRounds", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyPlayedRounds(pub(crate) PlayedRounds);

/// A mean and its standard error.
type Told = (f64, f64);

#[pymethods]
impl PyPlayedRounds {
    /// Rounds.
    #[getter]
    fn plays(&self) -> u64 {
        self.0.counts().rounds
    }

    /// The seed that fixed the luck.
    #[getter]
    fn seed(&self) -> u64 {
        self.0.counts().seed.0
    }

    /// Names of the plans, hole by hole.
    #[getter]
    fn plans(&self) -> Vec<String> {
        self.0.counts().plans.clone()
    }

    /// The mean total, its standard error and the standard deviation of a round.
    fn mean(&self) -> (f64, f64, f64) {
        let (mean, deviation) = self.0.mean();
        (mean.mean, mean.standard_error, deviation)
    }

    /// Totals that occurred and the rounds that came to each.
    fn totals(&self) -> Vec<(u16, u64)> {
        self.0.totals().collect()
    }

    /// The share of rounds of at most a total, and its standard error.
    fn at_most(&self, total: Whole) -> PyResult<Told> {
        let total: u16 = total.fit("total", "0 to 65,535")?;
        Ok(pair(self.0.at_most(total)))
    }

    /// The smallest total that a share of rounds do not exceed.
    fn quantile(&self, #[pyo3(from_py_with = given)] share: f64) -> PyResult<u16> {
        if !(0.0..=1.0).contains(&share) {
            return Err(input_error(format!("share is {share}; it must be 0 to 1")));
        }
        Ok(self.0.quantile(share))
    }

    /// Each statistic: its name, how often a round, chances a round and the share made, with errors; NaN without chances.
    fn statistics(&self) -> Vec<(&'static str, Told, f64, Told)> {
        let row = |statistic: Statistic| {
            (
                statistic.name(),
                pair(self.0.a_round(statistic)),
                self.0.chances(statistic),
                pair(self.0.share(statistic)),
            )
        };
        Statistic::ALL.map(row).to_vec()
    }

    /// What each hole came to: a list of dicts of (mean, error), in the order of play.
    fn holes<'py>(&self, py: Python<'py>) -> PyResult<Vec<Bound<'py, PyDict>>> {
        let told = |hole: wideberth::round::HolePlayed| {
            let row = PyDict::new(py);
            let estimates: [(&str, Estimate); 7] = [
                ("mean", hole.mean),
                ("par_or_better", hole.par_or_better),
                ("double_or_worse", hole.double_or_worse),
                ("putts", hole.putts),
                ("penalties", hole.penalties),
                ("fairway", hole.fairway),
                ("green", hole.green),
            ];
            for (name, estimate) in estimates {
                row.set_item(name, pair(estimate))?;
            }
            row.set_item("cause", hole.cause.map_or("", Cause::name))?;
            Ok(row)
        };
        self.0.holes().into_iter().map(told).collect()
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

    /// Plays of holes broken off at the stroke cap.
    #[getter]
    fn unfinished(&self) -> u64 {
        self.0.unfinished()
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

    /// Puts pickled rounds together again.
    #[staticmethod]
    fn _restore(course: &PyCourse, counts: &str) -> PyResult<Self> {
        let counts = serde_json::from_str(counts).map_err(refused)?;
        PlayedRounds::of(course.0.clone(), counts)
            .map(PyPlayedRounds)
            .ok_or_else(|| input_error("counts are of another course"))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Restored<'py>> {
        let played = &slf.get().0;
        let counts = serde_json::to_string(played.counts()).map_err(refused)?;
        let course = PyCourse::from(played.course.clone());
        Ok((slf.get_type().getattr("_restore")?, (course, counts)))
    }
}

/// What pickle wants of something told of a course.
type Restored<'py> = (Bound<'py, PyAny>, (PyCourse, String));

/// Plays rounds; `wideberth.play_rounds` says what each argument is.
///
/// Raises:
///     InputError: before anything is played, naming the field, the value and what is allowed.
#[pyfunction]
#[pyo3(signature = (course, player, *, then, plans, plays, seed, threads, progress))]
#[expect(
    clippy::too_many_arguments,
    reason = "keyword arguments of the Python function"
)]
#[expect(
    clippy::needless_pass_by_value,
    reason = "extracted from Python objects"
)]
pub(crate) fn play_rounds(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] course: &PyCourse,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    #[pyo3(from_py_with = given)] then: &str,
    #[pyo3(from_py_with = given)] plans: Option<Vec<PyPlan>>,
    plays: Whole,
    seed: SeedGiven,
    threads: Option<Whole>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<PyPlayedRounds> {
    let way = if then == "best" {
        None
    } else {
        Some(way(then, "\"direct\", \"steady\" or \"best\"")?)
    };
    let plays = plays.fit("plays", "1 to 100,000,000")?;
    let seed = seed.fit()?;
    let pool = pool::pool(threads_given(threads)?)?;
    let plans = match (plans, way) {
        (Some(plans), _) => Some(plans),
        (None, Some(_)) => None,
        (None, None) => Some(vec![PyPlan::best()?; course.0.holes().len()]),
    };
    let plans = plans.map(|plans| on_each(py, &pool, (course, player), &plans));
    let plans = plans.transpose()?;
    let (course, bag) = (course.0.clone(), player.bag.clone());
    let rounds = pool::ask(py, &pool, move || {
        let field = Field::new(course, &bag)?;
        match plans {
            None => Rounds::new(field, way.unwrap_or_default(), seed, plays),
            Some(plans) => Rounds::of_plans(field, &plans, seed, plays),
        }
    })?;
    let rounds = pool::run(py, &pool, rounds.map_err(refused)?, progress.as_ref())?;
    Ok(PyPlayedRounds(rounds.played()))
}

/// The plans of the holes of a course as a player plays them; as they are where there are not as many as holes.
fn on_each(
    py: Python<'_>,
    pool: &Arc<ThreadPool>,
    (course, player): (&PyCourse, &PyPlayer),
    plans: &[PyPlan],
) -> PyResult<Vec<Plan>> {
    let holes = course.0.holes();
    if plans.len() != holes.len() {
        return Ok(plans.iter().map(|plan| plan.plan.clone()).collect());
    }
    let mut all = Vec::with_capacity(plans.len());
    for (hole, plan) in holes.iter().zip(plans) {
        let on = (&PyHole(hole.clone()), player);
        all.extend(best::played(py, pool, on, std::slice::from_ref(plan))?);
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

#[pymethods]
impl PyRating {
    /// Rounds of each golfer.
    #[getter]
    fn plays(&self) -> u64 {
        self.0.found.rounds
    }

    /// The seed that fixed the luck.
    #[getter]
    fn seed(&self) -> u64 {
        self.0.found.seed.0
    }

    /// Whose reference golfers played: "men" or "women".
    #[getter]
    fn reference(&self) -> &'static str {
        match self.0.found.reference {
            Reference::Men => "men",
            Reference::Women => "women",
        }
    }

    /// The Course Rating and its standard error.
    #[getter]
    fn scratch(&self) -> Told {
        pair(self.0.found.scratch)
    }

    /// The bogey rating and its standard error.
    #[getter]
    fn bogey(&self) -> Told {
        pair(self.0.found.bogey)
    }

    /// The Slope Rating and its standard error.
    #[getter]
    fn slope(&self) -> Told {
        pair(self.0.found.slope)
    }

    /// Scratch golfer's mean, bogey golfer's mean and stroke index by the procedure, hole by hole.
    fn holes(&self) -> Vec<(Told, Told, i64)> {
        let told = |hole: &wideberth::round::HoleRating| {
            let index = i64::from(hole.stroke_index);
            (pair(hole.scratch), pair(hole.bogey), index)
        };
        self.0.found.holes.iter().map(told).collect()
    }

    /// The stroke indexes in use: the card's, or else those by the procedure.
    fn stroke_indexes(&self) -> Vec<i64> {
        let indexes = self.0.stroke_indexes();
        indexes.into_iter().map(i64::from).collect()
    }

    /// Puts a pickled rating together again.
    #[staticmethod]
    fn _restore(course: &PyCourse, found: &str) -> PyResult<Self> {
        let found = serde_json::from_str(found).map_err(refused)?;
        Rating::of(course.0.clone(), found)
            .map(PyRating)
            .ok_or_else(|| input_error("found is of another course"))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Restored<'py>> {
        let rating = &slf.get().0;
        let found = serde_json::to_string(&rating.found).map_err(refused)?;
        let course = PyCourse::from(rating.course.clone());
        Ok((slf.get_type().getattr("_restore")?, (course, found)))
    }
}

/// Rates a course; `wideberth.Course.rating` says what each argument is.
///
/// Raises:
///     InputError: before anything is played, naming the field, the value and what is allowed.
#[pyfunction]
#[pyo3(signature = (course, *, reference, plays, seed, threads, progress))]
pub(crate) fn rating(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] course: &PyCourse,
    #[pyo3(from_py_with = given)] reference: &str,
    plays: Whole,
    seed: SeedGiven,
    threads: Option<Whole>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<PyRating> {
    let reference = Reference::from_name(reference).map_err(refused)?;
    let plays = plays.fit("plays", "2 to 100,000,000")?;
    let seed = seed.fit()?;
    let pool = pool::pool(threads_given(threads)?)?;
    let course = course.0.clone();
    let run = pool::ask(py, &pool, move || {
        RatingRun::new(&course, reference, seed, plays)
    })?;
    let run = pool::run(py, &pool, run.map_err(refused)?, progress.as_ref())?;
    Ok(PyRating(run.rating()))
}
