//! The density of a mixture of strikes and background, and the sums over shots from which its slopes come.
use super::pattern::{Fixed, Part, Parts, STRIKES, background};
use super::prior::{BIAS, CARRY, CARRY_SD, CORRELATION, LATERAL_SD, MISHITS};
use crate::figures::differences::BACKGROUND;
use crate::player::{Bend, Beyond};
use std::f64::consts::PI;

/// The density of shots, ready to be asked for many of them.
pub(super) struct Law {
    log_heights: [f64; STRIKES],
    means: [[f64; 2]; STRIKES],
    /// One over the standard deviations.
    narrow: [[f64; 2]; STRIKES],
    beyond: [Beyond; STRIKES],
    correlation: f64,
    half_precision: f64,
    background: f64,
}

impl Law {
    pub(super) fn new(parts: &Parts, fixed: &Fixed) -> Self {
        let rho = parts.correlation;
        let open = 1.0 - rho * rho;
        let scale = libm::log((1.0 - BACKGROUND) / (2.0 * PI * open.sqrt()));
        let height = |p: Part| p.log_weight + scale - libm::log(p.sd[0] * p.sd[1]);
        Law {
            log_heights: parts.parts.map(height),
            means: parts.parts.map(|p| p.mean),
            narrow: parts.parts.map(|p| p.sd.map(f64::recip)),
            beyond: parts.parts.map(|p| p.beyond),
            correlation: rho,
            half_precision: 0.5 / open,
            background: background(fixed),
        }
    }

    /// Chances of the kinds of strike, how far from the middle of each a shot is, and the log density.
    #[inline]
    pub(super) fn at(&self, at: [f64; 2]) -> ([f64; STRIKES], [Away; STRIKES], f64) {
        let mut logs = self.log_heights;
        let away = std::array::from_fn(|k| {
            let y = (at[0] - self.means[k][0]) * self.narrow[k][0];
            let v = (at[1] - self.means[k][1]) * self.narrow[k][1];
            let beyond = self.beyond[k];
            let u = beyond.luck(y);
            let bend = beyond.bend(u);
            logs[k] -= (u * u - 2.0 * self.correlation * u * v + v * v) * self.half_precision;
            logs[k] -= libm::log(bend.slope);
            Away { y, u, v, bend }
        });
        let top = logs.iter().fold(self.background, |a, &b| a.max(b));
        let weights = logs.map(|l| libm::exp(l - top));
        let total = libm::exp(self.background - top) + weights.iter().sum::<f64>();
        let share = 1.0 / total;
        (weights.map(|w| w * share), away, top + libm::log(total))
    }
}

/// How far a shot is from the middle of one kind of strike: the standardised distance in depth, the luck in depth that is bent to
/// it, and the luck to the side.
#[derive(Clone, Copy)]
pub(super) struct Away {
    y: f64,
    u: f64,
    v: f64,
    bend: Bend,
}

/// Weighted sums over shots of what the slopes of their log density along the figures of one kind of strike are made of.
#[derive(Clone, Copy, Default)]
pub(super) struct Moments {
    one: f64,
    /// Along the standardised mean, and the log of the spread, in depth and to the side.
    pull: [f64; 2],
    stretch: [f64; 2],
    /// Along the share of the spread beyond the middle, and the correlation.
    beyond: f64,
    turn: f64,
}

impl Moments {
    #[inline]
    pub(super) fn add(&mut self, weight: f64, away: &Away, rho: f64) {
        let Away { y, u, v, bend } = *away;
        let precision = 1.0 / (1.0 - rho * rho);
        // The log density falls by as much for a unit of standardised depth.
        let falls = ((u - rho * v) * precision + bend.curve / bend.slope) / bend.slope;
        let aside = (v - rho * u) * precision;
        self.one += weight;
        self.pull[0] += weight * falls;
        self.pull[1] += weight * aside;
        self.stretch[0] += weight * (falls * y - 1.0);
        self.stretch[1] += weight * (aside * v - 1.0);
        self.beyond += weight * (falls * bend.by_share - bend.slope_by_share / bend.slope);
        self.turn +=
            weight * (rho + (u * v * (1.0 + rho * rho) - rho * (u * u + v * v)) * precision);
    }

    /// Adds the slopes of the log density along each figure.
    pub(super) fn add_slopes(&self, p: &Part, parts: &Parts, slope: &mut [f64]) {
        slope[CARRY] += self.pull[0] * p.mean[0] / p.sd[0]
            + self.pull[1] * p.mean[1] / p.sd[1]
            + self.stretch[0]
            + self.stretch[1];
        slope[CARRY_SD] += p.own_depth * self.stretch[0] + p.beyond_slope * self.beyond;
        slope[BIAS] += self.pull[1] * parts.bias_slope / p.sd[1];
        slope[LATERAL_SD] += self.stretch[1];
        slope[CORRELATION] += self.turn;
        slope[MISHITS] += self.one * p.weight_slope;
    }
}
