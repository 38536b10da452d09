//! Paired differences of scores that met the same luck.
use super::Estimate;
use serde::{Deserialize, Serialize};

/// Sums over plays of the difference of two plans' scores, first minus second.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Paired {
    plays: u64,
    sum: i64,
    squares: u64,
    lower: u64,
    higher: u64,
}

impl Paired {
    /// Counts one play in which the plans scored `first` and `second`.
    pub fn add(&mut self, first: u8, second: u8) {
        let d = i64::from(first) - i64::from(second);
        self.plays += 1;
        self.sum += d;
        self.squares += d.unsigned_abs().pow(2);
        self.lower += u64::from(d < 0);
        self.higher += u64::from(d > 0);
    }

    /// Counts a block of plays: the scores of both plans, play by play. Small whole numbers, summed in
    /// 32 bits, so that the loop runs in vector registers; a block must be shorter than 2^16.
    pub fn add_block(&mut self, first: &[u8], second: &[u8]) {
        let (mut sum, mut squares, mut lower, mut higher) = (0i32, 0i32, 0u32, 0u32);
        for (&a, &b) in first.iter().zip(second) {
            let d = i32::from(a) - i32::from(b);
            sum += d;
            squares += d * d;
            lower += u32::from(d < 0);
            higher += u32::from(d > 0);
        }
        self.plays += first.len().min(second.len()) as u64;
        self.sum += i64::from(sum);
        self.squares += u64::from(squares.unsigned_abs());
        self.lower += u64::from(lower);
        self.higher += u64::from(higher);
    }

    /// Counts plays in which the plans scored the same.
    pub fn add_ties(&mut self, plays: u64) {
        self.plays += plays;
    }

    /// Adds the sums of another part of the run.
    pub fn merge(&mut self, other: &Paired) {
        self.plays += other.plays;
        self.sum += other.sum;
        self.squares += other.squares;
        self.lower += other.lower;
        self.higher += other.higher;
    }

    /// True where these can be the sums of so many plays.
    #[must_use]
    pub fn is_of(&self, plays: u64) -> bool {
        const WIDEST: u64 = u8::MAX as u64;
        let told = self.lower.checked_add(self.higher);
        let within = |sum: u64, most: u64| plays.checked_mul(most).is_some_and(|most| sum <= most);
        self.plays == plays
            && told.is_some_and(|told| told <= plays)
            && within(self.sum.unsigned_abs(), WIDEST)
            && within(self.squares, WIDEST * WIDEST)
    }

    /// The difference seen from the other side.
    #[must_use]
    pub fn reversed(&self) -> Paired {
        Paired {
            sum: -self.sum,
            lower: self.higher,
            higher: self.lower,
            ..*self
        }
    }

    /// The mean difference with its standard error.
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "sums below 2^53 are exact as f64"
    )]
    pub fn mean(&self) -> Estimate {
        let n = self.plays as f64;
        let mean = self.sum as f64 / n;
        let variance = (self.squares as f64 - n * mean * mean).max(0.0) / (n - 1.0);
        Estimate {
            mean,
            standard_error: (variance / n).sqrt(),
        }
    }

    /// The shares of plays in which the first plan scored lower, and higher.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "counts below 2^53")]
    pub fn shares(&self) -> (f64, f64) {
        let n = self.plays as f64;
        (self.lower as f64 / n, self.higher as f64 / n)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_block_is_its_plays() {
        let (a, b): (Vec<u8>, Vec<u8>) = (0..200u8)
            .map(|i| (i % 61, i.wrapping_mul(37) % 61))
            .unzip();
        let (mut one_by_one, mut block) = (Paired::default(), Paired::default());
        a.iter().zip(&b).for_each(|(&a, &b)| one_by_one.add(a, b));
        block.add_block(&a, &b);
        assert_eq!(one_by_one, block);
    }

    #[test]
    fn three_plays_by_hand() {
        let mut p = Paired::default();
        for (a, b) in [(4, 5), (5, 5), (7, 5)] {
            p.add(a, b);
        }
        let (mean, shares) = (p.mean(), p.shares());
        // Differences -1, 0, 2: mean 1/3, variance 7/3, error sqrt(7)/3.
        assert!((mean.mean - 1.0 / 3.0).abs() < 1e-15);
        assert!((mean.standard_error - 7.0f64.sqrt() / 3.0).abs() < 1e-15);
        assert_eq!(shares, (1.0 / 3.0, 1.0 / 3.0));
        assert!((p.reversed().mean().mean + 1.0 / 3.0).abs() < 1e-15);
        // Seen from the other side who is better is worse: two plays of four against one.
        p.add(3, 4);
        assert_eq!(p.shares(), (0.5, 0.25));
        assert_eq!(p.reversed().shares(), (0.25, 0.5));
    }
}
