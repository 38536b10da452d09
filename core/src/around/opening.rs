//! The first stroke of each option: which there are from a lie, and with what length and aim each does best.
use super::AroundFault;
use crate::geometry::{Point, right_of, unit_or_up};
use crate::hole::Hole;
use crate::noise::{Noise, Seed};
use crate::plan::{Plan, PlanFault, Scene, Strategy, Then, around_the_green};
use crate::player::Touch;
use crate::rank::{Comparison, Length, Question};
use crate::run::Run;
use crate::shot::{Next, Outcome, Shot, Stroke};
use crate::situation::Situation;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// The first stroke of one option.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Opening {
    /// The stroke.
    pub touch: Touch,
    /// What is meant, yards: the carry, or the putter's whole roll.
    pub meant: f64,
    /// Yards to the right of the pin that is aimed, for wind and slope; left is negative.
    pub right: f64,
    /// How far a solid strike without any luck carries, yards; none for the putter.
    pub carry: f64,
    /// How far it then runs, yards (to the hole, if it drops).
    pub run: f64,
}

impl Opening {
    /// The name of the option.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self.touch {
            Touch::Chip => "running chip",
            Touch::BunkerShot => "bunker shot",
            touch => touch.name(),
        }
    }

    pub(super) fn shot(&self, hole: &Hole, from: Point) -> Shot {
        let right = right_of(unit_or_up(hole.pin() - from));
        Shot {
            stroke: Stroke::Touch(self.touch),
            target: hole.pin() + right * self.right,
            carry: self.meant,
        }
    }
}

/// One place and one way to go on, from which first strokes are tried.
pub(super) struct Place<'a> {
    pub(super) scene: &'a Scene,
    pub(super) start: Situation,
    pub(super) then: Arc<dyn Strategy>,
}

/// Lengths tried for a first stroke, as shares of what the player would plan.
const LENGTHS: (f64, f64) = (0.5, 1.5);
/// Aims tried, where the ground is not level or the wind blows, as shares of the distance to either side of the plan.
const SIDES: (f64, f64) = (-0.3, 0.3);
/// How many of either, and plays of each; then between the neighbours of the best of them, and plays of each.
const TRIED: (u32, u64) = (16, 384);
const FINER: (u32, u64) = (6, 1_152);

/// The luck under which lengths are tried: the same place gets the same strokes whatever the question's seed.
const LENGTH_SEED: Seed = Seed(0x5eed_1e46_7451);

