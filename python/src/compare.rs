//! Plans compared.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};
use std::collections::BTreeMap;
use wideberth::noise::Seed;
use wideberth::plan::Scene;
use wideberth::rank::{Comparison, Length, Question, Ranking};
use wideberth::simulate::Checkpoint;
use wideberth::stats::Difference;

use crate::errors::{input_error, refused};
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::pool::{self, Waves};

/// A milestone of a play.
#[pyclass(frozen, eq, name = "Checkpoint", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyCheckpoint(Checkpoint);

#[pymethods]
impl PyCheckpoint {
    fn __repr__(&self) -> String {
        let Checkpoint::FirstPutt {
            within_ft,
            after_strokes,
        } = self.0;
        format!("first_putt(within_ft={within_ft}, after_strokes={after_strokes})")
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (f64, u8))> {
        let Checkpoint::FirstPutt {
            within_ft,
            after_strokes,
        } = self.0;
        let make = py.import("wideberth._wideberth")?.getattr("first_putt")?;
        Ok((make, (within_ft, after_strokes)))
    }
}

#[pyfunction]
pub(crate) fn first_putt(within_ft: f64, after_strokes: u8) -> PyResult<PyCheckpoint> {
    let checkpoint = Checkpoint::FirstPutt {
        within_ft,
        after_strokes,
    };
    if checkpoint.is_valid() {
        Ok(PyCheckpoint(checkpoint))
    } else {
        Err(input_error(format!(
            "first_putt: within_ft is {within_ft} and after_strokes is {after_strokes}; within_ft must be above 0 \
             and after_strokes at least 1"
        )))
    }
}

/// A paired difference of two plans.
#[pyclass(frozen, name = "Difference", module = "wideberth", get_all)]
pub(crate) struct PyDifference {
    mean: f64,
    standard_error: f64,
    interval: (f64, f64),
    better: f64,
    worse: f64,
}

impl From<Difference> for PyDifference {
    fn from(d: Difference) -> Self {
        PyDifference {
            mean: d.estimate.mean,
            standard_error: d.estimate.standard_error,
            interval: d.interval,
            better: d.better,
            worse: d.worse,
        }
    }
}

#[pymethods]
impl PyDifference {
    fn __repr__(&self) -> String {
        let (low, high) = self.interval;
        format!(
            "{:+.3} strokes (standard error {:.3}, 95 % interval {low:+.3} to {high:+.3}); better in {:.0} % of plays, \
             worse in {:.0} %",
            self.mean,
            self.standard_error,
            100.0 * self.better,
            100.0 * self.worse
        )
    }
}

/// The counts of a comparison; the tables are made of it in Python.
#[pyclass(frozen, eq, name = "Ranking", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyRanking(Ranking);

#[pymethods]
impl PyRanking {
    #[getter]
    fn names(&self) -> Vec<&str> {
        self.0.order().iter().map(|&i| self.0.name(i)).collect()
    }

    #[getter]
    fn plays(&self) -> u64 {
        self.0.plays
    }

    #[getter]
    fn par(&self) -> u8 {
        self.0.par
    }

    #[getter]
    fn seed(&self) -> u64 {
        self.0.question.seed.0
    }

    #[getter]
    fn blow_up_over_par(&self) -> u8 {
        self.0.question.blow_up
    }

    #[getter]
    fn settled(&self) -> bool {
        self.0.settled()
    }

    fn mean(&self, name: &str) -> PyResult<(f64, f64)> {
        let e = self.0.mean(self.index(name)?);
        Ok((e.mean, e.standard_error))
    }

    fn at_least(&self, name: &str, score: u8) -> PyResult<(f64, f64)> {
        let e = self.0.at_least(self.index(name)?, score);
        Ok((e.mean, e.standard_error))
    }

    fn distribution(&self, name: &str) -> PyResult<BTreeMap<u8, f64>> {
        Ok(self.0.distribution(self.index(name)?).collect())
    }

    fn quantile(&self, name: &str, share: f64) -> PyResult<u8> {
        if !(0.0..=1.0).contains(&share) {
            return Err(input_error(format!("share is {share}; it must be 0 to 1")));
        }
        Ok(self.0.tally(self.index(name)?).scores.quantile(share))
    }

