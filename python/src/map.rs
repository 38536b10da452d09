//! Maps read: what is told beside them, and the way to the readers.

use pyo3::prelude::*;
use pyo3::types::{PyString, PyTuple};
use std::path::PathBuf;
use std::sync::Arc;
use wideberth::io;
use wideberth::io::geojson::{
    Assumed, Bound as Boundary, Choice, CourseOptions, Obstruction, Options, Tee, Told, read_course,
};

use crate::asked::Asked;
use crate::course::PyCourse;
use crate::errors::{input_error, refused};
use crate::hole::PyHole;
use crate::pool;
use crate::whole::Whole;

/// A longitude and latitude, degrees.
type Degrees = (f64, f64);

/// Which hole: a number, a text, or a longitude and latitude.
pub(crate) struct HoleChoice(Choice);

impl<'a, 'py> FromPyObject<'a, 'py> for HoleChoice {
    type Error = PyErr;

    fn extract(given: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok((longitude, latitude)) = given.extract::<Degrees>() {
            return Ok(HoleChoice(Choice::Place(longitude, latitude)));
        }
        Ok(HoleChoice(Choice::Ref(reference("hole", &given)?)))
    }
}

/// A text or a number as the text it is compared by.
fn reference(field: &str, given: &Bound<'_, PyAny>) -> PyResult<String> {
    let is_text = given.is_instance_of::<PyString>();
    if is_text || given.extract::<f64>().is_ok() {
        return Ok(given.str()?.to_string());
    }
    let allowed = "the number or ref of a hole, or (longitude, latitude) on its line of play";
    Err(not(field, given, allowed))
}

fn not(field: &str, given: &Bound<'_, PyAny>, allowed: &str) -> PyErr {
    let shown = given
        .repr()
        .map_or_else(|_| "something".to_owned(), |text| text.to_string());
    let shown: String = shown.chars().take(80).collect();
    input_error(format!("{field} is {shown}; it must be {allowed}"))
}

/// A tee: its name, or a longitude and latitude.
pub(crate) struct TeeGiven(Tee);

impl<'a, 'py> FromPyObject<'a, 'py> for TeeGiven {
    type Error = PyErr;

    fn extract(given: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(name) = given.extract::<String>() {
            return Ok(TeeGiven(Tee::Named(name)));
        }
        match given.extract::<Degrees>() {
            Ok((longitude, latitude)) => Ok(TeeGiven(Tee::Place(longitude, latitude))),
            Err(_) => Err(not(
                "tee",
                &given,
                "the name of a tee, or (longitude, latitude)",
            )),
        }
    }
}

/// A word or several.
pub(crate) struct Words(Vec<String>);

impl<'a, 'py> FromPyObject<'a, 'py> for Words {
    type Error = PyErr;

    fn extract(given: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        if let Ok(word) = given.extract::<String>() {
            return Ok(Words(vec![word]));
        }
        Ok(Words(given.extract()?))
    }
}

impl Words {
    /// What the words mean.
    fn meant<T: Copy>(self, field: &str, known: &[(&str, T)]) -> PyResult<Vec<T>> {
        let meaning = |word: &String| {
            let found = known.iter().find(|(name, _)| name == word);
            found.map(|(_, meaning)| *meaning).ok_or_else(|| {
                let names: Vec<&str> = known.iter().map(|(name, _)| *name).collect();
                let allowed = names.join(", ");
                input_error(format!(
                    "{field} is {word:?}; it must be one or several of {allowed}"
                ))
            })
        };
        self.0.iter().map(meaning).collect()
    }
}

/// Longitudes and latitudes, no more of them than a line of play can have.
fn line(given: &Bound<'_, PyAny>) -> PyResult<Vec<Degrees>> {
    const MOST: usize = 1_000;
    let count = given.len()?;
    if count > MOST {
        let allowed = "a list of (longitude, latitude)";
        return Err(input_error(format!(
            "line has {count} positions; it must be {allowed}"
        )));
    }
    given.extract().map_err(|_| {
        not(
            "line",
            given,
            "a list of (longitude, latitude) from the tee to the green",
        )
    })
}

/// What is told of every hole of a map.
pub(crate) struct Beside<'py> {
    pub(crate) course: Option<String>,
    pub(crate) tee: Option<TeeGiven>,
    pub(crate) assume: Option<Words>,
    pub(crate) out_of_bounds: Option<Words>,
    pub(crate) obstructions: Option<Words>,
    pub(crate) attribution: Option<String>,
    pub(crate) line: Option<Bound<'py, PyAny>>,
}

impl Beside<'_> {
    fn options(self) -> PyResult<Options> {
        const ASSUMED: [(&str, Assumed); 3] = [
            ("green", Assumed::Green),
            ("fairway", Assumed::Fairway),
            ("pin", Assumed::Pin),
        ];
        const BOUNDS: [(&str, Boundary); 5] = [
            ("course outline", Boundary::CourseOutline),
            ("wall", Boundary::Wall),
            ("fence", Boundary::Fence),
            ("hedge", Boundary::Hedge),
            ("road", Boundary::Road),
        ];
        const OBSTRUCTIONS: [(&str, Obstruction); 3] = [
            ("building", Obstruction::Building),
            ("wall", Obstruction::Wall),
            ("hedge", Obstruction::Hedge),
        ];
        let none = || Words(Vec::new());
        Ok(Options {
            course: self.course,
            tee: self.tee.map(|tee| tee.0),
            assume: self.assume.unwrap_or_else(none).meant("assume", &ASSUMED)?,
            out_of_bounds: self
                .out_of_bounds
                .unwrap_or_else(none)
                .meant("out_of_bounds", &BOUNDS)?,
            obstructions: self
                .obstructions
                .unwrap_or_else(none)
                .meant("obstructions", &OBSTRUCTIONS)?,
            attribution: self.attribution,
            line: self.line.as_ref().map(line).transpose()?,
            ..Options::default()
        })
    }
}

