//! The density of a mixture of strikes and background, and the sums over shots from which its slopes come.
use super::pattern::{Fixed, Part, Parts, STRIKES, background};
use super::prior::{BIAS, CARRY, CARRY_SD, CORRELATION, LATERAL_SD, MISHITS};
use crate::figures::differences::BACKGROUND;
use std::f64::consts::PI;

/// The density of shots, ready to be asked for many of them.
pub(super) struct Law {
    log_heights: [f64; STRIKES],
    means: [[f64; 2]; STRIKES],
    /// One over the standard deviations.
    narrow: [[f64; 2]; STRIKES],
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
            correlation: rho,
            half_precision: 0.5 / open,
            background: background(fixed),
        }
    }

    /// Chances of the kinds of strike, the standardised distances from their means, and the log density.
    #[inline]
    pub(super) fn at(&self, at: [f64; 2]) -> ([f64; STRIKES], [[f64; 2]; STRIKES], f64) {
        let mut away = [[0.0; 2]; STRIKES];
        let mut logs = self.log_heights;
        for k in 0..STRIKES {
            let u = (at[0] - self.means[k][0]) * self.narrow[k][0];
            let v = (at[1] - self.means[k][1]) * self.narrow[k][1];
            away[k] = [u, v];
            logs[k] -= (u * u - 2.0 * self.correlation * u * v + v * v) * self.half_precision;
        }
        let top = logs.iter().fold(self.background, |a, &b| a.max(b));
        let weights = logs.map(|l| libm::exp(l - top));
        let total = libm::exp(self.background - top) + weights.iter().sum::<f64>();
        let share = 1.0 / total;
        (weights.map(|w| w * share), away, top + libm::log(total))
    }
}

/// Weighted sums over shots of powers of their standardised distances from the mean of one kind of strike.
#[derive(Clone, Copy, Default)]
pub(super) struct Moments {
    one: f64,
    u: f64,
    v: f64,
    uu: f64,
    uv: f64,
    vv: f64,
}

impl Moments {
    #[inline]
    pub(super) fn add(&mut self, weight: f64, u: f64, v: f64) {
        let (wu, wv) = (weight * u, weight * v);
        self.one += weight;
        self.u += wu;
        self.v += wv;
        self.uu += wu * u;
        self.uv += wu * v;
        self.vv += wv * v;
    }

    /// Adds the slopes of the log density along each figure.
    pub(super) fn add_slopes(&self, p: &Part, parts: &Parts, slope: &mut [f64]) {
        let rho = parts.correlation;
        let precision = 1.0 / (1.0 - rho * rho);
        // Along the standardised means, then along the log spreads.
        let (pull_u, pull_v) = (
            (self.u - rho * self.v) * precision,
            (self.v - rho * self.u) * precision,
        );
        let (along_u, along_v) = (
            (self.uu - rho * self.uv) * precision - self.one,
            (self.vv - rho * self.uv) * precision - self.one,
        );
        slope[CARRY] +=
            pull_u * p.mean[0] / p.sd[0] + pull_v * p.mean[1] / p.sd[1] + along_u + along_v;
        slope[CARRY_SD] += p.own_depth * along_u + pull_u * p.sinks[0] / p.sd[0];
        slope[BIAS] += pull_v * parts.carry / p.sd[1];
        slope[LATERAL_SD] += along_v;
        slope[CORRELATION] +=
            rho * self.one + (self.uv * (1.0 + rho * rho) - rho * (self.uu + self.vv)) * precision;
        slope[MISHITS] += self.one * p.weight_slope;
    }
}