impl Place<'_> {
    /// The strokes to compare, in the order of [`Touch::ALL`].
    pub(super) fn openings(&self) -> Result<Vec<Opening>, AroundFault> {
        let suited = || around_the_green(self.start.lie);
        let longest = suited().max_by(|a, b| self.reach(*a).total_cmp(&self.reach(*b)));
        suited()
            .filter(|touch| self.reaches_green(*touch) || Some(*touch) == longest)
            .map(|touch| self.opening(touch))
            .collect()
    }

    /// How far from here a stroke at the pin comes to rest when it is played as far as it goes, solid and without any
    /// luck, yards.
    fn reach(&self, touch: Touch) -> f64 {
        let longest = Opening {
            meant: self.scene.bag().touch(touch, self.start.lie).full_carry,
            ..self.planned(touch)
        };
        (self.calm(&longest).rest - self.start.at).norm()
    }

    fn reaches_green(&self, touch: Touch) -> bool {
        let green = &self.scene.hole().green().outline;
        let edge = green.nearest_edge_point(self.start.at);
        self.reach(touch) >= (edge - self.start.at).norm()
    }

    /// What a solid first stroke without any luck comes to.
    fn calm(&self, opening: &Opening) -> Outcome {
        let shot = opening.shot(self.scene.hole(), self.start.at);
        self.scene.resolve(self.start, &shot, &Noise::NONE)
    }

    /// A stroke at the pin with the length, and on a slope or in wind the aim, that is down in the fewest strokes; one
    /// that does not reach the green goes as far as it can.
    fn opening(&self, touch: Touch) -> Result<Opening, AroundFault> {
        let (scene, from) = (self.scene, self.start.at);
        let full = scene.bag().touch(touch, self.start.lie).full_carry;
        let planned = self.planned(touch);
        let lengths = if self.reaches_green(touch) {
            let share = |share: f64| (share * planned.meant).min(full);
            (share(LENGTHS.0), share(LENGTHS.1))
        } else {
            (full, full)
        };
        let long = |opening: Opening, meant: f64| Opening { meant, ..opening };
        let aimed = |opening: Opening, right: f64| Opening { right, ..opening };
        let mut opening = self.best(planned, lengths, long)?;
        if !scene.setting().is_still() {
            let distance = self.start.to_pin(scene.hole());
            let side = |share: f64| planned.right + share * distance;
            opening = self.best(opening, (side(SIDES.0), side(SIDES.1)), aimed)?;
            opening = self.best(opening, lengths, long)?;
        }
        let calm = self.calm(&opening);
        Ok(Opening {
            carry: (calm.landed - from).norm(),
            run: (calm.rest - calm.landed).norm(),
            ..opening
        })
    }

    /// The stroke as the player would plan it: aimed off for wind and slope, but not for the break of the run, and so long
    /// that without any luck it just gets to the pin over the ground there is, or as long as it can be.
    fn planned(&self, touch: Touch) -> Opening {
        let setting = self.scene.setting();
        let (from, pin) = (self.start.at, self.scene.hole().pin());
        let meant = setting.meant_for(setting.touch(touch), from, pin);
        let way = pin - from;
        let distance = way.norm().max(1e-9);
        let forward = way / distance;
        let right = right_of(forward);
        let long = |meant_carry: f64| Opening {
            touch,
            meant: meant_carry,
            right: (meant.target - pin).dot(&right),
            carry: 0.0,
            run: 0.0,
        };
        let gets_there = |length: f64| {
            let outcome = self.calm(&long(length));
            outcome.next == Next::Holed || (outcome.rest - from).dot(&forward) >= distance
        };
        let (mut short, mut enough) = (
            0.0,
            self.scene.bag().touch(touch, self.start.lie).full_carry,
        );
        for _ in 0..24 {
            let middle = 0.5 * (short + enough);
            if gets_there(middle) {
                enough = middle;
            } else {
                short = middle;
            }
        }
        long(enough)
    }

    /// The best of a stroke with many values from `low` to `high` of one of its figures, then of finer steps between
    /// the neighbours of the best.
    fn best(
        &self,
        opening: Opening,
        (low, high): (f64, f64),
        with: impl Fn(Opening, f64) -> Opening,
    ) -> Result<Opening, AroundFault> {
        let rough = self.best_of(opening, (low, high), TRIED, &with)?;
        let step = (high - low) / f64::from(TRIED.0);
        let near = ((rough - step).max(low), (rough + step).min(high));
        let fine = self.best_of(opening, near, FINER, &with)?;
        Ok(with(opening, fine))
    }

    /// Of evenly spaced values the one that holes out in the fewest strokes over some plays.
    fn best_of(
        &self,
        opening: Opening,
        (low, high): (f64, f64),
        (steps, plays): (u32, u64),
        with: impl Fn(Opening, f64) -> Opening,
    ) -> Result<f64, AroundFault> {
        if !(high > low) {
            return Ok(high);
        }
        let values: Vec<f64> = (0..=steps)
            .map(|k| low + (high - low) * f64::from(k) / f64::from(steps))
            .collect();
        let plans = values
            .iter()
            .map(|&value| self.plan(&value.to_string(), &with(opening, value)))
            .collect::<Result<Vec<_>, _>>()?;
        let mut question = Question::new(LENGTH_SEED);
        question.length = Length::Plays(plays);
        question.start = Some(self.start);
        let mut run = Comparison::new(self.scene.clone(), &plans, question)?;
        run.advance(plays);
        Ok(values[run.ranking().order()[0]])
    }

    /// The plan that begins with a stroke from here.
    pub(super) fn plan(&self, name: &str, opening: &Opening) -> Result<Plan, PlanFault> {
        let first = First {
            start: self.start,
            shot: opening.shot(self.scene.hole(), self.start.at),
            then: self.then.clone(),
        };
        Plan::new(name, Vec::new(), Then::Custom(Arc::new(first)))
    }
}

/// One stroke from one place, then a strategy; from that very place (stroke and distance) the same stroke again.
struct First {
    start: Situation,
    shot: Shot,
    then: Arc<dyn Strategy>,
}

impl Strategy for First {
    fn choose(&self, scene: &Scene, from: Situation, played: u8) -> Shot {
        if from == self.start {
            self.shot
        } else {
            self.then.choose(scene, from, played)
        }
    }

    fn estimate(&self, scene: &Scene, from: Situation) -> f64 {
        self.then.estimate(scene, from)
    }
}
