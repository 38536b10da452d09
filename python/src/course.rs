//! Courses: holes in the order of play.

use pyo3::prelude::*;
use pyo3::types::PyType;
use std::sync::Arc;
use wideberth::course::Course;
use wideberth::io;

use crate::errors::refused;
use crate::hole::PyHole;
use crate::travel::{Written, written};

/// The holes of a course in their order; `wideberth.Course` asks it.
///
/// Immutable; equal when its name, attribution and holes are; can be pickled.
#[pyclass(frozen, name = "Course", module = "wideberth._wideberth")]
pub(crate) struct PyCourse(pub(crate) Arc<Course>);

impl From<Course> for PyCourse {
    fn from(course: Course) -> Self {
        PyCourse(Arc::new(course))
    }
}

#[pymethods]
impl PyCourse {
    #[new]
    #[expect(
        clippy::needless_pass_by_value,
        reason = "extracted from Python objects"
    )]
    fn new(
        holes: Vec<PyRef<'_, PyHole>>,
        name: String,
        attribution: Option<String>,
    ) -> PyResult<Self> {
        let holes = holes.iter().map(|hole| hole.0.clone()).collect();
        Course::new(name, holes, attribution)
            .map(Self::from)
            .map_err(refused)
    }

    /// Reads a course from the text that `to_json` wrote.
    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        io::course::read(text).map(Self::from).map_err(refused)
    }

    /// The course as the text of a wideberth document.
    fn to_json(&self) -> String {
        io::course::write(&self.0)
    }

    /// Name of the course.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }

    /// Whose map the holes come from; None where nobody must be told.
    #[getter]
    fn attribution(&self) -> Option<&str> {
        self.0.attribution()
    }

    /// The holes in the order of play.
    #[getter]
    fn holes(&self) -> Vec<PyHole> {
        self.0.holes().iter().cloned().map(PyHole).collect()
    }

    /// The numbers of the holes.
    #[getter]
    fn numbers(&self) -> Vec<i64> {
        self.0.numbers().iter().copied().map(i64::from).collect()
    }

    /// The sum of the pars.
    #[getter]
    fn par(&self) -> u16 {
        self.0.par()
    }

    /// Yards along all lines of play.
    #[getter]
    fn length(&self) -> f64 {
        self.0.length()
    }

    /// The stroke indexes on the card; None where it has none.
    #[getter]
    fn stroke_indexes(&self) -> Option<Vec<i64>> {
        let indexes = self.0.stroke_indexes()?;
        Some(indexes.into_iter().map(i64::from).collect())
    }

    fn __repr__(&self) -> String {
        self.0.to_string()
    }

    fn __eq__(&self, other: &Self) -> bool {
        self.0 == other.0
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json())
    }
}
