//! Holes: read, sketched, asked.

use numpy::{IntoPyArray, PyArray2};
use pyo3::IntoPyObjectExt;
use pyo3::exceptions::PyUserWarning;
use pyo3::prelude::*;
use pyo3::types::PyType;
use std::ffi::CString;
use std::path::PathBuf;
use std::sync::Arc;
use wideberth::geometry::Point;
use wideberth::hole::{Contours, Dogleg, Hole, HoleFaults, Sketch, Surface};
use wideberth::io;
use wideberth::io::geojson::Options;

use crate::conditions::PyConditions;
use crate::errors::refused;
use crate::feature::PyFeature;
use crate::given::given;
use crate::notebook::preformatted;
use crate::pictures;
use crate::places::{Places, points};
use crate::plan::PyAim;
use crate::pool;
use crate::sketch::{self, SketchHazard};
use crate::terrain::{self, Cell, Tiers};
use crate::travel::{Written, written};
use crate::whole::Whole;

/// A golf hole: a map of surfaces with a tee, a pin and a line of play.
///
/// The plan is in yards, x to the right and y up. Features lie on top of those before them; whatever none
/// covers is rough. A hole is made by `sketch`, `read`, `from_geojson` or `from_json`; it is immutable, equal to
/// a hole with the same parts, ground and conditions, and can be pickled.
#[pyclass(frozen, name = "Hole", module = "wideberth")]
#[derive(Clone)]
pub(crate) struct PyHole(pub(crate) Arc<Hole>);

impl From<Hole> for PyHole {
    fn from(hole: Hole) -> Self {
        PyHole(Arc::new(hole))
    }
}

#[pymethods]
impl PyHole {
    /// Reads a hole from a file: a GeoJSON map or a wideberth document, whichever its content is.
    ///
    /// Args:
    ///     path: the file.
    ///     hole: of a map with several holes, the `ref` of the one to read.
    ///
    /// Raises:
    ///     InputError: a file that cannot be read (the message names it), or every fault of what it says.
    #[classmethod]
    #[pyo3(signature = (path, *, hole = None))]
    fn read(
        class: &Bound<'_, PyType>,
        #[pyo3(from_py_with = given)] path: PathBuf,
        #[pyo3(from_py_with = given)] hole: Option<String>,
    ) -> PyResult<Self> {
        let (py, pool) = (class.py(), pool::pool(None)?);
        let read = pool::ask(py, &pool, move || io::read_hole(&path, &options(hole)))?;
        read.map(Self::from).map_err(refused)
    }

