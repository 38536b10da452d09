//! What all rankings ask of the core's.

use pyo3::exceptions::PyKeyError;
use pyo3::prelude::*;
use std::collections::BTreeMap;
use wideberth::rank::Ranking;
use wideberth::stats::Estimate;

use crate::around::PyAroundRanking;
use crate::compare::{PyDifference, PyRanking};
use crate::getters::getters;
use crate::given::Text;

/// A class that holds a ranking.
pub(crate) trait Ranked {
    /// What those ranked are called.
    const KIND: &'static str;

    fn ranking(&self) -> &Ranking;

    /// The index of what is called `name`, or a KeyError that lists those there are.
    fn index(&self, name: &str) -> PyResult<usize> {
        let found = self.ranking().index_of(name);
        found.ok_or_else(|| unknown(Self::KIND, name, &names(self.ranking())))
    }
}

/// Gives a class that holds a ranking what all of them tell. Pairs are a value and its standard error.
macro_rules! ranked {
    ($class:ident) => {
        getters! {
            $class, self:
            /// Names of those ranked, fewest strokes first.
            names: Vec<&str> = names(self.ranking());
            /// Plays of each.
            plays: u64 = self.ranking().plays;
            /// The seed that fixed the luck.
            seed: u64 = self.ranking().question.seed.0;
            /// True when it is settled which is best.
            settled: bool = self.ranking().settled();
            /// True where half of the best's plays or more were broken off at the stroke cap: means say no more then.
            cannot_be_finished: bool = self.ranking().cannot_be_finished();
            /// Plays of all of them broken off at the stroke cap.
            broken_off: u64 = self.ranking().broken_off();
        }

        #[pymethods]
        impl $class {
            /// Mean strokes; the error is NaN after a single play.
            fn mean(&self, name: Text) -> PyResult<(f64, f64)> {
                Ok(pair(self.ranking().mean(self.index(&name)?)))
            }

            /// Share of plays by strokes, fewest first.
            fn distribution(&self, name: Text) -> PyResult<BTreeMap<u8, f64>> {
                let index = self.index(&name)?;
                Ok(self.ranking().distribution(index).collect())
            }

            /// Mean strokes a play from the putting green.
            fn putts(&self, name: Text) -> PyResult<(f64, f64)> {
                Ok(pair(self.ranking().putts(self.index(&name)?)))
            }

            /// Plays broken off at the stroke cap.
            fn unfinished(&self, name: Text) -> PyResult<u64> {
                Ok(self.ranking().tally(self.index(&name)?).unfinished)
            }

            /// Share of plays broken off at the stroke cap.
            fn unfinished_share(&self, name: Text) -> PyResult<(f64, f64)> {
                Ok(pair(self.ranking().unfinished(self.index(&name)?)))
            }

            /// The difference of two of them, first minus second.
            fn difference(&self, first: Text, second: Text) -> PyResult<PyDifference> {
                let (first, second) = (self.index(&first)?, self.index(&second)?);
                Ok(self.ranking().difference(first, second).into())
            }
        }
    };
}

ranked!(PyRanking);
ranked!(PyAroundRanking);

/// What was ranked, best first.
fn names(ranking: &Ranking) -> Vec<&str> {
    let order = ranking.order();
    order.iter().map(|&i| ranking.name(i)).collect()
}

/// The error of a name that is not there; `kind` is what they are called.
pub(crate) fn unknown(kind: &str, name: &str, names: &[&str]) -> PyErr {
    let names = names.join(", ");
    PyKeyError::new_err(format!("no {kind} {name:?}; there are {names}"))
}

/// A value and its standard error.
pub(crate) fn pair(e: Estimate) -> (f64, f64) {
    (e.mean, e.standard_error)
}

/// True of what is above 0 by more than chance explains.
#[pyfunction]
pub(crate) fn stands_out(mean: f64, standard_error: f64) -> bool {
    Estimate {
        mean,
        standard_error,
    }
    .stands_out()
}
