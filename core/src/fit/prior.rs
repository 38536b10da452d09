//! What a level tells about one golfer: how far players of a level differ, and how alike one player's clubs are.
use super::linear::{Square, Triangle};
use crate::figures::differences as figures;
use crate::figures::strike::MISHIT;
use crate::player::ClubParts;

/// How many figures a club's pattern has.
pub(super) const FIGURES: usize = 6;

/// The figures of one club on the scales on which they are fitted, where any number is allowed: log of the carry,
/// log of the carry's spread per yard of carry, lateral bias per yard of carry, log of the lateral spread per
/// yard of carry, inverse hyperbolic tangent of the correlation, log odds of a strike that is not flush.
pub(super) type Scaled = [f64; FIGURES];

/// Positions in [`Scaled`].
pub(super) const CARRY: usize = 0;
pub(super) const CARRY_SD: usize = 1;
pub(super) const BIAS: usize = 2;
pub(super) const LATERAL_SD: usize = 3;
pub(super) const CORRELATION: usize = 4;
pub(super) const MISHITS: usize = 5;

/// How far each figure of a player strays from that of the level, in the order of [`Scaled`].
const SPREADS: [figures::Spread; FIGURES] = [
    figures::CARRY,
    figures::SPREAD,
    figures::BIAS,
    figures::SPREAD,
    figures::CORRELATION,
    figures::MISHITS,
];

/// Smallest spread per yard of carry and smallest mishit share that a fit starts from: a club that was called
/// perfect may prove otherwise.
const LEAST_SPREAD: f64 = 0.005;
const LEAST_MISHITS: f64 = 0.005;

/// The covariance of one figure's deviations from the level over the clubs of a bag.
pub(super) fn covariance(figure: usize, clubs: &[ClubParts]) -> Square {
    let figures::Spread { player, like, club } = SPREADS[figure];
    let logs: Vec<f64> = clubs.iter().map(|c| libm::log(c.carry)).collect();
    Square::of(clubs.len(), |i, j| {
        let apart = (logs[i] - logs[j]) / figures::LIKE;
        let own = if i == j { club * club } else { 0.0 };
        player * player + like * like * libm::exp(-0.5 * apart * apart) + own
    })
}

/// How exactly a known figure is known, as a standard deviation on its scale: nothing to speak of, but enough for what is
/// left of a covariance to be inverted.
const EXACT: f64 = 1e-3;

/// What is left of a covariance when the deviations of the clubs in `known` are known (the covariance of a normal law given
/// some of its parts).
pub(super) fn given(covariance: &Square, known: &[usize]) -> Square {
    let mut told = covariance.part(known);
    (0..known.len()).for_each(|i| told.add(i, i, EXACT * EXACT));
    let Some(triangle) = told.triangle() else {
        return covariance.clone();
    };
    let shared: Vec<Vec<f64>> = (0..covariance.size())
        .map(|club| {
            let mut row: Vec<f64> = known.iter().map(|&k| covariance.at(club, k)).collect();
            triangle.forward(&mut row);
            row
        })
        .collect();
    Square::of(covariance.size(), |i, j| {
        covariance.at(i, j) - super::linear::dot(&shared[i], &shared[j])
    })
}

/// A club's figures on their scales: minus infinity for a spread or share of zero.
pub(super) fn scaled(club: &ClubParts) -> Scaled {
    [
        libm::log(club.carry),
        libm::log(club.carry_sd / club.carry),
        club.lateral_bias / club.carry,
        libm::log(club.lateral_sd / club.carry),
        libm::atanh(club.correlation),
        libm::log(club.mishit_share / (MISHIT - club.mishit_share)),
    ]
}

/// The same, with spreads and shares that shots can raise.
pub(super) fn scaled_for_shots(club: &ClubParts) -> Scaled {
    let mut scaled = scaled(club);
    for at in [CARRY_SD, LATERAL_SD] {
        scaled[at] = scaled[at].max(libm::log(LEAST_SPREAD));
    }
    scaled[MISHITS] = scaled[MISHITS].max(libm::log(LEAST_MISHITS));
    scaled
}

