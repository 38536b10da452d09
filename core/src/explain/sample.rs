//! What many plays of one task came to: shares and quantiles with their standard errors.
use crate::stats::Estimate;

/// A value that a share of shots does not exceed, with its standard error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantile {
    /// The value.
    pub value: f64,
    /// Its standard error.
    pub standard_error: f64,
}

/// What one play of a task came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sample {
    /// Yards along the aim at which the first stroke came to rest.
    pub(super) along: f64,
    /// Yards to the right of the aim.
    pub(super) right: f64,
    /// Yards it left to the pin.
    pub(super) left: f64,
    /// True if it came to rest on a fairway.
    pub(super) on_fairway: bool,
    /// True if it came to rest on the green or in the hole.
    pub(super) on_green: bool,
    /// Strokes to hole out, penalties included; 0 where it was not played out.
    pub(super) strokes: u8,
}

/// The share of plays for which something holds, with its binomial standard error.
pub(super) fn share(samples: &[Sample], holds: impl Fn(&Sample) -> bool) -> Estimate {
    let (count, n) = (samples.iter().filter(|s| holds(s)).count(), samples.len());
    let p = number(count) / number(n);
    Estimate {
        mean: p,
        standard_error: (p * (1.0 - p) / number(n)).sqrt(),
    }
}

/// Values in order, lowest first.
pub(super) struct Sorted(Vec<f64>);

impl Sorted {
    pub(super) fn new(values: impl Iterator<Item = f64>) -> Self {
        let mut values: Vec<f64> = values.collect();
        values.sort_by(f64::total_cmp);
        Sorted(values)
    }

    /// The smallest value that at least a share of the values do not exceed. Its error is that of the share seen through
    /// the values around it (Woodruff 1952, "Confidence intervals for medians and other position measures", J. Amer.
    /// Statist. Assoc. 47). None of no values.
    pub(super) fn quantile(&self, share: f64) -> Option<Quantile> {
        let error = (share * (1.0 - share) / number(self.0.len())).sqrt();
        let value = self.at(share)?;
        let (low, high) = (self.at(share - error)?, self.at(share + error)?);
        Some(Quantile {
            value,
            standard_error: 0.5 * (high - low),
        })
    }

    /// The smallest value that at least a share of the values do not exceed.
    pub(super) fn at(&self, share: f64) -> Option<f64> {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a share of a count; below nothing it saturates"
        )]
        // A share that was a whole number of the values may have been rounded up.
        let rank = (share * number(self.0.len()) - 1e-9).ceil() as usize;
        self.0.get(rank.clamp(1, self.0.len().max(1)) - 1).copied()
    }
}

#[expect(clippy::cast_precision_loss, reason = "counts are far below 2^53")]
pub(super) fn number(count: usize) -> f64 {
    count as f64
}
