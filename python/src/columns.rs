//! Tables as named NumPy columns: one way for all that is told row by row.

use numpy::{Element, IntoPyArray};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::stats::Estimate;

/// Columns of some rows, by name in the order in which they were added.
pub(crate) struct Columns<'py, 'a, R> {
    rows: &'a [R],
    pub(crate) made: Bound<'py, PyDict>,
}

impl<'py, 'a, R> Columns<'py, 'a, R> {
    pub(crate) fn of(py: Python<'py>, rows: &'a [R]) -> Self {
        Columns {
            rows,
            made: PyDict::new(py),
        }
    }

    /// A column of numbers, or of what is true or false.
    pub(crate) fn add<T: Element>(&self, name: &str, of: impl Fn(&R) -> T) -> PyResult<()> {
        let column: Vec<T> = self.rows.iter().map(of).collect();
        self.made
            .set_item(name, column.into_pyarray(self.made.py()))
    }

    /// A column of whole numbers, as NumPy's usual ones.
    pub(crate) fn whole<T: Into<i64>>(&self, name: &str, of: impl Fn(&R) -> T) -> PyResult<()> {
        self.add(name, |row| of(row).into())
    }

    /// A figure, and its standard error in the column of that name with `_error` after it.
    pub(crate) fn estimate(&self, name: &str, of: impl Fn(&R) -> Estimate) -> PyResult<()> {
        self.add(name, |row| of(row).mean)?;
        self.add(&format!("{name}_error"), |row| of(row).standard_error)
    }

    /// A column of texts that are each their own.
    pub(crate) fn texts(&self, name: &str, of: impl Fn(&'a R) -> &'a str) -> PyResult<()> {
        let texts: Vec<&str> = self.rows.iter().map(of).collect();
        let numpy = self.made.py().import("numpy")?;
        self.made
            .set_item(name, numpy.call_method1("array", (texts,))?)
    }

    /// A column of texts that are among few: `place` tells which it is.
    pub(crate) fn names<T: AsRef<str>>(
        &self,
        name: &str,
        all: &[T],
        place: impl Fn(&R) -> usize,
    ) -> PyResult<()> {
        let py = self.made.py();
        let all: Vec<&str> = all.iter().map(AsRef::as_ref).collect();
        let places: Vec<usize> = self.rows.iter().map(place).collect();
        let column = py
            .import("numpy")?
            .call_method1("take", (all, places.into_pyarray(py)))?;
        self.made.set_item(name, column)
    }
}
