//! One place or many, in every way Python may give them, and many given back.

use numpy::ndarray::{Ix1, Ix2};
use numpy::{AllowTypeChange, PyArray2, PyArrayLikeDyn, PyUntypedArrayMethods};
use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use wideberth::geometry::Point;
use wideberth::hole::Hole;

use crate::errors::{input_error, refused};
use crate::given::{taken_for, without_gaps};
use crate::plan::PyAim;

/// A place given as (x, y) or as an aim.
#[derive(FromPyObject)]
pub(crate) enum Place {
    Xy((f64, f64)),
    Aim(PyAim),
}

taken_for!(Place, "(x, y) in yards, or a place such as along(230)");

impl Place {
    /// The point of the plan of `hole` that an argument of a name tells.
    pub(crate) fn on(&self, hole: &Hole, field: &str) -> PyResult<Point> {
        let p = match self {
            Place::Xy((x, y)) => Point::new(*x, *y),
            Place::Aim(aim) => aim.0.on(hole),
        };
        if p.x.is_finite() && p.y.is_finite() {
            Ok(p)
        } else {
            Err(input_error(format!(
                "{field} is ({}, {}); both must be finite numbers of yards",
                p.x, p.y
            )))
        }
    }
}

/// The one place of an argument of a name, finite or not.
pub(crate) fn point(hole: &Hole, field: &str, place: &Bound<'_, PyAny>) -> PyResult<Point> {
    match place.extract::<Place>() {
        Ok(Place::Xy((x, y))) => Ok(Point::new(x, y)),
        Ok(Place::Aim(aim)) => Ok(aim.0.on(hole)),
        // An array of two numbers, or anything else that holds two.
        Err(_) => match place.extract::<[f64; 2]>() {
            Ok([x, y]) => Ok(Point::new(x, y)),
            Err(_) => Err(PyTypeError::new_err(format!(
                "{field} is of type {}; it must be (x, y) or a place such as short_of_green(8)",
                place.get_type().name()?
            ))),
        },
    }
}

/// One place or an array of them; all are finite.
pub(crate) enum Places {
    One(Point),
    Many(Vec<Point>),
}

impl Places {
    /// Reads `(x, y)`, an aim or an array of shape (n, 2).
    pub(crate) fn on(hole: &Hole, place: &Bound<'_, PyAny>) -> PyResult<Self> {
        if let Ok(place) = place.extract::<Place>() {
            return place.on(hole, "place").map(Places::One);
        }
        without_gaps("place", place)?;
        // NumPy makes an array of one number of what has no length, of None too.
        let array: Option<PyArrayLikeDyn<'_, f64, AllowTypeChange>> = place
            .extract()
            .ok()
            .filter(|array: &PyArrayLikeDyn<'_, f64, AllowTypeChange>| array.ndim() > 0);
        let Some(array) = array else {
            let kind = place.get_type().name()?;
            let message = format!(
                "place is of type {kind}; it must be (x, y), an aim or an array of shape (n, 2)"
            );
            return Err(PyTypeError::new_err(message));
        };
        let array = array.as_array();
        let shape = array.shape().to_vec();
        if let (&[2], Ok(xy)) = (&*shape, array.view().into_dimensionality::<Ix1>()) {
            return Place::Xy((xy[0], xy[1])).on(hole, "place").map(Places::One);
        }
        let rows = match array.into_dimensionality::<Ix2>() {
            Ok(rows) if rows.ncols() == 2 => rows,
            _ => {
                return Err(input_error(format!(
                    "place has the shape {shape:?}; it must be (n, 2): x and y of n places"
                )));
            }
        };
        let points = rows.rows().into_iter().enumerate().map(|(i, p)| {
            if p[0].is_finite() && p[1].is_finite() {
                Ok(Point::new(p[0], p[1]))
            } else {
                Err(input_error(format!(
                    "place[{i}] is ({}, {}); both must be finite numbers of yards",
                    p[0], p[1]
                )))
            }
        });
        points.collect::<PyResult<_>>().map(Places::Many)
    }
}

/// Points as an array of shape (n, 2).
pub(crate) fn points<'py>(
    py: Python<'py>,
    points: &[Point],
) -> PyResult<Bound<'py, PyArray2<f64>>> {
    let rows: Vec<Vec<f64>> = points.iter().map(|p| vec![p.x, p.y]).collect();
    PyArray2::from_vec2(py, &rows).map_err(refused)
}
