//! What a player's habits cost on a hole: `direct` played with them and without, under the same luck.
use super::comparison::ready;
use super::{CompareFault, LEVEL, Length, Question};
use crate::hole::Hole;
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Plan, Ready, Scene, Then};
use crate::player::{Bag, Habits};
use crate::simulate::play;
use crate::situation::Situation;
use crate::stats::{Difference, Paired};
use rayon::prelude::*;
use std::sync::Arc;

/// The strategy `direct` with and without the habits of a player: a run that advances in waves.
pub struct HabitsRun {
    /// The player as usual first, then with other habits; no two have the same.
    sides: Vec<(Scene, Ready)>,
    /// Which of them goes without the habits that the price is told for.
    without: [usize; PRICES],
    seed: Seed,
    goal: u64,
    done: u64,
    sums: [Paired; PRICES],
}

/// How many prices are told: of each habit, and of all together.
const PRICES: usize = 4;

/// What habits cost on a hole: strokes with the player's habits less strokes without, play by play.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HabitsPrice {
    /// Plays of each.
    pub plays: u64,
    /// Without taking too little club.
    pub too_little_club: Difference,
    /// Without aiming at every flag.
    pub every_flag: Difference,
    /// Without always chipping.
    pub always_chips: Difference,
    /// Without any.
    pub all: Difference,
}

impl HabitsRun {
    /// Prepares a run of `plays` plays; nothing has been played yet.
    ///
    /// # Errors
    /// No plays or more than [`MOST_PLAYS`](super::MOST_PLAYS); a stroke whose carry no believable ball speed gives.
    pub fn new(hole: &Arc<Hole>, bag: &Bag, seed: Seed, plays: u64) -> Result<Self, CompareFault> {
        Question {
            length: Length::Plays(plays),
            ..Question::new(seed)
        }
        .check(hole)?;
        let habits = bag.habits();
        let others = [
            Habits {
                too_little_club: 0.0,
                ..habits
            },
            Habits {
                every_flag: false,
                ..habits
            },
            Habits {
                always_chips: false,
                ..habits
            },
            Habits::NONE,
        ];
        let direct = [Plan::new("direct", Vec::new(), Then::Direct)?];
        let mut different = vec![habits];
        let without = others.map(|other| {
            let known = different.iter().position(|&habits| habits == other);
            known.unwrap_or_else(|| {
                different.push(other);
                different.len() - 1
            })
        });
        let sides = different
            .into_iter()
            .map(|habits| {
                let bag = Arc::new(bag.clone().with_habits(habits));
                let scene = Scene::new(hole.clone(), bag)?;
                let mut plans = ready(&scene, &direct)?;
                let plan = plans.pop().ok_or(CompareFault::NoPlans)?;
                Ok((scene, plan))
            })
            .collect::<Result<Vec<_>, CompareFault>>()?;
        Ok(HabitsRun {
            sides,
            without,
            seed,
            goal: plays,
            done: 0,
            sums: [Paired::default(); PRICES],
        })
    }

    /// Plays so far.
    #[must_use]
    pub fn done(&self) -> u64 {
        self.done
    }

    /// Plays in all.
    #[must_use]
    pub fn goal(&self) -> u64 {
        self.goal
    }

    /// Plays up to `count` more times on the current thread pool.
    pub fn advance(&mut self, count: u64) {
        let end = self.goal.min(self.done.saturating_add(count));
        let new = || [Paired::default(); PRICES];
        let sums = (self.done..end)
            .into_par_iter()
            .fold(new, |mut sums, number| {
                self.add(number, &mut sums);
                sums
            })
            .reduce(new, |mut a, b| {
                merge(&mut a, &b);
                a
            });
        merge(&mut self.sums, &sums);
        self.done = end;
    }

    /// Plays once with every set of habits.
    fn add(&self, number: u64, sums: &mut [Paired; PRICES]) {
        // The player as usual and at most one other a price.
        let mut scores = [0; 1 + PRICES];
        for (score, (scene, plan)) in scores.iter_mut().zip(&self.sides) {
            let luck = PlayNoise::new(self.seed, number);
            let start = Situation::on_the_tee(scene.hole());
            *score = play(scene, plan, start, luck, u8::MAX, &mut ()).score;
        }
        for (sum, &without) in sums.iter_mut().zip(&self.without) {
            sum.add(scores[0], scores[without]);
        }
    }

    /// What has been found so far.
    #[must_use]
    pub fn price(&self) -> HabitsPrice {
        let [too_little_club, every_flag, always_chips, all] =
            self.sums.map(|sum| sum.difference(LEVEL));
        HabitsPrice {
            plays: self.done,
            too_little_club,
            every_flag,
            always_chips,
            all,
        }
    }
}

fn merge(sums: &mut [Paired; PRICES], more: &[Paired; PRICES]) {
    for (sum, more) in sums.iter_mut().zip(more) {
        sum.merge(more);
    }
}
