//! A player explained: the bag club by club, and what a good-enough shot looks like.

use pyo3::exceptions::PyRuntimeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::explain::{BagTable, ClubRow, Expectations, Explaining, Quantile};
use wideberth::player::Player;
use wideberth::stats::Estimate;

use crate::asked::Asked;
use crate::columns::Columns;
use crate::errors::{InputError, refused};
use crate::given::given;
use crate::player::PyPlayer;
use crate::pool;

/// One of the numbers of a club.
type Figure = fn(&ClubRow) -> f64;

/// What Python makes of a player, by the name of a function of `wideberth._explain`.
pub(crate) fn told<'py>(
    player: &Bound<'py, PyPlayer>,
    function: &str,
    keywords: Option<&Bound<'py, PyDict>>,
) -> PyResult<Bound<'py, PyAny>> {
    let module = player.py().import("wideberth._explain")?;
    module.getattr(function)?.call((player,), keywords)
}

/// The table of the player as the method `how` shows it; where no physics gives the player's shots, so that there is no table,
/// `else_say` of the player.
pub(crate) fn shown(
    player: &Bound<'_, PyPlayer>,
    how: &str,
    else_say: impl Fn(&Player) -> String,
) -> PyResult<String> {
    match told(player, "table", None).and_then(|table| table.call_method0(how)) {
        Err(error) if error.is_instance_of::<InputError>(player.py()) => {
            Ok(else_say(&player.get().player))
        }
        told => told?.extract(),
    }
}

/// The bag, club by club, as named columns; `Player.table` says what they are.
#[pyfunction]
pub(crate) fn bag_table<'py>(
    py: Python<'py>,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
) -> PyResult<Bound<'py, PyDict>> {
    let pool = pool::pool(None)?;
    let player = player.player.clone();
    let bag = pool::ask(py, &pool, move || BagTable::of(&player))?.map_err(refused)?;
    let table = Columns::of(py, &bag.clubs);
    table.texts("club", |c| &c.club)?;
    let figures: [(&str, Figure); 13] = [
        ("carry", |c| c.carry),
        ("total", |c| c.total),
        ("average", |c| c.average),
        ("short_end", |c| c.depth.low),
        ("long_end", |c| c.depth.high),
        ("depth", |c| c.depth.size()),
        ("left_end", |c| c.width.low),
        ("right_end", |c| c.width.high),
        ("width", |c| c.width.size()),
        ("middle", |c| c.width.middle()),
        ("solid_depth", |c| c.solid_depth.size()),
        ("solid_width", |c| c.solid_width.size()),
        ("mishit_share", |c| c.mishit_share),
    ];
    for (name, figure) in figures {
        table.add(name, figure)?;
    }
    Ok(table.made)
}

/// What shots of a player look like, as named columns by part of the game; `Expectations` says what they are.
///
/// Returns:
///     The parts, and the largest standard error of a share among them.
#[pyfunction]
pub(crate) fn expectations(asked: Asked<'_>) -> PyResult<(Bound<'_, PyDict>, f64)> {
    let player = asked.one::<PyPlayer>("player")?.get().player.clone();
    let plays = asked.count("plays", "100 to 1000000")?;
    let seed = asked.seed()?;
    let workers = asked.workers()?;
    let work = workers.ask(move || Explaining::new(&player, plays, seed))?;
    let work = workers.run(work.map_err(refused)?)?;
    let found = workers.ask(move || work.found())?;
    let found = found.ok_or_else(|| PyRuntimeError::new_err("the plays were not all played"))?;
    Ok((parts(asked.py(), &found)?, found.largest_share_error()))
}

fn parts<'py>(py: Python<'py>, found: &Expectations) -> PyResult<Bound<'py, PyDict>> {
    let parts = PyDict::new(py);

    let tee = Columns::of(py, std::slice::from_ref(&found.tee_shot));
    tee.texts("stroke", |t| &t.club)?;
    tee.estimate("usual_total", |t| told_of(t.usual.total))?;
    tee.estimate("usual_side", |t| told_of(t.usual.side))?;
    tee.estimate("good_enough_total", |t| told_of(t.good_enough.total))?;
    tee.estimate("good_enough_side", |t| told_of(t.good_enough.side))?;
    tee.estimate("on_fairway", |t| t.on_fairway)?;
    parts.set_item("tee_shot", tee.made)?;

    let approaches = Columns::of(py, &found.approaches);
    approaches.add("yards", |a| a.yards)?;
    approaches.texts("stroke", |a| &a.stroke)?;
    approaches.estimate("usual_ft", |a| told_of(a.usual_ft))?;
    approaches.estimate("good_enough_ft", |a| told_of(a.good_enough_ft))?;
    approaches.estimate("on_green", |a| a.on_green)?;
    parts.set_item("approaches", approaches.made)?;

    let around = Columns::of(py, &found.around_green);
    around.add("yards", |a| a.yards)?;
    around.texts("lie", |a| a.lie.name())?;
    around.texts("stroke", |a| &a.stroke)?;
    around.estimate("usual_ft", |a| told_of(a.usual_ft))?;
    around.estimate("good_enough_ft", |a| told_of(a.good_enough_ft))?;
    around.estimate("on_green", |a| a.on_green)?;
    around.estimate("down_in_two", |a| a.in_two)?;
    around.estimate("down_in_three", |a| a.in_three)?;
    parts.set_item("around_the_green", around.made)?;

    let putts = Columns::of(py, &found.putts);
    putts.add("feet", |p| p.feet)?;
    putts.estimate("holed", |p| p.holed)?;
    putts.estimate("down_in_two", |p| p.in_two)?;
    let unknown = Quantile {
        value: f64::NAN,
        standard_error: f64::NAN,
    };
    putts.estimate("leave_ft", |p| told_of(p.leave_ft.unwrap_or(unknown)))?;
    parts.set_item("putts", putts.made)?;
    Ok(parts)
}

/// A figure and its standard error.
fn told_of(quantile: Quantile) -> Estimate {
    Estimate {
        mean: quantile.value,
        standard_error: quantile.standard_error,
    }
}
