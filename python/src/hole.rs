//! Holes: read, sketched, asked.

use numpy::{AllowTypeChange, IntoPyArray, PyArray2, PyArrayLike2};
use pyo3::IntoPyObjectExt;
use pyo3::prelude::*;
use pyo3::types::PyType;
use std::path::PathBuf;
use std::sync::Arc;
use wideberth::geometry::{Point, Ring};
use wideberth::hole::{
    Bounds, Canopy, CrossingWater, Dogleg, Feature, Hazard, Hole, Sketch, Surface,
};
use wideberth::io;
use wideberth::io::geojson::Options;
use wideberth::plan::Aim;

use crate::compare::whole;
use crate::errors::{input_error, refused};
use crate::plan::PyAim;

/// A golf hole.
#[pyclass(frozen, name = "Hole", module = "wideberth")]
#[derive(Clone)]
pub(crate) struct PyHole(pub(crate) Arc<Hole>);

impl From<Hole> for PyHole {
    fn from(hole: Hole) -> Self {
        PyHole(Arc::new(hole))
    }
}

/// A place given as (x, y) or as an aim.
#[derive(FromPyObject)]
pub(crate) enum Place {
    Xy((f64, f64)),
    Aim(PyAim),
}

impl Place {
    /// The point of the plan of `hole`.
    pub(crate) fn on(&self, hole: &Hole) -> PyResult<Point> {
        let p = match self {
            Place::Xy((x, y)) => Point::new(*x, *y),
            Place::Aim(aim) => aim.0.on(hole),
        };
        if p.x.is_finite() && p.y.is_finite() {
            Ok(p)
        } else {
            Err(input_error(format!(
                "the place is ({}, {}); both must be finite numbers of yards",
                p.x, p.y
            )))
        }
    }
}

#[pymethods]
impl PyHole {
    #[classmethod]
    #[pyo3(signature = (path, *, hole = None))]
    fn read(_: &Bound<'_, PyType>, path: PathBuf, hole: Option<String>) -> PyResult<Self> {
        io::read_hole(&path, &options(hole))
            .map(Self::from)
            .map_err(refused)
    }

