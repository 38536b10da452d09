//! Surveys in files: which way a file is read and laid on the plan of a hole.

use numpy::PyReadonlyArray2;
use pyo3::prelude::*;
use std::path::Path;
use wideberth::geometry::{LocalPlane, MOST_NODES, Point};
use wideberth::hole::Hole;
use wideberth::io::asc;
use wideberth::io::survey::{Around, Place, Survey, Unit};
use wideberth::units::metres_from_yards;

use crate::errors::{input_error, refused};
use crate::fork::at_work;

/// What is told of a survey beside its file.
pub(crate) struct Asked<'a> {
    pub(crate) origin: Option<(f64, f64)>,
    pub(crate) plan: Option<&'a str>,
    pub(crate) heights: Option<&'a str>,
    pub(crate) crs: Option<&'a str>,
}

impl Asked<'_> {
    /// The unit of the heights, if it is told.
    fn heights(&self) -> PyResult<Option<Unit>> {
        let allowed = "\"metres\" or \"feet\"";
        self.heights
            .map(|name| unit("heights", name, allowed))
            .transpose()
    }

    /// How a grid's own coordinates are laid on the plan.
    fn place(&self, hole: &Hole) -> PyResult<Place> {
        let plan = self.plan.unwrap_or("metres");
        if plan == "degrees" {
            return self.plane(hole).map(|plane| Place::Degrees { plane });
        }
        let unit = unit("plan", plan, "\"metres\", \"feet\" or \"degrees\"")?;
        let origin = self.origin.ok_or_else(|| {
            input_error(
                "origin is missing; it must be where (0, 0) of the plan lies in the grid's own coordinates (or tell crs, \
                 the system they are in, of a hole that was read from a map)",
            )
        })?;
        Ok(Place::Projected { unit, origin })
    }

    /// The plane of a grid in degrees: that of the hole unless another origin is told.
    fn plane(&self, hole: &Hole) -> PyResult<LocalPlane> {
        match (self.origin, hole.about().place) {
            (Some((x, y)), _) => LocalPlane::new(x, y).ok_or_else(|| {
                input_error(format!(
                    "origin is ({x}, {y}); it must be a longitude, -180 to 180, and a latitude, -89 to 89"
                ))
            }),
            (None, Some(plane)) => Ok(plane),
            (None, None) => Err(input_error(
                "origin is missing; it must be (longitude, latitude) of (0, 0) of the plan: the hole does not know where it \
                 lies",
            )),
        }
    }
}

fn unit(field: &str, name: &str, allowed: &str) -> PyResult<Unit> {
    Unit::from_name(name)
        .ok_or_else(|| input_error(format!("{field} is {name:?}; it must be {allowed}")))
}

/// The survey in a file around a hole.
pub(crate) fn around(
    py: Python<'_>,
    hole: &Hole,
    path: &Path,
    asked: &Asked<'_>,
) -> PyResult<Around> {
    let heights = asked.heights()?;
    let ending = path.extension().map(|e| e.to_ascii_lowercase());
    let is_text = ending.as_ref().is_none_or(|e| e == "asc" || e == "txt");
    let by_system = asked.crs.is_some() || (asked.origin.is_none() && asked.plan.is_none());
    let named = !is_text || asked.crs.is_some() || path.with_extension("prj").exists();
    if let Some(plane) = hole.about().place.filter(|_| by_system && named) {
        return by_its_system(py, hole, path, asked, plane);
    }
    if asked.crs.is_some() {
        return Err(input_error(
            "crs is told; it must be left out for a hole that does not know where on the earth it lies: tell origin",
        ));
    }
    let place = asked.place(hole)?;
    if is_text {
        let heights = heights.unwrap_or_default();
        return at_work(py, || {
            asc::read_file_around(path, heights, &place, hole).map_err(refused)
        });
    }
    let module = py.import("wideberth._geotiff")?;
    let read = module.call_method1("read", (path, asked.plan.unwrap_or("metres"), MOST_NODES))?;
    laid(py, &read, hole, heights.unwrap_or_default(), &place)
}

/// A raster laid on the plan by way of longitude and latitude, in metres from the origin of the hole.
fn by_its_system(
    py: Python<'_>,
    hole: &Hole,
    path: &Path,
    asked: &Asked<'_>,
    plane: LocalPlane,
) -> PyResult<Around> {
    let (low, high) = hole.ground_reach();
    let metres = |p: Point| (metres_from_yards(p.x), metres_from_yards(p.y));
    let module = py.import("wideberth._geotiff")?;
    let (origin, low, high) = (plane.origin(), metres(low), metres(high));
    let read = module.call_method1(
        "around",
        (
            path,
            asked.crs,
            asked.heights,
            origin,
            low,
            high,
            MOST_NODES,
        ),
    )?;
    let (first, cell, array, unit_name): ((f64, f64), (f64, f64), Bound<'_, PyAny>, String) =
        read.extract()?;
    let heights = unit("heights", &unit_name, "\"metres\" or \"feet\"")?;
    let place = Place::Projected {
        unit: Unit::Metres,
        origin: (0.0, 0.0),
    };
    let read = (first, cell, array).into_pyobject(py)?;
    laid(py, read.as_any(), hole, heights, &place)
}

/// Heights that Python read, in rows from the top with NaN for gaps, on the plan of a hole.
fn laid(
    py: Python<'_>,
    read: &Bound<'_, PyAny>,
    hole: &Hole,
    heights: Unit,
    place: &Place,
) -> PyResult<Around> {
    let (first, cell, array): ((f64, f64), (f64, f64), PyReadonlyArray2<'_, f64>) =
        read.extract()?;
    let rows = array.as_array();
    let (values, columns): (Vec<f64>, usize) = (rows.iter().copied().collect(), rows.ncols());
    at_work(py, || {
        let survey = Survey {
            first,
            cell,
            columns,
            values: &values,
        };
        survey.around(heights, place, hole).map_err(refused)
    })
}
