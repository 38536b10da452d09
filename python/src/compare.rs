//! Plans compared.

use pyo3::prelude::*;
use pyo3::types::PyDict;
use std::sync::Arc;
use wideberth::plan::Scene;
use wideberth::player::Bag;
use wideberth::rank::{Comparison, Difference, EvenComparison, MOST_PLAYERS, PlayersRun, Ranking};
use wideberth::simulate::Checkpoint;

use crate::asked::Asked;
use crate::best;
use crate::errors::{input_error, refused};
use crate::getters::getters;
use crate::given::{Text, checked_share, given};
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::players::{Both, PyAcrossPlayers};
use crate::prepared::prepared;
use crate::ranking::{Ranked, pair};
use crate::start::{Told, told};
use crate::travel::by_json;
use crate::wave;
use crate::whole::Whole;

/// A milestone that a play may reach, to be counted by `compare`; made with `first_putt`.
///
/// Immutable; equal when its numbers are; can be pickled.
#[pyclass(frozen, eq, name = "Checkpoint", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyCheckpoint(pub(crate) Checkpoint);

#[pymethods]
impl PyCheckpoint {
    fn __repr__(&self) -> String {
        let Checkpoint::FirstPutt {
            within_ft,
            after_strokes,
        } = self.0;
        format!("first_putt(within_ft={within_ft}, after_strokes={after_strokes})")
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (f64, u8))> {
        let Checkpoint::FirstPutt {
            within_ft,
            after_strokes,
        } = self.0;
        let make = py.import("wideberth._wideberth")?.getattr("first_putt")?;
        Ok((make, (within_ft, after_strokes)))
    }
}

/// A checkpoint: the first putt is short enough, and early enough.
///
/// A ball holed from off the green has met it if it was holed in no more than `after_strokes`.
///
/// Args:
///     within_ft: longest first putt that counts, feet; above 0.
///     after_strokes: most strokes and penalty strokes before that putt, 1 to 255.
///
/// Raises:
///     InputError: a number outside its range.
///
/// Example:
///     A birdie putt from inside 20 feet on a par 4:
///
///     >>> import wideberth as wb
///     >>> birdie_chance = wb.first_putt(within_ft=20, after_strokes=2)
///     >>> birdie_chance
///     first_putt(within_ft=20, after_strokes=2)
///     >>> hole = wb.Hole.sketch(par=4, length=350)
///     >>> plan = wb.Plan("driver", [wb.shot("driver", wb.along(200))])
///     >>> result = wb.compare(
///     ...     hole, wb.Player.from_handicap(5), [plan], plays=500, checkpoints={"birdie chance": birdie_chance}
///     ... )
///     >>> 0 < result.best.checkpoints["birdie chance"] < 1
///     True
#[pyfunction]
pub(crate) fn first_putt(
    #[pyo3(from_py_with = given)] within_ft: f64,
    after_strokes: Whole,
) -> PyResult<PyCheckpoint> {
    let after_strokes = after_strokes.fit("first_putt: after_strokes", "1 to 255")?;
    let checkpoint = Checkpoint::FirstPutt {
        within_ft,
        after_strokes,
    };
    if checkpoint.is_valid() {
        Ok(PyCheckpoint(checkpoint))
    } else {
        Err(input_error(format!(
            "first_putt: within_ft is {within_ft} and after_strokes is {after_strokes}; within_ft must be above 0 \
             and after_strokes at least 1"
        )))
    }
}

/// The difference of two plans in strokes, first minus second.
///
/// It is paired over plays that met the same luck, and on even luck told by the means of sets of plays. Negative means that
/// the first plan is better. Made by `Comparison.difference`. Immutable; equal when its
/// numbers are; can be pickled.
#[pyclass(frozen, eq, name = "Difference", module = "wideberth", get_all)]
#[derive(PartialEq)]
pub(crate) struct PyDifference {
    /// Mean difference, strokes.
    mean: f64,
    /// Standard error of the mean difference, strokes; NaN after a single play.
    ///
    /// On even luck it is told from how far the sets differ.
    standard_error: f64,
    /// The 95 % interval of the mean difference (low, high), strokes.
    ///
    /// By the normal approximation, on even luck by Student's t.
    interval: (f64, f64),
    /// Share of plays in which the first plan scored lower; None on even luck, where no two plays met the same luck.
    better: Option<f64>,
    /// Share of plays in which the first plan scored higher; None on even luck.
    worse: Option<f64>,
    /// How many times as many plays it would take, independent ones of each plan, to know the difference as well.
    ///
    /// Infinite where its error is 0. Told from the 32 sets of even luck it is itself known to about a quarter (one
    /// standard error).
    variance_factor: f64,
}

