//! Strategies in Python, asked for all balls of a wave at once.

use numpy::{IntoPyArray, PyReadonlyArray1};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::sync::Arc;
use wideberth::geometry::Point;
use wideberth::plan::{Ball, Scene, WaveFault, WaveStrategy};
use wideberth::player::{Lie, Touch};
use wideberth::shot::{Shot, Stroke};

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

/// The balls as columns; that of the lies is a tuple of codes and the names they stand for.
fn columns<'py>(py: Python<'py>, scene: &Scene, balls: &[Ball]) -> PyResult<Bound<'py, PyDict>> {
    let table = PyDict::new(py);
    let numbers = |f: &dyn Fn(&Ball) -> f64| -> Vec<f64> { balls.iter().map(f).collect() };
    let whole = |f: &dyn Fn(&Ball) -> i64| -> Vec<i64> { balls.iter().map(f).collect() };
    #[expect(clippy::cast_possible_wrap, reason = "at most a few billion plays")]
    table.set_item("play", whole(&|b| b.play as i64).into_pyarray(py))?;
    table.set_item("x", numbers(&|b| b.from.at.x).into_pyarray(py))?;
    table.set_item("y", numbers(&|b| b.from.at.y).into_pyarray(py))?;
    let lies = Lie::ALL.map(Lie::name);
    let lie = whole(&|b| b.from.lie as i64).into_pyarray(py);
    table.set_item("lie", (lie, lies.to_vec()))?;
    let to_pin = numbers(&|b| b.from.to_pin(scene.hole())).into_pyarray(py);
    table.set_item("to_pin", to_pin)?;
    table.set_item("score", whole(&|b| i64::from(b.score)).into_pyarray(py))?;
    Ok(table)
}

/// What Python raised in a strategy, or what else broke it off.
pub(crate) fn raised(fault: WaveFault) -> PyErr {
    match fault.downcast::<PyErr>() {
        Ok(error) => *error,
        Err(fault) => crate::errors::refused(fault),
    }
}
