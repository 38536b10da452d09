//! What a ranking is made of, as it is written down and read again.
use super::{MOST_PLAYS, Question, Ranking};
use crate::simulate::Tally;
use crate::stats::Paired;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// Everything that was counted over a comparison.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Counts {
    pub(super) plays: u64,
    pub(super) question: Question,
    pub(super) par: u8,
    pub(super) names: Vec<String>,
    /// On common luck: by plan, over all plays.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) tallies: Vec<Tally>,
    /// On common luck: pairs (0, 1), (0, 2), ..., (1, 2), ...
    pub(super) pairs: Vec<Pair>,
    /// On even luck: by plan, by set.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) sets: Vec<Vec<Tally>>,
}

/// Two plans over the same plays, first minus second.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Pair {
    /// Their scores.
    pub(super) scores: Paired,
    /// Their blow-ups: 1 where a play blew up, else 0.
    pub(super) blow_ups: Paired,
}

impl Pair {
    pub(super) fn merge(&mut self, other: &Pair) {
        self.scores.merge(&other.scores);
        self.blow_ups.merge(&other.blow_ups);
    }
}

impl From<Ranking> for Counts {
    fn from(ranking: Ranking) -> Self {
        let even = ranking.is_even();
        Counts {
            plays: ranking.plays,
            question: ranking.question,
            par: ranking.par,
            names: ranking.names,
            // Those of all plays are the sums of the sets.
            tallies: if even { Vec::new() } else { ranking.tallies },
            pairs: ranking.pairs,
            sets: ranking.sets,
        }
    }
}

impl TryFrom<Counts> for Ranking {
    type Error = String;

    /// Checks that written counts belong together before anything is asked of them.
    fn try_from(counts: Counts) -> Result<Self, String> {
        counts.check()?;
        Ok(Ranking::of(counts))
    }
}

impl Counts {
    fn check(&self) -> Result<(), String> {
        let plans = self.names.len();
        if plans == 0 || self.names.iter().collect::<BTreeSet<_>>().len() < plans {
            return Err("names must be at least one, and all different".to_owned());
        }
        if !(1..=MOST_PLAYS).contains(&self.plays) {
            return Err(format!(
                "plays is {}; it must be 1 to {MOST_PLAYS}",
                self.plays
            ));
        }
        self.question.check_written(self.par)?;
        if self.sets.is_empty() {
            self.check_pairs()
        } else {
            self.check_sets()
        }
    }

    fn check_tally(&self, name: &str, tally: &Tally, plays: u64) -> Result<(), String> {
        let milestones = self.question.checkpoints.len();
        entries("checkpoints", tally.checkpoints.len(), milestones)?;
        if !tally.is_within(plays) {
            return Err(format!(
                "{name:?} has more causes, checkpoints or unfinished plays than plays, {plays}"
            ));
        }
        for (what, counted) in [
            ("scores", &tally.scores),
            ("penalties", &tally.penalties),
            ("putts", &tally.putts),
        ] {
            let mut counts = counted.occurring().map(|(_, count)| count);
            if counts.try_fold(0_u64, u64::checked_add) != Some(plays) {
                return Err(format!(
                    "the {what} of {name:?} must add up to plays, which is {plays}"
                ));
            }
        }
        Ok(())
    }

    fn check_pairs(&self) -> Result<(), String> {
        let plans = self.names.len();
        entries("tallies", self.tallies.len(), plans)?;
        for (name, tally) in self.names.iter().zip(&self.tallies) {
            self.check_tally(name, tally, self.plays)?;
        }
        entries("pairs", self.pairs.len(), plans * (plans - 1) / 2)?;
        let whole = |pair: &Pair| pair.scores.is_of(self.plays) && pair.blow_ups.is_of(self.plays);
        if self.pairs.iter().all(whole) {
            return Ok(());
        }
        Err(format!(
            "pairs must hold sums over all plays, {}",
            self.plays
        ))
    }

    fn check_sets(&self) -> Result<(), String> {
        entries("tallies", self.tallies.len(), 0)?;
        entries("pairs", self.pairs.len(), 0)?;
        entries("sets", self.sets.len(), self.names.len())?;
        let sets = self.sets[0].len();
        let of_a_set = self.plays / sets.max(1) as u64;
        if sets < 4 || of_a_set * sets as u64 != self.plays {
            return Err(format!(
                "every plan must have 4 sets or more that share its {} plays equally",
                self.plays
            ));
        }
        for (name, of_plan) in self.names.iter().zip(&self.sets) {
            entries("sets", of_plan.len(), sets)?;
            for set in of_plan {
                self.check_tally(name, set, of_a_set)?;
            }
        }
        Ok(())
    }
}

fn entries(field: &str, given: usize, needed: usize) -> Result<(), String> {
    if given == needed {
        Ok(())
    } else {
        Err(format!(
            "{field} has {given} entries; it must have {needed}"
        ))
    }
}
