//! What rounds came to: totals, holes, statistics and the index they make.
use super::kept::KeptSums;
use super::rounds::{MOST_KEPT, Sums};
use super::statistics::Statistic;
use super::{Rating, RoundFault};
use crate::course::{
    Course, course_handicap, differential, handicap_index, net_double_bogey, strokes_received,
};
use crate::figures::handicapping::{MOST_WITHOUT_INDEX, OF_AN_INDEX};
use crate::noise::Seed;
use crate::simulate::{Cause, Tally};
use crate::stats::Estimate;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// What rounds came to.
#[derive(Clone, Debug, PartialEq)]
pub struct PlayedRounds {
    /// The course.
    pub course: Arc<Course>,
    counts: RoundCounts,
}

/// What was counted in rounds of a course.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RoundCounts {
    /// Names of the plans that were played, hole by hole.
    pub plans: Vec<String>,
    /// The seed that fixed the luck.
    pub seed: Seed,
    /// Rounds.
    pub rounds: u64,
    /// Rounds by their total, from 0.
    totals: Vec<u64>,
    kept: KeptSums,
    holes: Vec<(Tally, KeptSums)>,
    scores: Vec<u8>,
}

/// What one hole came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HolePlayed {
    /// Mean score.
    pub mean: Estimate,
    /// Share of plays in par or better.
    pub par_or_better: Estimate,
    /// Share of plays two over par or worse.
    pub double_or_worse: Estimate,
    /// Mean putts.
    pub putts: Estimate,
    /// Mean penalty strokes.
    pub penalties: Estimate,
    /// Share of tee shots that end on the fairway; NaN on a par 3.
    pub fairway: Estimate,
    /// Share of plays on the green in regulation.
    pub green: Estimate,
    /// The first thing that went wrong in most of the plays that were two over par or worse; None where there were none, or no
    /// single thing did.
    pub cause: Option<Cause>,
}

/// The sum of counts, if it is one.
fn sum(counts: &[u64]) -> Option<u64> {
    counts
        .iter()
        .try_fold(0_u64, |sum, &count| sum.checked_add(count))
}

/// Times the index is put in to find the strokes received that belong to it.
const LOOKS: u32 = 8;

impl PlayedRounds {
    /// What was counted, of rounds of a course; None of counts that are of another.
    #[must_use]
    pub fn of(course: Arc<Course>, counts: RoundCounts) -> Option<Self> {
        let holes = course.holes().len();
        let fits = counts.holes.len() == holes
            && counts.plans.len() == holes
            && counts.scores.len().is_multiple_of(holes)
            && sum(&counts.totals) == Some(counts.rounds);
        fits.then_some(PlayedRounds { course, counts })
    }

    /// What was counted.
    #[must_use]
    pub fn counts(&self) -> &RoundCounts {
        &self.counts
    }

    pub(super) fn new(
        course: Arc<Course>,
        plans: Vec<String>,
        seed: Seed,
        rounds: u64,
        sums: &Sums,
    ) -> Self {
        let mut parts: Vec<&(u64, Vec<u8>)> = sums.scores.iter().collect();
        parts.sort_by_key(|part| part.0);
        let mut scores: Vec<u8> = parts.iter().flat_map(|part| &part.1).copied().collect();
        let most = usize::try_from(MOST_KEPT).unwrap_or(usize::MAX);
        scores.truncate(most * course.holes().len());
        let counts = RoundCounts {
            plans,
            seed,
            rounds,
            totals: sums.totals.clone(),
            kept: sums.kept.clone(),
            holes: sums.holes.clone(),
            scores,
        };
        PlayedRounds { course, counts }
    }

