//! What a question asks: its arguments by name, as a public function of the package hands them on. Each is read and checked
//! here, whichever question it belongs to, so that all refuse it in the same words.

use numpy::{Element, PyArray1, PyArrayMethods, PyReadonlyArray1};
use pyo3::PyClass;
use pyo3::conversion::FromPyObjectOwned;
use pyo3::prelude::*;
use pyo3::pyclass::boolean_struct::True;
use pyo3::types::PyDict;
use rayon::ThreadPool;
use std::sync::Arc;
use wideberth::Run;
use wideberth::geometry::Point;
use wideberth::hole::Hole;
use wideberth::noise::Seed;
use wideberth::rank::{Length, Question};

use crate::compare::PyCheckpoint;
use crate::course::PyCourse;
use crate::given::{Given, given, named, unfit};
use crate::hole::PyHole;
use crate::places;
use crate::player::PyPlayer;
use crate::pool;
use crate::start::start;
use crate::whole::{SeedGiven, Whole};

/// Plays of everything compared where no number is given.
const USUAL_PLAYS: u64 = 20_000;

/// The most plays of everything ranked, where it is played to a precision and no number is given.
const MOST_PLAYS: u64 = 10_000_000;

/// The arguments of a question.
pub(crate) struct Asked<'py>(Bound<'py, PyDict>);

impl<'py> FromPyObject<'_, 'py> for Asked<'py> {
    type Error = PyErr;

    fn extract(arguments: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        Ok(Asked(arguments.cast::<PyDict>()?.to_owned()))
    }
}

