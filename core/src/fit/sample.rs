//! Draws from the posterior by Hamiltonian Monte Carlo on coordinates that its summit makes nearly a standard normal.
//!
//! Neal 2011, "MCMC using Hamiltonian dynamics", in Handbook of Markov Chain Monte Carlo, chapter 5: leapfrog steps and a
//! Metropolis test. With the curvature at the summit as mass a quarter of a turn (about 1.57) makes the next draw
//! nearly independent of the last.
use super::linear::dot;
use super::posterior::{Posterior, Summit};
use crate::noise::{PlayNoise, Seed};
use std::f64::consts::FRAC_PI_2;

/// Chains, each begun at a place of its own.
const CHAINS: u64 = 4;
/// Steps of a chain in which the length of a leap is tuned; they are not kept.
const WARM_UP: usize = 60;
/// Acceptance that tuning aims at (Beskos and others 2013, Bernoulli 19, 1501-1534: 0.65 or more).
const ACCEPTANCE: f64 = 0.8;

/// Standard normals and uniforms from the one source of luck.
pub(super) struct Luck {
    noise: PlayNoise,
    stroke: u32,
    spare: Option<f64>,
}

impl Luck {
    /// Stream number `stream` under a seed.
    pub(super) fn new(seed: Seed, stream: u64) -> Self {
        Luck {
            noise: PlayNoise::new(seed, stream),
            stroke: 0,
            spare: None,
        }
    }

    /// A standard normal.
    pub(super) fn normal(&mut self) -> f64 {
        self.spare.take().unwrap_or_else(|| {
            let noise = self.noise.stroke(self.stroke);
            self.stroke += 1;
            self.spare = Some(noise.side);
            noise.depth
        })
    }

    /// A uniform on [0, 1).
    pub(super) fn uniform(&mut self) -> f64 {
        let noise = self.noise.stroke(self.stroke);
        self.stroke += 1;
        noise.strike
    }
}

/// Draws, and how well the chains agree.
#[derive(Default)]
pub(super) struct Sample {
    /// Points of the posterior, chain after chain.
    pub(super) points: Vec<Vec<f64>>,
    /// The worst ratio of spreads between and within half chains (Gelman and others 2013, Bayesian Data Analysis, 11.4); 1
    /// when they agree.
    pub(super) disagreement: f64,
}

/// Where a chain stands, in the coordinates of the summit.
#[derive(Clone)]
struct State {
    whitened: Vec<f64>,
    point: Vec<f64>,
    slope: Vec<f64>,
    log_density: f64,
}

impl State {
    fn at(posterior: &Posterior, summit: &Summit, whitened: Vec<f64>) -> Self {
        let size = whitened.len();
        let mut state = State {
            whitened,
            point: vec![0.0; size],
            slope: vec![0.0; size],
            log_density: 0.0,
        };
        state.refresh(posterior, summit);
        state
    }

    /// Works out point, density and slope from the whitened coordinates.
    fn refresh(&mut self, posterior: &Posterior, summit: &Summit) {
        self.point.copy_from_slice(&self.whitened);
        summit.curvature.backward(&mut self.point);
        for (x, at) in self.point.iter_mut().zip(&summit.at) {
            *x += at;
        }
        self.log_density = posterior.log_density(&self.point, &mut self.slope);
        summit.curvature.forward(&mut self.slope);
    }
}

/// Chains under way, one after the other, a leap a step.
pub(super) struct Sampling {
    /// Draws kept of each chain.
    each: usize,
    chain: Chain,
    /// Number of the chain under way.
    number: u64,
    seed: Seed,
    points: Vec<Vec<f64>>,
    halves: Vec<Vec<Vec<f64>>>,
}

/// One chain under way.
struct Chain {
    state: State,
    log_step: f64,
    luck: Luck,
    /// Leaps made, those of the warm-up included.
    leaps: usize,
    kept: Vec<State>,
}

impl Sampling {
    /// Begins to draw `count` points (a multiple of the number of chains) with a seed.
    pub(super) fn new(posterior: &Posterior, summit: &Summit, count: usize, seed: Seed) -> Self {
        Sampling {
            each: count / CHAINS as usize,
            chain: Chain::new(posterior, summit, Luck::new(seed, 0)),
            number: 0,
            seed,
            points: Vec::with_capacity(count),
            halves: Vec::new(),
        }
    }

    /// Leaps in all of a sample of `count` draws.
    pub(super) fn leaps(count: usize) -> u64 {
        (count + CHAINS as usize * WARM_UP) as u64
    }

    /// Leaps made so far.
    pub(super) fn done(&self) -> u64 {
        let before = self.number * (WARM_UP + self.each) as u64;
        let now = if self.is_finished() {
            0
        } else {
            self.chain.leaps as u64
        };
        before + now
    }

    pub(super) fn is_finished(&self) -> bool {
        self.number == CHAINS
    }

