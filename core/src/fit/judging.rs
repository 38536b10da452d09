//! What each measured shot was: solid, a mishit or an outlier, averaged over draws.
use super::fitted::{Judged, mean};
use super::posterior::Posterior;
use super::prior::Scaled;
use super::sample::Sample;

/// Every so many draws are asked what each shot was.
const JUDGES: usize = 10;

/// Shots judged in a step.
const SHOTS: usize = 100;

/// Shots being judged, club after club and lie after lie.
pub(super) struct Judging {
    /// Some draws of the figures of each measured club.
    draws: Vec<Vec<Scaled>>,
    /// Club and group of each shot, and its place in the group.
    shots: Vec<[usize; 3]>,
    /// Shots judged so far.
    judged: usize,
}

/// So many shots before anything is known of them.
pub(super) fn nothing_judged(rows: usize) -> Vec<Judged> {
    let nothing = |row| Judged {
        row,
        mishit: 0.0,
        outlier: 0.0,
    };
    (0..rows).map(nothing).collect()
}

impl Judging {
    pub(super) fn new(posterior: &Posterior, sample: &Sample) -> Self {
        let draws_of = |j: usize| {
            let points = sample.points.iter().step_by(JUDGES);
            points.map(|point| posterior.figures(point, j)).collect()
        };
        let mut shots = Vec::new();
        for (j, seen) in posterior.seen.iter().enumerate() {
            for (g, group) in seen.groups.iter().enumerate() {
                shots.extend((0..group.shots.len()).map(|i| [j, g, i]));
            }
        }
        Judging {
            draws: (0..posterior.seen.len()).map(draws_of).collect(),
            shots,
            judged: 0,
        }
    }

    /// Steps in all for so many shots.
    pub(super) fn steps(shots: usize) -> u64 {
        shots.div_ceil(SHOTS) as u64
    }

    pub(super) fn done(&self) -> u64 {
        Self::steps(self.judged)
    }

    pub(super) fn is_finished(&self) -> bool {
        self.judged == self.shots.len()
    }

    /// Judges some more shots.
    pub(super) fn step(&mut self, posterior: &Posterior, judged: &mut [Judged]) {
        let end = self.shots.len().min(self.judged + SHOTS);
        for &[j, g, i] in &self.shots[self.judged..end] {
            let seen = &posterior.seen[j];
            let group = &seen.groups[g];
            let (at, row) = group.shots[i];
            let draws = self.draws[j].iter();
            let chances: Vec<[f64; 3]> = draws.map(|s| seen.judge(s, group, at)).collect();
            judged[row].mishit = mean(chances.iter().map(|c| c[1]));
            judged[row].outlier = mean(chances.iter().map(|c| c[2]));
        }
        self.judged = end;
    }
}
