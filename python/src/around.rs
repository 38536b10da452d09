//! The strokes around the green compared.

use pyo3::prelude::*;
use wideberth::around::{Around, AroundRanking, FirstStrokes, MOST_LEFT_FT, Opening};
use wideberth::plan::{Scene, Then};
use wideberth::rank::{Question, Ranking};

use crate::asked::Asked;
use crate::best;
use crate::errors::{input_error, refused};
use crate::getters::getters;
use crate::given::{Text, checked_share, given};
use crate::ranking::{Ranked, pair};
use crate::travel::by_json;

/// Everything that `around_the_green` counted, by name of the option; `AroundTheGreen` makes its tables of it.
///
/// Strokes are those to hole out, penalties included. Every method that takes a name raises KeyError for one that
/// is not there; pairs are a value and its standard error.
#[pyclass(frozen, eq, name = "AroundRanking", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyAroundRanking(AroundRanking);

getters! {
    PyAroundRanking, self:
    /// Where the first stroke is played from, yards, and the lie there.
    start: ((f64, f64), &'static str) = (self.0.at, self.0.lie.name());
    /// Yards to the pin.
    to_pin: f64 = self.0.to_pin;
}

#[pymethods]
impl PyAroundRanking {
    /// Share of plays down in `strokes` (0 to 255) or fewer.
    fn down_in(&self, name: Text, strokes: u8) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.down_in(self.index(&name)?, strokes)))
    }

    /// How far the first stroke carries and then runs when solid and without luck, yards.
    fn meant(&self, name: Text) -> PyResult<(f64, f64)> {
        let Opening { carry, run, .. } = self.0.openings[self.index(&name)?];
        Ok((carry, run))
    }

    /// Share of first strokes that finish on the green or in the hole.
    fn on_green(&self, name: Text) -> PyResult<(f64, f64)> {
        self.first(&name, |first| first.on_green)
    }

    /// Share of first strokes that finish neither there nor in the hole.
    fn missed_green(&self, name: Text) -> PyResult<(f64, f64)> {
        self.first(&name, FirstStrokes::missed_green)
    }

    /// Share of first strokes that are holed.
    fn holed(&self, name: Text) -> PyResult<(f64, f64)> {
        self.first(&name, |first| first.holed)
    }

    /// Share of first strokes that are chunked.
    fn chunked(&self, name: Text) -> PyResult<(f64, f64)> {
        self.first(&name, |first| first.chunked)
    }

    /// Share of first strokes that are thinned.
    fn thinned(&self, name: Text) -> PyResult<(f64, f64)> {
        self.first(&name, |first| first.thinned)
    }

    /// The distance to the pin, feet, that a share (0 to 1) of first strokes do not exceed, to the next half foot.
    ///
    /// Infinite if it is more than 300 feet.
    ///
    /// Raises:
    ///     InputError: a share outside 0 to 1.
    fn left_ft(&self, name: Text, #[pyo3(from_py_with = given)] share: f64) -> PyResult<f64> {
        Ok(self.0.firsts[self.index(&name)?].left_ft(checked_share(share)?))
    }

    /// Share of first strokes left within so many feet of the pin.
    ///
    /// Raises:
    ///     InputError: a distance that is not a multiple of half a foot from 0 to 300.
    fn within_ft(
        &self,
        name: Text,
        #[pyo3(from_py_with = given)] feet: f64,
    ) -> PyResult<(f64, f64)> {
        let first = &self.0.firsts[self.index(&name)?];
        if !((0.0..=MOST_LEFT_FT).contains(&feet) && (2.0 * feet).fract() == 0.0) {
            return Err(input_error(format!(
                "feet is {feet}; it must be a multiple of 0.5 from 0 to {MOST_LEFT_FT}"
            )));
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a small whole number"
        )]
        let half_feet = (2.0 * feet) as usize;
        Ok(pair(first.share(first.within_half_feet(half_feet))))
    }
}

by_json! {
    PyAroundRanking(AroundRanking), |held| Ok(PyAroundRanking(held)), "a ranking", "ranking",
    "The counts as JSON text; `from_json` gives equal counts back."
}

impl PyAroundRanking {
    /// A share of the first strokes of an option, of those that `count` counts.
    fn first(&self, name: &str, count: fn(&FirstStrokes) -> u64) -> PyResult<(f64, f64)> {
        let first = &self.0.firsts[self.index(name)?];
        Ok(pair(first.share(count(first))))
    }
}

impl Ranked for PyAroundRanking {
    const KIND: &'static str = "option";

    fn ranking(&self) -> &Ranking {
        &self.0.ranking
    }
}

/// Plays every stroke around the green from a place.
#[pyfunction]
pub(crate) fn around_the_green(asked: Asked<'_>) -> PyResult<PyAroundRanking> {
    let (hole, player) = asked.on()?;
    let (hole, player) = (hole.get(), player.get());
    let mut question = Question::new(asked.seed()?);
    question.length = asked.length()?;
    let then = Then::from_name(&asked.get::<String>("then")?).map_err(refused)?;
    let at = asked.point("at", &hole.0)?;
    let workers = asked.workers()?;
    let then = best::going_on(&workers, (hole, player), then)?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let around = workers.ask(move || {
        let scene = Scene::new(hole, bag).map_err(refused)?;
        Around::new(scene, at, &then, question).map_err(refused)
    })??;
    Ok(PyAroundRanking(workers.run(around)?.found()))
}
