//! What practice is worth.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::player::Reference;
use wideberth::round::{PracticeQuestion, PracticeRun};

use crate::asked::Asked;
use crate::columns::Columns;
use crate::errors::refused;
use crate::player::PyPlayer;
use crate::rounds::way;

/// What practice is worth: the mean total and the chance of the target as usual, and the gains as columns.
#[pyfunction]
pub(crate) fn practice_gains(asked: Asked<'_>) -> PyResult<((f64, f64), Bound<'_, PyDict>)> {
    let (course, player) = (asked.course()?, asked.one::<PyPlayer>("player")?);
    let reference: String = asked.get("reference")?;
    let question = PracticeQuestion {
        way: way(&asked.get::<String>("then")?, "\"direct\" or \"steady\"")?,
        seed: asked.seed()?,
        rounds: asked.count("plays", "2 to 100,000,000")?,
        reference: Reference::from_name(&reference).map_err(refused)?,
        share: asked.get("share")?,
        to_break: asked.whole("target", "a total of a round")?,
    };
    let workers = asked.workers()?;
    let (course, player) = (course.get().0.clone(), player.get().player.clone());
    let run = workers.ask(move || PracticeRun::new(&course, &player, question))?;
    let run = workers.run(run.map_err(refused)?)?;
    let gains = run.gains();
    let table = Columns::of(asked.py(), &gains);
    table.texts("skill", |gain| &gain.skill)?;
    table.texts("part", |gain| gain.part)?;
    table.estimate("strokes_saved", |gain| gain.saved)?;
    table.estimate("chance_added", |gain| gain.chance)?;
    table.add("like_handicap", |gain| gain.like)?;
    Ok((run.usual(), table.made))
}
