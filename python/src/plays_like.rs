//! What distance a shot plays like.

use pyo3::prelude::*;
use wideberth::plan::{PlaysLike, Scene};

use crate::errors::refused;
use crate::given::given;
use crate::hole::PyHole;
use crate::places;
use crate::player::PyPlayer;
use crate::pool;
use crate::travel::by_fields;

/// The ordinary shot at a target and the distance it plays like, by `plays_like`.
#[pyclass(frozen, eq, name = "PlaysLike", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyPlaysLike(PlaysLike);

by_fields! {
    PyPlaysLike(PlaysLike):
    /// Yards to the target on the plan.
    distance: f64,
    /// The distance it plays like, yards.
    ///
    /// Carry and run together, as on level ground of medium firmness in still air the same swing would go; of a putt the
    /// distance itself.
    plays_like: f64,
    /// Name of the stroke: a club of the player, a touch such as "pitch", or "putt".
    stroke: String,
    /// Yards to the right of the target that the shot is aimed, to hold off for wind and slope; negative to the left.
    aim_right: f64,
    /// Feet by which the target lies above the ball; negative below.
    uphill_ft: f64,
    /// False if the player's longest club does not get there from that lie.
    in_reach: bool,
}

#[pymethods]
impl PyPlaysLike {
    fn __repr__(&self) -> String {
        let told = &self.0;
        let height = match told.uphill_ft {
            up if up >= 0.5 => format!(", {up:.0} ft up"),
            up if up <= -0.5 => format!(", {:.0} ft down", -up),
            _ => String::new(),
        };
        let aim = match told.aim_right {
            right if right >= 0.5 => format!(", aimed {right:.0} yd right"),
            right if right <= -0.5 => format!(", aimed {:.0} yd left", -right),
            _ => String::new(),
        };
        let reach = if told.in_reach { "" } else { ", out of reach" };
        format!(
            "{:.0} yd{height} plays like {:.0}: {}{aim}{reach}",
            told.distance, told.plays_like, told.stroke
        )
    }
}

/// The distance that a shot plays like on the day: what wind, height, slope, air and ground make of it, in yards.
///
/// The shot is the player's ordinary one at the target, as the strategies play it: the shortest club that gets there, a
/// touch near the green, a putt on it, a punch out of trees. The player allows for everything in full.
///
/// Args:
///     hole: the hole, with its conditions and terrain.
///     player: the player.
///     at: where the ball lies: (x, y) in yards or a place such as `along(200, left=12)`; None for the tee. The surface
///         there gives the lie.
///     to: the target, in the same way; None for the pin.
///
/// Returns:
///     The distance, what it plays like, the stroke, and how far the aim is held off.
///
/// Raises:
///     InputError: a place that is not finite, one where no ball is played as it lies, or a target nearer than 1 yard or
///         farther than 1,000.
///     TypeError: something that is no place.
///
/// Example:
///     >>> import wideberth as wb
///     >>> hole = wb.Hole.sketch(par=4, length=380).under(wb.Conditions(wind=wb.Wind(mph=15, from_deg=0)))
///     >>> into = wb.plays_like(hole, wb.Player.from_handicap(10), at=wb.along(230))
///     >>> into.distance == 150 and 165 < into.plays_like < 190
///     True
#[pyfunction]
#[pyo3(signature = (hole, player, *, at = None, to = None))]
pub(crate) fn plays_like(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] hole: &PyHole,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    at: Option<&Bound<'_, PyAny>>,
    to: Option<&Bound<'_, PyAny>>,
) -> PyResult<PyPlaysLike> {
    let from = match at {
        Some(at) => places::point(&hole.0, "at", at)?,
        None => hole.0.tee(),
    };
    let target = match to {
        Some(to) => places::point(&hole.0, "to", to)?,
        None => hole.0.pin(),
    };
    let pool = pool::pool(None)?;
    let (hole, bag) = (hole.0.clone(), player.bag.clone());
    let told = pool::ask(py, &pool, move || {
        let scene = Scene::new(hole, bag).map_err(refused)?;
        PlaysLike::of(&scene, from, target).map_err(refused)
    })??;
    Ok(PyPlaysLike(told))
}
