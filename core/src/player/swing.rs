//! One kind of stroke from one kind of lie, in the numbers the simulation reads.
use super::beyond::Beyond;
use crate::figures::strike::{LEAST_CARRY, MISHIT};
use crate::noise::Noise;

/// One way to miss a strike, told by its worst: how much of the meant carry that flies, and how far it strays.
///
/// Between flush and the worst there is no gap. A strike is missed by some severity, a uniform on [0, 1] among those that
/// are missed this way, and lies a power of it from flush to the worst: slight misses are many and bad ones few.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mishit {
    /// Share of all strokes that are missed this way at least half as badly as can be; as many are missed less.
    pub share: f64,
    /// Mean carry of the worst as a share of a flush strike's.
    pub carry: f64,
    /// Standard deviation of its carry as a share of a flush strike's carry.
    pub carry_sd: f64,
    /// Standard deviation to the side as a multiple of a flush strike's.
    pub side: f64,
    /// Run after landing as a share of a flush strike's carry.
    pub run: f64,
    /// The power of the severity: the higher, the more of the misses are slight; with 0 all are the worst.
    pub mildness: f64,
}

impl Mishit {
    /// How far a strike lies from flush (0) to the worst (1) at a severity.
    #[must_use]
    #[inline]
    pub(crate) fn depth(&self, severity: f64) -> f64 {
        if self.mildness == 2.0 {
            severity * severity
        } else {
            libm::pow(severity, self.mildness)
        }
    }

    /// How far the run of a strike lies from a flush one's (0) to the worst (1) at a severity: from the first mishit on. What is
    /// missed less runs as the ground will have it.
    #[must_use]
    #[inline]
    pub(crate) fn rolled(&self, severity: f64) -> f64 {
        if severity >= MISHIT {
            self.depth((severity - MISHIT) / (1.0 - MISHIT))
        } else {
            0.0
        }
    }

    /// Share of all strokes that are missed this way, however little.
    pub(crate) fn all(&self) -> f64 {
        self.share / MISHIT
    }
}

/// The pattern of one kind of stroke (a club, or a chip, a pitch, ...) from one lie, prepared so that a
/// stroke costs a handful of multiplications.
///
/// The spread in depth at a meant carry `c` is `floor + slope * c`, to the side `slope * c`; at the full carry they are the
/// club's own. So part of a long club's swing is no more exact than a shorter club's full one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// The longest carry that can be meant from this lie, yards.
    pub full_carry: f64,
    /// True if the ball rolls from the start and never flies (a putter from off the green): every carry here is
    /// then a length of roll over mown ground, and there is no run after it.
    pub rolls: bool,
    /// Carry of a flush strike per yard of meant carry: what is meant is the middle of the pattern, and as misses come
    /// up short a flush strike goes a little farther.
    pub flush: f64,
    /// Standard deviation of the carry of flush strikes of next to no length, yards.
    pub depth_floor: f64,
    /// What is added to it per yard of meant carry.
    pub depth_slope: f64,
    /// How far that spread reaches beyond the middle, as a share of how far short of it.
    pub beyond: Beyond,
    /// Standard deviation to the side of flush strikes per yard of meant carry.
    pub side_slope: f64,
    /// Mean lateral per yard of meant carry (positive to the right of the aim).
    pub bias_slope: f64,
    /// Correlation of carry and lateral.
    pub correlation: f64,
    /// `sqrt(1 - correlation^2)`: the part of the lateral that the carry does not explain.
    pub independence: f64,
    /// Run on a fairway per yard of carry.
    pub run: f64,
    /// Strikes that come up short (fat, topped, off the toe or heel).
    pub duff: Mishit,
    /// The other strikes that are not flush: thin ones that run, and with a full swing the wild ones.
    pub thin: Mishit,
}

/// How the club met the ball.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Contact {
    /// As it should, or nearly.
    Solid,
    /// Short: fat, topped, off the toe or heel; around the green a chunk.
    Duff,
    /// Otherwise not solid: around the green thin, and running on.
    Thin,
}