    #[classmethod]
    #[pyo3(signature = (text, *, hole = None))]
    fn from_geojson(_: &Bound<'_, PyType>, text: &str, hole: Option<String>) -> PyResult<Self> {
        io::geojson::read(text, &options(hole))
            .map(Self::from)
            .map_err(refused)
    }

    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        io::native::read(text).map(Self::from).map_err(refused)
    }

    fn to_json(&self) -> String {
        io::native::write(&self.0)
    }

    #[classmethod]
    #[pyo3(signature = (
        *, par, length, name = None, number = None, stroke_index = None, dogleg = None, fairway_width = None,
        fairway_from = None, fairway_to = None, green_depth = None, green_width = None, first_cut_width = None,
        fringe_width = None, pin_back = 0.0, pin_right = 0.0, bunkers = vec![], water = vec![], crossings = vec![],
        trees = vec![], out_of_bounds = None, out_of_bounds_offset = None, green_speed = None
    ))]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python method"
    )]
    fn sketch(
        _: &Bound<'_, PyType>,
        par: i128,
        length: f64,
        name: Option<String>,
        number: Option<i128>,
        stroke_index: Option<i128>,
        dogleg: Option<(f64, f64)>,
        fairway_width: Option<f64>,
        fairway_from: Option<f64>,
        fairway_to: Option<f64>,
        green_depth: Option<f64>,
        green_width: Option<f64>,
        first_cut_width: Option<f64>,
        fringe_width: Option<f64>,
        pin_back: f64,
        pin_right: f64,
        bunkers: Vec<SketchHazard>,
        water: Vec<SketchHazard>,
        crossings: Vec<(f64, f64)>,
        trees: Vec<SketchHazard>,
        out_of_bounds: Option<&str>,
        out_of_bounds_offset: Option<f64>,
        green_speed: Option<f64>,
    ) -> PyResult<Self> {
        let usual = Sketch::new(whole("par", par, "3 to 6")?, length);
        let hazards = |of: &str, list: Vec<SketchHazard>| -> PyResult<Vec<Hazard>> {
            list.into_iter().map(|h| h.hazard(of)).collect()
        };
        let sketch = Sketch {
            name: name.unwrap_or(usual.name),
            number: number.map(|n| whole("number", n, "1 to 99")).transpose()?,
            stroke_index: stroke_index
                .map(|n| whole("stroke_index", n, "1 to 18"))
                .transpose()?,
            dogleg: dogleg.map(|(at, turn_deg)| Dogleg { at, turn_deg }),
            fairway_width,
            fairway_from,
            fairway_to,
            green_depth: green_depth.unwrap_or(usual.green_depth),
            green_width: green_width.unwrap_or(usual.green_width),
            first_cut_width: first_cut_width.unwrap_or(usual.first_cut_width),
            fringe_width: fringe_width.unwrap_or(usual.fringe_width),
            pin_back,
            pin_right,
            bunkers: hazards("bunkers", bunkers)?,
            water: hazards("water", water)?,
            crossings: crossings
                .into_iter()
                .map(|(at, width)| CrossingWater {
                    at,
                    width,
                    name: None,
                })
                .collect(),
            trees: hazards("trees", trees)?,
            out_of_bounds: out_of_bounds.map(bounds).transpose()?,
            out_of_bounds_offset: out_of_bounds_offset.unwrap_or(usual.out_of_bounds_offset),
            green_speed: green_speed.unwrap_or(usual.green_speed),
            ..usual
        };
        Hole::sketch(&sketch).map(Self::from).map_err(refused)
    }

    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }

    #[getter]
    fn number(&self) -> Option<u8> {
        self.0.number()
    }

    #[getter]
    fn par(&self) -> u8 {
        self.0.par()
    }

    #[getter]
    fn stroke_index(&self) -> Option<u8> {
        self.0.stroke_index()
    }

    #[getter]
    fn length(&self) -> f64 {
        self.0.length()
    }

    #[getter]
    fn tee(&self) -> (f64, f64) {
        (self.0.tee().x, self.0.tee().y)
    }

    #[getter]
    fn pin(&self) -> (f64, f64) {
        (self.0.pin().x, self.0.pin().y)
    }

    #[getter]
    fn green_speed(&self) -> f64 {
        self.0.green_speed()
    }

    #[getter]
    fn warnings(&self) -> Vec<&str> {
        self.0.warnings().iter().map(|w| w.0.as_str()).collect()
    }

    #[getter]
    fn line_of_play<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyArray2<f64>>> {
        points(py, self.0.line().vertices())
    }

    #[getter]
    fn features(&self) -> Vec<PyFeature> {
        self.0.features().iter().cloned().map(PyFeature).collect()
    }

    /// The point of the plan that an aim means.
    fn point(&self, aim: &PyAim) -> (f64, f64) {
        let p = aim.0.on(&self.0);
        (p.x, p.y)
    }

    /// The surface at a place, or the surfaces at many.
    fn surface_at<'py>(&self, py: Python<'py>, place: Places<'py>) -> PyResult<Bound<'py, PyAny>> {
        match place {
            Places::One(place) => Ok(self
                .0
                .surface_at(place.on(&self.0)?)
                .name()
                .into_bound_py_any(py)?),
            Places::Many(places) => {
                let names = Surface::ALL.map(Surface::name);
                let codes = self.codes(&places)?.into_pyarray(py);
                py.import("numpy")?.call_method1("take", (names, codes))
            }
        }
    }

    fn __repr__(&self) -> String {
        self.0.to_string()
    }

    fn _repr_html_(&self) -> String {
        preformatted(&self.0.to_string())
    }

    fn __eq__(&self, other: &Self) -> bool {
        self.0 == other.0
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((slf.get_type().getattr("from_json")?, (slf.get().to_json(),)))
    }
}

fn options(hole: Option<String>) -> Options {
    Options {
        hole,
        ..Options::default()
    }
}

/// One place, or an array of places of shape (n, 2).
#[derive(FromPyObject)]
enum Places<'py> {
    One(Place),
    Many(PyArrayLike2<'py, f64, AllowTypeChange>),
}

impl PyHole {
    /// The code of the surface at each of many places.
    fn codes(&self, places: &PyArrayLike2<'_, f64, AllowTypeChange>) -> PyResult<Vec<i64>> {
        let places = places.as_array();
        if places.ncols() != 2 {
            return Err(input_error(format!(
                "places have {} columns; they must have 2 (x and y)",
                places.ncols()
            )));
        }
        if !places.iter().all(|v| v.is_finite()) {
            return Err(input_error(
                "places hold NaN or infinity; they must be finite numbers of yards",
            ));
        }
        Ok(places
            .rows()
            .into_iter()
            .map(|p| self.0.surface_at(Point::new(p[0], p[1])) as i64)
            .collect())
    }
}

