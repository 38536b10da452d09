//! Many single strokes of one shot, as columns: the kernel itself.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::shot::{Outcome, Shot};
use wideberth::simulate::ManyStrokes;
use wideberth::situation::Situation;

use crate::errors::refused;
use crate::given::given;
use crate::hole::PyHole;
use crate::places;
use crate::player::PyPlayer;
use crate::pool;
use crate::prepared::prepared;
use crate::simulate::{column, happenings, rests};
use crate::solve;
use crate::start::start;
use crate::whole::{SeedGiven, Whole};

/// Plays one shot many times; `wideberth.strokes` says what each argument is.
///
/// Returns:
///     Columns; one of names is a tuple of codes (int64) and the names they stand for.
///
/// Raises:
///     InputError: before anything is played, naming the field, the value and what is allowed.
#[pyfunction]
#[pyo3(signature = (hole, player, *, club, target, carry, at, lie, n, seed, threads, progress))]
#[expect(
    clippy::too_many_arguments,
    clippy::needless_pass_by_value,
    reason = "keyword arguments of the Python function"
)]
pub(crate) fn strokes<'py>(
    py: Python<'py>,
    #[pyo3(from_py_with = given)] hole: &PyHole,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    #[pyo3(from_py_with = given)] club: &str,
    target: &Bound<'py, PyAny>,
    #[pyo3(from_py_with = given)] carry: Option<f64>,
    at: Option<Bound<'py, PyAny>>,
    #[pyo3(from_py_with = given)] lie: Option<&str>,
    n: Whole,
    seed: SeedGiven,
    threads: Option<Whole>,
    progress: Option<Bound<'py, PyAny>>,
) -> PyResult<Bound<'py, PyDict>> {
    let n: u64 = n.fit("n", "1 to 10,000,000")?;
    let seed = seed.fit()?;
    let target = places::point(&hole.0, "target", target)?;
    let from = start(&hole.0, at.as_ref(), lie)?;
    let pool = pool::pool(solve::threads(threads)?)?;
    let (map, bag, club) = (hole.0.clone(), player.bag.clone(), club.to_owned());
    let run = pool::ask(py, &pool, move || {
        let from = from.unwrap_or_else(|| Situation::on_the_tee(&map));
        let scene = prepared(&map, &bag)?;
        let shot = Shot {
            stroke: scene.stroke(&club).map_err(refused)?,
            target,
            carry: carry.unwrap_or(f64::INFINITY),
        };
        ManyStrokes::new(scene, from, &shot, seed, n).map_err(refused)
    })??;
    let run = pool::run(py, &pool, run, progress.as_ref())?;
    let table = PyDict::new(py);
    let rows = run.outcomes();
    rests(&table, rows, |outcome| outcome)?;
    let pin = hole.0.pin();
    let to_pin = column(py, rows, |outcome: &Outcome| (pin - outcome.rest).norm());
    table.set_item("to_pin", to_pin)?;
    happenings(&table, rows, |outcome| outcome)?;
    Ok(table)
}
