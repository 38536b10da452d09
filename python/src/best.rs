//! `then="best"`: plans that go on by the best play of the hole, which is solved once for a player and kept.

use pyo3::prelude::*;
use std::sync::{Arc, Mutex, PoisonError};
use wideberth::plan::{Plan, Strategy, Then};
use wideberth::solve::{Solution, Solving, Task};

use crate::asked::Workers;
use crate::errors::refused;
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::prepared::prepared;
use crate::solve::solved;

/// A hole solved for a player.
struct Kept {
    hole: PyHole,
    player: PyPlayer,
    solution: Arc<Solution>,
}

/// Those asked for last, first.
static KEPT: Mutex<Vec<Kept>> = Mutex::new(Vec::new());

/// How many are kept: the holes of a course. Each takes some 6 MiB.
const MOST: usize = 18;

/// Yards between the places with a value of their own. With 2 in place of 4 no more than 0.002 strokes were gained, which is
/// within the error, and with 8 from 0.015 to 0.05 lost (two holes, handicaps of 8, 18 and 30, 200,000 plays of each).
const CELL: f64 = 4.0;

/// The plans as they are played by a player on a hole.
pub(crate) fn played(
    workers: &Workers<'_>,
    (hole, player): (&PyHole, &PyPlayer),
    plans: &[PyPlan],
) -> PyResult<Vec<Plan>> {
    let plans = plans.iter().map(|plan| &plan.plan);
    if !plans.clone().any(|plan| plan.then().is_best()) {
        return Ok(plans.cloned().collect());
    }
    let best = best(workers, (hole, player))?;
    Ok(plans.map(|plan| plan.going_on_by(&best)).collect())
}

/// How a player goes on on a hole.
pub(crate) fn going_on(
    workers: &Workers<'_>,
    on: (&PyHole, &PyPlayer),
    then: Then,
) -> PyResult<Then> {
    if then.is_best() {
        Ok(then.going_on_by(&best(workers, on)?))
    } else {
        Ok(then)
    }
}

/// The best play of a hole by a player: kept, or worked out now.
fn best(
    workers: &Workers<'_>,
    (hole, player): (&PyHole, &PyPlayer),
) -> PyResult<Arc<dyn Strategy>> {
    if let Some(known) = found(hole, player) {
        return Ok(known);
    }
    let (map, bag) = (hole.0.clone(), player.bag.clone());
    let task = Task {
        cell: CELL,
        ..Task::default()
    };
    let solution = solved(&workers.quiet(), move || {
        Solving::new(prepared(&map, &bag)?, task).map_err(refused)
    })?;
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    kept.insert(
        0,
        Kept {
            hole: hole.clone(),
            player: player.clone(),
            solution: solution.clone(),
        },
    );
    kept.truncate(MOST);
    Ok(solution)
}

fn found(hole: &PyHole, player: &PyPlayer) -> Option<Arc<Solution>> {
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    let at = kept.iter().position(|known| {
        let same_hole = Arc::ptr_eq(&known.hole.0, &hole.0) || *known.hole.0 == *hole.0;
        same_hole && known.player.player == player.player
    })?;
    kept[..=at].rotate_right(1);
    Some(kept[0].solution.clone())
}
