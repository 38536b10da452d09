//! Plans, instructions and aims.

use pyo3::basic::CompareOp;
use pyo3::prelude::*;
use pyo3::types::PyType;
use wideberth::plan as core;

use crate::errors::{input_error, refused};
use crate::hole::PyHole;
use crate::player::PyPlayer;

/// A place to aim at: `along`, or `at`.
#[pyclass(frozen, eq, from_py_object, name = "Aim", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyAim(pub(crate) core::Aim);

#[pymethods]
impl PyAim {
    pub(crate) fn __repr__(&self) -> String {
        match self.0 {
            core::Aim::Along { along, right } if right < 0.0 => {
                format!("along({along}, left={})", -right)
            }
            core::Aim::Along { along, right } if right > 0.0 => {
                format!("along({along}, right={right})")
            }
            core::Aim::Along { along, .. } => format!("along({along})"),
            core::Aim::At { x, y } => format!("at({x}, {y})"),
        }
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (f64, f64))> {
        let module = py.import("wideberth._wideberth")?;
        match self.0 {
            core::Aim::Along { along, right } => Ok((module.getattr("along")?, (along, right))),
            core::Aim::At { x, y } => Ok((module.getattr("at")?, (x, y))),
        }
    }
}

/// One stroke of a plan.
#[pyclass(frozen, eq, name = "Instruction", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyInstruction(core::Instruction);

#[pymethods]
impl PyInstruction {
    fn __repr__(&self) -> String {
        match &self.0 {
            core::Instruction::Shot { club, aim, carry } => {
                let aim = PyAim(*aim).__repr__();
                let carry = carry.map_or(String::new(), |c| format!(", carry={c}"));
                format!("shot({club:?}, {aim}{carry})")
            }
            core::Instruction::Leave { yards } => format!("leave({yards})"),
            core::Instruction::Advance { yards } => format!("advance({yards})"),
            core::Instruction::AtPin => "at_pin()".to_owned(),
        }
    }

    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        serde_json::from_str(text)
            .map(PyInstruction)
            .map_err(refused)
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

/// Instructions for the first strokes, then a strategy.
#[pyclass(frozen, name = "Plan", module = "wideberth")]
#[derive(Clone)]
pub(crate) struct PyPlan(pub(crate) core::Plan);

#[pymethods]
impl PyPlan {
    #[new]
    #[pyo3(signature = (name, instructions, then = "steady"))]
    #[expect(
        clippy::needless_pass_by_value,
        reason = "extracted from a Python list"
    )]
    fn new(name: &str, instructions: Vec<PyRef<'_, PyInstruction>>, then: &str) -> PyResult<Self> {
        let instructions = instructions.iter().map(|i| i.0.clone()).collect();
        let then = core::Then::from_name(then).map_err(refused)?;
        core::Plan::new(name, instructions, then)
            .map(PyPlan)
            .map_err(refused)
    }

    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }

    #[getter]
    fn instructions(&self) -> Vec<PyInstruction> {
        self.0
            .instructions()
            .iter()
            .cloned()
            .map(PyInstruction)
            .collect()
    }

    #[getter]
    fn then(&self) -> Option<&'static str> {
        self.0.then().name()
    }

    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        core::Plan::from_json(text).map(PyPlan).map_err(refused)
    }

    fn to_json(&self) -> PyResult<String> {
        self.0.to_json().map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((
            slf.get_type().getattr("from_json")?,
            (slf.get().to_json()?,),
        ))
    }

    fn __richcmp__(&self, other: &Self, op: CompareOp) -> PyResult<bool> {
        match op {
            CompareOp::Eq => Ok(self.0 == other.0),
            CompareOp::Ne => Ok(self.0 != other.0),
            _ => Err(pyo3::exceptions::PyTypeError::new_err(
                "plans have no order",
            )),
        }
    }

    fn __repr__(&self) -> String {
        let steps: Vec<String> = self
            .instructions()
            .iter()
            .map(PyInstruction::__repr__)
            .collect();
        format!(
            "Plan({:?}, [{}], then={:?})",
            self.0.name(),
            steps.join(", "),
            self.then().unwrap_or("custom")
        )
    }
}

#[pyfunction]
#[pyo3(signature = (yards, right = None, *, left = None))]
pub(crate) fn along(yards: f64, right: Option<f64>, left: Option<f64>) -> PyResult<PyAim> {
    let right = match (right, left) {
        (Some(_), Some(_)) => {
            return Err(input_error("along: give left or right, not both"));
        }
        (right, left) => right.unwrap_or(0.0) - left.unwrap_or(0.0),
    };
    if yards.is_finite() && right.is_finite() {
        Ok(PyAim(core::Aim::Along {
            along: yards,
            right,
        }))
    } else {
        Err(input_error(format!(
            "along: yards is {yards} and right is {right}; both must be finite numbers"
        )))
    }
}

#[pyfunction]
pub(crate) fn at(x: f64, y: f64) -> PyResult<PyAim> {
    if x.is_finite() && y.is_finite() {
        Ok(PyAim(core::Aim::At { x, y }))
    } else {
        Err(input_error(format!(
            "at: x is {x} and y is {y}; both must be finite numbers"
        )))
    }
}

#[pyfunction]
#[pyo3(signature = (club, aim, *, carry = None))]
pub(crate) fn shot(club: &str, aim: &PyAim, carry: Option<f64>) -> PyInstruction {
    PyInstruction(core::Instruction::Shot {
        club: club.to_owned(),
        aim: aim.0,
        carry,
    })
}

#[pyfunction]
pub(crate) fn leave(yards: f64) -> PyInstruction {
    PyInstruction(core::Instruction::Leave { yards })
}

#[pyfunction]
pub(crate) fn advance(yards: f64) -> PyInstruction {
    PyInstruction(core::Instruction::Advance { yards })
}

#[pyfunction]
pub(crate) fn at_pin() -> PyInstruction {
    PyInstruction(core::Instruction::AtPin)
}

#[pyfunction]
pub(crate) fn suggest_plans(
    py: Python<'_>,
    hole: &PyHole,
    player: &PyPlayer,
) -> PyResult<Vec<PyPlan>> {
    let pool = crate::pool::pool(None)?;
    let plans = py.detach(|| {
        pool.install(|| {
            let scene = core::Scene::new(hole.0.clone(), player.bag.clone());
            core::suggest_plans(&scene)
        })
    });
    Ok(plans.into_iter().map(PyPlan).collect())
}
