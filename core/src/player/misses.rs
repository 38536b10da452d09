//! How a golfer's strikes share out, and how closely the solid ones must lie for the published areas to hold.
use super::club::MishitShape;
use super::figures::LevelFigures;
use super::reference::{Reference, TEE_RUN};
use std::f64::consts::FRAC_1_SQRT_2;

/// The strikes of a golfer that are not solid, by club.
#[derive(Clone, Copy, Debug)]
pub(super) struct Misses {
    duffs: f64,
    wilds: f64,
    wild_long: f64,
    shape: MishitShape,
    /// Carry of a solid tee shot, yards.
    pub(super) driver: f64,
}

/// The strikes with one club that are not solid.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mishits {
    pub(super) duff: f64,
    pub(super) wild: f64,
    pub(super) shape: MishitShape,
}

impl Misses {
    /// The misses of a golfer whose tee shots go `tee` yards on average, all strikes counted.
    pub(super) fn new(
        (duffs, wilds): (f64, f64),
        wild_long: f64,
        wild_side: f64,
        tee: f64,
    ) -> Self {
        let mut misses = Misses {
            duffs,
            wilds,
            wild_long,
            shape: MishitShape {
                wild_side,
                ..MishitShape::default()
            },
            driver: 1.0,
        };
        let Mishits { duff, wild, .. } = misses.of_length(1.0);
        let solid = 1.0 - duff - wild;
        misses.driver = (tee - solid * TEE_RUN) / (solid + misses.length_missed(duff, wild));
        misses
    }

    /// Those of the scratch (0) or the bogey golfer (1).
    pub(super) fn of_reference(figures: &LevelFigures, reference: Reference, level: f64) -> Self {
        let tables = reference.tables();
        let handicap = level * tables.bogey;
        let skill = Reference::Men.level(handicap, figures.levelling);
        let shares = (figures.duffs.at(skill), figures.wilds.at(skill));
        let tee = tables.tee.0 + (tables.tee.1 - tables.tee.0) * level;
        Self::new(shares, figures.wild_long, figures.wild_side.at(level), tee)
    }

    /// The mishits of a club of that carry.
    pub(super) fn of(&self, carry: f64) -> Mishits {
        self.of_length((carry / self.driver).min(1.0))
    }

    fn of_length(&self, length: f64) -> Mishits {
        let wild = self.wilds * (1.0 + self.wild_long * length * length * length * length);
        let shape = MishitShape {
            duff_part: self.duffs / (self.duffs + wild),
            ..self.shape
        };
        Mishits {
            duff: self.duffs,
            wild,
            shape,
        }
    }

    /// What such shares of mishits come to, carry and run together, as a share of the carry of a solid strike.
    pub(super) fn length_missed(&self, duffs: f64, wilds: f64) -> f64 {
        let shape = &self.shape;
        duffs * (shape.duff_carry + shape.duff_run) + wilds * (shape.wild_carry + shape.wild_run)
    }

    /// Standard deviations of solid strikes, to the side and in depth, such that two thirds of all strikes end in an
    /// area around the end of a solid one that carries `carry` yards and ends after `total`; by bisection.
    pub(super) fn solid_spread(
        &self,
        (width, depth): (f64, f64),
        carry: f64,
        total: f64,
    ) -> (f64, f64) {
        let (mut low, mut high) = (0.01, 3.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if self.share_inside(middle, depth, carry, total) > 2.0 / 3.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        let scale = 0.5 * (low + high);
        (scale * width, scale * depth)
    }

    /// Share of all strikes that end in the area when solid strikes have that scale. The axes are
    /// independent; an area of sides (w, d) and deviations (k w, k d) makes both factors of the solid
    /// part the same.
    fn share_inside(&self, scale: f64, depth: f64, carry: f64, total: f64) -> f64 {
        let Mishits { duff, wild, shape } = self.of(carry);
        let across = |times: f64| within(0.5 / (scale * times.max(1e-9)));
        let missed = |mean: f64, sd: f64| {
            let middle = total - mean * carry;
            let sd = (sd * carry).max(1e-9);
            below((middle + 0.5 * depth) / sd) - below((middle - 0.5 * depth) / sd)
        };
        let solid = within(0.5 / scale);
        (1.0 - duff - wild) * solid * solid
            + duff
                * across(shape.duff_side)
                * missed(shape.duff_carry + shape.duff_run, shape.duff_carry_sd)
            + wild
                * across(shape.wild_side)
                * missed(shape.wild_carry + shape.wild_run, shape.wild_carry_sd)
    }
}

/// Probability that a standard normal lies within `z` of 0.
fn within(z: f64) -> f64 {
    libm::erf(z * FRAC_1_SQRT_2)
}

/// Probability that a standard normal lies below `z`.
fn below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}
