//! Holes: read, sketched, asked.

use numpy::{IntoPyArray, PyArray2};
use pyo3::IntoPyObjectExt;
use pyo3::exceptions::{PyAttributeError, PyUserWarning};
use pyo3::prelude::*;
use pyo3::types::PyType;
use std::collections::BTreeMap;
use std::ffi::CString;
use std::path::PathBuf;
use std::sync::Arc;
use wideberth::geometry::Point;
use wideberth::hole::{Contours, Dogleg, Hole, HoleFaults, Sketch, Surface};
use wideberth::io;

use crate::conditions::PyConditions;
use crate::errors::{input_error, refused};
use crate::feature::PyFeature;
use crate::getters::getters;
use crate::given::{given, items, taken_as, taken_for};
use crate::map::{self, Beside, Card, HoleChoice, TeeGiven, Words};
use crate::notebook::preformatted;
use crate::pictures;
use crate::places::{Places, points};
use crate::plan::PyAim;
use crate::pool;
use crate::sketch::{self, SketchHazard};
use crate::survey;
use crate::terrain::{self, Cell, Tiers};
use crate::travel::{Written, written};
use crate::whole::Whole;

/// A golf hole: a map of surfaces with a tee, a pin and a line of play.
///
/// The plan is in yards, x to the right and y up. Features lie on top of those before them; whatever none
/// covers is rough. A hole is made by `sketch`, `read`, `from_geojson` or `from_json`; it is immutable, equal to
/// a hole with the same parts, ground and conditions, and can be pickled.
#[pyclass(frozen, eq, name = "Hole", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyHole(pub(crate) Arc<Hole>);

taken_as!(PyHole, "a Hole");
items!(PyHole, "holes");

impl From<Hole> for PyHole {
    fn from(hole: Hole) -> Self {
        PyHole(Arc::new(hole))
    }
}

