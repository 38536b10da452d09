//! Strokes gained, and what blow-ups lose, as columns.

use numpy::PyReadonlyArray1;
use pyo3::prelude::*;
use pyo3::types::PyDict;
use rayon::prelude::*;
use wideberth::geometry::Point;
use wideberth::plan::Scene;
use wideberth::player::Lie;
use wideberth::rank::{Kinds, Losing};
use wideberth::shot::{Shot, Stroke};
use wideberth::situation::Situation;
use wideberth::solve::{Recorded, Split, Valued, gained_by_play, rows_of_plays};
use wideberth::stats::{PartOfTotal, Parts};

use crate::asked::Asked;
use crate::best;
use crate::columns::Columns;
use crate::compare::PyRanking;
use crate::errors::{input_error, refused};
use crate::given::given;
use crate::plan::PyPlan;
use crate::ranking::pair;
use crate::solve::{self, PySolution};

/// The rows of a table of strokes, column by column.
struct Rows<'a> {
    play: &'a [i64],
    x: &'a [f64],
    y: &'a [f64],
    /// Codes of the lie's name; below 0 for what the place gives.
    lie: &'a [i64],
    lies: Vec<Lie>,
    penalty: &'a [i64],
    holed: &'a [bool],
}

impl Rows<'_> {
    fn row(&self, number: usize, solution: &PySolution, given: bool) -> PyResult<Recorded> {
        let at = Point::new(self.x[number], self.y[number]);
        let code = usize::try_from(self.lie[number]).ok();
        let lie = code.and_then(|code| self.lies.get(code)).copied();
        let named = |what: String| input_error(format!("row {}: {what}", number + 1));
        let from = match lie {
            Some(lie) if !given => Situation { at, lie },
            _ => solution
                .solution
                .situation(at, lie)
                .map_err(|fault| named(fault.to_string()))?,
        };
        let penalty = self.penalty[number];
        Ok(Recorded {
            play: self.play[number],
            from,
            penalty: u8::try_from(penalty)
                .ok()
                .filter(|&penalty| penalty <= 10)
                .ok_or_else(|| {
                    named(format!("penalty is {penalty}; it must be 0 to 10 strokes"))
                })?,
            holed: self.holed[number],
        })
    }
}

/// What each stroke of a table gained, as columns; `wideberth.Solution.strokes_gained` says what they are.
///
/// The table has the columns `play`, `x`, `y`, `lie` (a code of `lies`, or -1), `penalty` and `holed`. With `scores`,
/// those of the plays in their order, the strokes are taken to be simulated: their balls lie where the solution knows of,
/// and those of some plays may have been picked up.
#[pyfunction]
pub(crate) fn strokes_gained<'py>(
    #[pyo3(from_py_with = given)] solution: &PySolution,
    table: Asked<'py>,
) -> PyResult<Bound<'py, PyDict>> {
    let [play, lie, penalty] = ["play", "lie", "penalty"].map(|name| table.column::<i64>(name));
    let [x, y] = ["x", "y"].map(|name| table.column::<f64>(name));
    let (play, lie, penalty, x, y) = (play?, lie?, penalty?, x?, y?);
    let holed = table.column::<bool>("holed")?;
    let rows = Rows {
        play: play.as_slice()?,
        x: x.as_slice()?,
        y: y.as_slice()?,
        lie: lie.as_slice()?,
        lies: lies(&table)?,
        penalty: penalty.as_slice()?,
        holed: holed.as_slice()?,
    };
    let scores: Option<Vec<u8>> = table.read("scores")?;
    let length = rows.play.len();
    let lengths = [
        rows.x.len(),
        rows.y.len(),
        rows.lie.len(),
        rows.penalty.len(),
        rows.holed.len(),
    ];
    if lengths.iter().any(|&other| other != length) {
        return Err(input_error("the columns must be equally long"));
    }
    let strokes = (0..length)
        .map(|number| rows.row(number, solution, scores.is_none()))
        .collect::<PyResult<Vec<Recorded>>>()?;
    let how = if scores.is_some() {
        Valued::LookedUp
    } else {
        Valued::Closely
    };
    let gained = solution
        .ask(table.py(), move |s| {
            s.strokes_gained(&strokes, scores.as_deref(), how)
        })?
        .map_err(refused)?;
    let told = Columns::of(table.py(), &gained);
    told.add("before", |g| g.before)?;
    told.add("after", |g| g.after)?;
    told.whole("used", |g| g.used)?;
    told.add("gained", |g| g.gained)?;
    Ok(told.made)
}

