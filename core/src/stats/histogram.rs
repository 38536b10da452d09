//! Counts of small whole numbers, such as scores.
use super::Estimate;
use serde::{Deserialize, Serialize};

/// The largest score that can be counted.
pub(super) const LARGEST: usize = 127;

/// How often each score from 0 to `LARGEST` occurred.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Vec<(u8, u64)>", into = "Vec<(u8, u64)>")]
pub struct Histogram {
    counts: [u64; LARGEST + 1],
}

impl Default for Histogram {
    fn default() -> Self {
        Histogram {
            counts: [0; LARGEST + 1],
        }
    }
}

impl TryFrom<Vec<(u8, u64)>> for Histogram {
    type Error = String;

    fn try_from(occurring: Vec<(u8, u64)>) -> Result<Self, String> {
        let mut histogram = Histogram::default();
        let mut total = 0_u64;
        for (score, count) in occurring {
            let counted = histogram.counts.get_mut(usize::from(score));
            let counted = counted
                .ok_or_else(|| format!("a count is of {score}; it must be of 0 to {LARGEST}"))?;
            total = total.checked_add(count).ok_or_else(|| {
                "the counts add up to 2^64 or more; they must add up to the plays".to_owned()
            })?;
            *counted += count;
        }
        Ok(histogram)
    }
}

impl From<Histogram> for Vec<(u8, u64)> {
    fn from(histogram: Histogram) -> Self {
        histogram.occurring().collect()
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "counts below 2^53 are exact as f64; a run of that length would take years"
)]
impl Histogram {
    /// Counts one score; a score beyond `LARGEST` is counted there.
    pub fn add(&mut self, score: u8) {
        self.counts[usize::from(score).min(LARGEST)] += 1;
    }

    /// Adds the counts of another histogram.
    pub fn merge(&mut self, other: &Histogram) {
        for (mine, theirs) in self.counts.iter_mut().zip(&other.counts) {
            *mine += theirs;
        }
    }

    /// Number of scores counted.
    #[must_use]
    pub fn total(&self) -> u64 {
        self.counts.iter().sum()
    }

    /// The scores that occurred, with their counts, lowest first.
    pub fn occurring(&self) -> impl Iterator<Item = (u8, u64)> + '_ {
        (0u8..).zip(self.counts).filter(|&(_, count)| count > 0)
    }

    /// Sum of the scores counted.
    #[must_use]
    pub fn sum(&self) -> u64 {
        self.occurring()
            .map(|(score, count)| u64::from(score) * count)
            .sum()
    }

    /// Mean and standard error. With fewer than two scores the error is NaN: it cannot be told.
    #[must_use]
    pub fn mean(&self) -> Estimate {
        let n = self.total() as f64;
        let mean = self.sum() as f64 / n;
        let squares: f64 = self
            .occurring()
            .map(|(score, count)| count as f64 * (f64::from(score) - mean).powi(2))
            .sum();
        Estimate {
            mean,
            standard_error: (squares / (n - 1.0) / n).sqrt(),
        }
    }

    /// Number of scores of at least `score`.
    #[must_use]
    pub fn count_at_least(&self, score: u8) -> u64 {
        self.counts[usize::from(score).min(LARGEST + 1)..]
            .iter()
            .sum()
    }

    /// The smallest score that at least a share `p` of scores do not exceed.
    #[must_use]
    pub fn quantile(&self, p: f64) -> u8 {
        let wanted = (p * self.total() as f64).ceil().max(1.0) as u64;
        let mut seen = 0;
        for (score, count) in self.occurring() {
            seen += count;
            if seen >= wanted {
                return score;
            }
        }
        0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_sample_by_hand() {
        let mut h = Histogram::default();
        for score in [4, 5, 5, 6, 10] {
            h.add(score);
        }
        let e = h.mean();
        assert!((e.mean - 6.0).abs() < 1e-15);
        // Sum of squared deviations 4 + 1 + 1 + 0 + 16 = 22; 22 / 4 / 5 = 1.1.
        assert!((e.standard_error - 1.1f64.sqrt()).abs() < 1e-15);
        assert_eq!(
            (
                h.count_at_least(6),
                h.count_at_least(11),
                h.count_at_least(255)
            ),
            (2, 0, 0)
        );
        assert_eq!(
            (h.quantile(0.5), h.quantile(1.0), h.quantile(0.0)),
            (5, 10, 4)
        );
        // A quarter of five is more than one and nine tenths are more than four: the second and the fifth.
        assert_eq!((h.quantile(0.25), h.quantile(0.9)), (5, 10));
        // Two fifths are two exactly.
        assert_eq!((h.quantile(0.4), h.quantile(0.8)), (5, 6));
    }

    #[test]
    fn merging_is_counting_together() {
        let (mut a, mut b, mut both) = (
            Histogram::default(),
            Histogram::default(),
            Histogram::default(),
        );
        for score in 0..50 {
            if score % 3 == 0 {
                a.add(score)
            } else {
                b.add(score)
            }
            both.add(score);
        }
        a.merge(&b);
        assert_eq!(a, both);
    }
}
