//! A course rated by two reference golfers who play it.
use super::played::{PlayedRounds, number};
use super::rounds::check_rounds;
use super::{Field, RoundFault, Rounds, Way};
use crate::course::{Course, stroke_indexes};
use crate::figures::handicapping::SLOPES;
use crate::noise::Seed;
use crate::player::{Player, Reference};
use crate::run::Run;
use crate::stats::Estimate;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// What a course is rated by two simulated reference golfers, a scratch and a bogey golfer.
///
/// A golfer's rating is the mean of the better half of the rounds, as ratings are meant (Course Rating System, published). It is
/// a simulation of the standard's golfers, not a rating by a rating team.
#[derive(Clone, Debug, PartialEq)]
pub struct Rating {
    /// The course.
    pub course: Arc<Course>,
    /// What was found.
    pub found: Rated,
}

/// The ratings of a course, and what they stand on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rated {
    /// Whose reference golfers played.
    pub reference: Reference,
    /// Rounds of each.
    pub rounds: u64,
    /// The seed that fixed the luck.
    pub seed: Seed,
    /// The Course Rating: what the scratch golfer needs.
    pub scratch: Estimate,
    /// The bogey rating: what the bogey golfer needs.
    pub bogey: Estimate,
    /// The Slope Rating, 55 to 155, not rounded.
    pub slope: Estimate,
    /// What each hole is to both, in the order of play.
    pub holes: Vec<HoleRating>,
}

/// What a hole is to the reference golfers.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HoleRating {
    /// Mean score of the scratch golfer, all rounds counted.
    pub scratch: Estimate,
    /// Mean score of the bogey golfer, all rounds counted.
    pub bogey: Estimate,
    /// The stroke index by the procedure of the Rules of Handicapping.
    pub stroke_index: u8,
}

impl Rating {
    /// Ratings that were found of a course; None of those of another number of holes.
    #[must_use]
    pub fn of(course: Arc<Course>, found: Rated) -> Option<Self> {
        (course.holes().len() == found.holes.len()).then_some(Rating { course, found })
    }

    /// The stroke indexes in use: those of the card, or else those by the procedure.
    #[must_use]
    pub fn stroke_indexes(&self) -> Vec<u8> {
        let own = || {
            self.found
                .holes
                .iter()
                .map(|hole| hole.stroke_index)
                .collect()
        };
        self.course.stroke_indexes().unwrap_or_else(own)
    }
}

/// A course being rated: it advances in waves.
pub struct RatingRun {
    reference: Reference,
    seed: Seed,
    scratch: Rounds,
    bogey: Rounds,
}

impl RatingRun {
    /// Prepares both golfers; nothing has been played yet.
    ///
    /// # Errors
    /// Fewer than two rounds, too many; a golfer who cannot be prepared for a hole.
    pub fn new(
        course: &Arc<Course>,
        reference: Reference,
        seed: Seed,
        rounds: u64,
    ) -> Result<Self, RoundFault> {
        check_rounds("plays", rounds)?;
        RoundFault::unless(
            "plays",
            number(rounds),
            (2.0, f64::INFINITY),
            "2 to 100,000,000",
        )?;
        let golfer = |handicap| {
            let bag = Arc::new(Player::from_reference(reference, handicap)?.prepare());
            let field = Field::new(course.clone(), &bag)?;
            Rounds::new(field, Way::Direct, seed, rounds)
        };
        Ok(RatingRun {
            reference,
            seed,
            scratch: golfer(0.0)?,
            bogey: golfer(reference.tables().bogey)?,
        })
    }

    /// The rating by what was played so far.
    #[must_use]
    pub fn rating(&self) -> Rating {
        let (scratch, bogey_golfer) = (self.scratch.played(), self.bogey.played());
        let course = scratch.course.clone();
        let ((rated, low), (bogey_rated, bogey_low)) =
            (better_half(&scratch), better_half(&bogey_golfer));
        let eighteen = 18.0 / number(course.holes().len() as u64);
        let a_stroke = self.reference.tables().slope * eighteen;
        let slope = a_stroke * (bogey_rated.mean - rated.mean);
        let found = Rated {
            reference: self.reference,
            rounds: self.scratch.done(),
            seed: self.seed,
            slope: Estimate {
                mean: slope.clamp(SLOPES.0, SLOPES.1),
                standard_error: a_stroke
                    * error_of_difference(
                        bogey_rated.standard_error,
                        rated.standard_error,
                        correlation(&bogey_low, &low),
                    ),
            },
            scratch: rated,
            bogey: bogey_rated,
            holes: holes(&course, &scratch, &bogey_golfer),
        };
        Rating { course, found }
    }
}

