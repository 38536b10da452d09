//! The features of a hole.

use numpy::PyArray2;
use pyo3::prelude::*;
use wideberth::geometry::{Point, Polygon, Ring};
use wideberth::hole::{Canopy, Feature, Surface};

use crate::errors::input_error;
use crate::getters::getters;
use crate::places::points;

/// A part of a hole with one surface: its outline and what is known of it.
///
/// Listed by `Hole.features`. Immutable; equal when its parts are; can be pickled.
#[pyclass(frozen, eq, name = "Feature", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyFeature(pub(crate) Feature);

/// What a pickled feature is put together from: surface, rings, name, and height (feet) and openness of trees.
type FeatureFields = (
    &'static str,
    Vec<Vec<(f64, f64)>>,
    Option<String>,
    Option<(f64, f64)>,
);

#[pymethods]
impl PyFeature {
    /// Puts a pickled feature together again.
    #[staticmethod]
    fn _restore(
        surface: &str,
        rings: Vec<Vec<(f64, f64)>>,
        name: Option<String>,
        canopy: Option<(f64, f64)>,
    ) -> PyResult<Self> {
        let surface = Surface::from_name(surface).ok_or_else(|| {
            input_error(format!(
                "surface is {surface:?}; it must be the name of a surface"
            ))
        })?;
        let points =
            |ring: Vec<(f64, f64)>| ring.into_iter().map(|(x, y)| Point::new(x, y)).collect();
        let outline =
            Polygon::from_points(rings.into_iter().map(points).collect()).map_err(|faults| {
                let faults: Vec<String> = faults.iter().map(ToString::to_string).collect();
                input_error(format!("rings: {}", faults.join("; ")))
            })?;
        let canopy = canopy.map(|(height_ft, openness)| Canopy {
            height_ft,
            openness,
        });
        Ok(PyFeature(Feature {
            surface,
            outline,
            name,
            canopy,
        }))
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, FeatureFields)> {
        let f = &slf.get().0;
        let points = |ring: &Ring| ring.vertices().iter().map(|p| (p.x, p.y)).collect();
        let rings = f.outline.rings().map(points).collect();
        let canopy = f.canopy.map(|c| (c.height_ft, c.openness));
        Ok((
            slf.get_type().getattr("_restore")?,
            (f.surface.name(), rings, f.name.clone(), canopy),
        ))
    }

    /// Its outline and then the holes in it, as arrays of vertices.
    ///
    /// Each has the shape (n, 2), float64, yards; the last vertex joins the first.
    #[getter]
    fn rings<'py>(&self, py: Python<'py>) -> PyResult<Vec<Bound<'py, PyArray2<f64>>>> {
        self.0
            .outline
            .rings()
            .map(Ring::vertices)
            .map(|ring| points(py, ring))
            .collect()
    }

    fn __repr__(&self) -> String {
        let name = self
            .0
            .name
            .as_ref()
            .map_or(String::new(), |n| format!(" {n:?}"));
        format!(
            "{}{name}, {:.0} square yards",
            self.0.surface.name(),
            self.0.outline.area()
        )
    }
}

getters! {
    PyFeature, self:
    /// Name of its surface, such as `bunker`; `Hole.surface_at` lists them all.
    surface: &'static str = self.0.surface.name();
    /// Its name, if it has one.
    name: Option<&str> = self.0.name.as_deref();
    /// Area in square yards, without the holes in it.
    area: f64 = self.0.outline.area();
    /// Of trees, their height in feet; None for other surfaces and where the map does not tell.
    height_ft: Option<f64> = self.0.canopy.map(|c| c.height_ft);
    /// Of trees, the chance of a ball to get through ten yards of them, 0 to 1; None as for `height_ft`.
    openness: Option<f64> = self.0.canopy.map(|c| c.openness);
}