#[pymethods]
impl PyHole {
    /// Reads a hole from a map or from a wideberth document.
    ///
    /// A map is GeoJSON (RFC 7946) or the answer of an Overpass query, with OpenStreetMap's golf tags or with surface names:
    /// a path, a text, bytes, a dict, or anything with `__geo_interface__` (a GeoDataFrame). With the extra `maps`
    /// (`pip install 'wideberth[maps]'`) also OpenStreetMap's .osm, .osm.bz2 and .osm.pbf, and GeoPackage, Shapefile and what
    /// else GDAL reads. Longitude and latitude (WGS 84) are laid out on a plane that touches the ellipsoid at the start of
    /// the line of play; within a kilometre distances are good to 2 parts in 10,000.
    ///
    /// Only what comes within 150 yards of the line of play belongs to the hole, and only that can be at fault. What was
    /// assumed or left out is listed in `notes`.
    ///
    /// Args:
    ///     source: the map.
    ///     hole: of a map with several holes the one to read: its `ref` (`9`, `"9"` and `"09"` are one), or
    ///         (longitude, latitude) of a place on its line of play. Where no hole has that `ref` a number is the place among
    ///         the holes of the map, counted from 1, if the hole there has none.
    ///     course: the name of the course the hole belongs to (`leisure=golf_course` around it), where several courses have
    ///         such a hole.
    ///     par: 3 to 6, in place of what the map says; as are `number`, 1 to 99, `stroke_index`, 1 to 18, and `name`.
    ///     tee: the tee to play from, in place of the start of the line of play: its colour or name, or
    ///         (longitude, latitude).
    ///     line: the line of play from the tee to the green, a list of (longitude, latitude), in place of that of the map.
    ///         Where no green is mapped at its end an ordinary one is assumed.
    ///     pin: (longitude, latitude) of the hole, in place of that of the map.
    ///     assume: what is taken for the usual where the map has none, `"green"`, `"fairway"` or `"pin"` (the middle of the
    ///         green), or several of them.
    ///     out_of_bounds: what beside `golf=out_of_bounds` bounds the hole: `"course outline"` (all ground outside it),
    ///         `"wall"`, `"fence"`, `"hedge"` or `"road"` (those that run past the hole), or several of them.
    ///     obstructions: what stops a ball as dense trees do: `"building"`, `"wall"` or `"hedge"`, or several of them.
    ///     attribution: the credit that the data asks for, in place of what the map says.
    ///
    /// Raises:
    ///     InputError: a file that cannot be read (the message names it), or every fault of the map near the hole.
    ///     ImportError: a format that needs an extra, and the extra is not installed.
    #[classmethod]
    #[pyo3(signature = (
        source, *, hole = None, course = None, par = None, number = None, stroke_index = None, name = None, tee = None,
        line = None, pin = None, assume = None, out_of_bounds = None, obstructions = None, attribution = None
    ), text_signature = "(source, *, hole=None, course=None, par=None, number=None, stroke_index=None, name=None, \
        tee=None, line=None, pin=None, assume=(), out_of_bounds=(), obstructions=(), attribution=None)")]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python method"
    )]
    fn read(
        class: &Bound<'_, PyType>,
        source: &Bound<'_, PyAny>,
        hole: Option<HoleChoice>,
        #[pyo3(from_py_with = given)] course: Option<String>,
        par: Option<Whole>,
        number: Option<Whole>,
        stroke_index: Option<Whole>,
        #[pyo3(from_py_with = given)] name: Option<String>,
        tee: Option<TeeGiven>,
        line: Option<Bound<'_, PyAny>>,
        #[pyo3(from_py_with = given)] pin: Option<(f64, f64)>,
        assume: Option<Words>,
        out_of_bounds: Option<Words>,
        obstructions: Option<Words>,
        #[pyo3(from_py_with = given)] attribution: Option<String>,
    ) -> PyResult<Self> {
        let card = Card {
            par,
            number,
            stroke_index,
            name,
            pin,
        };
        let beside = Beside {
            course,
            tee,
            assume,
            out_of_bounds,
            obstructions,
            attribution,
            line,
        };
        map::read_hole(class.py(), source, hole, card, beside)
    }

    /// Reads a hole from the text of a map, as `read` does.
    ///
    /// Args:
    ///     text: the text of the map.
    ///     hole: of a map with several holes the one to read, as in `read`.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or every fault of the map and of the hole in it.
    #[classmethod]
    #[pyo3(signature = (text, *, hole = None))]
    fn from_geojson(
        class: &Bound<'_, PyType>,
        #[pyo3(from_py_with = given)] text: String,
        hole: Option<HoleChoice>,
    ) -> PyResult<Self> {
        let (py, pool) = (class.py(), pool::pool(None)?);
        let options = map::choosing(hole);
        let read = pool::ask(py, &pool, move || io::geojson::read(&text, &options))?;
        read.map(Self::from).map_err(refused)
    }

    /// The hole as a map: a GeoJSON `FeatureCollection` (RFC 7946) as a dict.
    ///
    /// The credit that its data asks for is under `attribution`. Positions are rounded to seven decimals, about a centimetre;
    /// `read` gives the same hole back within that. What no map tells is not in it: the shape of the ground, the day, the
    /// speed of the greens.
    ///
    /// Raises:
    ///     InputError: it is not known where on the earth the hole lies: it was sketched, or made from a document without an
    ///         `origin`.
    fn to_geojson<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        match io::geojson::write(&self.0) {
            Some(map) => py.import("json")?.call_method1("loads", (map.to_string(),)),
            None => Err(input_error(
                "the hole does not know where on the earth it lies; only a hole read from a map can be written as one",
            )),
        }
    }

    /// The hole as other libraries for maps ask for it, the same as `to_geojson()`.
    #[getter]
    fn __geo_interface__<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        self.to_geojson(py)
            .map_err(|error| PyAttributeError::new_err(error.to_string()))
    }

    /// Reads a hole from the text of a wideberth document, as `to_json` writes it. Unknown fields are errors.
    ///
    /// Args:
    ///     text: the JSON text.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or every field that is missing, unknown or wrong and every fault of the
    ///         hole.
    #[classmethod]
    fn from_json(
        class: &Bound<'_, PyType>,
        #[pyo3(from_py_with = given)] text: String,
    ) -> PyResult<Self> {
        let (py, pool) = (class.py(), pool::pool(None)?);
        let read = pool::ask(py, &pool, move || io::native::read(&text))?;
        read.map(Self::from).map_err(refused)
    }

    /// The hole as the text of a wideberth document; `from_json` gives an equal hole back, to the last bit.
    fn to_json(&self) -> String {
        io::native::write(&self.0)
    }

    /// Draws a hole from yardages, for a hole of which there is no map.
    ///
    /// The tee is at (0, 0) and the hole starts along +y. Usual sizes are common practice unless a source is named.
    ///
    /// Args:
    ///     par: 3 to 6.
    ///     length: yards along the line of play from the tee to the middle of the green.
    ///     name: name of the hole; by default "Sketched hole".
    ///     number: number on the card, 1 to 99.
    ///     stroke_index: stroke index on the card, 1 to 18.
    ///     dogleg: where the hole turns: (yards from the tee, degrees to the right; to the left is negative, -100 to 100).
    ///     fairway_width: yards; default 35, or on a par 3, where it is the apron, the width of the green.
    ///     fairway_from: yards from the tee to the start of the fairway; default 90, or 35 % of the length if
    ///         that is less; on a par 3 from 25 yards short of the green.
    ///     fairway_to: yards from the tee to its end; by default it meets the green, on a par 4 or 5
    ///         narrowing to two fifths of the width of the green over its last 40 yards.
    ///     green_depth: yards from front to back; default 28.
    ///     green_width: yards across; default 26.
    ///     first_cut_width: yards of first cut round the fairway; default 4, 0 for none.
    ///     fringe_width: yards of fringe round the green; default 1.5, 0 for none.
    ///     pin_back: yards from the middle of the green to the pin, towards the back.
    ///     pin_right: yards from the middle of the green to the pin, to the right.
    ///     bunkers: places along the line of play, `along(...)` or `short_of_green(...)`, or `hazard(...)` for other sizes
    ///         than the usual 12 by 7 yards. The place is the middle of the near edge; one 0 yards to the side lies across
    ///         the line.
    ///     water: ponds, as bunkers; usually 40 by 25 yards. They are red penalty areas.
    ///     crossings: water across the whole hole: (yards from the tee to its middle, yards from bank to bank).
    ///         A yellow penalty area.
    ///     trees: stands of trees, as bunkers; usually 60 by 20 yards. They stand over whatever lies under them: across the
    ///         fairway a ball must go over or through them, and one at rest under them lies on fairway.
    ///     out_of_bounds: `"left"`, `"right"` or `"both"`; None for no boundary.
    ///     out_of_bounds_offset: yards from the line of play to the boundary that `out_of_bounds` tells of; default 35.
    ///     green_speed: Stimpmeter reading, feet, 4 to 16; default 9.
    ///     uphill_ft, fairway_tilt_percent, green_tilt_percent, two_tier_green: the shape of the ground, as in
    ///         `with_terrain`; by default it is flat.
    ///
    /// Raises:
    ///     InputError: every fault at once; each names the field, the value and what is allowed.
    ///
    /// Warns:
    ///     UserWarning: a green steeper than 5 % at the pin.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> hole = wb.Hole.sketch(
    ///     ...     name="Heath", par=4, length=410, dogleg=(240, 25),
    ///     ...     bunkers=[wb.along(250, left=16), wb.hazard(wb.along(385, right=15), length=8, width=6)],
    ///     ...     water=[wb.along(330, right=22)],
    ///     ... )
    ///     >>> hole.name, hole.par, round(hole.length)
    ///     ('Heath', 4, 410)
    ///     >>> hole.surface_at(hole.pin), hole.surface_at(wb.along(330, right=30))
    ///     ('green', 'penalty_red')
    ///     >>> wb.Hole.sketch(par=4, length=410, green_width=300)
    ///     Traceback (most recent call last):
    ///         ...
    ///     wideberth.InputError: green_width is 300; it must be 5 to 80
    #[classmethod]
    #[pyo3(signature = (
        *, par, length, name = None, number = None, stroke_index = None, dogleg = None, fairway_width = None,
        fairway_from = None, fairway_to = None, green_depth = None, green_width = None, first_cut_width = None,
        fringe_width = None, pin_back = 0.0, pin_right = 0.0, bunkers = vec![], water = vec![], crossings = vec![],
        trees = vec![], out_of_bounds = None, out_of_bounds_offset = None, green_speed = None, uphill_ft = 0.0,
        fairway_tilt_percent = 0.0, green_tilt_percent = None, two_tier_green = None
    ), text_signature = "(*, par, length, name=None, number=None, stroke_index=None, dogleg=None, \
        fairway_width=None, fairway_from=None, fairway_to=None, green_depth=None, green_width=None, \
        first_cut_width=None, fringe_width=None, pin_back=0.0, pin_right=0.0, bunkers=(), water=(), crossings=(), \
        trees=(), out_of_bounds=None, out_of_bounds_offset=None, green_speed=None, uphill_ft=0.0, \
        fairway_tilt_percent=0.0, green_tilt_percent=None, two_tier_green=None)")]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python method"
    )]
    fn sketch(
        class: &Bound<'_, PyType>,
        par: Whole,
        #[pyo3(from_py_with = given)] length: f64,
        #[pyo3(from_py_with = given)] name: Option<String>,
        number: Option<Whole>,
        stroke_index: Option<Whole>,
        #[pyo3(from_py_with = given)] dogleg: Option<(f64, f64)>,
        #[pyo3(from_py_with = given)] fairway_width: Option<f64>,
        #[pyo3(from_py_with = given)] fairway_from: Option<f64>,
        #[pyo3(from_py_with = given)] fairway_to: Option<f64>,
        #[pyo3(from_py_with = given)] green_depth: Option<f64>,
        #[pyo3(from_py_with = given)] green_width: Option<f64>,
        #[pyo3(from_py_with = given)] first_cut_width: Option<f64>,
        #[pyo3(from_py_with = given)] fringe_width: Option<f64>,
        #[pyo3(from_py_with = given)] pin_back: f64,
        #[pyo3(from_py_with = given)] pin_right: f64,
        #[pyo3(from_py_with = given)] bunkers: Vec<SketchHazard>,
        #[pyo3(from_py_with = given)] water: Vec<SketchHazard>,
        #[pyo3(from_py_with = given)] crossings: Vec<(f64, f64)>,
        #[pyo3(from_py_with = given)] trees: Vec<SketchHazard>,
        #[pyo3(from_py_with = given)] out_of_bounds: Option<&str>,
        #[pyo3(from_py_with = given)] out_of_bounds_offset: Option<f64>,
        #[pyo3(from_py_with = given)] green_speed: Option<f64>,
        #[pyo3(from_py_with = given)] uphill_ft: f64,
        #[pyo3(from_py_with = given)] fairway_tilt_percent: f64,
        #[pyo3(from_py_with = given)] green_tilt_percent: Option<(f64, f64)>,
        #[pyo3(from_py_with = given)] two_tier_green: Option<Tiers>,
    ) -> PyResult<Self> {
        let usual = Sketch::new(par.fit("par", "3 to 6")?, length);
        let sketch = Sketch {
            name: name.unwrap_or(usual.name),
            number: number.map(|n| n.fit("number", "1 to 99")).transpose()?,
            stroke_index: stroke_index
                .map(|n| n.fit("stroke_index", "1 to 18"))
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
            bunkers: sketch::hazards("bunkers", bunkers)?,
            water: sketch::hazards("water", water)?,
            crossings: sketch::crossings(crossings),
            trees: sketch::hazards("trees", trees)?,
            out_of_bounds: out_of_bounds.map(sketch::bounds).transpose()?,
            out_of_bounds_offset,
            green_speed: green_speed.unwrap_or(usual.green_speed),
            contours: terrain::contours(
                uphill_ft,
                fairway_tilt_percent,
                green_tilt_percent,
                two_tier_green,
            ),
            ..usual
        };
        told_if_steep(class.py(), Hole::sketch(&sketch))
    }

    /// The tees of the map that have a name: from the name to (x, y), yards.
    #[getter]
    fn tees(&self) -> BTreeMap<String, (f64, f64)> {
        let tees = self.0.about().tees.iter();
        tees.map(|tee| (tee.name.clone(), (tee.at.x, tee.at.y)))
            .collect()
    }

    /// The line of play from the tee to the green: its vertices, shape (n, 2), float64, yards.
    #[getter]
    fn line_of_play<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyArray2<f64>>> {
        points(py, self.0.line().vertices())
    }

    /// The point (x, y) of the plan, yards, that an aim means on this hole.
    ///
    /// Args:
    ///     aim: `along(...)` or `at(...)`.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> wb.Hole.sketch(par=4, length=400).point(wb.along(250, left=10))
    ///     (-10.0, 250.0)
    fn point(&self, #[pyo3(from_py_with = given)] aim: &PyAim) -> (f64, f64) {
        let p = aim.0.on(&self.0);
        (p.x, p.y)
    }

    /// The surface at a place, or the surfaces at many.
    ///
    /// Args:
    ///     place: `(x, y)` in yards, an aim such as `along(230, left=5)`, or an array of float64 (or what converts
    ///         to it), yards: of shape (2,) for one place, of shape (n, 2) for many.
    ///
    /// Returns:
    ///     One name, or an array of n names (str): `tee`, `fairway`, `first_cut`, `rough`, `deep_rough`, `fringe`,
    ///     `green`, `bunker`, `penalty_red`, `penalty_yellow`, `out_of_bounds` or `trees`.
    ///
    /// Raises:
    ///     InputError: an array of another shape, NaN or infinity.
    ///     TypeError: something that is no place.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> hole = wb.Hole.sketch(par=3, length=150)
    ///     >>> hole.surface_at((0, 150))
    ///     'green'
    ///     >>> [str(name) for name in hole.surface_at([[0, 0], [0, 60], [0, 150]])]
    ///     ['tee', 'rough', 'green']
    fn surface_at<'py>(
        &self,
        py: Python<'py>,
        place: &Bound<'py, PyAny>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let code = |p: Point| self.0.surface_at(p);
        match Places::on(&self.0, place)? {
            Places::One(p) => code(p).name().into_bound_py_any(py),
            Places::Many(points) => {
                let names = Surface::ALL.map(Surface::name);
                let codes: Vec<i64> = points.into_iter().map(|p| code(p) as i64).collect();
                py.import("numpy")?
                    .call_method1("take", (names, codes.into_pyarray(py)))
            }
        }
    }

    /// The same hole on another day: the map stays as it is.
    ///
    /// Args:
    ///     conditions: the day, in place of the one the hole had.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> hole = wb.Hole.sketch(par=4, length=392)
    ///     >>> fast = hole.under(wb.Conditions(green_speed=11, firmness="firm"))
    ///     >>> hole.green_speed, fast.green_speed
    ///     (9.0, 11.0)
    fn under(&self, #[pyo3(from_py_with = given)] conditions: PyConditions) -> PyResult<Self> {
        self.0.under(conditions.0).map(Self::from).map_err(refused)
    }

    /// The same hole with the pin elsewhere on the green.
    ///
    /// Args:
    ///     back: yards behind the middle (the centre of area) of the green, seen along the end of the line of play.
    ///     right: yards to the right of it.
    ///
    /// Raises:
    ///     InputError: the pin would lie off the green, or where the ground is steeper than 15 %.
    ///
    /// Warns:
    ///     UserWarning: the green is steeper than 5 % at the pin.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> hole = wb.Hole.sketch(par=3, length=150).with_pin(back=4, right=-2)
    ///     >>> [round(yards, 6) for yards in hole.pin]
    ///     [-2.0, 154.0]
    #[pyo3(signature = (*, back = 0.0, right = 0.0))]
    fn with_pin(
        &self,
        py: Python<'_>,
        #[pyo3(from_py_with = given)] back: f64,
        #[pyo3(from_py_with = given)] right: f64,
    ) -> PyResult<Self> {
        told_if_steep(py, self.0.with_pin_at(back, right))
    }

    /// The same hole from another tee: the line of play begins there and goes on by those of its turns that are still ahead.
    ///
    /// Args:
    ///     tee: the name of one of `tees`, or (x, y), yards.
    ///
    /// Raises:
    ///     InputError: no tee of that name, or every fault of the hole from there.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> round(wb.Hole.sketch(par=4, length=380).with_tee((0, 45)).length)
    ///     335
    fn with_tee(
        &self,
        py: Python<'_>,
        #[pyo3(from_py_with = given)] tee: TeeOnPlan,
    ) -> PyResult<Self> {
        told_if_steep(
            py,
            match tee {
                TeeOnPlan::Named(name) => self.0.with_tee(&name),
                TeeOnPlan::Place((x, y)) => self.0.with_tee_at(Point::new(x, y)),
            },
        )
    }

    /// The same map on ground of another shape, in place of the shape it had.
    ///
    /// The height is the sum of all that is told here; without any of it the ground is flat.
    ///
    /// Between surveyed heights the ground is bilinear. Heights 30 m apart are fine for a fairway, but do not tell the
    /// slopes of a green. A survey tells them where its heights are no more than 1.1 yards apart and told in steps of no more
    /// than 0.05 feet, about a metre and a centimetre; they should be as good as that, too. Under any other survey every green
    /// is laid level, at the height of its middle, and putts roll as on an ordinary green unless `green_tilt_percent` or
    /// `two_tier_green` tells its slope; `warnings` says so.
    ///
    /// Args:
    ///     heights_ft: surveyed heights, shape (rows, columns), float64 or what converts to it, feet, without gaps.
    ///         `heights_ft[i, j]` is the height at `(corner[0] + j * cell, corner[1] + i * cell)`: rows run up the plan. Of
    ///         a raster whose first row is the top, give `raster[::-1]`. They must cover the tee, the line of play and all
    ///         that is mown or raked.
    ///     cell: yards between neighbouring heights, or (between columns, between rows).
    ///     corner: (x, y), yards, of `heights_ft[0, 0]`.
    ///     uphill_ft: feet from the tee up to the middle of the green (negative: down), as one plane over the hole.
    ///     fairway_tilt_percent: percent by which the ground falls from left to right of the line of play (negative: from
    ///         right to left), -60 to 60.
    ///     green_tilt_percent: percent by which the green itself falls (from left to right, from back to front), together
    ///         at most 15: `uphill_ft` and `fairway_tilt_percent` raise the green but do not tilt it. On top of the slopes of
    ///         a survey that tells greens. (0, 0) is a green known to be level. With None such a survey or the tiers tell its
    ///         slope; without either it is not told, and putts roll as on an ordinary green.
    ///     two_tier_green: (feet by which the back tier lies above the front tier, yards of ramp between them) or
    ///         (feet, yards of ramp, yards from the middle of the green back to the middle of the ramp).
    ///
    /// Raises:
    ///     InputError: every fault at once: a value out of range, a height that is no number (with its row and column),
    ///         heights that do not cover the hole, a pin where no ball would rest.
    ///
    /// Warns:
    ///     UserWarning: a green steeper than 5 % at the pin: holes are seldom cut where it is steeper than 3 to 5 % (common
    ///         practice, no source).
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> hole = wb.Hole.sketch(par=4, length=400).with_terrain(
    ///     ...     uphill_ft=24, fairway_tilt_percent=3, green_tilt_percent=(0, 2.5)
    ///     ... )
    ///     >>> round(hole.height_ft((0, 200)), 6), round(hole.height_ft(hole.pin), 6)
    ///     (12.0, 24.0)
    ///     >>> [[round(percent, 6) for percent in hole.slope_percent(place)] for place in ((0, 200), hole.pin)]
    ///     [[3.0, -2.0], [0.0, -2.5]]
    #[pyo3(
        signature = (
            *, heights_ft = None, cell = None, corner = None, uphill_ft = 0.0, fairway_tilt_percent = 0.0,
            green_tilt_percent = None, two_tier_green = None
        ),
        text_signature = "($self, *, heights_ft=None, cell=None, corner=None, uphill_ft=0.0, \
            fairway_tilt_percent=0.0, green_tilt_percent=None, two_tier_green=None)"
    )]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python method"
    )]
    fn with_terrain(
        &self,
        py: Python<'_>,
        heights_ft: Option<&Bound<'_, PyAny>>,
        #[pyo3(from_py_with = given)] cell: Option<Cell>,
        #[pyo3(from_py_with = given)] corner: Option<(f64, f64)>,
        #[pyo3(from_py_with = given)] uphill_ft: f64,
        #[pyo3(from_py_with = given)] fairway_tilt_percent: f64,
        #[pyo3(from_py_with = given)] green_tilt_percent: Option<(f64, f64)>,
        #[pyo3(from_py_with = given)] two_tier_green: Option<Tiers>,
    ) -> PyResult<Self> {
        let contours = Contours {
            survey_ft: terrain::survey(heights_ft, cell, corner)?,
            ..terrain::contours(
                uphill_ft,
                fairway_tilt_percent,
                green_tilt_percent,
                two_tier_green,
            )
        };
        let (pool, hole) = (pool::pool(None)?, self.0.clone());
        let shaped = pool::ask(py, &pool, move || hole.with_contours(&contours))?;
        told_if_steep(py, shaped)
    }

    /// The same map on the ground of a survey in a file: an ESRI ASCII grid (.asc), a GeoTIFF (.tif, .tiff) or another raster.
    ///
    /// A hole that was read from a map knows where on the earth it lies. A raster that names the system of its coordinates,
    /// or whose system is told with `crs`, is then laid on the plan through longitude and latitude, whatever the system is
    /// and however its north is turned; rasterio reads it (`pip install 'wideberth[survey]'`). An ESRI ASCII grid in degrees
    /// needs nothing but `plan="degrees"`.
    ///
    /// The survey may be much larger than the hole, and have gaps where nothing is mown or raked: those take the nearest
    /// heights. Heights more than 15 yards apart, which are off by metres from one to the next, are smoothed over one and a
    /// half cells. `notes` says so. What it tells of greens is as in `with_terrain`: of a coarse survey nothing, and then
    /// the green can be told here.
    ///
    /// Args:
    ///     path: the file.
    ///     origin: where (0, 0) of the plan lies in the grid's own coordinates, for a hole that does not know where it lies or
    ///         a grid whose system nobody knows: (easting, northing), or with `plan="degrees"` (longitude, latitude). On a
    ///         map that is where the line of play begins. The grid is then laid with its north along +y.
    ///     plan: what the grid's coordinates and cells are in: `"metres"` (the default with `origin`), `"feet"` or
    ///         `"degrees"` (WGS 84).
    ///     heights: what the heights are in: `"metres"` or `"feet"`; by default what the file says, or else metres.
    ///     crs: the system of the file's coordinates where it does not name it, such as `"EPSG:27700"`.
    ///     green_tilt_percent, two_tier_green: the slope of the green, as in `with_terrain`.
    ///
    /// Raises:
    ///     InputError: a file that cannot be read, every fault of what it says, gaps on mown or raked ground (with row and
    ///         column), heights that do not cover the hole, or a file whose coordinates are not in what `plan` says.
    ///     ImportError: a raster that needs rasterio, and rasterio is not installed.
    ///
    /// Warns:
    ///     UserWarning: a green steeper than 5 % at the pin, as in `with_terrain`.
    #[pyo3(signature = (
        path, *, origin = None, plan = None, heights = None, crs = None, green_tilt_percent = None, two_tier_green = None
    ))]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python method"
    )]
    fn with_survey(
        &self,
        py: Python<'_>,
        #[pyo3(from_py_with = given)] path: PathBuf,
        #[pyo3(from_py_with = given)] origin: Option<(f64, f64)>,
        #[pyo3(from_py_with = given)] plan: Option<&str>,
        #[pyo3(from_py_with = given)] heights: Option<&str>,
        #[pyo3(from_py_with = given)] crs: Option<&str>,
        #[pyo3(from_py_with = given)] green_tilt_percent: Option<(f64, f64)>,
        #[pyo3(from_py_with = given)] two_tier_green: Option<Tiers>,
    ) -> PyResult<Self> {
        let asked = survey::Asked {
            origin,
            plan,
            heights,
            crs,
        };
        let around = survey::around(py, &self.0, &path, &asked)?;
        let contours = Contours {
            survey_ft: Some(around.grid),
            ..terrain::contours(0.0, 0.0, green_tilt_percent, two_tier_green)
        };
        let (pool, hole) = (pool::pool(None)?, self.0.clone());
        let notes = around.notes;
        let shaped = pool::ask(py, &pool, move || {
            let shaped = hole.with_contours(&contours)?;
            Ok(notes.into_iter().fold(shaped, Hole::noting))
        })?;
        told_if_steep(py, shaped)
    }

    /// Height of the ground at a place, feet, or heights at many. Without a survey the tee is at 0.
    ///
    /// Args:
    ///     place: `(x, y)` in yards, an aim such as `along(230, left=5)`, or an array of shape (n, 2) of float64 or
    ///         what converts to it, yards.
    ///
    /// Returns:
    ///     One float, or an array of n float64, feet.
    ///
    /// Raises:
    ///     InputError: an array of another shape, NaN or infinity.
    ///     TypeError: something that is no place.
    fn height_ft<'py>(
        &self,
        py: Python<'py>,
        place: &Bound<'py, PyAny>,
    ) -> PyResult<Bound<'py, PyAny>> {
        terrain::height_ft(py, &self.0, place)
    }

    /// How much the ground *falls* at a place, or at many, percent; where it rises the number is negative.
    ///
    /// Towards +x is to the right of the plan and towards +y up the plan.
    ///
    /// Args:
    ///     place: as in `height_ft`.
    ///
    /// Returns:
    ///     (percent towards +x, percent towards +y), or an array of shape (n, 2), float64.
    ///
    /// Raises:
    ///     InputError: an array of another shape, NaN or infinity.
    ///     TypeError: something that is no place.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> hole = wb.Hole.sketch(par=4, length=400, fairway_tilt_percent=4)
    ///     >>> [round(percent, 6) for percent in hole.slope_percent(wb.along(220))]
    ///     [4.0, 0.0]
    fn slope_percent<'py>(
        &self,
        py: Python<'py>,
        place: &Bound<'py, PyAny>,
    ) -> PyResult<Bound<'py, PyAny>> {
        terrain::slope_percent(py, &self.0, place)
    }

    /// Draws the hole to scale, from the tee at the bottom to the pin at the top; needs the extra `plot`.
    ///
    /// Args:
    ///     ax: Matplotlib axes to draw on; None for a new figure.
    ///     title: title; None for name, par and length.
    ///     theme: `"light"` or `"dark"`.
    ///     yards_from: arcs of yards from the `"tee"`, to the `"green"` (to the pin), `"both"` or `"neither"`.
    ///
    /// Returns:
    ///     The axes, in yards from the tee: across the page to the right, and up the page towards the pin.
    ///
    /// Raises:
    ///     InputError: a theme or a `yards_from` that there is not.
    ///     ImportError: Matplotlib is not installed.
    #[pyo3(
        signature = (ax = None, *, title = None, theme = None, yards_from = None),
        text_signature = "($self, ax=None, *, title=None, theme='light', yards_from='both')"
    )]
    fn plot<'py>(
        slf: &Bound<'py, Self>,
        ax: Option<Bound<'py, PyAny>>,
        title: Option<Bound<'py, PyAny>>,
        theme: Option<Bound<'py, PyAny>>,
        yards_from: Option<Bound<'py, PyAny>>,
    ) -> PyResult<Bound<'py, PyAny>> {
        let keywords = [
            ("title", title),
            ("theme", theme),
            ("yards_from", yards_from),
        ];
        pictures::drawn(slf.as_any(), "plot_hole", ax, &keywords)
    }

    fn __repr__(&self) -> String {
        self.0.to_string()
    }

    fn _repr_html_(&self) -> String {
        preformatted(&self.0.to_string())
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json())
    }
}