/// What left the club: yards in the frame of the aim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strike {
    /// Carry along the aim, yards (never negative); for a swing that rolls, its roll.
    pub carry: f64,
    /// Lateral at landing (at the end of such a roll), yards, positive to the right of the aim.
    pub lateral: f64,
    /// Run on a fairway, yards: of a mishit the run that it has, of others what it would be there.
    pub run: f64,
    /// True of a strike that was missed at least half as badly as can be.
    pub mishit: bool,
}

/// How a strike is missed under some luck, and how badly.
#[derive(Clone, Copy)]
struct Missed<'a> {
    way: &'a Mishit,
    severity: f64,
}

impl Missed<'_> {
    #[inline]
    fn is_mishit(&self) -> bool {
        self.severity >= MISHIT
    }
}

impl Swing {
    /// The strike that `noise` gives when a carry of `carry` yards is meant.
    ///
    /// Flush strikes are a bivariate normal, the carry about `flush * carry`, the lateral about the bias, correlated; but
    /// beyond the middle they lie closer to it, by `beyond`. The others are picked by `noise.strike`, and everything about
    /// them lies between flush and the worst of their kind. No trigonometry: the lateral is in yards, as the pattern was
    /// measured.
    #[must_use]
    #[inline]
    pub fn strike(&self, carry: f64, noise: &Noise) -> Strike {
        let side_sd = self.side_slope * carry;
        let side = side_sd * (self.correlation * noise.depth + self.independence * noise.side);
        let depth_sd = self.depth_sd(carry);
        let off = depth_sd * self.beyond.bent(noise.depth);
        let (bias, least) = (self.bias_slope * carry, LEAST_CARRY * carry);
        let flush = self.flush * carry;
        let Some(missed) = self.missed(noise.strike) else {
            let carry = (flush + off).max(least);
            return Strike {
                carry,
                lateral: bias + side,
                run: self.run * carry,
                mishit: false,
            };
        };
        let Missed { way, severity } = missed;
        let depth = way.depth(severity);
        let between = |flush: f64, worst: f64| flush + depth * (worst - flush);
        let carry =
            flush * between(1.0, way.carry) + between(off, way.carry_sd * flush * noise.depth);
        Strike {
            carry: carry.max(least),
            lateral: bias + between(1.0, way.side) * side,
            run: flush * (self.run + way.rolled(severity) * (way.run - self.run)),
            mishit: missed.is_mishit(),
        }
    }

