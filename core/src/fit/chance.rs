//! The chance that a variable of bent luck falls below, between or above two thresholds, and how it changes with mean, spread and
//! bend.
use crate::player::Beyond;
use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// A probability with its slopes along the mean, the log of the spread and the share of it beyond the middle.
#[derive(Clone, Copy)]
pub(super) struct Chance {
    pub(super) chance: f64,
    pub(super) mean: f64,
    pub(super) log_sd: f64,
    pub(super) beyond: f64,
}

/// What happens anyway.
pub(super) const ONE: Chance = Chance {
    chance: 1.0,
    mean: 0.0,
    log_sd: 0.0,
    beyond: 0.0,
};

/// What never happens.
const NONE: Chance = Chance { chance: 0.0, ..ONE };

/// A variable and two thresholds.
pub(super) struct Crossing {
    /// Standardised thresholds.
    low: f64,
    high: f64,
    sd: f64,
    beyond: Beyond,
}

impl Crossing {
    pub(super) fn new(low: f64, high: f64, mean: f64, sd: f64, beyond: Beyond) -> Self {
        Crossing {
            low: (low - mean) / sd,
            high: (high - mean) / sd,
            sd,
            beyond,
        }
    }

    pub(super) fn below(&self) -> Chance {
        self.at(self.low)
    }

    pub(super) fn above(&self) -> Chance {
        let c = self.at(self.high);
        Chance {
            chance: 0.5 * libm::erfc(self.beyond.luck(self.high) * FRAC_1_SQRT_2),
            mean: -c.mean,
            log_sd: -c.log_sd,
            beyond: -c.beyond,
        }
    }

    pub(super) fn between(&self) -> Chance {
        let (a, b) = (self.at(self.low), self.at(self.high));
        Chance {
            chance: b.chance - a.chance,
            mean: b.mean - a.mean,
            log_sd: b.log_sd - a.log_sd,
            beyond: b.beyond - a.beyond,
        }
    }

    /// The chance of falling below a standardised threshold.
    fn at(&self, y: f64) -> Chance {
        if y.is_infinite() {
            return if y > 0.0 { ONE } else { NONE };
        }
        let luck = self.beyond.luck(y);
        let bend = self.beyond.bend(luck);
        let density = libm::exp(-0.5 * luck * luck) / (2.0 * PI).sqrt() / bend.slope;
        Chance {
            chance: 0.5 * libm::erfc(-luck * FRAC_1_SQRT_2),
            mean: -density / self.sd,
            log_sd: -y * density,
            beyond: -bend.by_share * density,
        }
    }
}
