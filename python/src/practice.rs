//! What practice is worth.

use pyo3::prelude::*;
use wideberth::player::Reference;
use wideberth::round::{PracticeQuestion, PracticeRun};

use crate::course::PyCourse;
use crate::errors::refused;
use crate::player::PyPlayer;
use crate::pool::{self, Waves};
use crate::ranking::pair;
use crate::rounds::{waves, way};
use crate::solve::threads as threads_given;
use crate::whole::{SeedGiven, Whole};

waves!(PracticeRun);

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
    course: &PyCourse,
    player: &PyPlayer,
    target: Option<Whole>,
    share: f64,
    then: &str,
    reference: &str,
    plays: Whole,
    seed: SeedGiven,
    threads: Option<Whole>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<((f64, f64), Vec<GainRow>)> {
    let question = PracticeQuestion {
        way: way(then)?,
        seed: seed.fit()?,
        rounds: plays.fit("plays", "2 to 100,000,000")?,
        reference: Reference::from_name(reference).map_err(refused)?,
        share,
        to_break: target
            .map(|score| score.fit("target", "a total of a round"))
            .transpose()?,
    };
    let pool = pool::pool(threads_given(threads)?)?;
    let run = py.detach(|| pool.install(|| PracticeRun::new(&course.0, &player.player, question)));
    let mut run = run.map_err(refused)?;
    pool::run(py, &pool, &mut run, progress.as_ref())?;
    let row = |gain: wideberth::round::PracticeGain| {
        let (saved, chance) = (pair(gain.saved), pair(gain.chance));
        (gain.skill, gain.part, saved, chance, gain.like)
    };
    Ok((run.usual(), run.gains().into_iter().map(row).collect()))
}
