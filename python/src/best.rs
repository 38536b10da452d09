//! `then="best"`: plans that go on by the best play of the hole, which is solved once for a player and kept.

use pyo3::prelude::*;
use std::sync::{Arc, Mutex, PoisonError};
use wideberth::Run;
use wideberth::plan::{Plan, Strategy, Then};
use wideberth::player::Bag;
use wideberth::solve::{Solution, Solving, Task};

use crate::asked::Workers;
use crate::errors::{input_error, refused};
use crate::hole::PyHole;
use crate::plan::PyPlan;
use crate::player::PyPlayer;
use crate::prepared::prepared;
use crate::steps::Steps;

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
    let solved = solve(workers, vec![hole.clone()], player)?;
    let solved = solved.into_iter().next();
    solved.map_or_else(|| Err(input_error("not solved")), |best| Ok(best as _))
}

/// Works out the best play of those of some holes for which it is not kept, and keeps it.
pub(crate) fn prepare<'a>(
    workers: &Workers<'_>,
    holes: impl Iterator<Item = &'a PyHole>,
    player: &PyPlayer,
) -> PyResult<()> {
    let mut missing: Vec<PyHole> = Vec::new();
    for hole in holes {
        // A course may have a hole more than once.
        if found(hole, player).is_none() && !missing.iter().any(|other| same(other, hole)) {
            missing.push(hole.clone());
        }
    }
    solve(workers, missing, player).map(drop)
}

fn solve(
    workers: &Workers<'_>,
    holes: Vec<PyHole>,
    player: &PyPlayer,
) -> PyResult<Vec<Arc<Solution>>> {
    let work = InTurn {
        holes: holes.clone(),
        bag: player.bag.clone(),
        under_way: None,
        solved: Ok(Vec::new()),
    };
    let solved = workers.run(Steps(work))?.0.solved?;
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    for (hole, solution) in holes.into_iter().zip(&solved) {
        let (player, solution) = (player.clone(), solution.clone());
        let known = Kept {
            hole,
            player,
            solution,
        };
        kept.insert(0, known);
    }
    kept.truncate(MOST);
    Ok(solved)
}

/// Holes that are solved one after another, which takes no more memory than one does.
struct InTurn {
    holes: Vec<PyHole>,
    bag: Arc<Bag>,
    under_way: Option<Solving>,
    solved: PyResult<Vec<Arc<Solution>>>,
}

/// What counts as done of one hole, whatever its steps: so a goal is known before the later ones are begun.
const PARTS: u64 = 1_000;

impl InTurn {
    fn step(&mut self) -> PyResult<()> {
        let Ok(solved) = &mut self.solved else {
            return Ok(());
        };
        let solving = match &mut self.under_way {
            Some(solving) => solving,
            None => {
                let task = Task {
                    cell: CELL,
                    ..Task::default()
                };
                let scene = prepared(&self.holes[solved.len()].0, &self.bag)?;
                self.under_way
                    .insert(Solving::new(scene, task).map_err(refused)?)
            }
        };
        solving.advance(1);
        let ended = self.under_way.take_if(|solving| solving.is_finished());
        solved.extend(ended.and_then(Solving::solution).map(Arc::new));
        Ok(())
    }
}

impl Run for InTurn {
    fn advance(&mut self, count: u64) {
        for _ in 0..count {
            if self.is_finished() {
                break;
            }
            if let Err(fault) = self.step() {
                self.solved = Err(fault);
            }
        }
    }

    fn done(&self) -> u64 {
        let solved = self.solved.as_ref().map_or(0, Vec::len) as u64;
        let part = |solving: &Solving| PARTS * solving.done() / solving.goal().max(1);
        PARTS * solved + self.under_way.as_ref().map_or(0, part)
    }

    fn goal(&self) -> u64 {
        PARTS * self.holes.len() as u64
    }

    fn is_finished(&self) -> bool {
        let left = |solved: &Vec<_>| solved.len() < self.holes.len();
        !self.solved.as_ref().is_ok_and(left)
    }
}

fn found(hole: &PyHole, player: &PyPlayer) -> Option<Arc<Solution>> {
    let mut kept = KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    let at = kept
        .iter()
        .position(|known| same(&known.hole, hole) && known.player.player == player.player)?;
    kept[..=at].rotate_right(1);
    Some(kept[0].solution.clone())
}

fn same(one: &PyHole, other: &PyHole) -> bool {
    Arc::ptr_eq(&one.0, &other.0) || *one.0 == *other.0
}
