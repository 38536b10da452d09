//! One kind of stroke from one kind of lie, in the numbers the simulation reads.
use crate::noise::Noise;

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
    /// Run on a fairway per yard of carry.
    pub run: f64,
    /// Strikes that come up short (fat, topped, off the toe or heel).
    pub duff: Mishit,
    /// Strikes that go too far along the ground (thin).
    pub thin: Mishit,
}

/// What left the club: yards in the frame of the aim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strike {
    /// Carry along the aim, yards (never negative).
    pub carry: f64,
    /// Lateral at landing, yards, positive to the right of the aim.
    pub lateral: f64,
    /// Run on a fairway, yards.
    pub run: f64,
    /// True unless the strike was solid.
    pub mishit: bool,
}

impl Swing {
    /// The strike that `noise` gives when a carry of `carry` yards is meant.
    #[must_use]
    pub fn strike(&self, carry: f64, noise: &Noise) -> Strike {
        let _ = (carry, noise);
        todo!()
    }
}
