//! Many single strokes of one shot, as columns: the kernel itself.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::rank::Question;
use wideberth::shot::Shot;
use wideberth::simulate::ManyStrokes;
use wideberth::situation::Situation;

use crate::asked::Asked;
use crate::columns::Columns;
use crate::errors::refused;
use crate::prepared::prepared;
use crate::simulate::{happenings, rests};

/// Plays one shot many times, and tells its strokes as columns.
#[pyfunction]
pub(crate) fn strokes(asked: Asked<'_>) -> PyResult<Bound<'_, PyDict>> {
    let (hole, player) = asked.on()?;
    let (hole, player) = (hole.get(), player.get());
    let club: String = asked.get("club")?;
    let carry: Option<f64> = asked.get("carry")?;
    let n: u64 = asked.count("n", "1 to 10,000,000")?;
    let target = asked.point("target", &hole.0)?;
    let Question { seed, start, .. } = asked.question(hole)?;
    let workers = asked.workers()?;
    let (map, bag) = (hole.0.clone(), player.bag.clone());
    let run = workers.ask(move || {
        let from = start.unwrap_or_else(|| Situation::on_the_tee(&map));
        let scene = prepared(&map, &bag)?;
        let shot = Shot {
            stroke: scene.stroke(&club).map_err(refused)?,
            target,
            carry: carry.unwrap_or(f64::INFINITY),
        };
        ManyStrokes::new(scene, from, &shot, seed, n).map_err(refused)
    })??;
    let run = workers.run(run)?;
    let table = Columns::of(asked.py(), run.outcomes());
    rests(&table, |outcome| outcome)?;
    let pin = hole.0.pin();
    table.add("to_pin", |outcome| (pin - outcome.rest).norm())?;
    happenings(&table, |outcome| outcome)?;
    Ok(table.made)
}
