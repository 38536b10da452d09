//! What was counted over sets of even luck, and what follows from it.
use super::even::SetTally;
use super::{LEVEL, Length, MOST_PLAYS, Question};
use crate::simulate::Tally;
use crate::stats::{Estimate, student_quantile};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// The plans in order, best first, by sets of plays on even luck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "EvenCounts", into = "EvenCounts")]
pub struct EvenRanking {
    /// The question asked.
    pub question: Question,
    /// Par of the hole.
    pub par: u8,
    /// Plays of every plan in a set.
    pub of_a_set: u64,
    names: Vec<String>,
    /// By plan, by set.
    tallies: Vec<Vec<Tally>>,
    /// Strokes simulated, by plan.
    strokes: Vec<u64>,
    order: Vec<usize>,
}

/// What was counted: all that such a ranking is made of.
#[derive(Clone, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct EvenCounts {
    question: Question,
    par: u8,
    of_a_set: u64,
    names: Vec<String>,
    tallies: Vec<Vec<Tally>>,
    strokes: Vec<u64>,
}

impl From<EvenRanking> for EvenCounts {
    fn from(ranking: EvenRanking) -> Self {
        EvenCounts {
            question: ranking.question,
            par: ranking.par,
            of_a_set: ranking.of_a_set,
            names: ranking.names,
            tallies: ranking.tallies,
            strokes: ranking.strokes,
        }
    }
}

impl TryFrom<EvenCounts> for EvenRanking {
    type Error = String;

    /// Checks that written counts belong together before anything is asked of them.
    fn try_from(counts: EvenCounts) -> Result<Self, String> {
        let plans = counts.names.len();
        if plans == 0 || counts.names.iter().collect::<BTreeSet<_>>().len() < plans {
            return Err("names must be at least one, and all different".to_owned());
        }
        if counts.tallies.len() != plans || counts.strokes.len() != plans {
            return Err(format!(
                "tallies and strokes must have {plans} entries, as names has"
            ));
        }
        counts.question.check_written(counts.par)?;
        let sets = counts.tallies[0].len();
        let plays = |set: &Tally| {
            let mut counts = set.scores.occurring().map(|(_, count)| count);
            counts.try_fold(0_u64, u64::checked_add)
        };
        let even = counts.tallies.iter().all(|of_plan| {
            of_plan.len() == sets
                && of_plan.iter().all(|set| {
                    plays(set) == Some(counts.of_a_set) && set.is_within(counts.of_a_set)
                })
        });
        let told = counts.of_a_set.checked_mul(sets as u64);
        let told = told.is_some_and(|plays| plays <= MOST_PLAYS);
        if !(even && told && counts.of_a_set > 0 && sets > 3) {
            return Err(format!(
                "every plan must have the same sets, 4 or more, of {} plays each",
                counts.of_a_set
            ));
        }
        Ok(EvenRanking::of(counts))
    }
}

/// How two plans differ over sets of even luck: first minus second, so a negative mean favours the first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EvenDifference {
    /// Mean difference in strokes with its standard error.
    pub estimate: Estimate,
    /// Interval of the mean difference with the level asked for, by Student's t.
    pub interval: (f64, f64),
    /// How many times as many plays it would take, independent ones of each plan, to know the difference as well; infinite
    /// where it is the same in every set.
    pub variance_factor: f64,
}

impl EvenDifference {
    /// Half the width of the interval, strokes.
    #[must_use]
    pub fn half_width(self) -> f64 {
        (self.interval.1 - self.interval.0) / 2.0
    }
}

impl EvenRanking {
    pub(super) fn new(
        names: Vec<String>,
        question: &Question,
        par: u8,
        of_a_set: u64,
        sets: &[SetTally],
    ) -> Self {
        let plans = names.len();
        let of_plan = |plan: usize| sets.iter().skip(plan).step_by(plans);
        EvenRanking::of(EvenCounts {
            question: question.clone(),
            par,
            of_a_set,
            tallies: (0..names.len())
                .map(|plan| of_plan(plan).map(|s| s.tally.clone()).collect())
                .collect(),
            strokes: (0..names.len())
                .map(|plan| of_plan(plan).map(|s| s.strokes).sum())
                .collect(),
            names,
        })
    }

    fn of(counts: EvenCounts) -> Self {
        let mut ranking = EvenRanking {
            order: (0..counts.names.len()).collect(),
            question: counts.question,
            par: counts.par,
            of_a_set: counts.of_a_set,
            names: counts.names,
            tallies: counts.tallies,
            strokes: counts.strokes,
        };
        let means: Vec<f64> = ranking
            .order
            .iter()
            .map(|&p| ranking.mean(p).mean)
            .collect();
        ranking
            .order
            .sort_by(|&a, &b| means[a].total_cmp(&means[b]));
        ranking
    }