impl From<Difference> for PyDifference {
    fn from(d: Difference) -> Self {
        PyDifference {
            mean: d.estimate.mean,
            standard_error: d.estimate.standard_error,
            interval: d.interval,
            better: d.better,
            worse: d.worse,
            variance_factor: d.variance_factor,
        }
    }
}

/// The fields of a difference in their order.
type DifferenceFields = (f64, f64, (f64, f64), Option<f64>, Option<f64>, f64);

#[pymethods]
impl PyDifference {
    /// Puts a pickled difference together again.
    #[staticmethod]
    fn _restore(
        mean: f64,
        standard_error: f64,
        interval: (f64, f64),
        better: Option<f64>,
        worse: Option<f64>,
        variance_factor: f64,
    ) -> Self {
        PyDifference {
            mean,
            standard_error,
            interval,
            better,
            worse,
            variance_factor,
        }
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, DifferenceFields)> {
        let d = slf.get();
        let fields = (
            d.mean,
            d.standard_error,
            d.interval,
            d.better,
            d.worse,
            d.variance_factor,
        );
        Ok((slf.get_type().getattr("_restore")?, fields))
    }

    fn __repr__(&self) -> String {
        let Some((better, worse)) = self.better.zip(self.worse) else {
            return self.told_of_sets();
        };
        if self.standard_error.is_nan() {
            return format!("{:+.0} strokes (one play: no standard error)", self.mean);
        }
        if better == 0.0 && worse == 0.0 {
            return "alike: the same score in every play".to_owned();
        }
        let (low, high) = self.interval;
        format!(
            "{:+.3} strokes (standard error {:.3}, 95 % interval {low:+.3} to {high:+.3}); better in {:.0} % of plays, \
             worse in {:.0} %",
            self.mean,
            self.standard_error,
            100.0 * better,
            100.0 * worse
        )
    }
}

impl PyDifference {
    fn told_of_sets(&self) -> String {
        if self.standard_error == 0.0 {
            return match self.mean {
                0.0 => "alike: the same mean score in every set of plays".to_owned(),
                mean => format!("{mean:+.4} strokes in every set of plays"),
            };
        }
        let (low, high) = self.interval;
        format!(
            "{:+.4} strokes (standard error {:.4}, 95 % interval {low:+.4} to {high:+.4}); variance {:.1} times less than \
             of independent plays",
            self.mean, self.standard_error, self.variance_factor
        )
    }
}

/// Everything that `compare` counted, by name of the plan; `Comparison` makes its tables of it.
///
/// Scores are whole strokes, penalties included. Every method that takes a name raises KeyError for one that
/// is not there.
#[pyclass(frozen, eq, name = "Ranking", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyRanking(pub(crate) Ranking);

getters! {
    PyRanking, self:
    /// Par of the hole.
    par: u8 = self.0.par;
    /// A blow-up is this many strokes over par or worse.
    blow_up_over_par: u8 = self.0.question.blow_up;
    /// Where play begins, yards, and the lie there; None for the tee.
    start: Told = told(self.0.question.start);
    /// True of plays on even luck.
    is_even: bool = self.0.is_even();
    /// Name of the plan with the fewest blow-ups, if they are fewer than the best plan's by more than chance explains.
    safer: Option<&str> = self.0.safer().map(|plan| self.0.name(plan));
}

#[pymethods]
impl PyRanking {
    /// Share of a plan's plays that scored `score` (0 to 255) or more, and its standard error.
    fn at_least(&self, name: Text, score: u8) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.at_least(self.index(&name)?, score)))
    }

    /// Share of a plan's plays that blew up, and its standard error.
    fn blow_up(&self, name: Text) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.blow_up(self.index(&name)?)))
    }

    /// Share of a plan's plays that scored double bogey or worse, and its standard error.
    fn double_bogey(&self, name: Text) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.double_bogey(self.index(&name)?)))
    }

    /// The smallest score that a share (0 to 1) of a plan's plays do not exceed.
    ///
    /// Raises:
    ///     InputError: a share outside 0 to 1.
    fn quantile(&self, name: Text, #[pyo3(from_py_with = given)] share: f64) -> PyResult<u8> {
        Ok(self
            .0
            .tally(self.index(&name)?)
            .scores
            .quantile(checked_share(share)?))
    }

    /// Share of a plan's plays that reached each checkpoint, with its standard error.
    fn checkpoints<'py>(&self, py: Python<'py>, name: Text) -> PyResult<Bound<'py, PyDict>> {
        let shares = PyDict::new(py);
        for (checkpoint, e) in self.0.checkpoints(self.index(&name)?) {
            shares.set_item(checkpoint, pair(e))?;
        }
        Ok(shares)
    }

    /// What began a plan's blow-ups, as shares of them, most frequent first.
    fn blow_up_causes<'py>(&self, py: Python<'py>, name: Text) -> PyResult<Bound<'py, PyDict>> {
        let shares = PyDict::new(py);
        for (cause, share) in self.0.blow_up_causes(self.index(&name)?) {
            shares.set_item(cause.map_or("no single thing", |c| c.name()), share)?;
        }
        Ok(shares)
    }

    /// Mean penalty strokes of a plan, a play, and its standard error.
    fn penalties(&self, name: Text) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.penalties(self.index(&name)?)))
    }
}

