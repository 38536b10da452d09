//! Published figures of golfers, and what the players of the library come to.
//!
//! `core/examples/calibrate.rs` fits the players to some of them and reports on all; `tests/rust/calibration.rs` holds
//! the players to the most important.

#![allow(dead_code, reason = "each user takes a part of it")]

pub(crate) mod holes;
pub(crate) mod report;
pub(crate) mod rounds;
pub(crate) mod study;
pub(crate) mod swings;
pub(crate) mod targets;
pub(crate) mod tour;

#[path = "../putts.rs"]
pub(crate) mod putts;

use wideberth::player::{LevelFigures, Player, PlayerFault, Reference};

/// Whom a figure is about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Who {
    /// A tour professional.
    Professional,
    /// A man of a handicap.
    Man(f64),
    /// A woman of a handicap.
    Woman(f64),
}

impl Who {
    /// The player whom some figures make of this golfer.
    pub(crate) fn player(self, figures: &LevelFigures) -> Result<Player, PlayerFault> {
        match self {
            Who::Professional => figures.professional(),
            Who::Man(handicap) => figures.player(Reference::Men, handicap),
            Who::Woman(handicap) => figures.player(Reference::Women, handicap),
        }
    }

    pub(crate) fn name(self) -> String {
        match self {
            Who::Professional => "professional".to_owned(),
            Who::Man(handicap) => format!("man of {handicap}"),
            Who::Woman(handicap) => format!("woman of {handicap}"),
        }
    }
}

/// What was measured, and its standard error.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Measured {
    pub(crate) value: f64,
    pub(crate) error: f64,
}

/// A statistic of a list, with a standard error from the same statistic of twenty parts of it.
pub(crate) fn measured(values: &[f64], statistic: impl Fn(&[f64]) -> f64) -> Measured {
    const PARTS: usize = 20;
    let part = (values.len() / PARTS).max(1);
    let of_parts: Vec<f64> = values.chunks_exact(part).map(&statistic).collect();
    let n = of_parts.len() as f64;
    let mid = mean(&of_parts);
    let square = of_parts.iter().map(|v| (v - mid).powi(2)).sum::<f64>();
    Measured {
        value: statistic(values),
        error: (square / (n - 1.0).max(1.0) / n).sqrt(),
    }
}

pub(crate) fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// The value below which a share of a list lies.
pub(crate) fn quantile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted[((share * sorted.len() as f64) as usize).min(sorted.len() - 1)]
}

/// Mean of the lowest share of a list.
pub(crate) fn mean_of_lowest(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    mean(&sorted[..((share * sorted.len() as f64) as usize).max(1)])
}

pub(crate) fn deviation(values: &[f64]) -> f64 {
    let mid = mean(values);
    (values.iter().map(|v| (v - mid).powi(2)).sum::<f64>() / values.len() as f64).sqrt()
}