/// The lies that the codes of a table stand for.
fn lies(table: &Asked<'_>) -> PyResult<Vec<Lie>> {
    let names: Vec<String> = table.read("lies")?;
    let lie = |name: &String| solve::lie(Some(name)).map(|lie| lie.unwrap_or(Lie::Rough));
    names.iter().map(lie).collect()
}

/// What simulated strokes gained by their choice and by how they were played, as columns: choice, execution and luck.
///
/// The table has the columns `x`, `y`, `lie` (a code of `lies`), `club` (a code of `clubs`), `target_x`, `target_y`,
/// `carry` and `gained`.
#[pyfunction]
pub(crate) fn split_gained<'py>(
    solution: &PySolution,
    table: Asked<'py>,
) -> PyResult<Bound<'py, PyDict>> {
    let (lies, clubs) = (lies(&table)?, table.read::<Vec<String>>("clubs")?);
    let scene = solution.solution.scene();
    let strokes: Result<Vec<Stroke>, _> = clubs.iter().map(|name| scene.stroke(name)).collect();
    let strokes = strokes.map_err(refused)?;
    let numbers = ["x", "y", "target_x", "target_y", "carry", "gained"];
    let numbers = numbers.map(|name| table.column::<f64>(name));
    let numbers = numbers.into_iter().collect::<PyResult<Vec<_>>>()?;
    let numbers: Result<Vec<&[f64]>, _> = numbers.iter().map(|column| column.as_slice()).collect();
    let (lie, club) = (table.column::<i64>("lie")?, table.column::<i64>("club")?);
    let (numbers, lie, club) = (numbers?, lie.as_slice()?, club.as_slice()?);
    let is_long = |column: &&[f64]| column.len() == lie.len();
    let [x, y, target_x, target_y, carry, gained] = numbers[..] else {
        return Err(input_error("the columns must all be there"));
    };
    if lie.len() != club.len() || !numbers.iter().all(is_long) {
        return Err(input_error("the columns must be equally long"));
    }
    let code = |code: i64| usize::try_from(code).ok();
    let rows = (0..lie.len())
        .map(|row| {
            let lie = code(lie[row]).and_then(|code| lies.get(code)).copied();
            let stroke = code(club[row]).and_then(|code| strokes.get(code)).copied();
            let (Some(lie), Some(stroke)) = (lie, stroke) else {
                return Err(input_error("lies and clubs must be known"));
            };
            let at = Point::new(x[row], y[row]);
            let target = Point::new(target_x[row], target_y[row]);
            let shot = Shot {
                stroke,
                target,
                carry: carry[row],
            };
            Ok((Situation { at, lie }, shot, gained[row]))
        })
        .collect::<PyResult<Vec<_>>>()?;
    let split: Vec<Split> = solution.ask(table.py(), move |s| {
        let split = |&(from, shot, gained): &(Situation, Shot, f64)| s.split(from, &shot, gained);
        rows.par_iter().map(split).collect()
    })?;
    let told = Columns::of(table.py(), &split);
    told.add("choice", |s| s.choice)?;
    told.add("execution", |s| s.execution)?;
    told.add("luck", |s| s.luck)?;
    Ok(told.made)
}

/// What each play gained in all: `play` tells which play a row belongs to.
#[pyfunction]
#[pyo3(signature = (*, play, gained))]
#[expect(
    clippy::needless_pass_by_value,
    reason = "columns of a table, extracted from Python"
)]
pub(crate) fn by_play(
    play: PyReadonlyArray1<'_, i64>,
    gained: PyReadonlyArray1<'_, f64>,
) -> PyResult<Vec<(i64, f64)>> {
    let (play, gained) = (play.as_slice()?, gained.as_slice()?);
    if play.len() != gained.len() {
        return Err(input_error("the columns must be equally long"));
    }
    Ok(gained_by_play(play, gained))
}