by_json! {
    PyRanking(Ranking), |held| Ok(PyRanking(held)), "a ranking", "ranking",
    "The counts as JSON text; `from_json` gives equal counts back."
}

impl Ranked for PyRanking {
    const KIND: &'static str = "plan";

    fn ranking(&self) -> &Ranking {
        &self.0
    }
}

/// The most plays of every plan on even luck, where it is played to a precision and no number is given.
const MOST_EVEN_PLAYS: u64 = 3_200_000;

/// Plays every plan with the same luck, or on even luck, and counts. With `player_draws` plausible players play the plans, too,
/// and what they made of them is given back beside the ranking.
#[pyfunction]
pub(crate) fn compare(asked: Asked<'_>) -> PyResult<(PyRanking, Option<PyAcrossPlayers>)> {
    let (hole, player) = asked.on()?;
    let (hole, player) = (hole.get(), player.get());
    let plans: Vec<PyPlan> = asked.get("plans")?;
    if asked.get::<String>("luck")? == "even" {
        return Ok((compare_evenly(&asked, hole, player, &plans)?, None));
    }
    let question = asked.comparison(hole)?;
    let seed = question.seed;
    let draws: Option<usize> = asked.whole("player_draws", "2 to 1,000")?;
    if let Some(n) = draws.filter(|n| !(2..=MOST_PLAYERS).contains(n)) {
        let message = format!("player_draws is {n}; it must be 2 to 1,000");
        return Err(input_error(message));
    }
    let workers = asked.workers()?;
    let plans = best::played(&workers, (hole, player), &plans)?;
    let (hole, player) = (hole.0.clone(), player.clone());
    let both = workers.ask(move || {
        let scene = prepared(&hole, &player.bag)?;
        let comparison = Comparison::new(scene, &plans, question).map_err(refused)?;
        let players = draws
            .map(|n| {
                let fit = player.fit()?;
                let drawn = fit.draws(n, seed).map_err(refused)?;
                PlayersRun::new(&comparison, hole, drawn, &plans, fit.source()).map_err(refused)
            })
            .transpose()?;
        PyResult::Ok(Both {
            comparison,
            players,
        })
    })??;
    let mut both = workers.run(both)?;
    wave::unless_broken_off(both.comparison.take_fault())?;
    let across = both.players.map(PlayersRun::found).transpose();
    let across = across.map_err(refused)?.map(PyAcrossPlayers);
    Ok((PyRanking(both.comparison.ranking()), across))
}

fn compare_evenly(
    asked: &Asked<'_>,
    hole: &PyHole,
    player: &PyPlayer,
    plans: &[PyPlan],
) -> PyResult<PyRanking> {
    let (precision, plays) = asked.plays(MOST_EVEN_PLAYS, "64 to 3,200,000")?;
    let question = asked.counted(hole)?;
    let workers = asked.workers()?;
    let plans = best::played(&workers, (hole, player), plans)?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let comparison = workers.ask(move || {
        let scene = Scene::new(hole, bag).map_err(refused)?;
        match precision {
            None => EvenComparison::new(scene, &plans, question, plays),
            Some(strokes) => EvenComparison::to_precision(scene, &plans, question, strokes, plays),
        }
        .map_err(refused)
    })??;
    Ok(PyRanking(workers.run(comparison)?.ranking()))
}

/// Plays one plan by every player, each with its name, with the same luck and counts.
#[pyfunction]
pub(crate) fn compare_players(asked: Asked<'_>) -> PyResult<PyRanking> {
    let (hole, plan) = (asked.one::<PyHole>("hole")?, asked.one::<PyPlan>("plan")?);
    let question = asked.comparison(hole.get())?;
    let players: Vec<(String, Arc<Bag>)> =
        asked.by_name("players", |player: &PyPlayer| player.bag.clone())?;
    let workers = asked.workers()?;
    let (hole, plan) = (hole.get().0.clone(), plan.get().plan.clone());
    let comparison =
        workers.ask(move || Comparison::of_players(&hole, &players, &plan, question))?;
    let mut comparison = workers.run(comparison.map_err(refused)?)?;
    wave::unless_broken_off(comparison.take_fault())?;
    Ok(PyRanking(comparison.ranking()))
}
