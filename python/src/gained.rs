//! Strokes gained, and what blow-ups lose, as columns.

use numpy::{IntoPyArray, PyReadonlyArray1};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use rayon::prelude::*;
use wideberth::geometry::Point;
use wideberth::plan::Scene;
use wideberth::player::Lie;
use wideberth::rank::{Kinds, Losing};
use wideberth::shot::{Shot, Stroke};
use wideberth::situation::Situation;
use wideberth::solve::{Recorded, Split, Valued};
use wideberth::stats::{PartOfTotal, Parts};

use crate::best;
use crate::compare::PyRanking;
use crate::errors::{input_error, refused};
use crate::given::given;
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::pool;
use crate::ranking::pair;
use crate::solve::{self, PySolution};
use crate::whole::Whole;

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

/// What each stroke of a table gained; `wideberth.Solution.strokes_gained` says what the columns are.
///
/// With `scores`, those of the plays in their order, the strokes are taken to be simulated: their balls lie where the
/// solution knows of, and those of some plays may have been picked up. `play`, `x`, `y`, `lie` (a code of `lies`, or -1),
/// `penalty` and `holed` are columns.
///
/// Returns:
///     Columns: before, after, used (int64) and gained.
///
/// Raises:
///     InputError: a row that is no stroke, naming it.
#[pyfunction]
#[pyo3(signature = (solution, *, play, x, y, lie, lies, penalty, holed, scores))]
#[expect(
    clippy::too_many_arguments,
    clippy::needless_pass_by_value,
    reason = "columns of a table, extracted from Python"
)]
pub(crate) fn strokes_gained<'py>(
    py: Python<'py>,
    #[pyo3(from_py_with = given)] solution: &PySolution,
    play: PyReadonlyArray1<'py, i64>,
    x: PyReadonlyArray1<'py, f64>,
    y: PyReadonlyArray1<'py, f64>,
    lie: PyReadonlyArray1<'py, i64>,
    lies: Vec<String>,
    penalty: PyReadonlyArray1<'py, i64>,
    holed: PyReadonlyArray1<'py, bool>,
    scores: Option<Vec<u8>>,
) -> PyResult<Bound<'py, PyDict>> {
    let lies: PyResult<Vec<Lie>> = lies
        .iter()
        .map(|name| solve::lie(Some(name)).map(|lie| lie.unwrap_or(Lie::Rough)))
        .collect();
    let rows = Rows {
        play: play.as_slice()?,
        x: x.as_slice()?,
        y: y.as_slice()?,
        lie: lie.as_slice()?,
        lies: lies?,
        penalty: penalty.as_slice()?,
        holed: holed.as_slice()?,
    };
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
        .ask(py, move |s| {
            s.strokes_gained(&strokes, scores.as_deref(), how)
        })?
        .map_err(refused)?;
    let column =
        |of: fn(&wideberth::solve::Gained) -> f64| -> Vec<f64> { gained.iter().map(of).collect() };
    let table = PyDict::new(py);
    table.set_item("before", column(|g| g.before).into_pyarray(py))?;
    table.set_item("after", column(|g| g.after).into_pyarray(py))?;
    let used: Vec<i64> = gained.iter().map(|g| i64::from(g.used)).collect();
    table.set_item("used", used.into_pyarray(py))?;
    table.set_item("gained", column(|g| g.gained).into_pyarray(py))?;
    Ok(table)
}

/// What simulated strokes gained by their choice and by how they were played.
///
/// `wideberth.Solution.strokes_gained` says what the columns are.
///
/// `lie` are codes of `lies` and `club` codes of `clubs`; `target_x`, `target_y` and `carry` are the shots, and `gained` is
/// what they gained.
///
/// Returns:
///     Columns: choice, execution and luck.
///
/// Raises:
///     InputError: a lie or a club that there is not.
#[pyfunction]
#[pyo3(signature = (solution, *, x, y, lie, lies, club, clubs, target_x, target_y, carry, gained))]
#[expect(
    clippy::too_many_arguments,
    clippy::needless_pass_by_value,
    reason = "columns of a table, extracted from Python"
)]
pub(crate) fn split_gained<'py>(
    py: Python<'py>,
    solution: &PySolution,
    x: PyReadonlyArray1<'py, f64>,
    y: PyReadonlyArray1<'py, f64>,
    lie: PyReadonlyArray1<'py, i64>,
    lies: Vec<String>,
    club: PyReadonlyArray1<'py, i64>,
    clubs: Vec<String>,
    target_x: PyReadonlyArray1<'py, f64>,
    target_y: PyReadonlyArray1<'py, f64>,
    carry: PyReadonlyArray1<'py, f64>,
    gained: PyReadonlyArray1<'py, f64>,
) -> PyResult<Bound<'py, PyDict>> {
    let scene = solution.solution.scene();
    let lies: PyResult<Vec<Lie>> = lies
        .iter()
        .map(|name| solve::lie(Some(name)).map(|lie| lie.unwrap_or(Lie::Rough)))
        .collect();
    let strokes: Result<Vec<Stroke>, _> = clubs.iter().map(|name| scene.stroke(name)).collect();
    let (lies, strokes) = (lies?, strokes.map_err(refused)?);
    let (x, y, gained) = (x.as_slice()?, y.as_slice()?, gained.as_slice()?);
    let (target_x, target_y) = (target_x.as_slice()?, target_y.as_slice()?);
    let (lie, club, carry) = (lie.as_slice()?, club.as_slice()?, carry.as_slice()?);
    let lengths = [y, gained, target_x, target_y, carry].map(<[f64]>::len);
    let coded = [lie.len(), club.len()];
    if lengths.iter().chain(&coded).any(|&other| other != x.len()) {
        return Err(input_error("the columns must be equally long"));
    }
    let code = |code: i64| usize::try_from(code).ok();
    let rows = (0..x.len())
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
    let split: Vec<Split> = solution.ask(py, move |s| {
        let split = |&(from, shot, gained): &(Situation, Shot, f64)| s.split(from, &shot, gained);
        rows.par_iter().map(split).collect()
    })?;
    let column = |of: fn(&Split) -> f64| -> Vec<f64> { split.iter().map(of).collect() };
    let table = PyDict::new(py);
    table.set_item("choice", column(|s| s.choice).into_pyarray(py))?;
    table.set_item("execution", column(|s| s.execution).into_pyarray(py))?;
    table.set_item("luck", column(|s| s.luck).into_pyarray(py))?;
    Ok(table)
}

