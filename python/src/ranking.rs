//! What all rankings ask of the core's.

use pyo3::exceptions::PyKeyError;
use pyo3::prelude::*;
use wideberth::rank::Ranking;
use wideberth::stats::Estimate;

/// What was ranked, best first.
pub(crate) fn names(ranking: &Ranking) -> Vec<&str> {
    let order = ranking.order();
    order.iter().map(|&i| ranking.name(i)).collect()
}

/// The index of what is called `name`, or a KeyError that lists those there are; `kind` is what they are called.
pub(crate) fn index(ranking: &Ranking, kind: &str, name: &str) -> PyResult<usize> {
    let found = ranking.index_of(name);
    found.ok_or_else(|| unknown(kind, name, &names(ranking)))
}

/// The error of a name that is not there.
pub(crate) fn unknown(kind: &str, name: &str, names: &[&str]) -> PyErr {
    let names = names.join(", ");
    PyKeyError::new_err(format!("no {kind} {name:?}; there are {names}"))
}

/// A value and its standard error.
pub(crate) fn pair(e: Estimate) -> (f64, f64) {
    (e.mean, e.standard_error)
}
