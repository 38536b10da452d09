//! What play begins from, in every question that may begin elsewhere than on the tee.

use pyo3::prelude::*;
use wideberth::hole::Hole;
use wideberth::situation::Situation;

use crate::errors::refused;
use crate::given::given;
use crate::hole::PyHole;
use crate::places;
use crate::solve;

/// The ball at `at` with `lie`; None for the tee, if neither is given. Without `lie` it is what the ground gives.
pub(crate) fn start(
    hole: &Hole,
    at: Option<&Bound<'_, PyAny>>,
    lie: Option<&str>,
) -> PyResult<Option<Situation>> {
    if at.is_none() && lie.is_none() {
        return Ok(None);
    }
    let at = at.map_or(Ok(hole.tee()), |at| places::point(hole, "at", at))?;
    let ball = Situation::lying(hole, at, solve::lie(lie)?).map_err(refused)?;
    Ok(Some(ball))
}

/// A start as Python is told of it: where, yards, and the lie; None for the tee.
pub(crate) type Told = Option<((f64, f64), &'static str)>;

pub(crate) fn told(start: Option<Situation>) -> Told {
    start.map(|ball| ((ball.at.x, ball.at.y), ball.lie.name()))
}

/// Yards along the line of play from the tee to where a place lies beside it.
#[pyfunction]
pub(crate) fn along_line(
    #[pyo3(from_py_with = given)] hole: &PyHole,
    at: &Bound<'_, PyAny>,
) -> PyResult<f64> {
    let at = places::point(&hole.0, "at", at)?;
    Ok(hole.0.line().station(at).along)
}