/// A kind of stroke: how often it occurs a play, and what it comes to a play and as a share, with standard errors.
type PartRow = (f64, (f64, f64), (f64, f64));

fn row(part: PartOfTotal) -> PartRow {
    (part.times, pair(part.amount), pair(part.share))
}

/// Each `amount` added up by kind: `kind` are codes below `kinds`, `play` tells which play a row belongs to.
///
/// Returns:
///     The plays, the total a play with its standard error, and a row for each kind.
#[pyfunction]
#[pyo3(signature = (*, play, kind, kinds, amount))]
#[expect(
    clippy::needless_pass_by_value,
    reason = "columns of a table, extracted from Python"
)]
pub(crate) fn by_kind(
    play: PyReadonlyArray1<'_, i64>,
    kind: PyReadonlyArray1<'_, i64>,
    kinds: usize,
    amount: PyReadonlyArray1<'_, f64>,
) -> PyResult<(u64, (f64, f64), Vec<PartRow>)> {
    let (play, kind, amount) = (play.as_slice()?, kind.as_slice()?, amount.as_slice()?);
    let known = |&kind: &i64| usize::try_from(kind).is_ok_and(|kind| kind < kinds);
    if play.len() != kind.len() || play.len() != amount.len() || !kind.iter().all(known) {
        return Err(input_error(
            "the columns must be equally long, and kinds known",
        ));
    }
    let mut parts = Parts::new(kinds);
    let mut first = 0;
    while first < play.len() {
        let more = play[first..].iter().take_while(|&&p| p == play[first]);
        let end = first + more.count();
        let number = |&kind: &i64| usize::try_from(kind).unwrap_or(0);
        let codes = kind[first..end].iter().map(number);
        parts.add(codes.zip(amount[first..end].iter().copied()));
        first = end;
    }
    let rows = (0..kinds).map(|kind| row(parts.part(kind))).collect();
    Ok((parts.plays(), pair(parts.total()), rows))
}

/// A kind with what it comes to.
type LossRow = (String, PartRow);

/// Plays, blow-ups, what is lost in each with its standard error, and the kinds.
type LossTable = (u64, u64, (f64, f64), Vec<LossRow>);

/// What the blow-ups of a plan lose by kind of stroke; `wideberth.Solution.blow_up_losses` says what each argument is.
///
/// Args:
///     by: how strokes are told apart.
///     plays: plays to look through.
///     threads: number of threads; None for every core.
///     progress: a callable of (done, goal) in plays.
///
/// Returns:
///     Plays, blow-ups among them, the strokes lost in a blow-up with the standard error, and a row for each kind.
///
/// Raises:
///     InputError: before anything is played, naming the field, the value and what is allowed.
#[pyfunction]
#[pyo3(signature = (solution, hole, player, ranking, plan, *, by, plays, threads, progress))]
#[expect(
    clippy::too_many_arguments,
    reason = "arguments of the Python function"
)]
pub(crate) fn blow_up_losses(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] solution: &PySolution,
    #[pyo3(from_py_with = given)] hole: &PyHole,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    ranking: &PyRanking,
    #[pyo3(from_py_with = given)] plan: &PyPlan,
    #[pyo3(from_py_with = given)] by: &str,
    plays: Whole,
    threads: Option<Whole>,
    progress: Option<Bound<'_, PyAny>>,
) -> PyResult<LossTable> {
    let kinds = Kinds::from_name(by).ok_or_else(|| {
        let known = Kinds::ALL.map(Kinds::name).join(", ");
        input_error(format!("by is {by:?}; it must be one of {known}"))
    })?;
    let plays: u64 = plays.fit("plays", "1 to 1,000,000,000")?;
    if !(1..=1_000_000_000).contains(&plays) {
        let message = format!("plays is {plays}; it must be 1 to 1,000,000,000");
        return Err(input_error(message));
    }
    let pool = pool::pool(solve::threads(threads)?)?;
    let question = ranking.0.question.clone();
    let plans = best::played(py, &pool, (hole, player), std::slice::from_ref(plan))?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let solution = solution.solution.clone();
    let losing = pool::ask(py, &pool, move || {
        let scene = Scene::new(hole, bag).map_err(refused)?;
        Losing::new(scene, &plans[0], solution, question, kinds, plays).map_err(refused)
    })??;
    let losing = pool::run(py, &pool, losing, progress.as_ref())?;
    let losses = losing.losses();
    let rows = losses.losses.into_iter();
    let rows = rows.map(|loss| (loss.kind, row(loss.part))).collect();
    Ok((losses.plays, losses.blow_ups, pair(losses.total), rows))
}