impl Run for RatingRun {
    /// Plays up to `count` more rounds on the current thread pool.
    fn advance(&mut self, count: u64) {
        let golfer = if self.scratch.is_finished() {
            &mut self.bogey
        } else {
            &mut self.scratch
        };
        golfer.advance(count);
    }

    /// Rounds so far, of both.
    fn done(&self) -> u64 {
        self.scratch.done() + self.bogey.done()
    }

    /// Rounds in all.
    fn goal(&self) -> u64 {
        self.scratch.goal() + self.bogey.goal()
    }

    /// True when both have played.
    fn is_finished(&self) -> bool {
        self.scratch.is_finished() && self.bogey.is_finished()
    }
}

/// What each hole is to both golfers.
fn holes(course: &Course, scratch: &PlayedRounds, bogey: &PlayedRounds) -> Vec<HoleRating> {
    let (scratch, bogey) = (scratch.holes(), bogey.holes());
    let both: Vec<(Estimate, Estimate)> = scratch
        .iter()
        .zip(&bogey)
        .map(|(s, b)| (s.mean, b.mean))
        .collect();
    let over: Vec<f64> = course
        .holes()
        .iter()
        .zip(&both)
        .map(|(hole, (s, b))| s.mean + b.mean - 2.0 * f64::from(hole.par()))
        .collect();
    let rated = both.into_iter().zip(stroke_indexes(&over));
    rated
        .map(|((scratch, bogey), stroke_index)| HoleRating {
            scratch,
            bogey,
            stroke_index,
        })
        .collect()
}

/// The mean of the better half of rounds, with its standard error: that of a trimmed mean, from its influence function (Huber
/// 1981, "Robust Statistics", 3.3, from memory). Of rounds on the median as many count as it takes. And what each of the rounds
/// whose scores are kept lies below the median: half its influence, but for a constant.
fn better_half(played: &PlayedRounds) -> (Estimate, Vec<f64>) {
    let n = number(played.counts().rounds);
    let half = 0.5 * n;
    let (mut counted, mut sum) = (0.0, 0.0);
    let mut median = 0.0;
    for (total, rounds) in played.totals() {
        let rounds = number(rounds).min(half - counted);
        if rounds <= 0.0 {
            break;
        }
        counted += rounds;
        median = f64::from(total);
        sum += rounds * median;
    }
    let below = |total: f64| (total - median).min(0.0);
    let influence = |(total, rounds): (u16, u64)| (below(f64::from(total)), number(rounds));
    let first: f64 = played.totals().map(influence).map(|(b, r)| r * b).sum();
    let squares: f64 = played
        .totals()
        .map(influence)
        .map(|(b, r)| r * (b - first / n).powi(2))
        .sum();
    let mean = Estimate {
        mean: sum / half,
        standard_error: 2.0 * (squares / (n - 1.0) / n).sqrt(),
    };
    let rounds = played.scores().chunks_exact(played.course.holes().len());
    let total = |scores: &[u8]| scores.iter().copied().map(f64::from).sum();
    (mean, rounds.map(total).map(below).collect())
}

/// The correlation of pairs; 0 where one side is always the same.
fn correlation(a: &[f64], b: &[f64]) -> f64 {
    let n = number(a.len() as u64);
    let mean = |of: &[f64]| of.iter().sum::<f64>() / n;
    let (mean_a, mean_b) = (mean(a), mean(b));
    let (mut both, mut squares_a, mut squares_b) = (0.0, 0.0, 0.0);
    for (x, y) in a.iter().zip(b) {
        let (x, y) = (x - mean_a, y - mean_b);
        both += x * y;
        squares_a += x * x;
        squares_b += y * y;
    }
    let spread = (squares_a * squares_b).sqrt();
    if spread > 0.0 { both / spread } else { 0.0 }
}

/// The standard error of the difference of two estimates. Both golfers meet the same luck, so theirs go together.
fn error_of_difference(a: f64, b: f64, correlation: f64) -> f64 {
    (a * a + b * b - 2.0 * correlation * a * b).max(0.0).sqrt()
}