/// The six figures in yards and shares, in the order of [`Scaled`].
pub(super) fn natural(s: &Scaled) -> [f64; FIGURES] {
    let carry = libm::exp(s[CARRY]);
    [
        carry,
        carry * libm::exp(s[CARRY_SD]),
        carry * s[BIAS],
        carry * libm::exp(s[LATERAL_SD]),
        libm::tanh(s[CORRELATION]),
        MISHIT * share(s[MISHITS]),
    ]
}

/// The share of given log odds.
pub(super) fn share(log_odds: f64) -> f64 {
    1.0 / (1.0 + libm::exp(-log_odds))
}

/// A club with other figures; what is not fitted stays as it was.
pub(super) fn with_figures(club: &ClubParts, s: &Scaled) -> ClubParts {
    let [
        carry,
        carry_sd,
        lateral_bias,
        lateral_sd,
        correlation,
        mishit_share,
    ] = natural(s);
    ClubParts {
        carry,
        carry_sd,
        lateral_bias,
        lateral_sd,
        correlation,
        mishit_share,
        ..club.clone()
    }
}

/// Whether a club may have these figures; a little inside the bounds of [`crate::player::Club::new`], so that
/// rounding cannot break them.
pub(super) fn possible(s: &Scaled) -> bool {
    let spread = |log: f64| log < -std::f64::consts::LN_2 - 3e-6;
    (0.001..6.109).contains(&s[CARRY])
        && spread(s[CARRY_SD])
        && spread(s[LATERAL_SD])
        && s[BIAS].abs() < 0.2499
        && s[CORRELATION].abs() < 2.64
        && s[MISHITS] < 2.197
}

/// What some clubs' deviations tell about the others', for one figure.
pub(super) struct Regression {
    told: Vec<usize>,
    others: Vec<usize>,
    covariance: Square,
    /// Of the deviations that are told; None if there are none.
    told_triangle: Option<Triangle>,
    /// Of what is left uncertain in the others; None if there are none.
    rest_triangle: Option<Triangle>,
}

impl Regression {
    /// Prepares the normal law of the other clubs given those in `told`.
    pub(super) fn new(covariance: Square, told: &[usize]) -> Self {
        let others: Vec<usize> = (0..covariance.size())
            .filter(|i| !told.contains(i))
            .collect();
        let told_triangle = covariance.part(told).triangle();
        let rest = Square::of(others.len(), |i, j| {
            let shared = told_triangle.as_ref().map_or(0.0, |triangle| {
                let mut a: Vec<f64> = told.iter().map(|&t| covariance.at(others[i], t)).collect();
                let mut b: Vec<f64> = told.iter().map(|&t| covariance.at(others[j], t)).collect();
                triangle.forward(&mut a);
                triangle.forward(&mut b);
                super::linear::dot(&a, &b)
            });
            covariance.at(others[i], others[j]) - shared
        });
        Regression {
            told: told.to_vec(),
            rest_triangle: rest.triangle(),
            others,
            covariance,
            told_triangle,
        }
    }

    /// Deviations of all clubs: those told as they are, the others drawn with `normal`, or at their mean if it gives
    /// zeros.
    pub(super) fn complete(&self, told: &[f64], mut normal: impl FnMut() -> f64) -> Vec<f64> {
        let mut all = vec![0.0; self.covariance.size()];
        for (&at, &value) in self.told.iter().zip(told) {
            all[at] = value;
        }
        let weights = self.told_triangle.as_ref().map(|t| t.solve(told));
        let luck: Vec<f64> = self.others.iter().map(|_| normal()).collect();
        let strayed = self
            .rest_triangle
            .as_ref()
            .map_or_else(|| vec![0.0; luck.len()], |t| t.times(&luck));
        for (&at, strayed) in self.others.iter().zip(strayed) {
            let mean: f64 = weights.as_ref().map_or(0.0, |weights| {
                let shared = self.told.iter().map(|&t| self.covariance.at(at, t));
                shared.zip(weights).map(|(c, w)| c * w).sum()
            });
            all[at] = mean + strayed;
        }
        all
    }
}
