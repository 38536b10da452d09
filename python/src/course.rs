//! Courses: holes in the order of play.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};
use std::sync::{Arc, Mutex, PoisonError};
use wideberth::course::Course;
use wideberth::io;
use wideberth::player::Player;
use wideberth::round::CourseWays;

use crate::errors::refused;
use crate::getters::getters;
use crate::given::{Text, given, named, taken_as};
use crate::hole::PyHole;
use crate::travel::{Written, written};

/// The holes of a course in their order, of which `wideberth.Course` is made.
///
/// Immutable; equal when its name, attribution and holes are; can be pickled.
#[pyclass(frozen, subclass, name = "Course", module = "wideberth._wideberth")]
pub(crate) struct PyCourse(pub(crate) Arc<Course>, Mutex<Vec<Kept>>);

taken_as!(PyCourse, "a Course");

/// More holes than any course has: the core tells how many it may have.
const MOST_HOLES: usize = 1_000;

/// A course solved for a player.
struct Kept {
    player: Player,
    cell: f64,
    ways: CourseWays,
}

/// Players whose solutions are kept with a course, those asked for last.
const MOST_KEPT: usize = 2;

impl From<Course> for PyCourse {
    fn from(course: Course) -> Self {
        Arc::new(course).into()
    }
}

impl From<Arc<Course>> for PyCourse {
    fn from(course: Arc<Course>) -> Self {
        PyCourse(course, Mutex::new(Vec::new()))
    }
}

impl PyCourse {
    /// What is kept for a player; it is the last to be given up then.
    pub(crate) fn kept(&self, player: &Player, cell: f64) -> Option<CourseWays> {
        let mut all = self.1.lock().unwrap_or_else(PoisonError::into_inner);
        let is_it = |kept: &Kept| kept.cell.to_bits() == cell.to_bits() && kept.player == *player;
        let place = all.iter().position(is_it)?;
        let found = all.remove(place);
        let ways = found.ways.clone();
        all.push(found);
        Some(ways)
    }

    /// Keeps what was solved for a player in place of what was not asked for longest.
    pub(crate) fn keep(&self, player: Player, cell: f64, ways: CourseWays) {
        let mut all = self.1.lock().unwrap_or_else(PoisonError::into_inner);
        all.push(Kept { player, cell, ways });
        if all.len() > MOST_KEPT {
            all.remove(0);
        }
    }
}

#[pymethods]
impl PyCourse {
    #[new]
    #[pyo3(
        signature = (holes, *, name = "Course".to_owned(), attribution = None),
        text_signature = "(holes, *, name='Course', attribution=None)"
    )]
    fn new(
        holes: &Bound<'_, PyAny>,
        #[pyo3(from_py_with = given)] name: String,
        #[pyo3(from_py_with = given)] attribution: Option<String>,
    ) -> PyResult<Self> {
        let module = holes.py().import("wideberth._given")?;
        let list = module.call_method1("listed", ("holes", holes, "holes", MOST_HOLES))?;
        let holes: Vec<PyHole> = given(&list).map_err(|error| named(holes.py(), error, "holes"))?;
        let holes = holes.into_iter().map(|hole| hole.0).collect();
        Course::new(name, holes, attribution)
            .map(Self::from)
            .map_err(refused)
    }

    /// Reads a course from the text of a wideberth document, as `to_json` writes it. Unknown fields are errors.
    ///
    /// Args:
    ///     text: the JSON text.
    ///
    /// Raises:
    ///     InputError: the text is no JSON, or every field that is missing, unknown or wrong and every fault of the holes
    ///         and of the course.
    #[classmethod]
    fn from_json<'py>(class: &Bound<'py, PyType>, text: Text) -> PyResult<Bound<'py, PyAny>> {
        let read = Self::from(io::course::read(&text).map_err(refused)?);
        let told = PyDict::new(class.py());
        told.set_item("name", read.name())?;
        told.set_item("attribution", read.attribution())?;
        class.call((read.holes(),), Some(&told))
    }

    /// The course as the text of a wideberth document; `from_json` gives an equal course back.
    fn to_json(&self) -> String {
        io::course::write(&self.0)
    }

    /// The stroke indexes on the card in the order of play; None where it has none.
    #[getter]
    fn stroke_indexes(&self) -> Option<Vec<i64>> {
        let indexes = self.0.stroke_indexes()?;
        Some(indexes.into_iter().map(i64::from).collect())
    }

    fn __repr__(&self) -> String {
        self.0.to_string()
    }

    fn __eq__(&self, other: &Self) -> bool {
        self.0 == other.0
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json())
    }
}

getters! {
    PyCourse, self:
    /// Name of the course.
    name: &str = self.0.name();
    /// Whose map the holes come from; None where nobody must be told.
    attribution: Option<&str> = self.0.attribution();
    /// The holes in the order of play.
    holes: Vec<PyHole> = self.0.holes().iter().cloned().map(PyHole).collect();
    /// The numbers of the holes: those on the card, or their places counted from 1.
    numbers: Vec<i64> = self.0.numbers().iter().copied().map(i64::from).collect();
    /// The sum of the pars.
    par: u16 = self.0.par();
    /// Yards along all lines of play together.
    length: f64 = self.0.length();
}
