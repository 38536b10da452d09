//! Strategies in Python, asked for all balls of a wave at once.

use numpy::PyReadonlyArray1;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::sync::Arc;
use wideberth::geometry::Point;
use wideberth::plan::{Ball, Scene, WaveFault, WaveStrategy};
use wideberth::player::{Lie, Touch};
use wideberth::shot::{Shot, Stroke};

use crate::columns::Columns;
use crate::errors::refused;

/// A `wideberth.Strategy`.
pub(crate) struct PyWave(pub(crate) Py<PyAny>);

/// A strategy in Python, shared by plans.
pub(crate) type Shared = Arc<PyWave>;

impl WaveStrategy for PyWave {
    /// Asks with the GIL taken for as long as the strategy answers.
    fn shots(&self, scene: &Scene, balls: &[Ball]) -> Result<Vec<Option<Shot>>, WaveFault> {
        Python::attach(|py| self.asked(py, scene, balls)).map_err(WaveFault::from)
    }
}

impl PyWave {
    fn asked(&self, py: Python<'_>, scene: &Scene, balls: &[Ball]) -> PyResult<Vec<Option<Shot>>> {
        let strokes = strokes(scene);
        let names: Vec<String> = strokes.iter().map(|&s| scene.stroke_name(s)).collect();
        let answer = self
            .0
            .bind(py)
            .call_method1("_shots", (columns(py, scene, balls)?, names))?;
        let (codes, x, y, carry): (
            PyReadonlyArray1<'_, i64>,
            PyReadonlyArray1<'_, f64>,
            PyReadonlyArray1<'_, f64>,
            PyReadonlyArray1<'_, f64>,
        ) = answer.extract()?;
        let rows = codes.as_slice()?.iter().zip(x.as_slice()?);
        let rows = rows.zip(y.as_slice()?).zip(carry.as_slice()?);
        let shot = |(((&code, &x), &y), &carry): (((&i64, &f64), &f64), &f64)| {
            let stroke = usize::try_from(code)
                .ok()
                .and_then(|code| strokes.get(code));
            stroke.map(|&stroke| Shot {
                stroke,
                target: Point::new(x, y),
                carry,
            })
        };
        Ok(rows.map(shot).collect())
    }
}

/// Every stroke a player has.
fn strokes(scene: &Scene) -> Vec<Stroke> {
    let clubs = scene.bag().clubs().map(Stroke::Swing);
    let touches = Touch::ALL.map(Stroke::Touch);
    clubs.chain(touches).chain([Stroke::Putt]).collect()
}

/// The balls as columns; `wideberth.strategy` says what they are.
fn columns<'py>(py: Python<'py>, scene: &Scene, balls: &[Ball]) -> PyResult<Bound<'py, PyDict>> {
    let table = Columns::of(py, balls);
    #[expect(clippy::cast_possible_wrap, reason = "at most a few billion plays")]
    table.add("play", |b| b.play as i64)?;
    table.add("x", |b| b.from.at.x)?;
    table.add("y", |b| b.from.at.y)?;
    table.names("lie", &Lie::ALL.map(Lie::name), |b| b.from.lie as usize)?;
    table.add("to_pin", |b| b.from.to_pin(scene.hole()))?;
    table.whole("score", |b| b.score)?;
    Ok(table.made)
}

/// Raises what a strategy in Python raised, or what else broke the plays off.
pub(crate) fn unless_broken_off(fault: Option<WaveFault>) -> PyResult<()> {
    let Some(fault) = fault else { return Ok(()) };
    Err(match fault.downcast::<PyErr>() {
        Ok(error) => *error,
        Err(fault) => refused(fault),
    })
}
