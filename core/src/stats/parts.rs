//! Totals told by their parts: what each part comes to on average, and its share of the whole.
use super::Estimate;

/// Sums over plays of amounts that are parts of a total.
///
/// Amounts are kept as whole numbers of 2^-32 strokes, so that the order in which plays are added cannot change the last
/// bit of a result.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parts {
    plays: u64,
    /// Of each part: how often it occurred, its sum, its squares, and its products with the total.
    parts: Vec<[i128; 4]>,
    /// The total's sum and squares.
    total: [i128; 2],
    /// The amounts of one play; working space.
    amounts: Vec<i64>,
}

/// One in the unit the amounts are kept in.
const ONE: f64 = 4_294_967_296.0;

/// What a part comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartOfTotal {
    /// How often it occurs a play.
    pub times: f64,
    /// Its amount a play.
    pub amount: Estimate,
    /// Its share of the total; NaN where there is no total.
    pub share: Estimate,
}

impl Parts {
    /// Nothing added yet to so many parts.
    #[must_use]
    pub fn new(parts: usize) -> Self {
        Parts {
            plays: 0,
            parts: vec![[0; 4]; parts],
            total: [0; 2],
            amounts: vec![0; parts],
        }
    }

    /// Adds a play: amounts, each with the number of its part. An amount must be less than 2^31.
    #[expect(
        clippy::cast_possible_truncation,
        reason = "amounts are a few hundred strokes at most"
    )]
    pub fn add(&mut self, amounts: impl Iterator<Item = (usize, f64)>) {
        self.amounts.fill(0);
        for (part, amount) in amounts {
            self.parts[part][0] += 1;
            self.amounts[part] += (amount * ONE).round() as i64;
        }
        let total: i128 = self.amounts.iter().map(|&a| i128::from(a)).sum();
        for (sums, &amount) in self.parts.iter_mut().zip(&self.amounts) {
            let amount = i128::from(amount);
            sums[1] += amount;
            sums[2] += amount * amount;
            sums[3] += amount * total;
        }
        self.total[0] += total;
        self.total[1] += total * total;
        self.plays += 1;
    }

    /// Adds the sums of another part of the run.
    pub fn merge(&mut self, other: &Parts) {
        self.plays += other.plays;
        let pairs = self.parts.iter_mut().zip(&other.parts);
        let sums = pairs.flat_map(|(mine, theirs)| mine.iter_mut().zip(theirs));
        for (mine, theirs) in sums.chain(self.total.iter_mut().zip(&other.total)) {
            *mine += theirs;
        }
    }

    /// Number of parts.
    #[must_use]
    pub fn len(&self) -> usize {
        self.parts.len()
    }

    /// True without any part.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty()
    }

    /// Plays added.
    #[must_use]
    pub fn plays(&self) -> u64 {
        self.plays
    }

    /// The total a play.
    #[must_use]
    pub fn total(&self) -> Estimate {
        self.mean(self.total[0], self.total[1])
    }

    /// What a part comes to. Standard errors are those of means over plays; that of the share is the ratio's to first
    /// order (Cochran 1977, Sampling Techniques, 6.3).
    #[must_use]
    #[expect(
        clippy::cast_precision_loss,
        reason = "the sums are exact to 53 bits, which is enough for an error"
    )]
    pub fn part(&self, part: usize) -> PartOfTotal {
        let [times, sum, squares, products] = self.parts[part];
        let n = self.plays as f64;
        let total = self.total[0] as f64;
        let share = sum as f64 / total;
        // Residuals part - share x total have mean 0.
        let residuals =
            squares as f64 - 2.0 * share * products as f64 + share * share * self.total[1] as f64;
        let variance = residuals.max(0.0) / (n - 1.0);
        PartOfTotal {
            times: times as f64 / n,
            amount: self.mean(sum, squares),
            share: Estimate {
                mean: share,
                standard_error: (variance * n).sqrt() / total.abs(),
            },
        }
    }

    #[expect(clippy::cast_precision_loss, reason = "exact to 53 bits")]
    fn mean(&self, sum: i128, squares: i128) -> Estimate {
        let n = self.plays as f64;
        let mean = sum as f64 / ONE / n;
        let variance = (squares as f64 / (ONE * ONE) - n * mean * mean).max(0.0) / (n - 1.0);
        Estimate {
            mean,
            standard_error: (variance / n).sqrt(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_plays_by_hand() {
        let mut parts = Parts::new(2);
        for (a, b) in [(1.0, 2.0), (0.0, 2.0), (2.0, 5.0)] {
            parts.add([(0, a), (1, b)].into_iter());
        }
        let first = parts.part(0);
        // Amounts 1, 0, 2 have mean 1 and variance 1; the share is 3 of 12, with residuals 1/4, -1/2, 1/4.
        assert!((first.amount.mean - 1.0).abs() < 1e-15);
        assert!((first.amount.standard_error - (1.0f64 / 3.0).sqrt()).abs() < 1e-15);
        assert!((first.share.mean - 0.25).abs() < 1e-15);
        let error = (0.375f64 / 2.0 * 3.0).sqrt() / 12.0;
        assert!((first.share.standard_error - error).abs() < 1e-15);
        assert!((parts.total().mean - 4.0).abs() < 1e-15);
        assert!((parts.part(1).times - 1.0).abs() < 1e-15);
    }

    #[test]
    fn the_order_does_not_matter() {
        let plays: Vec<[f64; 3]> = (0..50)
            .map(|i| [0.1, 0.7, 1.3].map(|k| (f64::from(i) * k).sin()))
            .collect();
        let sums = |plays: &mut dyn Iterator<Item = &[f64; 3]>| {
            let mut parts = Parts::new(3);
            plays.for_each(|p| parts.add(p.iter().copied().enumerate()));
            parts
        };
        let whole = sums(&mut plays.iter());
        assert_eq!(whole.total(), sums(&mut plays.iter().rev()).total());
        let mut both = sums(&mut plays[30..].iter());
        both.merge(&sums(&mut plays[..30].iter()));
        assert_eq!(both.part(1), whole.part(1));
    }
}
