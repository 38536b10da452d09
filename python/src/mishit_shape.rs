//! How the strikes of a club behave that are not flush.

use pyo3::prelude::*;
use wideberth::player::MishitShape;

use crate::errors::refused;
use crate::getters::getters;
use crate::given::{given, taken_for};
use crate::travel::by_json;

/// How strikes that are not flush behave: the worst of each kind, between which and a flush strike all others lie.
///
/// There are two kinds: duffs, which come up short (fat, topped, off the toe or heel), and wild ones, which fly most of the
/// way but stray, or come out thin. A miss has a severity, any of 0 to 1 being as likely, and lies that severity to the
/// power of `mildness` from flush to the worst of its kind, in carry, spread and run alike. From a severity of 0.5 on it
/// counts as a mishit. Immutable; equal when its numbers are; can be pickled. The defaults are a middling golfer's with a
/// full swing (common practice, no source).
///
/// Args:
///     duff_part: share of the misses that are duffs, 0 to 1; the others are wild.
///     duff_carry: mean carry of the worst duff, as a share of a flush strike's; 0.05 to 1.5.
///     duff_carry_sd: standard deviation of its carry, as a share of a flush strike's carry; 0 to 0.5.
///     duff_side: standard deviation of its lateral, as a multiple of a flush strike's; 0 to 10.
///     duff_run: its run, as a share of a flush strike's carry; 0 to 2.
///     wild_carry: mean carry of the worst wild strike, as a share of a flush strike's; 0.05 to 1.5.
///     wild_carry_sd: standard deviation of its carry, as a share of a flush strike's carry; 0 to 0.5.
///     wild_side: standard deviation of its lateral, as a multiple of a flush strike's; 0 to 10.
///     wild_run: its run, as a share of a flush strike's carry; 0 to 2.
///     mildness: how many of the misses are slight, 0 to 10: with 1 they are spread evenly from flush to the worst, with
///         more most are slight, with 0 every one is the worst.
///
/// Raises:
///     InputError: the first number outside its range.
///
/// Example:
///     Someone whose misses are all fat, and mostly slight:
///
///     >>> import wideberth as wb
///     >>> fat = wb.MishitShape(duff_part=1, mildness=3)
///     >>> wb.Club("7-iron", carry=150, carry_sd=7, lateral_sd=8, mishit_share=0.1, mishit_shape=fat).mishit_shape.mildness
///     3.0
#[pyclass(frozen, eq, from_py_object, name = "MishitShape", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyMishitShape(pub(crate) MishitShape);

taken_for!(PyMishitShape, "what MishitShape() makes");

#[pymethods]
impl PyMishitShape {
    // The defaults are those of the core, which a test checks.
    #[new]
    #[pyo3(signature = (
        *, duff_part = 0.5, duff_carry = 0.25, duff_carry_sd = 0.12, duff_side = 0.8, duff_run = 0.15, wild_carry = 0.8,
        wild_carry_sd = 0.1, wild_side = 4.0, wild_run = 0.12, mildness = 2.0
    ))]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python class"
    )]
    fn new(
        #[pyo3(from_py_with = given)] duff_part: f64,
        #[pyo3(from_py_with = given)] duff_carry: f64,
        #[pyo3(from_py_with = given)] duff_carry_sd: f64,
        #[pyo3(from_py_with = given)] duff_side: f64,
        #[pyo3(from_py_with = given)] duff_run: f64,
        #[pyo3(from_py_with = given)] wild_carry: f64,
        #[pyo3(from_py_with = given)] wild_carry_sd: f64,
        #[pyo3(from_py_with = given)] wild_side: f64,
        #[pyo3(from_py_with = given)] wild_run: f64,
        #[pyo3(from_py_with = given)] mildness: f64,
    ) -> PyResult<Self> {
        checked(MishitShape {
            duff_part,
            duff_carry,
            duff_carry_sd,
            duff_side,
            duff_run,
            wild_carry,
            wild_carry_sd,
            wild_side,
            wild_run,
            mildness,
        })
    }

    fn __repr__(&self) -> String {
        let s = &self.0;
        format!(
            "MishitShape(duff_part={}, duff_carry={}, duff_carry_sd={}, duff_side={}, duff_run={}, wild_carry={}, \
             wild_carry_sd={}, wild_side={}, wild_run={}, mildness={})",
            s.duff_part,
            s.duff_carry,
            s.duff_carry_sd,
            s.duff_side,
            s.duff_run,
            s.wild_carry,
            s.wild_carry_sd,
            s.wild_side,
            s.wild_run,
            s.mildness
        )
    }
}

getters! {
    PyMishitShape, self:
    /// Share of the misses that are duffs; the others are wild.
    duff_part: f64 = self.0.duff_part;
    /// Mean carry of the worst duff, as a share of a flush strike's.
    duff_carry: f64 = self.0.duff_carry;
    /// Standard deviation of its carry, as a share of a flush strike's carry.
    duff_carry_sd: f64 = self.0.duff_carry_sd;
    /// Standard deviation of its lateral, as a multiple of a flush strike's.
    duff_side: f64 = self.0.duff_side;
    /// Its run, as a share of a flush strike's carry.
    duff_run: f64 = self.0.duff_run;
    /// Mean carry of the worst wild strike, as a share of a flush strike's.
    wild_carry: f64 = self.0.wild_carry;
    /// Standard deviation of its carry, as a share of a flush strike's carry.
    wild_carry_sd: f64 = self.0.wild_carry_sd;
    /// Standard deviation of its lateral, as a multiple of a flush strike's.
    wild_side: f64 = self.0.wild_side;
    /// Its run, as a share of a flush strike's carry.
    wild_run: f64 = self.0.wild_run;
    /// The power of its severity that a miss lies from flush to the worst.
    mildness: f64 = self.0.mildness;
}

by_json! {
    PyMishitShape(MishitShape), checked, "a shape of mishits", "shape of mishits",
    "The shape as JSON text; `from_json` gives an equal one back."
}

/// A shape whose numbers are in range.
fn checked(shape: MishitShape) -> PyResult<PyMishitShape> {
    shape.check("").map_err(refused)?;
    Ok(PyMishitShape(shape))
}
