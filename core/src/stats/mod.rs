//! Statistics of scores and other small whole numbers: exact counts in, estimates with their errors out.
//!
//! Everything a parallel run gathers is a count or a sum of whole numbers, so the order in which
//! threads finish cannot change the last bit of any result.

mod ellipse;
mod fisher;
mod histogram;
mod normal;
mod paired;
mod parts;
mod student;

pub use ellipse::Ellipse;
pub use fisher::chance_explains;
pub use histogram::Histogram;
pub use normal::normal_quantile;
pub use paired::Paired;
pub use parts::{PartOfTotal, Parts};
pub use student::student_quantile;

use serde::{Deserialize, Serialize};

/// An estimate of a mean with its standard error.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Estimate {
    /// The mean.
    pub mean: f64,
    /// Its standard error.
    pub standard_error: f64,
}

impl Estimate {
    /// True of what is above 0 by more than two standard errors: by chance alone one in forty-four is.
    #[must_use]
    pub fn stands_out(&self) -> bool {
        self.mean > 2.0 * self.standard_error
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_errors_above_nothing_is_where_chance_ends() {
        let of = |mean, standard_error| {
            Estimate {
                mean,
                standard_error,
            }
            .stands_out()
        };
        assert!(of(2.5, 1.0) && of(0.1, 0.0));
        assert!(!of(2.0, 1.0) && !of(-3.0, 1.0) && !of(0.0, 0.0) && !of(1.0, f64::NAN));
    }
}
