//! A player explained: the bag club by club, and what a good-enough shot looks like.

use numpy::IntoPyArray;
use pyo3::exceptions::PyRuntimeError;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::explain::{BagTable, ClubRow, Expectations, Explaining, Quantile};
use wideberth::player::Player;
use wideberth::stats::Estimate;

use crate::errors::{InputError, refused};
use crate::given::given;
use crate::player::PyPlayer;
use crate::pool;
use crate::whole::{SeedGiven, Whole};

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

/// The same as text; where no physics gives the player's shots, so that there is no table, `else_say` of the player.
pub(crate) fn shown(
    player: &Bound<'_, PyPlayer>,
    function: &str,
    else_say: impl Fn(&Player) -> String,
) -> PyResult<String> {
    match told(player, function, None) {
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
    let table = Table::of(py, &bag.clubs);
    table.names("club", |c| c.club.clone())?;
    let figures: [(&str, Figure); 12] = [
        ("carry", |c| c.carry),
        ("total", |c| c.total),
        ("average", |c| c.average),
        ("short_end", |c| c.depth.low),
        ("long_end", |c| c.depth.high),
        ("depth", |c| c.depth.size()),
        ("left_end", |c| c.width.low),
        ("right_end", |c| c.width.high),
        ("width", |c| c.width.size()),
        ("solid_depth", |c| c.solid_depth.size()),
        ("solid_width", |c| c.solid_width.size()),
        ("mishit_share", |c| c.mishit_share),
    ];
    for (name, figure) in figures {
        table.numbers(name, figure)?;
    }
    Ok(table.columns)
}

/// What shots of a player look like, as named columns by part of the game.
///
/// `Player.expectations` says what `plays`, `seed`, `threads` and `progress` are, and `Expectations` what the columns are.
#[pyfunction]
#[pyo3(signature = (player, *, plays, seed, threads, progress))]
pub(crate) fn expectations<'py>(
    py: Python<'py>,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    plays: Whole,
    seed: SeedGiven,
    threads: Option<Whole>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<Bound<'py, PyDict>> {
    let plays = plays.fit("plays", "100 to 1000000")?;
    let seed = seed.fit()?;
    let pool = pool::pool(
        threads
            .map(|n| n.fit("threads", "1 to 1024, or None for every core"))
            .transpose()?,
    )?;
    let player = player.player.clone();
    let work = pool::ask(py, &pool, move || Explaining::new(&player, plays, seed))?;
    let work = pool::run(py, &pool, work.map_err(refused)?, progress.as_ref())?;
    let found = pool::ask(py, &pool, move || work.found())?
        .ok_or_else(|| PyRuntimeError::new_err("the plays were not all played"))?;
    parts(py, &found)
}

fn parts<'py>(py: Python<'py>, found: &Expectations) -> PyResult<Bound<'py, PyDict>> {
    let parts = PyDict::new(py);

    let tee = Table::of(py, std::slice::from_ref(&found.tee_shot));
    tee.names("stroke", |t| t.club.clone())?;
    tee.quantiles("usual_total", |t| t.usual.total)?;
    tee.quantiles("usual_side", |t| t.usual.side)?;
    tee.quantiles("good_enough_total", |t| t.good_enough.total)?;
    tee.quantiles("good_enough_side", |t| t.good_enough.side)?;
    tee.shares("on_fairway", |t| t.on_fairway)?;
    parts.set_item("tee_shot", tee.columns)?;

    let approaches = Table::of(py, &found.approaches);
    approaches.numbers("yards", |a| a.yards)?;
    approaches.names("stroke", |a| a.stroke.clone())?;
    approaches.quantiles("usual_ft", |a| a.usual_ft)?;
    approaches.quantiles("good_enough_ft", |a| a.good_enough_ft)?;
    approaches.shares("on_green", |a| a.on_green)?;
    parts.set_item("approaches", approaches.columns)?;

    let around = Table::of(py, &found.around_green);
    around.numbers("yards", |a| a.yards)?;
    around.names("lie", |a| a.lie.name().to_owned())?;
    around.names("stroke", |a| a.stroke.clone())?;
    around.quantiles("usual_ft", |a| a.usual_ft)?;
    around.quantiles("good_enough_ft", |a| a.good_enough_ft)?;
    around.shares("on_green", |a| a.on_green)?;
    around.shares("down_in_two", |a| a.in_two)?;
    around.shares("down_in_three", |a| a.in_three)?;
    parts.set_item("around_the_green", around.columns)?;

    let putts = Table::of(py, &found.putts);
    putts.numbers("feet", |p| p.feet)?;
    putts.shares("holed", |p| p.holed)?;
    putts.shares("down_in_two", |p| p.in_two)?;
    putts.quantiles("leave_ft", |p| {
        p.leave_ft.unwrap_or(Quantile {
            value: f64::NAN,
            standard_error: f64::NAN,
        })
    })?;
    parts.set_item("putts", putts.columns)?;
    Ok(parts)
}

/// Named columns of some rows: NumPy arrays, and lists of names.
struct Table<'py, 'a, R> {
    py: Python<'py>,
    rows: &'a [R],
    columns: Bound<'py, PyDict>,
}

impl<'py, 'a, R> Table<'py, 'a, R> {
    fn of(py: Python<'py>, rows: &'a [R]) -> Self {
        Table {
            py,
            rows,
            columns: PyDict::new(py),
        }
    }

    fn numbers(&self, name: &str, figure: impl Fn(&R) -> f64) -> PyResult<()> {
        let column: Vec<f64> = self.rows.iter().map(figure).collect();
        self.columns.set_item(name, column.into_pyarray(self.py))
    }

    fn names(&self, name: &str, of: impl Fn(&R) -> String) -> PyResult<()> {
        let column: Vec<String> = self.rows.iter().map(of).collect();
        self.columns.set_item(name, column)
    }

    /// A figure and its standard error.
    fn quantiles(&self, name: &str, of: impl Fn(&R) -> Quantile) -> PyResult<()> {
        self.numbers(name, |row| of(row).value)?;
        self.numbers(&format!("{name}_error"), |row| of(row).standard_error)
    }

    /// A share and its standard error.
    fn shares(&self, name: &str, of: impl Fn(&R) -> Estimate) -> PyResult<()> {
        self.numbers(name, |row| of(row).mean)?;
        self.numbers(&format!("{name}_error"), |row| of(row).standard_error)
    }
}
