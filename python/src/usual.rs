//! The usual way of the ball under a plan: what the report and the card tell of it.

use pyo3::prelude::*;
use wideberth::geometry::Point;
use wideberth::hole::{InTheWay, Side};
use wideberth::rank::{Length, Question, UsualWay};

use crate::errors::input_error;
use crate::fork;
use crate::given::given;
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::ranking::pair;
use crate::simulate::{recorded, stroke_names};
use crate::whole::{SeedGiven, Whole};

/// A place of the plan.
type Xy = (f64, f64);
/// Place in `Hole.features`, side ("left", "right"; None where the aim leads over it), yards to reach and to carry.
type Hazard = (u16, Option<&'static str>, f64, f64);
/// Stroke, from, aim, rest, and the hazards in the way.
type Leg = (String, Xy, Xy, Xy, Vec<Hazard>);

/// Plays a plan and reads off its usual way.
///
/// Args:
///     hole: the hole.
///     player: the player.
///     plan: the plan.
///     plays: plays, 1 to 1,000,000,000.
///     seed: a whole number, 0 to 2**64 - 1, that fixes the luck.
///
/// Returns:
///     The legs, each (stroke, from, aim, rest, what lies in the way), places in yards, and what lies in the way (place in
///     `Hole.features`, side or None, yards to reach, yards to carry); the median yards to the pin before the second
///     stroke; how much more a tee shot missed far to the right costs than one to the left, and its standard error,
///     strokes; the side to miss on, or None; the score that two of three plays do not exceed.
///
/// Raises:
///     InputError: before anything is played, naming the field, the value and what is allowed.
#[pyfunction]
#[pyo3(signature = (hole, player, plan, *, plays, seed))]
#[expect(
    clippy::type_complexity,
    reason = "the fields of the Python class, in their order"
)]
pub(crate) fn usual_way(
    py: Python<'_>,
    #[pyo3(from_py_with = given)] hole: &PyHole,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    #[pyo3(from_py_with = given)] plan: &PyPlan,
    plays: Whole,
    seed: SeedGiven,
) -> PyResult<(Vec<Leg>, f64, (f64, f64), Option<&'static str>, u8)> {
    let mut question = Question::new(seed.fit()?);
    question.length = Length::Plays(plays.fit("plays", "1 to 1,000,000,000")?);
    let recording = recorded(py, (hole, player, plan), &question, None, None)?;
    let usual = fork::at_work(py, || UsualWay::of(&recording))
        .ok_or_else(|| input_error("plays is 0; it must be 1 to 1,000,000,000"))?;
    let (names, place_of) = stroke_names(player);
    let legs = usual.legs.iter().map(|leg| {
        (
            names[place_of(leg.stroke)].clone(),
            xy(leg.from),
            xy(leg.aim),
            xy(leg.rest),
            leg.in_the_way.iter().map(hazard).collect(),
        )
    });
    Ok((
        legs.collect(),
        usual.left,
        pair(usual.right_costs),
        usual.better_side().map(side),
        usual.good_enough(),
    ))
}

fn xy(place: Point) -> Xy {
    (place.x, place.y)
}

fn hazard(way: &InTheWay) -> Hazard {
    (way.feature, way.side.map(side), way.reach, way.carry)
}

fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}