    /// Reads a hole from the text of a GeoJSON map (RFC 7946) with OpenStreetMap's golf tags or with surface names.
    ///
    /// Longitude and latitude (WGS 84) are laid out on a plane that touches the ellipsoid at the start of the line
    /// of play; within a kilometre distances are good to 2 parts in 10,000. What the reader had to assume is
    /// listed in `warnings`.
    ///
    /// Args:
    ///     text: the text of the map.
    ///     hole: of a map with several holes, the `ref` of the one to read.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or every fault of the map and of the hole in it.
    #[classmethod]
    #[pyo3(signature = (text, *, hole = None))]
    fn from_geojson(
        class: &Bound<'_, PyType>,
        #[pyo3(from_py_with = given)] text: String,
        #[pyo3(from_py_with = given)] hole: Option<String>,
    ) -> PyResult<Self> {
        let (py, pool) = (class.py(), pool::pool(None)?);
        let read = pool::ask(py, &pool, move || io::geojson::read(&text, &options(hole)))?;
        read.map(Self::from).map_err(refused)
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
    ///     fairway_to: yards from the tee to its end; by default it meets the green.
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
    ///     out_of_bounds_offset: yards from the line of play to the boundary; default 35.
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
            out_of_bounds_offset: out_of_bounds_offset.unwrap_or(usual.out_of_bounds_offset),
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

    /// Name of the hole.
    #[getter]
    fn name(&self) -> &str {
        self.0.name()
    }

    /// Number on the card, 1 to 99; None if not known.
    #[getter]
    fn number(&self) -> Option<u8> {
        self.0.number()
    }

    /// Par, 3 to 6.
    #[getter]
    fn par(&self) -> u8 {
        self.0.par()
    }

    /// Stroke index on the card, 1 to 18; None if not known.
    #[getter]
    fn stroke_index(&self) -> Option<u8> {
        self.0.stroke_index()
    }

    /// Yards along the line of play, from its start to its end.
    #[getter]
    fn length(&self) -> f64 {
        self.0.length()
    }

    /// Where the tee shot is played from: (x, y), yards.
    #[getter]
    fn tee(&self) -> (f64, f64) {
        (self.0.tee().x, self.0.tee().y)
    }

    /// The hole in the green: (x, y), yards.
    #[getter]
    fn pin(&self) -> (f64, f64) {
        (self.0.pin().x, self.0.pin().y)
    }

    /// Stimpmeter reading of the green, feet: the day's, or else the map's.
    #[getter]
    fn green_speed(&self) -> f64 {
        self.0.green_speed()
    }

    /// What should be known of the hole, one sentence each; empty where nothing is out of the ordinary.
    ///
    /// What the reader of a map had to assume, woods that the hole is cut out of, a survey that does not tell the green, a
    /// green steeper than 5 % at the pin.
    #[getter]
    fn warnings(&self) -> Vec<String> {
        self.0.notes().into_iter().map(|note| note.0).collect()
    }

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
    #[getter]
    fn slopes_in_words(&self) -> String {
        self.0.slopes_in_words()
    }

    /// True where +y of the plan is known to be north, as on a map read from GeoJSON; else nobody told.
    #[getter]
    fn north_up(&self) -> bool {
        self.0.north_up()
    }

    /// The line of play from the tee to the green: its vertices, shape (n, 2), float64, yards.
    #[getter]
    fn line_of_play<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyArray2<f64>>> {
        points(py, self.0.line().vertices())
    }

    /// The features from the bottom up: later ones lie on top of earlier ones.
    #[getter]
    fn features(&self) -> Vec<PyFeature> {
        self.0.features().iter().cloned().map(PyFeature).collect()
    }

    /// The features of trees that stand over whatever lies under them, fairway and sand too, from the bottom up.
    ///
    /// Those are all but woods that cover the tee or the pin: the hole is taken to be cut out of such a wood, and of it trees
    /// stand only where nothing else is drawn over it.
    #[getter]
    fn standing_trees(&self) -> Vec<PyFeature> {
        self.0.standing_trees().cloned().map(PyFeature).collect()
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
    fn point(&self, aim: &PyAim) -> (f64, f64) {
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

    /// The conditions of the day.
    #[getter]
    fn conditions(&self) -> PyConditions {
        PyConditions(*self.0.conditions())
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
    fn under(&self, conditions: PyConditions) -> PyResult<Self> {
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

    /// The same map on the ground of a survey in a file: an ESRI ASCII grid (.asc) or a GeoTIFF (.tif, .tiff).
    ///
    /// A GeoTIFF is read by rasterio (`pip install 'wideberth[survey]'`): one band of heights, north up, without gaps. What
    /// it tells of greens is as in `with_terrain`: of a coarse survey nothing, and then the green can be told here.
    ///
    /// Args:
    ///     path: the file.
    ///     origin: where (0, 0) of the plan lies in the grid's own coordinates: (easting, northing), or with
    ///         `plan="degrees"` (longitude, latitude). On a GeoJSON map that is where the line of play begins.
    ///     plan: what the grid's coordinates and cells are in: `"metres"`, `"feet"` or `"degrees"` (WGS 84). A grid in
    ///         metres or feet is laid with its north along +y; a turned grid is not supported.
    ///     heights: what the heights are in: `"metres"` or `"feet"`.
    ///     green_tilt_percent, two_tier_green: the slope of the green, as in `with_terrain`.
    ///
    /// Raises:
    ///     InputError: a file that cannot be read, every fault of what it says (gaps with row and column), or heights that
    ///         do not cover the hole. A GeoTIFF whose coordinates are not in what `plan` says.
    ///     ImportError: a GeoTIFF, and rasterio is not installed.
    ///
    /// Warns:
    ///     UserWarning: a green steeper than 5 % at the pin, as in `with_terrain`.
    #[pyo3(signature = (
        path, *, origin, plan = "metres", heights = "metres", green_tilt_percent = None, two_tier_green = None
    ))]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python method"
    )]
    fn with_survey(
        &self,
        py: Python<'_>,
        #[pyo3(from_py_with = given)] path: PathBuf,
        #[pyo3(from_py_with = given)] origin: (f64, f64),
        #[pyo3(from_py_with = given)] plan: &str,
        #[pyo3(from_py_with = given)] heights: &str,
        #[pyo3(from_py_with = given)] green_tilt_percent: Option<(f64, f64)>,
        #[pyo3(from_py_with = given)] two_tier_green: Option<Tiers>,
    ) -> PyResult<Self> {
        let contours = Contours {
            survey_ft: Some(terrain::survey_file(py, &path, origin, plan, heights)?),
            ..terrain::contours(0.0, 0.0, green_tilt_percent, two_tier_green)
        };
        let (pool, hole) = (pool::pool(None)?, self.0.clone());
        let shaped = pool::ask(py, &pool, move || hole.with_contours(&contours))?;
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

    fn __eq__(&self, other: &Self) -> bool {
        self.0 == other.0
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json())
    }
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

fn options(hole: Option<String>) -> Options {
    Options {
        hole,
        ..Options::default()
    }
}
