//! The chance that a normal variable falls below, between or above two thresholds, and how it changes with mean and spread.
use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// A probability with its slopes along the mean and the log of the spread.
#[derive(Clone, Copy)]
pub(super) struct Chance {
    pub(super) chance: f64,
    pub(super) mean: f64,
    pub(super) log_sd: f64,
}

/// What happens anyway.
pub(super) const ONE: Chance = Chance {
    chance: 1.0,
    mean: 0.0,
    log_sd: 0.0,
};

/// A normal variable and two thresholds.
pub(super) struct Crossing {
    /// Standardised thresholds.
    low: f64,
    high: f64,
    sd: f64,
}

impl Crossing {
    pub(super) fn new(low: f64, high: f64, mean: f64, sd: f64) -> Self {
        Crossing {
            low: (low - mean) / sd,
            high: (high - mean) / sd,
            sd,
        }
    }

    pub(super) fn below(&self) -> Chance {
        at(self.low, self.sd)
    }

    pub(super) fn above(&self) -> Chance {
        let c = at(self.high, self.sd);
        let beyond = 0.5 * libm::erfc(self.high * FRAC_1_SQRT_2);
        Chance {
            chance: beyond,
            mean: -c.mean,
            log_sd: -c.log_sd,
        }
    }

    pub(super) fn between(&self) -> Chance {
        let (a, b) = (at(self.low, self.sd), at(self.high, self.sd));
        Chance {
            chance: b.chance - a.chance,
            mean: b.mean - a.mean,
            log_sd: b.log_sd - a.log_sd,
        }
    }
}

/// The chance of falling below a standardised threshold.
fn at(z: f64, sd: f64) -> Chance {
    let density = libm::exp(-0.5 * z * z) / (2.0 * PI).sqrt();
    Chance {
        chance: 0.5 * libm::erfc(-z * FRAC_1_SQRT_2),
        mean: -density / sd,
        log_sd: if z.is_finite() { -z * density } else { 0.0 },
    }
}
