//! What practice is worth.

use pyo3::prelude::*;
use wideberth::player::Reference;
use wideberth::round::{PracticeQuestion, PracticeRun};

use crate::course::PyCourse;
use crate::errors::refused;
use crate::given::given;
use crate::player::PyPlayer;
use crate::pool;
use crate::ranking::pair;
use crate::rounds::way;
use crate::solve::threads as threads_given;
use crate::whole::{SeedGiven, Whole};

/// A mean and its standard error.
type Told = (f64, f64);

/// A thing to practise: its name, the part of the game, strokes saved, chance added, and the handicap it is like.
type GainRow = (String, &'static str, Told, Told, f64);

/// What practice is worth; `wideberth.practice_gains` says what each argument is.
///
/// Returns:
///     The mean total and the chance of the target as usual, and the gains, most strokes saved first.
///
/// Raises:
///     InputError: before anything is played, naming the field, the value and what is allowed.
#[pyfunction]
#[pyo3(signature = (course, player, *, target, share, then, reference, plays, seed, threads, progress))]
#[expect(
    clippy::too_many_arguments,
    reason = "keyword arguments of the Python function"
)]
pub(crate) fn practice_gains(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] course: &PyCourse,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    target: Option<Whole>,
    #[pyo3(from_py_with = given)] share: f64,
    #[pyo3(from_py_with = given)] then: &str,
    #[pyo3(from_py_with = given)] reference: &str,
    plays: Whole,
    seed: SeedGiven,
    threads: Option<Whole>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<((f64, f64), Vec<GainRow>)> {
    let question = PracticeQuestion {
        way: way(then, "\"direct\" or \"steady\"")?,
        seed: seed.fit()?,
        rounds: plays.fit("plays", "2 to 100,000,000")?,
        reference: Reference::from_name(reference).map_err(refused)?,
        share,
        to_break: target
            .map(|score| score.fit("target", "a total of a round"))
            .transpose()?,
    };
    let pool = pool::pool(threads_given(threads)?)?;
    let (course, player) = (course.0.clone(), player.player.clone());
    let run = pool::ask(py, &pool, move || {
        PracticeRun::new(&course, &player, question)
    })?;
    let run = pool::run(py, &pool, run.map_err(refused)?, progress.as_ref())?;
    let row = |gain: wideberth::round::PracticeGain| {
        let (saved, chance) = (pair(gain.saved), pair(gain.chance));
        (gain.skill, gain.part, saved, chance, gain.like)
    };
    Ok((run.usual(), run.gains().into_iter().map(row).collect()))
}
