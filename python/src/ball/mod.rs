//! The ball itself: flights, runs, putts and the hole.

mod asked;
mod flight;
mod green;
mod ground;

pub(crate) use asked::fly;
pub(crate) use flight::PyFlight;
pub(crate) use green::{PyPutt, captured, putt};
pub(crate) use ground::{PyRun, run};

use pyo3::prelude::*;

/// A function of `wideberth.ball`, for pickle to call.
fn public<'py>(py: Python<'py>, function: &str) -> PyResult<Bound<'py, PyAny>> {
    py.import("wideberth.ball")?.getattr(function)
}

/// Yards to a side, in words.
fn aside(yards: f64) -> String {
    let size = format!("{:.1} yd", yards.abs());
    match size.as_str() {
        "0.0 yd" => size,
        _ if yards < 0.0 => format!("{size} left"),
        _ => format!("{size} right"),
    }
}
