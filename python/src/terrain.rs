//! The shape of the ground: heights and slopes out, surveys and a coach's numbers in.

use numpy::ndarray::Ix2;
use numpy::{AllowTypeChange, IntoPyArray, PyArray2, PyArrayLikeDyn, PyUntypedArrayMethods};
use pyo3::IntoPyObjectExt;
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use wideberth::geometry::{HeightGrid, Point, Vector};
use wideberth::hole::{Contours, Hole, TwoTier};

use wideberth::units::feet_from_yards;

use crate::errors::input_error;
use crate::given::{taken_for, without_gaps};
use crate::places::Places;

/// The step of a green of two tiers: (feet, yards of ramp), and yards behind the middle of the green.
#[derive(FromPyObject)]
pub(crate) enum Tiers {
    Placed((f64, f64, f64)),
    Middle((f64, f64)),
}

taken_for!(
    Tiers,
    "(feet, yards of ramp), or (feet, yards of ramp, yards behind the middle)"
);

impl From<Tiers> for TwoTier {
    fn from(tiers: Tiers) -> Self {
        let (step_ft, ramp, back) = match tiers {
            Tiers::Placed(tiers) => tiers,
            Tiers::Middle((step_ft, ramp)) => (step_ft, ramp, 0.0),
        };
        TwoTier {
            step_ft,
            ramp,
            back,
        }
    }
}

/// A coach's numbers.
pub(crate) fn contours(
    uphill_ft: f64,
    fairway_tilt_percent: f64,
    green_tilt_percent: Option<(f64, f64)>,
    two_tier_green: Option<Tiers>,
) -> Contours {
    Contours {
        survey_ft: None,
        uphill_ft,
        fairway_tilt_percent,
        green_tilt_percent,
        two_tier_green: two_tier_green.map(TwoTier::from),
    }
}

/// The side of a cell, or both.
#[derive(FromPyObject)]
pub(crate) enum Cell {
    Square(f64),
    Sides((f64, f64)),
}

taken_for!(Cell, "a number of yards, or two of them in a tuple");

/// A survey from an array, if one is given with its cell and corner.
pub(crate) fn survey(
    heights_ft: Option<&Bound<'_, PyAny>>,
    cell: Option<Cell>,
    corner: Option<(f64, f64)>,
) -> PyResult<Option<HeightGrid>> {
    let Some(heights) = heights_ft else {
        if cell.is_some() || corner.is_some() {
            return Err(input_error(
                "heights_ft is missing; cell and corner tell where its heights are",
            ));
        }
        return Ok(None);
    };
    let missing =
        |field: &str, is: &str| input_error(format!("{field} is missing; it must be {is}"));
    let cell = cell.ok_or_else(|| missing("cell", "the yards between the heights"))?;
    let corner = corner.ok_or_else(|| missing("corner", "(x, y), where heights_ft[0, 0] is"))?;
    without_gaps("heights_ft", heights)?;
    let array: PyArrayLikeDyn<'_, f64, AllowTypeChange> = heights.extract().map_err(|_| {
        let kind = heights.get_type();
        PyTypeError::new_err(format!(
            "heights_ft is of type {kind}; it must be an array of numbers of shape (rows, columns)"
        ))
    })?;
    let shape = array.shape().to_vec();
    let rows = array.as_array().into_dimensionality::<Ix2>().map_err(|_| {
        input_error(format!(
            "heights_ft has the shape {shape:?}; it must be (rows, columns)"
        ))
    })?;
    let sides = match cell {
        Cell::Square(side) => Vector::new(side, side),
        Cell::Sides((x, y)) => Vector::new(x, y),
    };
    let flat: Vec<f64> = rows.iter().copied().collect();
    HeightGrid::new(Point::new(corner.0, corner.1), sides, rows.ncols(), &flat)
        .map(Some)
        .map_err(|list| {
            let words: Vec<String> = list.iter().map(|f| format!("heights_ft: {f}")).collect();
            input_error(words.join("\n"))
        })
}

/// Height at a place, or heights at many.
pub(crate) fn height_ft<'py>(
    py: Python<'py>,
    hole: &Hole,
    place: &Bound<'py, PyAny>,
) -> PyResult<Bound<'py, PyAny>> {
    let height = |p: Point| feet_from_yards(hole.terrain().height(p));
    match Places::on(hole, place)? {
        Places::One(p) => height(p).into_bound_py_any(py),
        Places::Many(points) => {
            let heights: Vec<f64> = points.into_iter().map(height).collect();
            Ok(heights.into_pyarray(py).into_any())
        }
    }
}

/// Percent by which the ground falls towards +x and +y at a place, or at many.
pub(crate) fn slope_percent<'py>(
    py: Python<'py>,
    hole: &Hole,
    place: &Bound<'py, PyAny>,
) -> PyResult<Bound<'py, PyAny>> {
    let fall = |p: Point| {
        // Nothing falls by minus zero.
        let fall = hole.terrain().slope(p) * -100.0 + Vector::zeros();
        (fall.x, fall.y)
    };
    match Places::on(hole, place)? {
        Places::One(p) => fall(p).into_bound_py_any(py),
        Places::Many(points) => {
            let rows: Vec<f64> = points
                .into_iter()
                .map(fall)
                .flat_map(|(x, y)| [x, y])
                .collect();
            let table = rows.into_pyarray(py);
            let count = table.len() / 2;
            let table: Bound<'py, PyArray2<f64>> =
                numpy::PyArrayMethods::reshape(&table, [count, 2])?;
            Ok(table.into_any())
        }
    }
}
