//! What a tee shot comes to on average.

use pyo3::prelude::*;
use wideberth::player::TeeShot;

use crate::travel::by_fields;

/// What a tee shot with the longest club comes to on average, mishits included; yards.
#[pyclass(frozen, eq, name = "TeeShot", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyTeeShot(pub(crate) TeeShot);

by_fields! {
    PyTeeShot(TeeShot):
    /// Name of the club.
    club: String,
    /// Mean carry, yards.
    carry: f64,
    /// Mean run on a level fairway of medium firmness, yards.
    run: f64,
    /// Mean carry plus run, yards.
    total: f64,
}

#[pymethods]
impl PyTeeShot {
    fn __repr__(&self) -> String {
        let TeeShot {
            club, carry, total, ..
        } = &self.0;
        format!("{club}: carry {carry:.0} yd, total {total:.0} yd")
    }
}
