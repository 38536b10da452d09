//! Plans compared on even luck.

use pyo3::prelude::*;
use pyo3::types::PyType;
use std::collections::BTreeMap;
use wideberth::plan::Scene;
use wideberth::rank::{EvenComparison, EvenDifference, EvenRanking};

use crate::asked::Asked;
use crate::best;
use crate::errors::refused;
use crate::given::Text;
use crate::plan::PyPlan;
use crate::ranking::{pair, unknown};
use crate::start::{Told, told};
use crate::travel::{Written, written};

/// The most plays of every plan, where it is played to a precision and no number is given.
const MOST_PLAYS: u64 = 3_200_000;

/// The difference of two plans in strokes, first minus second, over sets of plays on even luck.
///
/// Negative means that the first plan is better. Made by `EvenComparison.difference`. Immutable; equal when its
/// numbers are; can be pickled.
#[pyclass(frozen, eq, name = "EvenDifference", module = "wideberth", get_all)]
#[derive(PartialEq)]
pub(crate) struct PyEvenDifference {
    /// Mean difference, strokes.
    mean: f64,
    /// Standard error of the mean difference, strokes, told from how far the sets differ.
    standard_error: f64,
    /// The 95 % interval of the mean difference (low, high), strokes, by Student's t.
    interval: (f64, f64),
    /// How many times as many plays it would take, independent ones of each plan, to know the difference as well.
    ///
    /// Told from 32 sets it is itself known to about a quarter (one standard error).
    variance_factor: f64,
}

impl From<EvenDifference> for PyEvenDifference {
    fn from(d: EvenDifference) -> Self {
        PyEvenDifference {
            mean: d.estimate.mean,
            standard_error: d.estimate.standard_error,
            interval: d.interval,
            variance_factor: d.variance_factor,
        }
    }
}

/// The fields of a difference.
type Fields = (f64, f64, (f64, f64), f64);

#[pymethods]
impl PyEvenDifference {
    /// Puts a pickled difference together again.
    #[staticmethod]
    fn _restore(
        mean: f64,
        standard_error: f64,
        interval: (f64, f64),
        variance_factor: f64,
    ) -> Self {
        PyEvenDifference {
            mean,
            standard_error,
            interval,
            variance_factor,
        }
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, Fields)> {
        let d = slf.get();
        let fields = (d.mean, d.standard_error, d.interval, d.variance_factor);
        Ok((slf.get_type().getattr("_restore")?, fields))
    }

    fn __repr__(&self) -> String {
        if self.standard_error == 0.0 {
            return match self.mean {
                0.0 => "alike: the same mean score in every set of plays".to_owned(),
                mean => format!("{mean:+.4} strokes in every set of plays"),
            };
        }
        let (low, high) = self.interval;
        format!(
            "{:+.4} strokes (standard error {:.4}, 95 % interval {low:+.4} to {high:+.4}); variance {:.1} times less than \
             of independent plays",
            self.mean, self.standard_error, self.variance_factor
        )
    }
}

/// Everything that was counted on even luck, by name of the plan; `EvenComparison` makes its tables of it.
#[pyclass(frozen, eq, name = "EvenRanking", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyEvenRanking(EvenRanking);

#[pymethods]
impl PyEvenRanking {
    /// Names of the plans, lowest mean score first.
    #[getter]
    fn names(&self) -> Vec<&str> {
        let order = self.0.order();
        order.iter().map(|&plan| self.0.name(plan)).collect()
    }

    /// Plays of every plan.
    #[getter]
    fn plays(&self) -> u64 {
        self.0.plays()
    }

    /// Par of the hole.
    #[getter]
    fn par(&self) -> u8 {
        self.0.par
    }

    /// The seed that fixed the luck.
    #[getter]
    fn seed(&self) -> u64 {
        self.0.question.seed.0
    }

    /// Where play begins, yards, and the lie there; None for the tee.
    #[getter]
    fn start(&self) -> Told {
        told(self.0.question.start)
    }

    /// A blow-up is this many strokes over par or worse.
    #[getter]
    fn blow_up_over_par(&self) -> u8 {
        self.0.question.blow_up
    }

    /// True when it is settled which plan is best.
    #[getter]
    fn settled(&self) -> bool {
        self.0.settled()
    }

    /// Mean score of a plan and its standard error, strokes.
    fn mean(&self, name: Text) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.mean(self.index(&name)?)))
    }

    /// Share of a plan's plays that scored `score` (0 to 255) or more, and its standard error.
    fn at_least(&self, name: Text, score: u8) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.at_least(self.index(&name)?, score)))
    }

    /// Share of a plan's plays by score, lowest score first.
    fn distribution(&self, name: Text) -> PyResult<BTreeMap<u8, f64>> {
        let shares = self.0.distribution(self.index(&name)?);
        Ok(shares.into_iter().collect())
    }

    /// Plays of a plan that were broken off at the stroke cap.
    fn unfinished(&self, name: Text) -> PyResult<u64> {
        Ok(self.0.tally(self.index(&name)?).unfinished)
    }

    /// True where half of the best plan's plays or more were broken off at the stroke cap: means say no more then.
    #[getter]
    fn cannot_be_finished(&self) -> bool {
        self.0.cannot_be_finished()
    }

    /// Strokes of a plan that were simulated, penalties not counted.
    fn strokes(&self, name: Text) -> PyResult<u64> {
        Ok(self.0.strokes(self.index(&name)?))
    }

    /// The difference of two plans, first minus second.
    fn difference(&self, first: Text, second: Text) -> PyResult<PyEvenDifference> {
        let (first, second) = (self.index(&first)?, self.index(&second)?);
        Ok(self.0.difference(first, second).into())
    }

    /// Reads a ranking back from the text that `to_json` wrote.
    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: Text) -> PyResult<Self> {
        serde_json::from_str(&text)
            .map(PyEvenRanking)
            .map_err(refused)
    }

    /// The counts as JSON text; `from_json` gives equal counts back.
    fn to_json(&self) -> PyResult<String> {
        serde_json::to_string(&self.0).map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json()?)
    }
}

impl PyEvenRanking {
    fn index(&self, name: &str) -> PyResult<usize> {
        let found = self.0.index_of(name);
        found.ok_or_else(|| unknown("plan", name, &self.names()))
    }
}

/// Plays every plan in sets of plays on even luck.
#[pyfunction]
pub(crate) fn compare_evenly(asked: Asked<'_>) -> PyResult<PyEvenRanking> {
    let (hole, player) = asked.on()?;
    let (hole, player) = (hole.get(), player.get());
    let plans: Vec<PyPlan> = asked.get("plans")?;
    let (precision, plays) = asked.plays(MOST_PLAYS, "64 to 3,200,000")?;
    let question = asked.question(hole)?;
    let workers = asked.workers()?;
    let plans = best::played(&workers, (hole, player), &plans)?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let comparison = workers.ask(move || {
        let scene = Scene::new(hole, bag).map_err(refused)?;
        match precision {
            None => EvenComparison::new(scene, &plans, question, plays),
            Some(strokes) => EvenComparison::to_precision(scene, &plans, question, strokes, plays),
        }
        .map_err(refused)
    })??;
    Ok(PyEvenRanking(workers.run(comparison)?.ranking()))
}