    fn checkpoints<'py>(&self, py: Python<'py>, name: &str) -> PyResult<Bound<'py, PyDict>> {
        let shares = PyDict::new(py);
        for (checkpoint, e) in self.0.checkpoints(self.index(name)?) {
            shares.set_item(checkpoint, (e.mean, e.standard_error))?;
        }
        Ok(shares)
    }

    fn blow_up_causes<'py>(&self, py: Python<'py>, name: &str) -> PyResult<Bound<'py, PyDict>> {
        let shares = PyDict::new(py);
        for (cause, share) in self.0.blow_up_causes(self.index(name)?) {
            shares.set_item(cause.map_or("no single thing", |c| c.name()), share)?;
        }
        Ok(shares)
    }

    fn penalties(&self, name: &str) -> PyResult<f64> {
        Ok(self.0.penalties(self.index(name)?))
    }

    fn putts(&self, name: &str) -> PyResult<f64> {
        Ok(self.0.putts(self.index(name)?))
    }

    fn unfinished(&self, name: &str) -> PyResult<u64> {
        Ok(self.0.tally(self.index(name)?).unfinished)
    }

    fn difference(&self, first: &str, second: &str) -> PyResult<PyDifference> {
        Ok(self
            .0
            .difference(self.index(first)?, self.index(second)?)
            .into())
    }

    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        serde_json::from_str(text).map(PyRanking).map_err(refused)
    }

    fn to_json(&self) -> PyResult<String> {
        serde_json::to_string(&self.0).map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((
            slf.get_type().getattr("from_json")?,
            (slf.get().to_json()?,),
        ))
    }
}

impl PyRanking {
    fn index(&self, name: &str) -> PyResult<usize> {
        self.0.index_of(name).ok_or_else(|| {
            let names = self.names().join(", ");
            pyo3::exceptions::PyKeyError::new_err(format!("no plan {name:?}; there are {names}"))
        })
    }
}

impl Waves for Comparison {
    fn advance(&mut self, count: u64) {
        Comparison::advance(self, count);
    }

    fn done(&self) -> u64 {
        self.plays()
    }

    fn goal(&self) -> u64 {
        self.next_stop()
    }

    fn is_finished(&self) -> bool {
        Comparison::is_finished(self)
    }
}

#[pyfunction]
#[pyo3(signature = (hole, player, plans, *, plays, precision, seed, blow_up, checkpoints, maximum_score, threads, progress))]
#[expect(
    clippy::too_many_arguments,
    reason = "keyword arguments of the Python function"
)]
#[expect(
    clippy::needless_pass_by_value,
    reason = "extracted from Python objects"
)]
pub(crate) fn compare(
    py: Python<'_>,
    hole: &PyHole,
    player: &PyPlayer,
    plans: Vec<PyRef<'_, PyPlan>>,
    plays: i128,
    precision: Option<f64>,
    seed: i128,
    blow_up: i128,
    checkpoints: Vec<(String, PyRef<'_, PyCheckpoint>)>,
    maximum_score: Option<i128>,
    threads: Option<i128>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<PyRanking> {
    let plays = whole("plays", plays, "1 to 1,000,000,000")?;
    let question = Question {
        seed: Seed(whole("seed", seed, "0 to 18,446,744,073,709,551,615")?),
        length: precision.map_or(Length::Plays(plays), |strokes| Length::Precision {
            strokes,
            most: plays,
        }),
        blow_up: whole("blow_up", blow_up, "1 to 20 over par")?,
        checkpoints: checkpoints
            .iter()
            .map(|(name, c)| (name.clone(), c.0))
            .collect(),
        maximum_score: maximum_score
            .map(|most| whole("maximum_score", most, "above par and at most 60"))
            .transpose()?,
    };
    let pool = pool::pool(
        threads
            .map(|n| whole("threads", n, "1 to 1024, or None for every core"))
            .transpose()?,
    )?;
    let plans: Vec<_> = plans.iter().map(|p| p.0.clone()).collect();
    let mut comparison = py
        .detach(|| {
            pool.install(|| {
                let scene = Scene::new(hole.0.clone(), player.bag.clone());
                Comparison::new(scene, &plans, question)
            })
        })
        .map_err(refused)?;
    pool::run(py, &pool, &mut comparison, progress.as_ref())?;
    Ok(PyRanking(comparison.ranking()))
}

/// A whole number that fits its field.
pub(crate) fn whole<T: TryFrom<i128>>(field: &str, value: i128, allowed: &str) -> PyResult<T> {
    T::try_from(value).map_err(|_| input_error(format!("{field} is {value}; it must be {allowed}")))
}
