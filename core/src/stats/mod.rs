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