    /// Plays of every plan.
    #[must_use]
    pub fn plays(&self) -> u64 {
        self.of_a_set * self.tallies.first().map_or(0, Vec::len) as u64
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

    /// Strokes that were simulated of a plan, penalties not counted: what it cost.
    #[must_use]
    pub fn strokes(&self, plan: usize) -> u64 {
        self.strokes[plan]
    }

    /// The counts of a plan over all sets.
    #[must_use]
    pub fn tally(&self, plan: usize) -> Tally {
        let mut whole = Tally::new(0);
        self.tallies[plan].iter().for_each(|set| whole.merge(set));
        whole
    }

    /// Mean score of a plan.
    #[must_use]
    pub fn mean(&self, plan: usize) -> Estimate {
        over_sets(self.tallies[plan].iter().map(|set| set.scores.mean().mean))
    }

    /// True where the best plan seldom finishes the hole, as in [`super::Ranking::cannot_be_finished`].
    #[must_use]
    pub fn cannot_be_finished(&self) -> bool {
        2 * self.tally(self.order[0]).unfinished >= self.plays()
    }

    /// Share of plays under a plan that scored `score` or more.
    #[must_use]
    pub fn at_least(&self, plan: usize, score: u8) -> Estimate {
        let sets = self.tallies[plan].iter();
        over_sets(sets.map(|set| self.share(set.scores.count_at_least(score))))
    }

    /// Share of plays that blew up under a plan.
    #[must_use]
    pub fn blow_up(&self, plan: usize) -> Estimate {
        self.at_least(plan, self.par + self.question.blow_up)
    }

    #[expect(clippy::cast_precision_loss, reason = "a count")]
    fn share(&self, count: u64) -> f64 {
        count as f64 / self.of_a_set as f64
    }

    /// The scores that occurred under a plan with their shares, lowest first.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "counts")]
    pub fn distribution(&self, plan: usize) -> Vec<(u8, f64)> {
        let plays = self.plays() as f64;
        let whole = self.tally(plan);
        let occurring = whole.scores.occurring();
        occurring.map(|(s, n)| (s, n as f64 / plays)).collect()
    }

    /// The difference of two plans, first minus second, with an interval of [`LEVEL`].
    #[must_use]
    pub fn difference(&self, first: usize, second: usize) -> EvenDifference {
        self.difference_at(first, second, LEVEL)
    }

    #[expect(clippy::cast_precision_loss, reason = "counts")]
    fn difference_at(&self, first: usize, second: usize, level: f64) -> EvenDifference {
        let mean = |set: &Tally| set.scores.mean().mean;
        let pairs = self.tallies[first].iter().zip(&self.tallies[second]);
        let estimate = over_sets(pairs.map(|(a, b)| mean(a) - mean(b)));
        let sets = self.tallies[first].len() as f64;
        let t = student_quantile(0.5 + level / 2.0, sets - 1.0);
        let half = t * estimate.standard_error;
        // The error of independent plays, from how far the scores of single plays differ.
        let plain = |plan: usize| self.tally(plan).scores.mean().standard_error.powi(2);
        // The inverse of a variance told from n sets is too great by (n - 1) / (n - 3) on average.
        let fair = (sets - 3.0) / (sets - 1.0);
        EvenDifference {
            estimate,
            interval: (estimate.mean - half, estimate.mean + half),
            variance_factor: if estimate.standard_error == 0.0 {
                f64::INFINITY
            } else {
                fair * (plain(first) + plain(second)) / estimate.standard_error.powi(2)
            },
        }
    }

    /// How every rival differs from the best plan, with intervals that hold together with probability [`LEVEL`].
    fn leads(&self) -> impl Iterator<Item = EvenDifference> + '_ {
        let (best, rivals) = (self.order[0], &self.order[1..]);
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let level = 1.0 - (1.0 - LEVEL) / rivals.len().max(1) as f64;
        rivals
            .iter()
            .map(move |&rival| self.difference_at(rival, best, level))
    }

    /// Half the width of the widest of those intervals, strokes; 0 without rivals.
    pub(super) fn widest_lead(&self) -> f64 {
        self.leads()
            .map(EvenDifference::half_width)
            .fold(0.0, f64::max)
    }

    /// True when it is settled which plan is best: every rival is worse by more than chance explains (all intervals
    /// together hold with probability [`LEVEL`], by Bonferroni), or came to the same in every set, or, in a run to a
    /// precision, is level with the best to within that precision.
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
