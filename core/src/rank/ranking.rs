//! What was counted over a comparison, and what follows from it.
use super::{LEVEL, Length, MOST_PLAYS, Question, share};
use crate::simulate::{Cause, Tally};
use crate::stats::{Difference, Estimate, Paired};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// The plans in order, best first, with everything counted about them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Counts", into = "Counts")]
pub struct Ranking {
    /// Plays of every plan.
    pub plays: u64,
    /// The question asked.
    pub question: Question,
    /// Par of the hole.
    pub par: u8,
    /// Names in the order given.
    names: Vec<String>,
    tallies: Vec<Tally>,
    pairs: Vec<Pair>,
    /// Indices of the plans, lowest mean first.
    order: Vec<usize>,
}

/// What was counted: all that a ranking is made of.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Counts {
    pub(super) plays: u64,
    pub(super) question: Question,
    pub(super) par: u8,
    pub(super) names: Vec<String>,
    pub(super) tallies: Vec<Tally>,
    /// Pairs (0, 1), (0, 2), ..., (1, 2), ...
    pub(super) pairs: Vec<Pair>,
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
        Counts {
            plays: ranking.plays,
            question: ranking.question,
            par: ranking.par,
            names: ranking.names,
            tallies: ranking.tallies,
            pairs: ranking.pairs,
        }
    }
}

impl TryFrom<Counts> for Ranking {
    type Error = String;

    /// Checks that written counts belong together before anything is asked of them.
    fn try_from(counts: Counts) -> Result<Self, String> {
        let plans = counts.names.len();
        let entries = |field: &str, given: usize, needed: usize| {
            if given == needed {
                Ok(())
            } else {
                Err(format!(
                    "{field} has {given} entries; it must have {needed}"
                ))
            }
        };
        if plans == 0 || counts.names.iter().collect::<BTreeSet<_>>().len() < plans {
            return Err("names must be at least one, and all different".to_owned());
        }
        if !(1..=MOST_PLAYS).contains(&counts.plays) {
            return Err(format!(
                "plays is {}; it must be 1 to {MOST_PLAYS}",
                counts.plays
            ));
        }
        counts.question.check_written(counts.par)?;
        entries("tallies", counts.tallies.len(), plans)?;
        entries("pairs", counts.pairs.len(), plans * (plans - 1) / 2)?;
        let whole =
            |pair: &Pair| pair.scores.is_of(counts.plays) && pair.blow_ups.is_of(counts.plays);
        if !counts.pairs.iter().all(whole) {
            return Err(format!(
                "pairs must hold sums over all plays, {}",
                counts.plays
            ));
        }
        for (name, tally) in counts.names.iter().zip(&counts.tallies) {
            let milestones = counts.question.checkpoints.len();
            entries("checkpoints", tally.checkpoints.len(), milestones)?;
            if !tally.is_within(counts.plays) {
                return Err(format!(
                    "{name:?} has more causes, checkpoints or unfinished plays than plays, {}",
                    counts.plays
                ));
            }
            for (what, counted) in [
                ("scores", &tally.scores),
                ("penalties", &tally.penalties),
                ("putts", &tally.putts),
            ] {
                let plays = counted
                    .occurring()
                    .try_fold(0_u64, |sum, (_, count)| sum.checked_add(count));
                if plays != Some(counts.plays) {
                    return Err(format!(
                        "the {what} of {name:?} must add up to plays, which is {}",
                        counts.plays
                    ));
                }
            }
        }
        Ok(Ranking::of(counts))
    }
}

impl Ranking {
    pub(super) fn of(counts: Counts) -> Self {
        let mean = |plan: usize| counts.tallies[plan].scores.mean().mean;
        let mut order: Vec<usize> = (0..counts.tallies.len()).collect();
        order.sort_by(|&a, &b| mean(a).total_cmp(&mean(b)));
        Ranking {
            plays: counts.plays,
            question: counts.question,
            par: counts.par,
            names: counts.names,
            tallies: counts.tallies,
            pairs: counts.pairs,
            order,
        }
    }