    /// Totals that occurred, with how many rounds came to each, lowest first.
    pub fn totals(&self) -> impl Iterator<Item = (u16, u64)> + '_ {
        let totals = (0_u16..).zip(self.counts.totals.iter().copied());
        totals.filter(|&(_, rounds)| rounds > 0)
    }

    /// The mean total and its standard error, NaN after a single round; and the standard deviation of a round.
    #[must_use]
    pub fn mean(&self) -> (Estimate, f64) {
        let n = number(self.counts.rounds);
        let sum: f64 = self.totals().map(|(t, r)| f64::from(t) * number(r)).sum();
        let mean = sum / n;
        let squares: f64 = self
            .totals()
            .map(|(t, r)| number(r) * (f64::from(t) - mean).powi(2))
            .sum();
        let variance = squares / (n - 1.0);
        let estimate = Estimate {
            mean,
            standard_error: (variance / n).sqrt(),
        };
        (estimate, variance.sqrt())
    }

    /// How much the mean total is over the par of the course; below 0 under it.
    #[must_use]
    pub fn over_par(&self) -> f64 {
        self.mean().0.mean - f64::from(self.course.par())
    }

    /// The share of rounds by total, lowest first.
    pub fn distribution(&self) -> impl Iterator<Item = (u16, f64)> + '_ {
        let share = |(total, rounds)| (total, number(rounds) / number(self.counts.rounds));
        self.totals().map(share)
    }

    /// The share of rounds of at most `total`, with its binomial standard error.
    #[must_use]
    pub fn at_most(&self, total: u16) -> Estimate {
        let rounds = self.totals().filter(|&(t, _)| t <= total).map(|(_, r)| r);
        crate::rank::share(rounds.sum(), self.counts.rounds)
    }

    /// The smallest total that a share of rounds do not exceed.
    #[must_use]
    pub fn quantile(&self, share: f64) -> u16 {
        let wanted = share * number(self.counts.rounds);
        let mut seen = 0;
        let reaches = |&(_, rounds): &(u16, u64)| {
            seen += rounds;
            number(seen) >= wanted
        };
        self.totals().find(reaches).map_or(0, |(total, _)| total)
    }

    /// A statistic a round.
    #[must_use]
    pub fn a_round(&self, statistic: Statistic) -> Estimate {
        self.counts.kept.a_round(statistic)
    }

    /// Chances a round to make a statistic that has any; NaN of one without.
    #[must_use]
    pub fn chances(&self, statistic: Statistic) -> f64 {
        if statistic.has_chances() {
            self.counts.kept.chances(statistic)
        } else {
            f64::NAN
        }
    }

    /// The share of chances that were made; NaN of a statistic without.
    #[must_use]
    pub fn share(&self, statistic: Statistic) -> Estimate {
        if statistic.has_chances() {
            return self.counts.kept.share(statistic);
        }
        Estimate {
            mean: f64::NAN,
            standard_error: f64::NAN,
        }
    }

    /// What each hole came to, in the order of play.
    #[must_use]
    pub fn holes(&self) -> Vec<HolePlayed> {
        let holes = self.course.holes().iter().zip(&self.counts.holes);
        holes
            .map(|(hole, (tally, kept))| {
                let par = hole.par();
                let over = |score| tally.scores.count_at_least(score);
                HolePlayed {
                    mean: tally.scores.mean(),
                    par_or_better: crate::rank::share(
                        self.counts.rounds - over(par + 1),
                        self.counts.rounds,
                    ),
                    double_or_worse: crate::rank::share(over(par + 2), self.counts.rounds),
                    putts: tally.putts.mean(),
                    penalties: tally.penalties.mean(),
                    fairway: kept.share(Statistic::Fairways),
                    green: kept.share(Statistic::Greens),
                    cause: main_cause(tally),
                }
            })
            .collect()
    }

    /// The share of plays of a hole, by place, with each score that occurred, lowest first.
    pub fn hole_scores(&self, place: usize) -> impl Iterator<Item = (u8, f64)> + '_ {
        let scores = self.counts.holes[place].0.scores.occurring();
        scores.map(|(score, plays)| (score, number(plays) / number(self.counts.rounds)))
    }

    /// What began the holes two over par or worse: how often a round each thing did, in the order of [`Cause::ALL`], and last
    /// how often no single thing.
    #[must_use]
    pub fn blow_up_causes(&self) -> [f64; Cause::ALL.len() + 1] {
        let mut causes = [0.0; Cause::ALL.len() + 1];
        for (tally, _) in &self.counts.holes {
            for (cause, &plays) in causes.iter_mut().zip(&tally.causes) {
                *cause += number(plays) / number(self.counts.rounds);
            }
        }
        causes
    }

    /// Plays of holes broken off at the stroke cap.
    #[must_use]
    pub fn unfinished(&self) -> u64 {
        self.counts
            .holes
            .iter()
            .map(|(tally, _)| tally.unfinished)
            .sum()
    }

    /// Scores of the first rounds (twenty thousand at most), round by round in the order of play.
    #[must_use]
    pub fn scores(&self) -> &[u8] {
        &self.counts.scores
    }

    /// The Handicap Index that rounds like these make, with its standard error; NaN of fewer than forty rounds.
    ///
    /// Rounds are taken twenty by twenty: of each twenty the mean of the lowest eight differentials, no hole counting more
    /// than net double bogey. The strokes received are those of the index itself, which is put in until it stands still.
    ///
    /// # Errors
    /// A rating of another course, a course of another number of holes than 18, fewer than twenty rounds.
    pub fn index(&self, rating: &Rating) -> Result<Estimate, RoundFault> {
        let holes = self.course.holes().len();
        if *rating.course != *self.course {
            return Err(RoundFault::OtherCourse);
        }
        if holes != 18 {
            return Err(RoundFault::NotEighteen { holes });
        }
        let least = OF_AN_INDEX as u64;
        if self.counts.rounds < least {
            let given = self.counts.rounds;
            return Err(RoundFault::TooFew { given, least });
        }
        let mut estimate = self.index_of(rating, None);
        for _ in 0..LOOKS {
            let before = estimate.mean;
            estimate = self.index_of(rating, Some(before));
            if (estimate.mean - before).abs() < 1e-9 {
                break;
            }
        }
        Ok(estimate)
    }

    /// The index when the strokes received are those of another, or before there is any.
    fn index_of(&self, rating: &Rating, index: Option<f64>) -> Estimate {
        let caps = self.caps(rating, index);
        let adjusted = |round: &[u8]| -> f64 {
            let counted = round.iter().zip(&caps);
            f64::from(counted.map(|(&s, &cap)| i32::from(s).min(cap)).sum::<i32>())
        };
        let differentials: Vec<f64> = self
            .counts
            .scores
            .chunks_exact(caps.len())
            .map(|round| {
                differential(
                    adjusted(round),
                    rating.found.scratch.mean,
                    rating.found.slope.mean,
                )
            })
            .collect();
        let indexes: Vec<f64> = differentials
            .chunks_exact(OF_AN_INDEX)
            .filter_map(handicap_index)
            .collect();
        mean_of(&indexes)
    }

    /// The most that each hole counts (Rules of Handicapping, Rule 3.1): five over par before there is an index, then net
    /// double bogey.
    fn caps(&self, rating: &Rating, index: Option<f64>) -> Vec<i32> {
        let pars = self.course.holes().iter().map(|hole| hole.par());
        let Some(index) = index else {
            return pars
                .map(|par| i32::from(par) + MOST_WITHOUT_INDEX)
                .collect();
        };
        let par = f64::from(self.course.par());
        let handicap = course_handicap(
            index,
            rating.found.slope.mean,
            rating.found.scratch.mean,
            par,
        );
        #[expect(clippy::cast_possible_truncation, reason = "a handicap of two digits")]
        let received = strokes_received(handicap.round() as i32, &rating.stroke_indexes());
        pars.zip(received)
            .map(|(par, strokes)| net_double_bogey(par, strokes))
            .collect()
    }
}

/// The first thing that went wrong most often.
fn main_cause(tally: &Tally) -> Option<Cause> {
    let (most, &plays) = tally
        .causes
        .iter()
        .enumerate()
        .rev()
        .max_by_key(|&(_, &plays)| plays)?;
    Cause::ALL.get(most).copied().filter(|_| plays > 0)
}

/// A mean of independent values with its standard error; NaN of fewer than two.
pub(super) fn mean_of(values: &[f64]) -> Estimate {
    let n = number(values.len() as u64);
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
    Estimate {
        mean,
        standard_error: (squares / (n - 1.0) / n).sqrt(),
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "counts below 2^53 are exact as f64"
)]
pub(super) fn number(count: u64) -> f64 {
    count as f64
}