impl<'py> Asked<'py> {
    pub(crate) fn py(&self) -> Python<'py> {
        self.0.py()
    }

    /// An argument as it was given; None where the question does not have it.
    fn item(&self, name: &str) -> PyResult<Bound<'py, PyAny>> {
        let found = self.0.get_item(name)?;
        Ok(found.unwrap_or_else(|| self.py().None().into_bound(self.py())))
    }

    /// An argument that is read on its own, not borrowed: a number, a text, a list.
    pub(crate) fn get<T: for<'a> Given<'a>>(&self, name: &str) -> PyResult<T> {
        given(&self.item(name)?).map_err(|error| named(self.py(), error, name))
    }

    /// An argument of a type that says itself what is wrong with it.
    pub(crate) fn read<T: FromPyObjectOwned<'py>>(&self, name: &str) -> PyResult<T> {
        let argument = self.item(name)?;
        argument
            .extract()
            .map_err(|error: T::Error| named(self.py(), error.into(), name))
    }

    /// An argument of a class of ours.
    pub(crate) fn one<C>(&self, name: &str) -> PyResult<Bound<'py, C>>
    where
        C: PyClass<Frozen = True> + Sync,
        for<'a> &'a C: Given<'a>,
    {
        let argument = self.item(name)?;
        argument.cast_into().map_err(|error| {
            let error = unfit(&error.into_inner(), &<&C>::allowed());
            named(self.py(), error, name)
        })
    }

    /// A column of a table.
    pub(crate) fn column<T: Element>(&self, name: &str) -> PyResult<PyReadonlyArray1<'py, T>> {
        let array = self.item(name)?.cast_into::<PyArray1<T>>()?;
        Ok(array.try_readonly()?)
    }

    pub(crate) fn course(&self) -> PyResult<Bound<'py, PyCourse>> {
        self.one("course")
    }

    /// The hole and the player who plays it.
    pub(crate) fn on(&self) -> PyResult<(Bound<'py, PyHole>, Bound<'py, PyPlayer>)> {
        Ok((self.one("hole")?, self.one("player")?))
    }

    /// A whole number, if one is given.
    pub(crate) fn whole<T: TryFrom<i128>>(&self, name: &str, allowed: &str) -> PyResult<Option<T>> {
        let number: Option<Whole> = self.read(name)?;
        number.map(|number| number.fit(name, allowed)).transpose()
    }

    /// A whole number that must be given.
    pub(crate) fn count<T: TryFrom<i128>>(&self, name: &str, allowed: &str) -> PyResult<T> {
        self.read::<Whole>(name)?.fit(name, allowed)
    }

    pub(crate) fn seed(&self) -> PyResult<Seed> {
        self.read::<SeedGiven>("seed")?.fit()
    }

    /// A place that must be given.
    pub(crate) fn point(&self, name: &str, hole: &Hole) -> PyResult<Point> {
        places::point(hole, name, &self.item(name)?)
    }

    /// The precision to play to, if there is one, and the number of plays: with a precision the most.
    pub(crate) fn plays(&self, most: u64, allowed: &str) -> PyResult<(Option<f64>, u64)> {
        let precision: Option<f64> = self.get("precision")?;
        let usual = precision.map_or(USUAL_PLAYS, |_| most);
        Ok((precision, self.whole("plays", allowed)?.unwrap_or(usual)))
    }

    /// How long to play: so often, or to a precision.
    pub(crate) fn length(&self) -> PyResult<Length> {
        let (precision, plays) = self.plays(MOST_PLAYS, "1 to 1,000,000,000")?;
        Ok(
            precision.map_or(Length::Plays(plays), |strokes| Length::Precision {
                strokes,
                most: plays,
            }),
        )
    }

    /// The question of plays of a hole, with those of its arguments that are given.
    pub(crate) fn question(&self, hole: &PyHole) -> PyResult<Question> {
        let mut question = Question::new(self.seed()?);
        if self.0.contains("blow_up")? {
            question.blow_up = self.count("blow_up", "1 to 20 over par")?;
        }
        question.maximum_score = self.whole("maximum_score", "above par and at most 60")?;
        let at: Option<Bound<'py, PyAny>> = self.read("at")?;
        let lie: Option<String> = self.get("lie")?;
        question.start = start(&hole.0, at.as_ref(), lie.as_deref())?;
        Ok(question)
    }

    /// The question of plays that count milestones.
    pub(crate) fn counted(&self, hole: &PyHole) -> PyResult<Question> {
        Ok(Question {
            checkpoints: self.by_name("checkpoints", |checkpoint: &PyCheckpoint| checkpoint.0)?,
            ..self.question(hole)?
        })
    }

    /// The question of a comparison, which counts milestones and may be played to a precision.
    pub(crate) fn comparison(&self, hole: &PyHole) -> PyResult<Question> {
        Ok(Question {
            length: self.length()?,
            ..self.counted(hole)?
        })
    }

    /// Things of a class with their names, and what is wanted of each.
    pub(crate) fn by_name<C, T>(
        &self,
        name: &str,
        wanted: impl Fn(&C) -> T,
    ) -> PyResult<Vec<(String, T)>>
    where
        C: PyClass<Frozen = True> + Sync,
    {
        let named: Vec<(String, Bound<'py, C>)> = self.read(name)?;
        let each = named.into_iter();
        Ok(each.map(|(name, it)| (name, wanted(it.get()))).collect())
    }

    /// Who works on the answer, and who hears of it.
    pub(crate) fn workers(&self) -> PyResult<Workers<'py>> {
        let threads = self.whole("threads", "1 to 1024, or None for every core")?;
        let pool = pool::pool(threads)?;
        let module = self.py().import("wideberth._progress")?;
        let progress = module.call_method1("reporter", (self.item("progress")?,))?;
        Ok(Workers {
            py: self.py(),
            pool,
            progress: Some(progress).filter(|report| !report.is_none()),
        })
    }
}

/// The threads that work on the answer to a question, and what is told of progress.
pub(crate) struct Workers<'py> {
    pub(crate) py: Python<'py>,
    pub(crate) pool: Arc<ThreadPool>,
    progress: Option<Bound<'py, PyAny>>,
}

impl<'py> Workers<'py> {
    /// Does work that reports nothing, see `pool::ask`.
    pub(crate) fn ask<T: Send + 'static>(
        &self,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> PyResult<T> {
        pool::ask(self.py, &self.pool, work)
    }

    /// Runs work to its end, see `pool::run`.
    pub(crate) fn run<W: Run + Send + 'static>(&self, work: W) -> PyResult<W> {
        pool::run(self.py, &self.pool, work, self.progress.as_ref())
    }
}