    /// Indices of the plans as given, lowest mean score first.
    #[must_use]
    pub fn order(&self) -> &[usize] {
        &self.order
    }

    /// Name of the plan with an index.
    #[must_use]
    pub fn name(&self, plan: usize) -> &str {
        &self.names[plan]
    }

    /// The index of a plan by name.
    #[must_use]
    pub fn index_of(&self, name: &str) -> Option<usize> {
        self.names.iter().position(|n| n == name)
    }

    /// The counts of a plan.
    #[must_use]
    pub fn tally(&self, plan: usize) -> &Tally {
        &self.tallies[plan]
    }

    /// Mean score of a plan.
    #[must_use]
    pub fn mean(&self, plan: usize) -> Estimate {
        self.tallies[plan].scores.mean()
    }

    /// Share of plays under a plan that scored `score` or more.
    #[must_use]
    pub fn at_least(&self, plan: usize, score: u8) -> Estimate {
        share(self.tallies[plan].scores.count_at_least(score), self.plays)
    }

    /// Share of plays under a plan that scored `score` or less.
    #[must_use]
    pub fn at_most(&self, plan: usize, score: u8) -> Estimate {
        let more = score
            .checked_add(1)
            .map_or(0, |more| self.tallies[plan].scores.count_at_least(more));
        share(self.plays - more, self.plays)
    }

    /// Share of plays that blew up under a plan.
    #[must_use]
    pub fn blow_up(&self, plan: usize) -> Estimate {
        self.at_least(plan, self.par + self.question.blow_up)
    }

    /// Share of plays under a plan that scored double bogey or worse.
    #[must_use]
    pub fn double_bogey(&self, plan: usize) -> Estimate {
        self.at_least(plan, self.par + 2)
    }

