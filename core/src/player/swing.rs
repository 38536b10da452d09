//! One kind of stroke from one kind of lie, in the numbers the simulation reads.
use crate::noise::Noise;

/// A strike never carries less than this share of the meant carry: the far tail of the normal law
/// would otherwise send a ball backwards.
pub const LEAST_CARRY: f64 = 0.02;

/// A strike that is not solid: how much of the meant carry it flies, and how far it strays.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mishit {
    /// Share of all strokes.
    pub share: f64,
    /// Mean carry as a share of the meant carry.
    pub carry: f64,
    /// Standard deviation of the carry as a share of the meant carry.
    pub carry_sd: f64,
    /// Standard deviation to the side as a multiple of the solid strike's.
    pub side: f64,
    /// Run after landing as a share of the meant carry.
    pub run: f64,
}

/// The pattern of one kind of stroke (a club, or a chip, a pitch, ...) from one lie, prepared so that a
/// stroke costs a handful of multiplications.
///
/// Spreads at a meant carry `c` are `max(floor, slope * c)`; at the full carry they are the club's own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// The longest carry that can be meant from this lie, yards.
    pub full_carry: f64,
    /// True if the ball rolls from the start and never flies (a putter from off the green): every carry here is
    /// then a length of roll over mown ground, and there is no run after it.
    pub rolls: bool,
    /// Mean carry of a solid strike per yard of meant carry: 1, or less for a player whose solid
    /// strikes fall short of what is meant.
    pub reach: f64,
    /// Smallest standard deviation of the carry, yards.
    pub depth_floor: f64,
    /// Standard deviation of the carry per yard of meant carry.
    pub depth_slope: f64,
    /// Smallest standard deviation to the side, yards.
    pub side_floor: f64,
    /// Standard deviation to the side per yard of meant carry.
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
    /// The other strikes that are not solid: thin ones that run, and with a full swing the wild ones.
    pub thin: Mishit,
}

/// How the club met the ball.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Contact {
    /// As it should.
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
    /// Run on a fairway, yards.
    pub run: f64,
    /// True unless the strike was solid.
    pub mishit: bool,
}

impl Swing {
    /// The strike that `noise` gives when a carry of `carry` yards is meant.
    ///
    /// Solid strikes are a bivariate normal: the carry about `reach * carry`, the lateral about the
    /// bias, correlated. Mishits, picked by `noise.strike`, have a carry and a width of their own.
    /// No trigonometry: the lateral is in yards, as the pattern was measured.
    #[must_use]
    #[inline]
    pub fn strike(&self, carry: f64, noise: &Noise) -> Strike {
        let side_sd = (self.side_slope * carry).max(self.side_floor);
        let side = side_sd * (self.correlation * noise.depth + self.independence * noise.side);
        let bias = self.bias_slope * carry;
        let least = LEAST_CARRY * carry;
        let mishit = match self.contact(noise) {
            Contact::Duff => &self.duff,
            Contact::Thin => &self.thin,
            Contact::Solid => {
                let depth_sd = (self.depth_slope * carry).max(self.depth_floor);
                let carry = (self.reach * carry + depth_sd * noise.depth).max(least);
                return Strike {
                    carry,
                    lateral: bias + side,
                    run: self.run * carry,
                    mishit: false,
                };
            }
        };
        Strike {
            carry: ((mishit.carry + mishit.carry_sd * noise.depth) * carry).max(least),
            lateral: bias + mishit.side * side,
            run: mishit.run * carry,
            mishit: true,
        }
    }

    /// How the club meets the ball under `noise`.
    #[must_use]
    #[inline]
    pub fn contact(&self, noise: &Noise) -> Contact {
        if noise.strike < self.duff.share {
            Contact::Duff
        } else if noise.strike < self.duff.share + self.thin.share {
            Contact::Thin
        } else {
            Contact::Solid
        }
    }

    /// Share of strikes that are not solid.
    #[must_use]
    pub fn mishit_share(&self) -> f64 {
        self.duff.share + self.thin.share
    }

    /// Standard deviation of a solid strike's carry when `carry` yards are meant.
    #[must_use]
    pub fn depth_sd(&self, carry: f64) -> f64 {
        (self.depth_slope * carry).max(self.depth_floor)
    }

    /// Standard deviation of a solid strike's lateral when `carry` yards are meant.
    #[must_use]
    pub fn side_sd(&self, carry: f64) -> f64 {
        (self.side_slope * carry).max(self.side_floor)
    }

    /// Mean carry over all strikes, mishits included, when `carry` yards are meant (the bound on the
    /// shortest carry left out of account).
    #[must_use]
    pub fn mean_carry(&self, carry: f64) -> f64 {
        let missed: f64 = [self.duff, self.thin]
            .iter()
            .map(|m| m.share * m.carry)
            .sum();
        carry * ((1.0 - self.mishit_share()) * self.reach + missed)
    }

    /// Mean carry plus run on a fairway over all strikes, mishits included, when `carry` yards are
    /// meant (the bound on the shortest carry left out of account).
    #[must_use]
    pub fn mean_total(&self, carry: f64) -> f64 {
        let solid = (1.0 - self.mishit_share()) * self.reach * (1.0 + self.run);
        let missed: f64 = [self.duff, self.thin]
            .iter()
            .map(|m| m.share * (m.carry + m.run))
            .sum();
        carry * (solid + missed)
    }
}