/// What strokes gained, added up by kind: `kind` are codes below `kinds`, `play` tells which play a row belongs to.
///
/// Returns:
///     The plays, the total a play with its standard error, and columns with a row for each kind.
#[pyfunction]
#[pyo3(signature = (*, play, kind, kinds, gained))]
#[expect(
    clippy::needless_pass_by_value,
    reason = "columns of a table, extracted from Python"
)]
pub(crate) fn by_kind<'py>(
    py: Python<'py>,
    play: PyReadonlyArray1<'py, i64>,
    kind: PyReadonlyArray1<'py, i64>,
    kinds: usize,
    gained: PyReadonlyArray1<'py, f64>,
) -> PyResult<(u64, (f64, f64), Bound<'py, PyDict>)> {
    let (play, kind, amount) = (play.as_slice()?, kind.as_slice()?, gained.as_slice()?);
    let known = |&kind: &i64| usize::try_from(kind).is_ok_and(|kind| kind < kinds);
    if play.len() != kind.len() || play.len() != amount.len() || !kind.iter().all(known) {
        return Err(input_error(
            "the columns must be equally long, and kinds known",
        ));
    }
    let mut parts = Parts::new(kinds);
    let number = |&kind: &i64| usize::try_from(kind).unwrap_or(0);
    for (_, rows) in rows_of_plays(play) {
        let codes = kind[rows.clone()].iter().map(number);
        parts.add(codes.zip(amount[rows].iter().copied()));
    }
    let each: Vec<PartOfTotal> = (0..kinds).map(|kind| parts.part(kind)).collect();
    let table = Columns::of(py, &each);
    added_up(&table, "gained", |part| part)?;
    Ok((parts.plays(), pair(parts.total()), table.made))
}

/// Adds the columns of what is added up by kind: how often a kind occurs, and what it comes to, as a share of all too.
fn added_up<R>(
    table: &Columns<'_, '_, R>,
    amount: &str,
    of: impl Fn(&R) -> &PartOfTotal,
) -> PyResult<()> {
    table.add("strokes", |row| of(row).times)?;
    table.estimate(amount, |row| of(row).amount)?;
    table.estimate("share", |row| of(row).share)
}

/// Plays, blow-ups, what is lost in each with its standard error, and columns with a row for each kind.
type LossTable<'py> = (u64, u64, (f64, f64), Bound<'py, PyDict>);

/// What the blow-ups of a plan of a comparison lose by kind of stroke.
///
/// Returns:
///     Plays, blow-ups among them, the strokes lost in a blow-up with the standard error, and columns with a row for each
///     kind.
#[pyfunction]
pub(crate) fn blow_up_losses<'py>(
    asked: Asked<'py>,
    #[pyo3(from_py_with = given)] solution: &PySolution,
    ranking: &PyRanking,
) -> PyResult<LossTable<'py>> {
    let ((hole, player), plan) = (asked.on()?, asked.one::<PyPlan>("plan")?);
    let (hole, player) = (hole.get(), player.get());
    let by: String = asked.get("by")?;
    let kinds = Kinds::from_name(&by).ok_or_else(|| {
        let known = Kinds::ALL.map(Kinds::name).join(", ");
        input_error(format!("by is {by:?}; it must be one of {known}"))
    })?;
    let plays: u64 = asked.count("plays", "1 to 1,000,000,000")?;
    if !(1..=1_000_000_000).contains(&plays) {
        let message = format!("plays is {plays}; it must be 1 to 1,000,000,000");
        return Err(input_error(message));
    }
    let workers = asked.workers()?;
    let question = ranking.0.question.clone();
    let plans = best::played(&workers, (hole, player), std::slice::from_ref(plan.get()))?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let solution = solution.solution.clone();
    let losing = workers.ask(move || {
        let scene = Scene::new(hole, bag).map_err(refused)?;
        Losing::new(scene, &plans[0], solution, question, kinds, plays).map_err(refused)
    })??;
    let losses = workers.run(losing)?.losses();
    let table = Columns::of(asked.py(), &losses.losses);
    table.texts(&by, |loss| &loss.kind)?;
    added_up(&table, "lost", |loss| &loss.part)?;
    Ok((
        losses.plays,
        losses.blow_ups,
        pair(losses.total),
        table.made,
    ))
}
