//! What was counted over a comparison, and what follows from it.
use super::counts::{Counts, Pair};
use super::{LEVEL, Length, Question, share};
use crate::simulate::{Cause, Tally};
use crate::stats::{Estimate, Paired, normal_quantile, student_quantile};
use serde::{Deserialize, Serialize};

/// The plans in order, best first, with everything counted about them, on common luck or on even luck.
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
    pub(super) names: Vec<String>,
    /// Over all plays, by plan.
    pub(super) tallies: Vec<Tally>,
    /// On common luck: pairs (0, 1), (0, 2), ..., (1, 2), ...
    pub(super) pairs: Vec<Pair>,
    /// On even luck: by plan, by set.
    pub(super) sets: Vec<Vec<Tally>>,
    /// Indices of the plans, lowest mean first.
    order: Vec<usize>,
}

/// The difference of two plans: first minus second, so a negative mean favours the first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// Mean difference in strokes with its standard error.
    pub estimate: Estimate,
    /// Interval of the mean difference of [`LEVEL`]: by the normal approximation, on even luck by Student's t.
    pub interval: (f64, f64),
    /// Share of plays in which the first plan scored lower (better); None on even luck, where no two plays met the same luck.
    pub better: Option<f64>,
    /// Share of plays in which the first plan scored higher (worse); None like `better`.
    pub worse: Option<f64>,
    /// How many times as many plays it would take, independent ones of each plan, to know the difference as well; infinite
    /// where its error is 0.
    pub variance_factor: f64,
}

impl Difference {
    /// Half the width of the interval, strokes.
    #[must_use]
    pub fn half_width(&self) -> f64 {
        half_width(self.interval)
    }
}

fn half_width((low, high): (f64, f64)) -> f64 {
    (high - low) / 2.0
}

/// What two plans differ in.
#[derive(Clone, Copy)]
enum Compared {
    Scores,
    BlowUps,
}

impl Ranking {
    pub(super) fn of(counts: Counts) -> Self {
        let milestones = counts.question.checkpoints.len();
        let sums = counts.sets.iter().map(|sets| {
            let mut sum = Tally::new(milestones);
            sets.iter().for_each(|set| sum.merge(set));
            sum
        });
        let mut ranking = Ranking {
            tallies: if counts.sets.is_empty() {
                counts.tallies
            } else {
                sums.collect()
            },
            order: (0..counts.names.len()).collect(),
            plays: counts.plays,
            question: counts.question,
            par: counts.par,
            names: counts.names,
            pairs: counts.pairs,
            sets: counts.sets,
        };
        let plans = ranking.order.iter();
        let means: Vec<f64> = plans.map(|&plan| ranking.mean(plan).mean).collect();
        let by_mean = |&a: &usize, &b: &usize| means[a].total_cmp(&means[b]);
        ranking.order.sort_by(by_mean);
        ranking
    }

