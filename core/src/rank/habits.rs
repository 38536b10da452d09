//! What a player's habits cost on a hole: `direct` played with them and without, under the same luck.
use super::{CompareFault, Comparison, Difference, Question};
use crate::hole::Hole;
use crate::plan::{Plan, Then};
use crate::player::{Bag, Habits};
use crate::run::Run;
use std::sync::Arc;

/// The strategy `direct` with and without the habits of a player: a comparison of players who differ in their habits alone. It
/// advances in waves.
pub struct HabitsRun {
    /// The player as usual first, then with other habits; no two have the same.
    comparison: Comparison,
    /// Which of them goes without the habits that the price is told for.
    without: [usize; PRICES],
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
    /// Prepares a run; nothing has been played yet.
    ///
    /// # Errors
    /// As for [`Comparison::of_players`].
    pub fn new(hole: &Arc<Hole>, bag: &Bag, question: Question) -> Result<Self, CompareFault> {
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
        let mut different = vec![habits];
        let without = others.map(|other| {
            let known = different.iter().position(|&habits| habits == other);
            known.unwrap_or_else(|| {
                different.push(other);
                different.len() - 1
            })
        });
        let players: Vec<(String, Arc<Bag>)> = different
            .into_iter()
            .enumerate()
            .map(|(at, habits)| (at.to_string(), Arc::new(bag.clone().with_habits(habits))))
            .collect();
        let direct = Plan::new("direct", Vec::new(), Then::Direct)?;
        let comparison = Comparison::of_players(hole, &players, &direct, question);
        Ok(HabitsRun {
            comparison: comparison.map_err(|fault| match fault {
                CompareFault::Side { fault, .. } => *fault,
                other => other,
            })?,
            without,
        })
    }

    /// What has been found so far.
    #[must_use]
    pub fn price(&self) -> HabitsPrice {
        let ranking = self.comparison.ranking();
        let [too_little_club, every_flag, always_chips, all] =
            self.without.map(|without| ranking.difference(0, without));
        HabitsPrice {
            plays: ranking.plays,
            too_little_club,
            every_flag,
            always_chips,
            all,
        }
    }
}

impl Run for HabitsRun {
    /// Plays up to `count` more plays of each.
    fn advance(&mut self, count: u64) {
        self.comparison.advance(count);
    }

    /// Plays of each so far.
    fn done(&self) -> u64 {
        self.comparison.done()
    }

    /// Plays of each asked for.
    fn goal(&self) -> u64 {
        self.comparison.goal()
    }

    /// True when all are played.
    fn is_finished(&self) -> bool {
        self.comparison.is_finished()
    }
}