    /// How a strike is missed: the lower the luck within a kind, the worse. None for a flush one.
    #[inline]
    fn missed(&self, luck: f64) -> Option<Missed<'_>> {
        let mut from = 0.0;
        for way in [&self.duff, &self.thin] {
            let all = way.all();
            if luck < from + all {
                let severity = 1.0 - (luck - from) / all;
                return Some(Missed { way, severity });
            }
            from += all;
        }
        None
    }

    /// How the club meets the ball under `noise`.
    #[must_use]
    #[inline]
    pub fn contact(&self, noise: &Noise) -> Contact {
        match self.missed(noise.strike) {
            Some(missed) if missed.is_mishit() => {
                if noise.strike < self.duff.all() {
                    Contact::Duff
                } else {
                    Contact::Thin
                }
            }
            _ => Contact::Solid,
        }
    }

    /// Share of strikes that are mishits.
    #[must_use]
    pub fn mishit_share(&self) -> f64 {
        self.duff.share + self.thin.share
    }

    /// Standard deviation of a flush strike's carry when `carry` yards are meant, by those short of the middle.
    #[must_use]
    #[inline]
    pub fn depth_sd(&self, carry: f64) -> f64 {
        self.depth_floor + self.depth_slope * carry
    }

    /// Standard deviation of a flush strike's lateral when `carry` yards are meant.
    #[must_use]
    pub fn side_sd(&self, carry: f64) -> f64 {
        self.side_slope * carry
    }

    /// Mean carry over all strikes, mishits included, when `carry` yards are meant (the bound on the
    /// shortest carry left out of account).
    #[must_use]
    pub fn mean_carry(&self, carry: f64) -> f64 {
        let worst = |way: &Mishit| way.all() / (1.0 + way.mildness);
        let (duff, thin) = (worst(&self.duff), worst(&self.thin));
        let lost = duff * (1.0 - self.duff.carry) + thin * (1.0 - self.thin.carry);
        let sunk = self.depth_sd(carry) * self.beyond.moments().0;
        self.flush * carry * (1.0 - lost) + sunk * (1.0 - duff - thin)
    }

    /// Mean carry plus run on a fairway over all strikes, mishits included, when `carry` yards are
    /// meant (the bound on the shortest carry left out of account).
    #[must_use]
    pub fn mean_total(&self, carry: f64) -> f64 {
        let more = |way: &Mishit| way.share / (1.0 + way.mildness) * (way.run - self.run);
        let run = self.flush * carry * (self.run + more(&self.duff) + more(&self.thin));
        // A flush ball runs on in proportion to how far it flew.
        let flush = 1.0 - self.duff.all() - self.thin.all();
        let sunk = self.depth_sd(carry) * self.beyond.moments().0 * flush * self.run;
        self.mean_carry(carry) + run + sunk
    }

    /// The same swing told by the middle of its pattern instead of by its flush strikes.
    pub(super) fn told_by_its_middle(self) -> Swing {
        if self.mishit_share() == 0.0 {
            return self;
        }
        let depth_sd = self.depth_sd(self.full_carry) / self.full_carry;
        let middle = self.middle(depth_sd);
        Swing {
            full_carry: self.full_carry * middle,
            flush: 1.0 / middle,
            depth_slope: self.depth_slope / middle,
            side_slope: self.side_slope / middle,
            bias_slope: self.bias_slope / middle,
            ..self
        }
    }

    /// Half of all strikes carry less than this share of a flush strike's carry: the middle of the pattern, when the
    /// standard deviation of flush strikes is the share `depth_sd` of it.
    fn middle(&self, depth_sd: f64) -> f64 {
        let (mut low, mut high) = (0.5, 1.0);
        for _ in 0..HALVINGS {
            let at = 0.5 * (low + high);
            if self.share_below(at, depth_sd) < 0.5 {
                low = at;
            } else {
                high = at;
            }
        }
        0.5 * (low + high)
    }

    /// Share of strikes that carry less than a share of a flush strike's carry; over severities by the midpoint rule.
    fn share_below(&self, at: f64, depth_sd: f64) -> f64 {
        // Of strikes about a mean, whose bent luck and even luck have these spreads.
        let below = |mean: f64, bent: f64, even: f64| {
            let sd = (bent + even).max(1e-9);
            let beyond = Beyond(1.0 - bent / sd * (1.0 - self.beyond.0));
            let away = beyond.luck((at - mean) / sd);
            0.5 * libm::erfc(-away * std::f64::consts::FRAC_1_SQRT_2)
        };
        let missed = |way: &Mishit| {
            let mean: f64 = (0..SEVERITIES)
                .map(|k| {
                    let depth = way.depth((f64::from(k) + 0.5) / f64::from(SEVERITIES));
                    let mean = 1.0 + depth * (way.carry - 1.0);
                    below(mean, (1.0 - depth) * depth_sd, depth * way.carry_sd)
                })
                .sum();
            way.all() * mean / f64::from(SEVERITIES)
        };
        let flush = 1.0 - self.duff.all() - self.thin.all();
        flush * below(1.0, depth_sd, 0.0) + missed(&self.duff) + missed(&self.thin)
    }
}

/// Halvings that find the middle of a pattern, and severities over which it is judged.
const HALVINGS: u32 = 20;
const SEVERITIES: u32 = 8;
