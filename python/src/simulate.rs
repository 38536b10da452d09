//! Every stroke of every play, as columns.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::hole::Surface;
use wideberth::player::{Lie, Touch};
use wideberth::rank::{Length, Question, record};
use wideberth::shot::{Events, Next, Outcome, Stroke};
use wideberth::simulate::Recording;

use crate::asked::{Asked, Workers};
use crate::best;
use crate::columns::Columns;
use crate::errors::refused;
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::prepared::prepared;
use crate::wave;

/// Plays a plan and keeps every stroke: columns of plays, columns of strokes, and the mean score.
#[pyfunction]
pub(crate) fn simulate(asked: Asked<'_>) -> PyResult<(Bound<'_, PyDict>, Bound<'_, PyDict>, f64)> {
    let ((hole, player), plan) = (asked.on()?, asked.one::<PyPlan>("plan")?);
    let mut question = asked.question(hole.get())?;
    question.length = Length::Plays(asked.count("plays", "1 to 1,000,000,000")?);
    let on = (hole.get(), player.get(), plan.get());
    let recording = recorded(&asked.workers()?, on, &question)?;
    let plays = Columns::of(asked.py(), recording.plays());
    plays.whole("score", |p| p.score)?;
    plays.whole("penalties", |p| p.penalties)?;
    plays.whole("putts", |p| p.putts)?;
    plays.add("unfinished", |p| p.unfinished)?;
    let strokes = strokes_table(asked.py(), &recording, player.get())?;
    Ok((plays.made, strokes, recording.mean_score()))
}

/// Plays a plan as often as a question of a number of plays asks, and keeps every stroke.
pub(crate) fn recorded(
    workers: &Workers<'_>,
    (hole, player, plan): (&PyHole, &PyPlayer, &PyPlan),
    question: &Question,
) -> PyResult<Recording> {
    let plans = best::played(workers, (hole, player), std::slice::from_ref(plan))?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let question = question.clone();
    let recording = workers.ask(move || {
        let scene = prepared(&hole, &bag)?;
        record(scene, &plans[0], &question).map_err(refused)
    })??;
    let mut recording = workers.run(recording)?;
    wave::unless_broken_off(recording.take_fault())?;
    Ok(recording)
}

fn strokes_table<'py>(
    py: Python<'py>,
    recording: &Recording,
    player: &PyPlayer,
) -> PyResult<Bound<'py, PyDict>> {
    let pin = recording.scene().hole().pin();
    let (strokes, place_of) = stroke_names(player);
    let table = Columns::of(py, recording.strokes());
    #[expect(clippy::cast_possible_wrap, reason = "fewer than 2^63 plays")]
    table.add("play", |r| r.play as i64)?;
    table.whole("stroke", |r| r.stroke)?;
    table.names("club", &strokes, |r| place_of(r.told.shot.stroke))?;
    table.add("x", |r| r.told.from.at.x)?;
    table.add("y", |r| r.told.from.at.y)?;
    let lies = Lie::ALL.map(Lie::name);
    table.names("lie", &lies, |r| r.told.from.lie as usize)?;
    table.add("to_pin", |r| (pin - r.told.from.at).norm())?;
    table.add("target_x", |r| r.told.shot.target.x)?;
    table.add("target_y", |r| r.told.shot.target.y)?;
    table.add("carry", |r| r.told.shot.carry)?;
    rests(&table, |r| &r.told.outcome)?;
    table.whole("penalty", |r| r.told.penalty)?;
    happenings(&table, |r| &r.told.outcome)?;
    Ok(table.made)
}

/// Adds the columns of where balls came down and to rest.
pub(crate) fn rests<R>(table: &Columns<'_, '_, R>, of: impl Fn(&R) -> &Outcome) -> PyResult<()> {
    table.add("landed_x", |r| of(r).landed.x)?;
    table.add("landed_y", |r| of(r).landed.y)?;
    table.add("rest_x", |r| of(r).rest.x)?;
    table.add("rest_y", |r| of(r).rest.y)?;
    let surfaces = Surface::ALL.map(Surface::name);
    table.names("rest_on", &surfaces, |r| of(r).surface as usize)
}

/// Adds the columns of what happened to balls on the way.
pub(crate) fn happenings<R>(
    table: &Columns<'_, '_, R>,
    of: impl Fn(&R) -> &Outcome,
) -> PyResult<()> {
    table.add("holed", |r| of(r).next == Next::Holed)?;
    let events = [
        ("mishit", Events::MISHIT),
        ("trees", Events::TREES),
        ("lost", Events::LOST),
        ("unplayable", Events::UNPLAYABLE),
    ];
    for (name, event) in events {
        table.add(name, |r| of(r).events.has(event))?;
    }
    Ok(())
}

/// The names of all strokes a player has, and the place of a stroke among them.
pub(crate) fn stroke_names(player: &PyPlayer) -> (Vec<String>, impl Fn(Stroke) -> usize) {
    let clubs: Vec<String> = player
        .bag
        .clubs()
        .map(|club| player.bag.name(club).to_owned())
        .collect();
    let after_clubs = clubs.len();
    let touches = Touch::ALL.map(Touch::spoken);
    let place = move |stroke| match stroke {
        Stroke::Swing(club) => usize::from(club.0),
        Stroke::Touch(touch) => after_clubs + touch as usize,
        Stroke::Putt => after_clubs + Touch::ALL.len(),
    };
    let putt = "putt".to_owned();
    (
        clubs.into_iter().chain(touches).chain([putt]).collect(),
        place,
    )
}
