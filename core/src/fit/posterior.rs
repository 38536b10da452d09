//! What shots and level together say: the posterior density of the figures of all clubs that were measured, its summit and
//! its curvature there.
use super::linear::{Square, Triangle, dot};
use super::pattern::Seen;
use super::prior::{FIGURES, Scaled, possible};

/// The posterior of the measured clubs. A point is a list of deviations from the level, six for each club.
pub(super) struct Posterior {
    /// What was seen of each measured club.
    pub(super) seen: Vec<Seen>,
    /// Each club's figures by the level.
    pub(super) level: Vec<Scaled>,
    /// For each figure, the inverse of the covariance of its deviations over the clubs.
    pub(super) precisions: [Square; FIGURES],
}

/// Where the posterior is highest, and the triangle of its curvature there.
pub(super) struct Summit {
    pub(super) at: Vec<f64>,
    pub(super) curvature: Triangle,
}

/// Most steps of a climb; it takes some ten.
pub(super) const STEPS: u64 = 80;

/// A climb to a summit of the posterior, step by step.
///
/// Newton's method, damped as Levenberg and Marquardt do (Nocedal and Wright 2006, Numerical Optimization, 10.3).
pub(super) struct Climb {
    at: Vec<f64>,
    value: f64,
    slope: Vec<f64>,
    /// Working space.
    trial_slope: Vec<f64>,
    damping: f64,
    /// Steps that may still be taken.
    left: u64,
}

impl Climb {
    pub(super) fn new(posterior: &Posterior, start: Vec<f64>) -> Self {
        let mut slope = vec![0.0; start.len()];
        Climb {
            value: posterior.log_density(&start, &mut slope),
            trial_slope: slope.clone(),
            slope,
            at: start,
            damping: 0.0,
            left: STEPS,
        }
    }

    pub(super) fn is_finished(&self) -> bool {
        self.left == 0
    }

    /// Steps taken, or all of them at the top.
    pub(super) fn done(&self) -> u64 {
        STEPS - self.left
    }

    /// One step; at the top it is the last.
    pub(super) fn step(&mut self, posterior: &Posterior) {
        self.left = self.left.saturating_sub(1);
        let (triangle, used) = posterior.damped(&self.at, self.damping);
        let step = triangle.solve(&self.slope);
        let trial: Vec<f64> = self.at.iter().zip(&step).map(|(a, s)| a + s).collect();
        let higher = posterior.log_density(&trial, &mut self.trial_slope);
        if higher > self.value {
            let gain = higher - self.value;
            self.at = trial;
            self.value = higher;
            std::mem::swap(&mut self.slope, &mut self.trial_slope);
            self.damping = if used > 1e-3 { 0.25 * used } else { 0.0 };
            if gain < 1e-7 {
                self.left = 0;
            }
        } else {
            // No step uphill is left when the slope itself is nothing.
            if dot(&self.slope, &step) < 1e-9 {
                self.left = 0;
            }
            self.damping = (4.0 * used).max(0.1);
        }
    }
}

impl Posterior {
    /// How many numbers a point has.
    pub(super) fn size(&self) -> usize {
        FIGURES * self.seen.len()
    }

    /// The figures of measured club `j` at a point.
    pub(super) fn figures(&self, point: &[f64], j: usize) -> Scaled {
        std::array::from_fn(|p| self.level[j][p] + point[FIGURES * j + p])
    }

    /// Log density, up to a constant; its slope goes to `slope`. Minus infinity where a club cannot exist.
    pub(super) fn log_density(&self, point: &[f64], slope: &mut [f64]) -> f64 {
        slope.fill(0.0);
        let mut sum = 0.0;
        for (j, seen) in self.seen.iter().enumerate() {
            let figures = self.figures(point, j);
            if !possible(&figures) {
                return f64::NEG_INFINITY;
            }
            sum += seen.log_likelihood(&figures, &mut slope[FIGURES * j..FIGURES * (j + 1)]);
        }
        sum + self.log_prior(point, slope)
    }

    fn log_prior(&self, point: &[f64], slope: &mut [f64]) -> f64 {
        let clubs = self.seen.len();
        let mut sum = 0.0;
        let mut deviations = vec![0.0; clubs];
        for (p, precision) in self.precisions.iter().enumerate() {
            for (j, deviation) in deviations.iter_mut().enumerate() {
                *deviation = point[FIGURES * j + p];
            }
            for j in 0..clubs {
                let pull = dot(precision.row(j), &deviations);
                slope[FIGURES * j + p] -= pull;
                sum -= 0.5 * pull * deviations[j];
            }
        }
        sum
    }

    /// The better of two climbs and the curvature there.
    pub(super) fn summit(&self, one: &Climb, other: &Climb) -> Summit {
        let higher = if other.value > one.value { other } else { one };
        let at = higher.at.clone();
        let curvature = self.damped(&at, 0.0).0;
        Summit { at, curvature }
    }

    /// The triangle of the curvature with at least so much damping, and the damping that made it positive.
    fn damped(&self, point: &[f64], least: f64) -> (Triangle, f64) {
        let curvature = self.curvature(point);
        let mut damping = least;
        loop {
            let mut raised = curvature.clone();
            for (p, precision) in self.precisions.iter().enumerate() {
                for j in 0..self.seen.len() {
                    raised.add(
                        FIGURES * j + p,
                        FIGURES * j + p,
                        damping * precision.at(j, j),
                    );
                }
            }
            if let Some(triangle) = raised.triangle() {
                return (triangle, damping);
            }
            // Ends: the damping outgrows any finite curvature.
            damping = (4.0 * damping).max(0.05);
        }
    }

    /// Minus the second derivatives of the log density.
    fn curvature(&self, point: &[f64]) -> Square {
        let mut all = Square::of(self.size(), |_, _| 0.0);
        for (j, seen) in self.seen.iter().enumerate() {
            let block = seen.curvature(&self.figures(point, j));
            for (p, row) in block.iter().enumerate() {
                for (q, cell) in row.iter().enumerate() {
                    let cell = 0.5 * (cell + block[q][p]);
                    all.add(
                        FIGURES * j + p,
                        FIGURES * j + q,
                        if cell.is_finite() { cell } else { 0.0 },
                    );
                }
            }
        }
        for (p, precision) in self.precisions.iter().enumerate() {
            for i in 0..self.seen.len() {
                for j in 0..self.seen.len() {
                    all.add(FIGURES * i + p, FIGURES * j + p, precision.at(i, j));
                }
            }
        }
        all
    }
}
