//! Every stroke of every play, as columns.

use numpy::{IntoPyArray, PyArray1};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::player::Touch;
use wideberth::rank::{Length, Question, record};
use wideberth::shot::{Events, Next, Outcome, Stroke};
use wideberth::simulate::Recording;

use crate::best;
use crate::errors::refused;
use crate::given::given;
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::pool;
use crate::prepared::prepared;
use crate::solve;
use crate::start::start;
use crate::wave;
use crate::whole::{SeedGiven, Whole};

/// Plays a plan and keeps every stroke; `wideberth.simulate` says what each argument is.
///
/// Returns:
///     Columns of plays and columns of strokes, each a dict of NumPy arrays; a column of names is a tuple of
///     codes (int64) and the names they stand for.
///
/// Raises:
///     InputError: before anything is played, naming the field, the value and what is allowed.
#[pyfunction]
#[pyo3(signature = (hole, player, plan, *, plays, seed, maximum_score, at, lie, threads, progress))]
#[expect(
    clippy::too_many_arguments,
    clippy::needless_pass_by_value,
    reason = "keyword arguments of the Python function"
)]
pub(crate) fn simulate<'py>(
    py: Python<'py>,
    #[pyo3(from_py_with = given)] hole: &PyHole,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    #[pyo3(from_py_with = given)] plan: &PyPlan,
    plays: Whole,
    seed: SeedGiven,
    maximum_score: Option<Whole>,
    at: Option<Bound<'_, PyAny>>,
    #[pyo3(from_py_with = given)] lie: Option<&str>,
    threads: Option<Whole>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<(Bound<'py, PyDict>, Bound<'py, PyDict>)> {
    let mut question = Question::new(seed.fit()?);
    question.length = Length::Plays(plays.fit("plays", "1 to 1,000,000,000")?);
    question.maximum_score = maximum_score
        .map(|most| most.fit("maximum_score", "above par and at most 60"))
        .transpose()?;
    question.start = start(&hole.0, at.as_ref(), lie)?;
    let threads = solve::threads(threads)?;
    let recording = recorded(
        py,
        (hole, player, plan),
        &question,
        threads,
        progress.as_ref(),
    )?;
    Ok((
        plays_table(py, &recording)?,
        strokes_table(py, &recording, player)?,
    ))
}

/// Plays a plan as often as a question of a number of plays asks, and keeps every stroke.
pub(crate) fn recorded(
    py: Python<'_>,
    (hole, player, plan): (&PyHole, &PyPlayer, &PyPlan),
    question: &Question,
    threads: Option<usize>,
    progress: Option<&Bound<'_, PyAny>>,
) -> PyResult<Recording> {
    let pool = pool::pool(threads)?;
    let plans = best::played(py, &pool, (hole, player), std::slice::from_ref(plan))?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let question = question.clone();
    let recording = pool::ask(py, &pool, move || {
        let scene = prepared(&hole, &bag)?;
        record(scene, &plans[0], &question).map_err(refused)
    })??;
    let mut recording = pool::run(py, &pool, recording, progress)?;
    match recording.take_fault() {
        Some(fault) => Err(wave::raised(fault)),
        None => Ok(recording),
    }
}

pub(crate) fn column<T: numpy::Element, S>(
    py: Python<'_>,
    rows: &[S],
    f: impl Fn(&S) -> T,
) -> Py<PyArray1<T>> {
    rows.iter()
        .map(f)
        .collect::<Vec<T>>()
        .into_pyarray(py)
        .unbind()
}

/// A column of names as (codes, names): Python turns it into an array of strings.
fn names<S>(
    py: Python<'_>,
    rows: &[S],
    names: Vec<String>,
    f: impl Fn(&S) -> usize,
) -> (Py<PyArray1<i64>>, Vec<String>) {
    #[expect(clippy::cast_possible_wrap, reason = "a small number")]
    let codes = column(py, rows, |row| f(row) as i64);
    (codes, names)
}

fn plays_table<'py>(py: Python<'py>, recording: &Recording) -> PyResult<Bound<'py, PyDict>> {
    let plays = recording.plays();
    let table = PyDict::new(py);
    table.set_item("score", column(py, plays, |p| i64::from(p.score)))?;
    table.set_item("penalties", column(py, plays, |p| i64::from(p.penalties)))?;
    table.set_item("putts", column(py, plays, |p| i64::from(p.putts)))?;
    table.set_item("unfinished", column(py, plays, |p| p.unfinished))?;
    Ok(table)
}

fn strokes_table<'py>(
    py: Python<'py>,
    recording: &Recording,
    player: &PyPlayer,
) -> PyResult<Bound<'py, PyDict>> {
    let rows = recording.strokes();
    let pin = recording.scene().hole().pin();
    let table = PyDict::new(py);
    #[expect(clippy::cast_possible_wrap, reason = "fewer than 2^63 plays")]
    table.set_item("play", column(py, rows, |r| r.play as i64))?;
    table.set_item("stroke", column(py, rows, |r| i64::from(r.stroke)))?;
    let (strokes, place_of) = stroke_names(player);
    table.set_item(
        "club",
        names(py, rows, strokes, |r| place_of(r.told.shot.stroke)),
    )?;
    table.set_item("x", column(py, rows, |r| r.told.from.at.x))?;
    table.set_item("y", column(py, rows, |r| r.told.from.at.y))?;
    let lies = wideberth::player::Lie::ALL
        .map(|l| l.name().to_owned())
        .to_vec();
    table.set_item("lie", names(py, rows, lies, |r| r.told.from.lie as usize))?;
    table.set_item(
        "to_pin",
        column(py, rows, |r| (pin - r.told.from.at).norm()),
    )?;
    table.set_item("target_x", column(py, rows, |r| r.told.shot.target.x))?;
    table.set_item("target_y", column(py, rows, |r| r.told.shot.target.y))?;
    table.set_item("carry", column(py, rows, |r| r.told.shot.carry))?;
    rests(&table, rows, |r| &r.told.outcome)?;
    table.set_item("penalty", column(py, rows, |r| i64::from(r.told.penalty)))?;
    happenings(&table, rows, |r| &r.told.outcome)?;
    Ok(table)
}

/// Adds the columns of where balls came down and to rest.
pub(crate) fn rests<S>(
    table: &Bound<'_, PyDict>,
    rows: &[S],
    of: impl Fn(&S) -> &Outcome,
) -> PyResult<()> {
    let py = table.py();
    table.set_item("landed_x", column(py, rows, |r| of(r).landed.x))?;
    table.set_item("landed_y", column(py, rows, |r| of(r).landed.y))?;
    table.set_item("rest_x", column(py, rows, |r| of(r).rest.x))?;
    table.set_item("rest_y", column(py, rows, |r| of(r).rest.y))?;
    let surfaces = wideberth::hole::Surface::ALL
        .map(|s| s.name().to_owned())
        .to_vec();
    let on = names(py, rows, surfaces, |r| of(r).surface as usize);
    table.set_item("rest_on", on)
}

/// Adds the columns of what happened to balls on the way.
pub(crate) fn happenings<S>(
    table: &Bound<'_, PyDict>,
    rows: &[S],
    of: impl Fn(&S) -> &Outcome,
) -> PyResult<()> {
    let py = table.py();
    table.set_item("holed", column(py, rows, |r| of(r).next == Next::Holed))?;
    let events = [
        ("mishit", Events::MISHIT),
        ("trees", Events::TREES),
        ("lost", Events::LOST),
        ("unplayable", Events::UNPLAYABLE),
    ];
    for (name, event) in events {
        table.set_item(name, column(py, rows, |r| of(r).events.has(event)))?;
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