    /// True of plays on even luck: errors are told from how far independent sets of plays differ, and no two plans met the
    /// same luck. False of plays on common luck.
    #[must_use]
    pub fn is_even(&self) -> bool {
        !self.sets.is_empty()
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

    /// An average over the plays of a plan, with the error that all plays tell, or on even luck the sets.
    fn average(&self, plan: usize, of: impl Fn(&Tally) -> Estimate) -> Estimate {
        match self.sets.get(plan) {
            None => of(&self.tallies[plan]),
            Some(sets) => over_sets(sets.iter().map(|set| of(set).mean)),
        }
    }

    /// The share of a plan's plays that `count` counts.
    fn share(&self, plan: usize, count: impl Fn(&Tally) -> u64) -> Estimate {
        self.average(plan, |tally| share(count(tally), tally.scores.total()))
    }

    /// Mean score of a plan.
    #[must_use]
    pub fn mean(&self, plan: usize) -> Estimate {
        self.average(plan, |tally| tally.scores.mean())
    }

    /// Share of plays under a plan that scored `score` or more.
    #[must_use]
    pub fn at_least(&self, plan: usize, score: u8) -> Estimate {
        self.share(plan, |tally| tally.scores.count_at_least(score))
    }

    /// Share of plays under a plan that scored `score` or less.
    #[must_use]
    pub fn at_most(&self, plan: usize, score: u8) -> Estimate {
        self.share(plan, |tally| {
            let more = score.checked_add(1);
            tally.scores.total() - more.map_or(0, |more| tally.scores.count_at_least(more))
        })
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
        names
            .enumerate()
            .map(move |(number, name)| (name, self.share(plan, |tally| tally.checkpoints[number])))
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
        self.share(plan, |tally| tally.unfinished)
    }

    /// Plays of all plans that were broken off at the stroke cap.
    #[must_use]
    pub fn broken_off(&self) -> u64 {
        self.tallies.iter().map(|tally| tally.unfinished).sum()
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
        self.average(plan, |tally| tally.penalties.mean())
    }

    /// Mean strokes a play made from the putting green.
    #[must_use]
    pub fn putts(&self, plan: usize) -> Estimate {
        self.average(plan, |tally| tally.putts.mean())
    }

    /// The difference of two plans, first minus second: paired on common luck, by the means of the sets on even luck.
    #[must_use]
    pub fn difference(&self, first: usize, second: usize) -> Difference {
        let (estimate, interval) = self.lead(first, second, Compared::Scores, LEVEL);
        let shares =
            (!self.is_even()).then(|| self.paired(first, second, Compared::Scores).shares());
        Difference {
            estimate,
            interval,
            better: shares.map(|(better, _)| better),
            worse: shares.map(|(_, worse)| worse),
            variance_factor: self.variance_factor(first, second, estimate.standard_error),
        }
    }

    #[expect(clippy::cast_precision_loss, reason = "a few sets")]
    fn variance_factor(&self, first: usize, second: usize, error: f64) -> f64 {
        if error == 0.0 {
            return f64::INFINITY;
        }
        let plain = |plan: usize| self.tallies[plan].scores.mean().standard_error.powi(2);
        // The inverse of a variance told from n sets is too great by (n - 1) / (n - 3) on average.
        let fair = self.sets.first().map_or(1.0, |sets| {
            let n = sets.len() as f64;
            (n - 3.0) / (n - 1.0)
        });
        fair * (plain(first) + plain(second)) / (error * error)
    }

    /// The plan with the fewest blow-ups, if they are fewer than the best plan's by more than chance explains; all plans
    /// are looked at together (Bonferroni), each compared with the best.
    #[must_use]
    pub fn safer(&self) -> Option<usize> {
        let (best, rivals) = self.order.split_first()?;
        let share = |&plan: &usize| self.blow_up(plan).mean;
        let safest = *rivals.iter().min_by(|a, b| share(a).total_cmp(&share(b)))?;
        let (_, more) = self.lead(safest, *best, Compared::BlowUps, self.joint_level());
        (more.1 < 0.0).then_some(safest)
    }

    /// The interval level for all rivals of the best plan together (Bonferroni).
    fn joint_level(&self) -> f64 {
        let rivals = self.names.len().saturating_sub(1).max(1);
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let rivals = rivals as f64;
        1.0 - (1.0 - LEVEL) / rivals
    }

    /// What two plans differ by, first minus second, with an interval of some level.
    #[expect(clippy::cast_precision_loss, reason = "a few sets")]
    fn lead(
        &self,
        first: usize,
        second: usize,
        of: Compared,
        level: f64,
    ) -> (Estimate, (f64, f64)) {
        let beyond = 0.5 + level / 2.0;
        let (estimate, errors) = if self.is_even() {
            let mean = |set: &Tally| self.mean_of(set, of);
            let pairs = self.sets[first].iter().zip(&self.sets[second]);
            let freedom = self.sets[first].len() as f64 - 1.0;
            (
                over_sets(pairs.map(|(a, b)| mean(a) - mean(b))),
                student_quantile(beyond, freedom),
            )
        } else {
            let paired = self.paired(first, second, of);
            (paired.mean(), normal_quantile(beyond))
        };
        let half = errors * estimate.standard_error;
        (estimate, (estimate.mean - half, estimate.mean + half))
    }

    fn mean_of(&self, set: &Tally, of: Compared) -> f64 {
        match of {
            Compared::Scores => set.scores.mean().mean,
            Compared::BlowUps => {
                let blown = set.scores.count_at_least(self.par + self.question.blow_up);
                share(blown, set.scores.total()).mean
            }
        }
    }

    /// The paired sums of two plans on common luck, first minus second.
    fn paired(&self, first: usize, second: usize, of: Compared) -> Paired {
        if first == second {
            let mut none = Paired::default();
            none.add_ties(self.plays);
            return none;
        }
        let (low, high) = (first.min(second), first.max(second));
        let n = self.names.len();
        let pair = self.pairs[low * n - low * (low + 1) / 2 + high - low - 1];
        let pair = match of {
            Compared::Scores => pair.scores,
            Compared::BlowUps => pair.blow_ups,
        };
        if first < second {
            pair
        } else {
            pair.reversed()
        }
    }

    /// The intervals of how far every rival is behind the best plan, which hold together with probability [`LEVEL`].
    fn leads(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        let best = self.order[0];
        let level = self.joint_level();
        let rivals = self.order[1..].iter();
        rivals.map(move |&rival| self.lead(rival, best, Compared::Scores, level).1)
    }

    /// Half the width of the widest of those intervals, strokes; 0 without rivals.
    pub(super) fn widest_lead(&self) -> f64 {
        self.leads().map(half_width).fold(0.0, f64::max)
    }

    /// True when it is settled which plan is best: every rival is worse by more than chance explains
    /// (all intervals together hold with probability [`LEVEL`], by Bonferroni), or scored the same in every play (on even luck: in
    /// every set), or, in a run to a precision, is level with the best to within that precision.
    #[must_use]
    pub fn settled(&self) -> bool {
        let within = match self.question.length {
            Length::Plays(_) => 0.0,
            Length::Precision { strokes, .. } => strokes,
        };
        self.leads()
            .all(|lead| lead.0 > 0.0 || half_width(lead) <= within)
    }
}

/// The mean of one number a set, with the standard error that the sets tell.
#[expect(clippy::cast_precision_loss, reason = "a small count")]
fn over_sets(values: impl Iterator<Item = f64> + Clone) -> Estimate {
    let n = values.clone().count() as f64;
    let mean = values.clone().sum::<f64>() / n;
    let squares: f64 = values.map(|v| (v - mean).powi(2)).sum();
    Estimate {
        mean,
        standard_error: (squares / (n - 1.0) / n).sqrt(),
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
            sets: Vec::new(),
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
            sets: Vec::new(),
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
            assert_eq!(ranking.widest_lead() <= strokes, settled, "{strokes}");
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
