//! What a tee shot comes to on average.

use crate::given::given;
use pyo3::prelude::*;
use pyo3::types::PyType;
use wideberth::player::TeeShot;

/// What a tee shot with the longest club comes to on average, mishits included; yards.
#[pyclass(frozen, eq, get_all, name = "TeeShot", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyTeeShot {
    /// Name of the club.
    club: String,
    /// Mean carry, yards.
    carry: f64,
    /// Mean run on a level fairway of medium firmness, yards.
    run: f64,
    /// Mean carry plus run, yards.
    total: f64,
}

impl From<TeeShot> for PyTeeShot {
    fn from(shot: TeeShot) -> Self {
        PyTeeShot {
            club: shot.club,
            carry: shot.carry,
            run: shot.run,
            total: shot.total,
        }
    }
}

#[pymethods]
impl PyTeeShot {
    #[new]
    fn new(
        #[pyo3(from_py_with = given)] club: String,
        #[pyo3(from_py_with = given)] carry: f64,
        #[pyo3(from_py_with = given)] run: f64,
        #[pyo3(from_py_with = given)] total: f64,
    ) -> Self {
        PyTeeShot {
            club,
            carry,
            run,
            total,
        }
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> (Bound<'py, PyType>, (String, f64, f64, f64)) {
        let shot = slf.get();
        let parts = (shot.club.clone(), shot.carry, shot.run, shot.total);
        (slf.get_type(), parts)
    }

    fn __repr__(&self) -> String {
        format!(
            "{}: carry {:.0} yd, total {:.0} yd",
            self.club, self.carry, self.total
        )
    }
}