    /// One leap of the chain under way.
    pub(super) fn step(&mut self, posterior: &Posterior, summit: &Summit) {
        self.chain.step(posterior, summit);
        if self.chain.leaps < WARM_UP + self.each {
            return;
        }
        let kept = std::mem::take(&mut self.chain.kept);
        let whitened: Vec<Vec<f64>> = kept.iter().map(|s| s.whitened.clone()).collect();
        self.halves.push(whitened[..self.each / 2].to_vec());
        self.halves
            .push(whitened[self.each - self.each / 2..].to_vec());
        self.points.extend(kept.into_iter().map(|s| s.point));
        self.number += 1;
        if !self.is_finished() {
            self.chain = Chain::new(posterior, summit, Luck::new(self.seed, self.number));
        }
    }

    /// The draws of the chains that are through; they are handed over.
    pub(super) fn sample(&mut self) -> Sample {
        Sample {
            points: std::mem::take(&mut self.points),
            disagreement: disagreement(&self.halves),
        }
    }
}

impl Chain {
    fn new(posterior: &Posterior, summit: &Summit, mut luck: Luck) -> Self {
        Chain {
            state: start(posterior, summit, &mut luck),
            log_step: libm::log(0.5),
            luck,
            leaps: 0,
            kept: Vec::new(),
        }
    }

    fn step(&mut self, posterior: &Posterior, summit: &Summit) {
        let luck = &mut self.luck;
        let momentum: Vec<f64> = (0..posterior.size()).map(|_| luck.normal()).collect();
        // A leap that varies cannot fall in step with the posterior.
        let step = libm::exp(self.log_step) * (0.85 + 0.3 * luck.uniform());
        let uniform = luck.uniform();
        let (next, accepted) = leap(posterior, summit, &self.state, momentum, step, uniform);
        self.state = next;
        if self.leaps < WARM_UP {
            #[expect(clippy::cast_precision_loss, reason = "a small integer")]
            let rate = 1.0 / (self.leaps as f64 + 4.0).sqrt();
            self.log_step = (self.log_step + rate * (accepted - ACCEPTANCE)).clamp(-4.0, 0.4);
        } else {
            self.kept.push(self.state.clone());
        }
        self.leaps += 1;
    }
}

/// A chain begins somewhere about the summit, or on it if all about it is impossible.
fn start(posterior: &Posterior, summit: &Summit, luck: &mut Luck) -> State {
    for _ in 0..20 {
        let there = (0..posterior.size()).map(|_| luck.normal()).collect();
        let state = State::at(posterior, summit, there);
        if state.log_density.is_finite() {
            return state;
        }
    }
    State::at(posterior, summit, vec![0.0; posterior.size()])
}

/// One quarter of a turn; gives the next state and the chance with which the leap was accepted.
fn leap(
    posterior: &Posterior,
    summit: &Summit,
    from: &State,
    mut momentum: Vec<f64>,
    step: f64,
    uniform: f64,
) -> (State, f64) {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "1 to 100"
    )]
    let steps = (FRAC_PI_2 / step).round().clamp(1.0, 100.0) as usize;
    let energy =
        |state: &State, momentum: &[f64]| state.log_density - 0.5 * dot(momentum, momentum);
    let before = energy(from, &momentum);
    let mut state = from.clone();
    for _ in 0..steps {
        push(&mut momentum, &state.slope, 0.5 * step);
        for (x, p) in state.whitened.iter_mut().zip(&momentum) {
            *x += step * p;
        }
        state.refresh(posterior, summit);
        if !state.log_density.is_finite() {
            return (from.clone(), 0.0);
        }
        push(&mut momentum, &state.slope, 0.5 * step);
    }
    let chance = libm::exp((energy(&state, &momentum) - before).min(0.0));
    if uniform < chance {
        (state, chance)
    } else {
        (from.clone(), chance)
    }
}

fn push(momentum: &mut [f64], slope: &[f64], step: f64) {
    for (p, s) in momentum.iter_mut().zip(slope) {
        *p += step * s;
    }
}

/// The worst coordinate's ratio of the spread of all draws to that within half chains.
fn disagreement(halves: &[Vec<Vec<f64>>]) -> f64 {
    let size = halves.first().and_then(|h| h.first()).map_or(0, Vec::len);
    (0..size).map(|at| ratio(halves, at)).fold(1.0, f64::max)
}

#[expect(clippy::cast_precision_loss, reason = "a few hundred draws")]
fn ratio(halves: &[Vec<Vec<f64>>], at: usize) -> f64 {
    let n = halves[0].len() as f64;
    let means: Vec<f64> = halves
        .iter()
        .map(|half| half.iter().map(|w| w[at]).sum::<f64>() / n)
        .collect();
    let within: f64 = halves
        .iter()
        .zip(&means)
        .map(|(half, mean)| half.iter().map(|w| (w[at] - mean).powi(2)).sum::<f64>() / (n - 1.0))
        .sum::<f64>()
        / halves.len() as f64;
    let centre = means.iter().sum::<f64>() / means.len() as f64;
    let between: f64 =
        means.iter().map(|m| (m - centre).powi(2)).sum::<f64>() / (means.len() as f64 - 1.0);
    ((n - 1.0) / n + between / within.max(1e-300)).sqrt()
}