getters! {
    PyHole, self:
    /// Name of the hole.
    name: &str = self.0.name();
    /// Number on the card, 1 to 99; None if not known.
    number: Option<u8> = self.0.number();
    /// Par, 3 to 6.
    par: u8 = self.0.par();
    /// Stroke index on the card, 1 to 18; None if not known.
    stroke_index: Option<u8> = self.0.stroke_index();
    /// Yards along the line of play, from its start to its end.
    length: f64 = self.0.length();
    /// Where the tee shot is played from: (x, y), yards.
    tee: (f64, f64) = (self.0.tee().x, self.0.tee().y);
    /// The hole in the green: (x, y), yards.
    pin: (f64, f64) = (self.0.pin().x, self.0.pin().y);
    /// Stimpmeter reading of the green, feet: the day's, or else the map's.
    green_speed: f64 = self.0.green_speed();
    /// What should be known of the hole, one sentence each; empty where nothing is out of the ordinary.
    ///
    /// What the reader of a map assumed and left out, woods that the hole is cut out of, a survey that does not tell the
    /// green, a green steeper than 5 % at the pin.
    notes: Vec<String> = self.0.notes().into_iter().map(|note| note.0).collect();
    /// The same as `notes`, under the name it had before.
    warnings: Vec<String> = self.notes();
    /// Who and what near the hole must not be hit, one sentence each, as far as its map tells: roads, paths, houses.
    cautions: Vec<String> = self.0.about().cautions.clone();
    /// The credit that the data of the map asks for; None where it asks for none.
    attribution: Option<String> = self.0.about().attribution.clone();
    /// (longitude, latitude), degrees (WGS 84), of the point (0, 0) of the plan; None where nobody told.
    origin: Option<(f64, f64)> = self.0.about().place.map(|plane| plane.origin());
    /// How the ground rises and falls, in words.
    ///
    /// The pin above or below the tee, the fall across the line of play and that of the green, each on average, feet and
    /// percent; `Level ground` where there is none.
    ///
    /// Example:
    ///     >>> import wideberth as wb
    ///     >>> hole = wb.Hole.sketch(par=4, length=380, uphill_ft=24, fairway_tilt_percent=3)
    ///     >>> print(hole.slopes_in_words)
    ///     The pin is 24 ft above the tee, the ground falls 3.0 % from left to right, the slopes of the green are not told
    slopes_in_words: String = self.0.slopes_in_words();
    /// True where +y of the plan is known to be north, as on a map read from GeoJSON; else nobody told.
    north_up: bool = self.0.north_up();
    /// The features from the bottom up: later ones lie on top of earlier ones.
    features: Vec<PyFeature> = self.0.features().iter().cloned().map(PyFeature).collect();
    /// The features of trees that stand over whatever lies under them, fairway and sand too, from the bottom up.
    ///
    /// Those are all but woods that cover the tee or the pin: the hole is taken to be cut out of such a wood, and of it trees
    /// stand only where nothing else is drawn over it.
    standing_trees: Vec<PyFeature> = self.0.standing_trees().cloned().map(PyFeature).collect();
    /// The conditions of the day.
    conditions: PyConditions = PyConditions(*self.0.conditions());
}

/// The hole, after a warning where its green is steep at the pin.
fn told_if_steep(py: Python<'_>, hole: Result<Hole, HoleFaults>) -> PyResult<PyHole> {
    let hole = hole.map_err(refused)?;
    if let Some(note) = hole.steep_pin() {
        let category = py.get_type::<PyUserWarning>();
        PyErr::warn(py, &category, &CString::new(note.0)?, 1)?;
    }
    Ok(hole.into())
}

/// A tee by its name, or a place of the plan.
#[derive(FromPyObject)]
enum TeeOnPlan {
    Named(String),
    Place((f64, f64)),
}

taken_for!(TeeOnPlan, "the name of a tee, or (x, y) in yards");
