//! The strokes around the green compared.

use pyo3::prelude::*;
use pyo3::types::PyType;
use std::collections::BTreeMap;
use wideberth::around::{Around, AroundRanking, MOST_LEFT_FT, Opening};
use wideberth::plan::{Scene, Then};
use wideberth::rank::Question;

use crate::asked::Asked;
use crate::best;
use crate::compare::PyDifference;
use crate::errors::{input_error, refused};
use crate::given::{Text, checked_share, given};
use crate::ranking::{index, names, pair};
use crate::travel::{Written, written};

/// Everything that `around_the_green` counted, by name of the option; `AroundTheGreen` makes its tables of it.
///
/// Strokes are those to hole out, penalties included. Every method that takes a name raises KeyError for one that
/// is not there; pairs are a value and its standard error.
#[pyclass(frozen, eq, name = "AroundRanking", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyAroundRanking(AroundRanking);

#[pymethods]
impl PyAroundRanking {
    /// Names of the options, fewest strokes first.
    #[getter]
    fn names(&self) -> Vec<&str> {
        names(&self.0.ranking)
    }

    /// Plays of every option.
    #[getter]
    fn plays(&self) -> u64 {
        self.0.ranking.plays
    }

    /// The seed that fixed the luck.
    #[getter]
    fn seed(&self) -> u64 {
        self.0.ranking.question.seed.0
    }

    /// Where the first stroke is played from, yards, and the lie there.
    #[getter]
    fn start(&self) -> ((f64, f64), &'static str) {
        (self.0.at, self.0.lie.name())
    }

    /// Yards to the pin.
    #[getter]
    fn to_pin(&self) -> f64 {
        self.0.to_pin
    }

    /// True when it is settled which option is best.
    #[getter]
    fn settled(&self) -> bool {
        self.0.ranking.settled()
    }

    /// Mean strokes to hole out.
    fn mean(&self, name: Text) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.ranking.mean(self.index(&name)?)))
    }

    /// Share of plays down in `strokes` (0 to 255) or fewer.
    fn down_in(&self, name: Text, strokes: u8) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.down_in(self.index(&name)?, strokes)))
    }

    /// Share of plays by strokes to hole out, fewest first.
    fn distribution(&self, name: Text) -> PyResult<BTreeMap<u8, f64>> {
        Ok(self.0.ranking.distribution(self.index(&name)?).collect())
    }

    /// Mean strokes made from the putting green, and its standard error.
    fn putts(&self, name: Text) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.ranking.putts(self.index(&name)?)))
    }

    /// True where half of the best option's plays or more were broken off at the stroke cap: means say no more then.
    #[getter]
    fn cannot_be_finished(&self) -> bool {
        self.0.ranking.cannot_be_finished()
    }

    /// Plays broken off at the stroke cap.
    fn unfinished(&self, name: Text) -> PyResult<u64> {
        Ok(self.0.ranking.tally(self.index(&name)?).unfinished)
    }

    /// The paired difference of two options, first minus second.
    fn difference(&self, first: Text, second: Text) -> PyResult<PyDifference> {
        let (first, second) = (self.index(&first)?, self.index(&second)?);
        Ok(self.0.ranking.difference(first, second).into())
    }

    /// How far the first stroke carries and then runs when solid and without luck, yards.
    fn meant(&self, name: Text) -> PyResult<(f64, f64)> {
        let Opening { carry, run, .. } = self.0.openings[self.index(&name)?];
        Ok((carry, run))
    }

    /// Share of first strokes that finish on the green or in the hole.
    fn on_green(&self, name: Text) -> PyResult<(f64, f64)> {
        let first = &self.0.firsts[self.index(&name)?];
        Ok(pair(first.share(first.on_green)))
    }

    /// Share of first strokes that are holed.
    fn holed(&self, name: Text) -> PyResult<(f64, f64)> {
        let first = &self.0.firsts[self.index(&name)?];
        Ok(pair(first.share(first.holed)))
    }

    /// Share of first strokes that are chunked.
    fn chunked(&self, name: Text) -> PyResult<(f64, f64)> {
        let first = &self.0.firsts[self.index(&name)?];
        Ok(pair(first.share(first.chunked)))
    }

    /// Share of first strokes that are thinned.
    fn thinned(&self, name: Text) -> PyResult<(f64, f64)> {
        let first = &self.0.firsts[self.index(&name)?];
        Ok(pair(first.share(first.thinned)))
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

    /// Reads a ranking back from the text that `to_json` wrote.
    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: Text) -> PyResult<Self> {
        serde_json::from_str(&text)
            .map(PyAroundRanking)
            .map_err(refused)
    }

    /// The counts as JSON text; `from_json` gives equal counts back.
    fn to_json(&self) -> PyResult<String> {
        serde_json::to_string(&self.0).map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<Written<'py>> {
        written(slf, slf.get().to_json()?)
    }
}

impl PyAroundRanking {
    fn index(&self, name: &str) -> PyResult<usize> {
        index(&self.0.ranking, "option", name)
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