/// Text as HTML that keeps its lines.
pub(crate) fn preformatted(text: &str) -> String {
    let escaped = text
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;");
    format!("<pre>{escaped}</pre>")
}

/// A place, or a hazard with a size.
#[derive(FromPyObject)]
enum SketchHazard {
    Hazard(PyHazard),
    Place(PyAim),
}

impl SketchHazard {
    fn hazard(self, of: &str) -> PyResult<Hazard> {
        match self {
            SketchHazard::Hazard(hazard) => Ok(hazard.0),
            SketchHazard::Place(aim) => hazard_at(&aim).map_err(|_| {
                input_error(format!(
                    "{of}: a place in a sketch is told along the line of play, with along(...)"
                ))
            }),
        }
    }
}

fn hazard_at(aim: &PyAim) -> PyResult<Hazard> {
    match aim.0 {
        Aim::Along { along, right } => Ok(Hazard::new(along, right)),
        Aim::At { .. } => Err(input_error(
            "hazard: give its place along the line of play, with along(...)",
        )),
    }
}

fn bounds(side: &str) -> PyResult<Bounds> {
    Bounds::from_name(side).ok_or_else(|| {
        input_error(format!(
            "out_of_bounds is {side:?}; it must be \"left\", \"right\", \"both\" or None"
        ))
    })
}

/// A bunker, pond or stand of trees of a sketch.
#[pyclass(frozen, eq, from_py_object, name = "Hazard", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyHazard(Hazard);

#[pymethods]
impl PyHazard {
    fn __repr__(&self) -> String {
        let at = PyAim(Aim::Along {
            along: self.0.at.along,
            right: self.0.at.right,
        });
        let size =
            |name: &str, v: Option<f64>| v.map_or(String::new(), |v| format!(", {name}={v}"));
        format!(
            "hazard({}{}{})",
            at.__repr__(),
            size("length", self.0.length),
            size("width", self.0.width)
        )
    }

    #[expect(clippy::type_complexity, reason = "the arguments of hazard")]
    fn __reduce__<'py>(
        &self,
        py: Python<'py>,
    ) -> PyResult<(
        Bound<'py, PyAny>,
        (
            PyAim,
            Option<f64>,
            Option<f64>,
            Option<String>,
            Option<f64>,
            Option<f64>,
        ),
    )> {
        let h = &self.0;
        let at = PyAim(Aim::Along {
            along: h.at.along,
            right: h.at.right,
        });
        let make = py.import("wideberth._wideberth")?.getattr("hazard")?;
        let height = h.canopy.map(|c| c.height_ft);
        let openness = h.canopy.map(|c| c.openness);
        Ok((
            make,
            (at, h.length, h.width, h.name.clone(), height, openness),
        ))
    }
}

#[pyfunction]
#[pyo3(signature = (place, length = None, width = None, name = None, height_ft = None, openness = None))]
pub(crate) fn hazard(
    place: &PyAim,
    length: Option<f64>,
    width: Option<f64>,
    name: Option<String>,
    height_ft: Option<f64>,
    openness: Option<f64>,
) -> PyResult<PyHazard> {
    let usual = Canopy::default();
    let canopy = (height_ft.is_some() || openness.is_some()).then(|| Canopy {
        height_ft: height_ft.unwrap_or(usual.height_ft),
        openness: openness.unwrap_or(usual.openness),
    });
    Ok(PyHazard(Hazard {
        length,
        width,
        name,
        canopy,
        ..hazard_at(place)?
    }))
}

/// A part of a hole with one surface.
#[pyclass(frozen, eq, name = "Feature", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyFeature(Feature);

#[pymethods]
impl PyFeature {
    #[getter]
    fn surface(&self) -> &'static str {
        self.0.surface.name()
    }

    #[getter]
    fn name(&self) -> Option<&str> {
        self.0.name.as_deref()
    }

    #[getter]
    fn area(&self) -> f64 {
        self.0.outline.area()
    }

    #[getter]
    fn height_ft(&self) -> Option<f64> {
        self.0.canopy.map(|c| c.height_ft)
    }

    #[getter]
    fn openness(&self) -> Option<f64> {
        self.0.canopy.map(|c| c.openness)
    }

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

/// Points as an array of shape (n, 2).
fn points<'py>(py: Python<'py>, points: &[Point]) -> PyResult<Bound<'py, PyArray2<f64>>> {
    let rows: Vec<Vec<f64>> = points.iter().map(|p| vec![p.x, p.y]).collect();
    PyArray2::from_vec2(py, &rows).map_err(refused)
}
