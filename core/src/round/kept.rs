//! Sums over rounds of what was kept, and what they tell with their errors.
use super::statistics::{Kept, Statistic};
use crate::stats::Estimate;
use serde::{Deserialize, Serialize};

/// Sums of one statistic over rounds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
struct Sums {
    made: u64,
    of: u64,
    made_squared: u64,
    of_squared: u64,
    product: u64,
}

/// Sums of every statistic over rounds: whole numbers, so the order of rounds cannot matter.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct KeptSums {
    rounds: u64,
    sums: [Sums; Statistic::ALL.len()],
}

impl Default for KeptSums {
    fn default() -> Self {
        KeptSums {
            rounds: 0,
            sums: [Sums::default(); Statistic::ALL.len()],
        }
    }
}

impl KeptSums {
    /// Adds a round.
    pub(super) fn add(&mut self, round: &Kept) {
        self.rounds += 1;
        for (sums, &(made, of)) in self.sums.iter_mut().zip(round.all()) {
            let (made, of) = (u64::from(made), u64::from(of));
            sums.made += made;
            sums.of += of;
            sums.made_squared += made * made;
            sums.of_squared += of * of;
            sums.product += made * of;
        }
    }

    /// Adds the sums of other rounds.
    pub(super) fn merge(&mut self, other: &KeptSums) {
        self.rounds += other.rounds;
        for (mine, theirs) in self.sums.iter_mut().zip(&other.sums) {
            mine.made += theirs.made;
            mine.of += theirs.of;
            mine.made_squared += theirs.made_squared;
            mine.of_squared += theirs.of_squared;
            mine.product += theirs.product;
        }
    }

    /// How often a round a statistic is made, with its standard error; NaN after a single round.
    pub(super) fn a_round(&self, statistic: Statistic) -> Estimate {
        let sums = &self.sums[statistic as usize];
        let (n, made) = (number(self.rounds), number(sums.made));
        let squares = number(sums.made_squared) - made * made / n;
        Estimate {
            mean: made / n,
            standard_error: (squares.max(0.0) / (n - 1.0) / n).sqrt(),
        }
    }

    /// Chances a round to make a statistic.
    pub(super) fn chances(&self, statistic: Statistic) -> f64 {
        number(self.sums[statistic as usize].of) / number(self.rounds)
    }

    /// The share of chances that were made, with the standard error of a ratio of sums over rounds (Cochran 1977, "Sampling
    /// Techniques", 2.11); NaN without any chance.
    pub(super) fn share(&self, statistic: Statistic) -> Estimate {
        let sums = &self.sums[statistic as usize];
        let (n, made, of) = (number(self.rounds), number(sums.made), number(sums.of));
        let share = made / of;
        let squares = number(sums.made_squared) - 2.0 * share * number(sums.product)
            + share * share * number(sums.of_squared);
        Estimate {
            mean: share,
            standard_error: (squares.max(0.0) / (n - 1.0) * n).sqrt() / of,
        }
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "counts below 2^53 are exact as f64"
)]
fn number(count: u64) -> f64 {
    count as f64
}