/// What stands on the card, in place of what the map says.
pub(crate) struct Card {
    pub(crate) par: Option<Whole>,
    pub(crate) number: Option<Whole>,
    pub(crate) stroke_index: Option<Whole>,
    pub(crate) name: Option<String>,
    pub(crate) pin: Option<Degrees>,
}

/// A map as text, or the file it is in.
enum Source {
    File(PathBuf),
    Text(String),
}

/// The map of whatever Python has of it; other formats than JSON go through libraries that know them.
fn source(given: &Bound<'_, PyAny>) -> PyResult<Source> {
    let module = given.py().import("wideberth._maps")?;
    let found = module.call_method1("text_of", (given,))?;
    if let Ok(text) = found.cast::<PyString>() {
        return Ok(Source::Text(text.extract()?));
    }
    Ok(Source::File(found.extract()?))
}

/// Reads a hole.
pub(crate) fn read_hole(
    py: Python<'_>,
    given: &Bound<'_, PyAny>,
    hole: Option<HoleChoice>,
    card: Card,
    beside: Beside<'_>,
) -> PyResult<PyHole> {
    let fit = |value: Option<Whole>, field: &str, allowed: &str| {
        value.map(|n| n.fit::<i64>(field, allowed)).transpose()
    };
    let options = Options {
        hole: hole.map(|choice| choice.0),
        par: fit(card.par, "par", "3 to 6")?,
        number: fit(card.number, "number", "1 to 99")?,
        stroke_index: fit(card.stroke_index, "stroke_index", "1 to 18")?,
        name: card.name,
        pin: card.pin,
        ..beside.options()?
    };
    let source = source(given)?;
    let pool = pool::pool(None)?;
    let read = pool::ask(py, &pool, move || match &source {
        Source::File(path) => io::read_hole(path, &options),
        Source::Text(text) => io::hole_from_text(text, &options),
    })?;
    read.map(PyHole::from).map_err(refused)
}

/// The options that choose a hole.
pub(crate) fn choosing(hole: Option<HoleChoice>) -> Options {
    Options {
        hole: hole.map(|choice| choice.0),
        ..Options::default()
    }
}

/// A number told of holes: a dict by number, or a list in order.
fn told(asked: &Asked<'_>, field: &str) -> PyResult<Told> {
    let Some(given) = asked.read::<Option<Bound<'_, PyAny>>>(field)? else {
        return Ok(Told::Nothing);
    };
    let allowed = "a dict from number to number, or a list with one for each hole";
    let fault = || not(field, &given, allowed);
    if let Ok(items) = given.call_method0("items") {
        let mut pairs = Vec::new();
        for item in items.try_iter()? {
            let item = item?;
            let pair = item.cast::<PyTuple>().map_err(|_| fault())?;
            let key = reference(field, &pair.get_item(0)?)?;
            let value: Whole = pair.get_item(1)?.extract().map_err(|_| fault())?;
            pairs.push((key, value.fit(field, "a whole number")?));
        }
        return Ok(Told::ByRef(pairs));
    }
    let values: Vec<Whole> = given.extract().map_err(|_| fault())?;
    let values = values.into_iter().map(|v| v.fit(field, "a whole number"));
    Ok(Told::InOrder(values.collect::<PyResult<_>>()?))
}

/// Reads a course from a map or from a document.
#[pyfunction]
pub(crate) fn course_read(asked: Asked<'_>) -> PyResult<PyCourse> {
    let beside = Beside {
        course: asked.get("course")?,
        tee: asked.read("tee")?,
        assume: asked.read("assume")?,
        out_of_bounds: asked.read("out_of_bounds")?,
        obstructions: asked.read("obstructions")?,
        attribution: asked.get("attribution")?,
        line: None,
    };
    let name: Option<String> = asked.get("name")?;
    let holes: Option<Vec<Bound<'_, PyAny>>> = asked.read("holes")?;
    let holes = holes.map(|list| {
        let list = list.iter().map(|hole| reference("holes", hole));
        list.collect::<PyResult<Vec<String>>>()
    });
    let options = CourseOptions {
        each: beside.options()?,
        holes: holes.transpose()?,
        pars: told(&asked, "par")?,
        stroke_indexes: told(&asked, "stroke_index")?,
    };
    let source = source(&asked.read("source")?)?;
    let pool = pool::pool(None)?;
    let read = pool::ask(asked.py(), &pool, move || {
        let text = match source {
            Source::File(path) => io::text_of(&path)?,
            Source::Text(text) => text,
        };
        if io::course::is_document(&text) {
            return io::course::read(&text);
        }
        read_course(&text, &options)?.into_course(name)
    })?;
    read.map(|course| PyCourse::from(Arc::new(course)))
        .map_err(refused)
}