    /// The scores that occurred under a plan with their shares, lowest first.
    #[expect(
        clippy::cast_precision_loss,
        reason = "counts below 2^53 are exact as f64"
    )]
    pub fn distribution(&self, plan: usize) -> impl Iterator<Item = (u8, f64)> {
        let plays = self.plays as f64;
        self.tallies[plan]
            .scores
            .occurring()
            .map(move |(score, count)| (score, count as f64 / plays))
    }

    /// Share of plays that reached each checkpoint, in the order of the question.
    pub fn checkpoints(&self, plan: usize) -> impl Iterator<Item = (&str, Estimate)> {
        let names = self
            .question
            .checkpoints
            .iter()
            .map(|(name, _)| name.as_str());
        let counts = self.tallies[plan].checkpoints.iter();
        names.zip(counts.map(|&count| share(count, self.plays)))
    }

    /// Share of a plan's blow-ups that each cause began, most frequent first; None stands for those in
    /// which no single thing went wrong. Empty when nothing blew up.
    #[must_use]
    pub fn blow_up_causes(&self, plan: usize) -> Vec<(Option<Cause>, f64)> {
        let counts = &self.tallies[plan].causes;
        let total: u64 = counts.iter().sum();
        let named = Cause::ALL.into_iter().map(Some).chain([None]);
        let mut causes: Vec<_> = named
            .zip(counts.iter().copied())
            .filter(|&(_, count)| count > 0)
            .collect();
        causes.sort_by_key(|&(_, count)| std::cmp::Reverse(count));
        causes
            .into_iter()
            .map(|(cause, count)| (cause, share(count, total).mean))
            .collect()
    }

    /// Share of a plan's plays that were broken off at the stroke cap.
    #[must_use]
    pub fn unfinished(&self, plan: usize) -> Estimate {
        share(self.tallies[plan].unfinished, self.plays)
    }

    /// True where the best plan seldom finishes the hole: half of its plays or more were broken off at the stroke cap, so that
    /// a mean says nothing but how high the cap is.
    #[must_use]
    pub fn cannot_be_finished(&self) -> bool {
        self.unfinished(self.order[0]).mean >= 0.5
    }

    /// Mean penalty strokes a play.
    #[must_use]
    pub fn penalties(&self, plan: usize) -> Estimate {
        self.tallies[plan].penalties.mean()
    }

    /// Mean strokes a play made from the putting green.
    #[must_use]
    pub fn putts(&self, plan: usize) -> Estimate {
        self.tallies[plan].putts.mean()
    }

    /// The paired difference of two plans, first minus second, with an interval of [`LEVEL`].
    #[must_use]
    pub fn difference(&self, first: usize, second: usize) -> Difference {
        self.paired(first, second, |pair| pair.scores)
            .difference(LEVEL)
    }

    /// The plan with the fewest blow-ups, if they are fewer than the best plan's by more than chance explains; all plans
    /// are looked at together (Bonferroni), each paired with the best.
    #[must_use]
    pub fn safer(&self) -> Option<usize> {
        let (best, rivals) = self.order.split_first()?;
        let share = |&plan: &usize| self.blow_up(plan).mean;
        let safest = *rivals.iter().min_by(|a, b| share(a).total_cmp(&share(b)))?;
        let more = self
            .paired(safest, *best, |pair| pair.blow_ups)
            .difference(self.joint_level());
        (more.interval.1 < 0.0).then_some(safest)
    }

    /// The interval level for all rivals of the best plan together (Bonferroni).
    fn joint_level(&self) -> f64 {
        let rivals = self.names.len().saturating_sub(1).max(1);
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let rivals = rivals as f64;
        1.0 - (1.0 - LEVEL) / rivals
    }

    /// What `of` a pair, first minus second.
    fn paired(&self, first: usize, second: usize, of: fn(Pair) -> Paired) -> Paired {
        if first == second {
            let mut none = Paired::default();
            none.add_ties(self.plays);
            return none;
        }
        let (low, high) = (first.min(second), first.max(second));
        let n = self.names.len();
        let pair = of(self.pairs[low * n - low * (low + 1) / 2 + high - low - 1]);
        if first < second {
            pair
        } else {
            pair.reversed()
        }
    }

    fn leads(&self) -> impl Iterator<Item = Difference> + '_ {
        let best = self.order[0];
        let level = self.joint_level();
        self.order[1..].iter().map(move |&rival| {
            self.paired(rival, best, |pair| pair.scores)
                .difference(level)
        })
    }

    /// True when every lead of the best plan is known to within `strokes`.
    pub(super) fn leads_within(&self, strokes: f64) -> bool {
        self.leads().all(|lead| lead.half_width() <= strokes)
    }

    /// True when it is settled which plan is best: every rival is worse by more than chance explains
    /// (all intervals together hold with probability [`LEVEL`], by Bonferroni), or scored the same in every play, or, in a
    /// run to a precision, is level with the best to within that precision.
    #[must_use]
    pub fn settled(&self) -> bool {
        let within = match self.question.length {
            Length::Plays(_) => 0.0,
            Length::Precision { strokes, .. } => strokes,
        };
        self.leads()
            .all(|lead| lead.interval.0 > 0.0 || lead.half_width() <= within)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::Seed;

    /// A ranking of two plans on a par 4 by their scores, play by play.
    fn ranked(plays: &[(u8, u8)]) -> Ranking {
        let question = Question::new(Seed(1));
        let blow_up = 4 + question.blow_up;
        let mut pair = Pair::default();
        let mut tallies = [Tally::new(0), Tally::new(0)];
        for &(a, b) in plays {
            pair.scores.add(a, b);
            pair.blow_ups
                .add((a >= blow_up).into(), (b >= blow_up).into());
            for (tally, score) in tallies.iter_mut().zip([a, b]) {
                tally.scores.add(score);
            }
        }
        Ranking::of(Counts {
            plays: plays.len() as u64,
            question,
            par: 4,
            names: vec!["a".into(), "b".into()],
            tallies: tallies.to_vec(),
            pairs: vec![pair],
        })
    }

    /// The first plan is better on average and blows up in 100 plays of 1,000, the second in 85. That is 1.2 errors of two
    /// binomial shares: too little to tell if other plays blew up. If they are the same plays but for 15, it is 3.9 of the
    /// paired difference.
    #[test]
    fn a_safer_plan_is_told_by_the_plays_that_differ() {
        let plays = |second: fn(usize) -> bool| -> Vec<(u8, u8)> {
            let score = |blown: bool, else_so: u8| if blown { 8 } else { else_so };
            (0..1_000)
                .map(|i| (score(i < 100, 4), score(second(i), 5)))
                .collect()
        };
        let same = ranked(&plays(|i| i < 85));
        assert_eq!((same.order()[0], same.safer()), (0, Some(1)));
        let other = ranked(&plays(|i| (500..585).contains(&i)));
        assert_eq!((other.order()[0], other.safer()), (0, None));
        // The best is not safer than itself.
        assert_eq!(ranked(&plays(|i| i < 115)).safer(), None);
    }

    /// The scores of several plans over the same plays; the first is the best on average.
    fn ranked_many(scores: &[Vec<u8>]) -> Ranking {
        let question = Question::new(Seed(1));
        let blow_up = 4 + question.blow_up;
        let tally = |plan: &Vec<u8>| {
            let mut tally = Tally::new(0);
            plan.iter().for_each(|&score| tally.scores.add(score));
            tally
        };
        let pair = |(a, b): (&Vec<u8>, &Vec<u8>)| {
            let mut pair = Pair::default();
            for (&a, &b) in a.iter().zip(b) {
                pair.scores.add(a, b);
                pair.blow_ups
                    .add((a >= blow_up).into(), (b >= blow_up).into());
            }
            pair
        };
        let firsts = scores.iter().enumerate();
        let pairs = firsts.flat_map(|(i, a)| scores[i + 1..].iter().map(move |b| (a, b)));
        Ranking::of(Counts {
            plays: scores[0].len() as u64,
            question,
            par: 4,
            names: (0..scores.len()).map(|i| format!("plan {i}")).collect(),
            tallies: scores.iter().map(tally).collect(),
            pairs: pairs.map(pair).collect(),
        })
    }

    /// A rival a stroke worse in 60 of 10,000 plays and a stroke better in 40: 20 strokes behind with a standard error of the
    /// root of 100, so 2.0 errors. That is enough for 95 % (1.960) against one rival, and not against two, of which each must be told
    /// from the best at 97.5 % (2.241). The same holds of blow-ups.
    #[test]
    fn against_many_rivals_more_is_asked_of_each() {
        let plan = |worse: std::ops::Range<usize>, better: std::ops::Range<usize>| -> Vec<u8> {
            let score = |i| 5 + u8::from(worse.contains(&i)) - u8::from(better.contains(&i));
            (0..10_000).map(score).collect()
        };
        let (best, close, far) = (
            plan(0..0, 0..0),
            plan(0..60, 60..100),
            plan(100..9_000, 0..0),
        );
        assert!(ranked_many(&[best.clone(), close.clone()]).settled());
        assert!(!ranked_many(&[best.clone(), close, far.clone()]).settled());
        assert!(ranked_many(&[best, plan(0..65, 65..100), far]).settled());
        // 7 is a blow-up, 3 makes the best better on average.
        let blown = |range: std::ops::Range<usize>, otherwise: u8| -> Vec<u8> {
            let score = |i| if range.contains(&i) { 7 } else { otherwise };
            (0..10_000).map(score).collect()
        };
        let (bold, calm, other) = (blown(0..60, 4), blown(60..100, 5), blown(0..200, 6));
        assert_eq!(ranked_many(&[bold.clone(), calm.clone()]).safer(), Some(1));
        assert_eq!(ranked_many(&[bold, calm, other]).safer(), None);
    }

    /// Ten plays on a par 4: 3, 4, 4, 5, 5, 5, 6, 6, 7, 9.
    #[test]
    fn shares_by_hand() {
        let scores = vec![3, 4, 4, 5, 5, 5, 6, 6, 7, 9];
        let mut ranking = ranked_many(&[scores, vec![5; 10]]);
        let plan = 0;
        assert_eq!(
            (ranking.at_most(plan, 4).mean, ranking.at_most(plan, 3).mean),
            (0.3, 0.1)
        );
        assert_eq!(
            (
                ranking.at_most(plan, 9).mean,
                ranking.at_most(plan, 255).mean
            ),
            (1.0, 1.0)
        );
        assert_eq!(
            (
                ranking.at_least(plan, 5).mean,
                ranking.at_least(plan, 4).mean
            ),
            (0.7, 0.9)
        );
        // Two over par or worse are 6, 6, 7 and 9; three over, the blow-ups, 7 and 9.
        assert_eq!(
            (ranking.double_bogey(plan).mean, ranking.blow_up(plan).mean),
            (0.4, 0.2)
        );
        // Three of four blow-ups began in the water, one in no single thing: shares of the blow-ups, not of plays.
        ranking.tallies[plan].causes[Cause::PenaltyArea as usize] = 3;
        ranking.tallies[plan].causes[Cause::ALL.len()] = 1;
        let causes = ranking.blow_up_causes(plan);
        assert_eq!(causes, [(Some(Cause::PenaltyArea), 0.75), (None, 0.25)]);
        // Of ten plays five broken off are half.
        for (unfinished, cannot) in [(4, false), (5, true)] {
            for tally in &mut ranking.tallies {
                tally.unfinished = unfinished;
            }
            assert_eq!(ranking.cannot_be_finished(), cannot);
        }
    }

    /// A rival 20 strokes behind over 10,000 plays with an error of 10 is told apart at 95 % by a half width of 0.00196 strokes
    /// a play; one level with the best only once that is no more than the precision asked for.
    #[test]
    fn a_comparison_is_settled_at_its_precision() {
        let level: Vec<u8> = (0..10_000)
            .map(|i| 5 + u8::from(i < 50) - u8::from((50..100).contains(&i)))
            .collect();
        let mut ranking = ranked_many(&[vec![5; 10_000], level]);
        for (strokes, settled) in [(0.0019, false), (0.0020, true)] {
            ranking.question.length = Length::Precision {
                strokes,
                most: 20_000,
            };
            assert_eq!(ranking.settled(), settled, "{strokes}");
            assert_eq!(ranking.leads_within(strokes), settled, "{strokes}");
        }
    }

    #[test]
    fn a_mean_of_counts_has_the_error_of_its_sample() {
        let mut ranking = ranked(&[(4, 5); 4]);
        let first = &mut ranking.tallies[0];
        for (penalties, putts) in [(0, 2), (0, 2), (3, 1), (1, 3)] {
            first.penalties.add(penalties);
            first.putts.add(putts);
        }
        // 0, 0, 3, 1: mean 1, squared deviations 6, so 6 / 3 / 4. A share of 1 would have no error at all.
        let penalties = ranking.penalties(0);
        assert_eq!(penalties.mean, 1.0);
        assert!((penalties.standard_error - 0.5_f64.sqrt()).abs() < 1e-15);
        // 2, 2, 1, 3: a share above 1 would have the root of a negative number.
        let putts = ranking.putts(0);
        assert_eq!(putts.mean, 2.0);
        assert!((putts.standard_error - (1.0_f64 / 6.0).sqrt()).abs() < 1e-15);
    }
}
