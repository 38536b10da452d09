//! The usual way of the ball under a plan: what the report and the card tell of it.

use pyo3::prelude::*;
use wideberth::geometry::Point;
use wideberth::hole::{InTheWay, Side};
use wideberth::rank::{Length, UsualWay};

use crate::asked::Asked;
use crate::errors::input_error;
use crate::fork;
use crate::plan::PyPlan;
use crate::ranking::pair;
use crate::simulate::{recorded, stroke_names};

/// A place of the plan.
type Xy = (f64, f64);
/// Place in `Hole.features`, side ("left", "right"; None where the aim leads over it), yards to reach and to carry.
type Hazard = (u16, Option<&'static str>, f64, f64);
/// Stroke, from, aim, and the hazards in the way.
type Leg = (String, Xy, Xy, Vec<Hazard>);

/// Plays a plan and reads off its usual way.
///
/// Returns:
///     The legs, each (stroke, from, aim, what lies in the way), places in yards, and what lies in the way (place in
///     `Hole.features`, side or None, yards to reach, yards to carry); the median yards to the pin before the second
///     stroke; how much more a tee shot missed far to the right costs than one to the left, and its standard error,
///     strokes; the side to miss on, or None; the score that two of three plays do not exceed.
#[pyfunction]
#[expect(
    clippy::type_complexity,
    reason = "the fields of the Python class, in their order"
)]
pub(crate) fn usual_way(
    asked: Asked<'_>,
) -> PyResult<(Vec<Leg>, f64, (f64, f64), Option<&'static str>, u8)> {
    let ((hole, player), plan) = (asked.on()?, asked.one::<PyPlan>("plan")?);
    let player = player.get();
    let mut question = asked.question(hole.get())?;
    question.length = Length::Plays(asked.count("plays", "1 to 1,000,000,000")?);
    let on = (hole.get(), player, plan.get());
    let recording = recorded(&asked.workers()?, on, &question)?;
    let usual = fork::at_work(asked.py(), || UsualWay::of(&recording))
        .ok_or_else(|| input_error("plays is 0; it must be 1 to 1,000,000,000"))?;
    let (names, place_of) = stroke_names(player);
    let legs = usual.legs.iter().map(|leg| {
        (
            names[place_of(leg.stroke)].clone(),
            xy(leg.from),
            xy(leg.aim),
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
