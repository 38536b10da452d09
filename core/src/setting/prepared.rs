//! One stroke prepared for a day.
use super::Distances;
use crate::flight::FlightTable;
use crate::geometry::{Vector, right_of};
use crate::ground::Turfs;

/// One stroke prepared for a day.
#[derive(Clone, Debug, PartialEq)]
pub struct Prepared {
    /// Its flight.
    pub flight: FlightTable,
    /// What its ball meets on each surface.
    pub turfs: Turfs,
    /// False for a ball that stops dead where it lands (a run of 0).
    pub runs: bool,
    /// Rolling resistance of the ground on which the player's run was told.
    pub home_rolling: f64,
    /// Rolling resistance of the same kind of ground on the day.
    pub rolling: f64,
    /// Tangent of the launch angle: how much a side slope turns the ball.
    pub lift: f64,
    /// Yards to the downhill side for every yard of run and unit of side slope where a full stroke lands.
    pub kick: f64,
    /// How far it goes on the level ground of the day.
    pub distances: Distances,
    /// How far it goes on level ground of medium firmness in still air: what the player knows by heart.
    pub home: Distances,
}

/// The slope of the ground changes a planned run by no more than these factors.
const RUN_FACTORS: (f64, f64) = (0.4, 2.5);

/// Looks that settle what to mean on a slope.
const MEANT_LOOKS: usize = 4;

impl Prepared {
    /// The carry to mean, and how far to the right of the aim the ball will end, for a stroke along `forward` to end
    /// `distance` yards along it and `rise` yards higher, on ground that rises by `slope`.
    #[must_use]
    pub(super) fn meant(
        &self,
        distance: f64,
        forward: Vector,
        rise: f64,
        slope: Vector,
    ) -> (f64, f64) {
        let along = self.distances.along(forward);
        let mut carry = self.distances.carry_for(distance, along);
        if rise == 0.0 && slope == Vector::zeros() {
            return (carry, self.distances.drift_for(carry, forward));
        }
        let factor = self.run_factor(slope.dot(&forward));
        let mut aside = 0.0;
        let bearing = self.flight.bearing(forward);
        for _ in 0..MEANT_LOOKS {
            let track = bearing.track(carry);
            let share = self.flight.share_to(&track, rise);
            let total = self.distances.total_for(carry, along);
            let run = (total - track.carry).max(0.0);
            let ends = track.carry * share + run * factor;
            let across = slope.dot(&right_of(forward));
            aside = self.flight.drift(&track, share) - track.drift - across * self.kick * run;
            carry = self
                .distances
                .carry_for(total + distance - ends, along)
                .max(0.02 * carry);
        }
        (carry, aside + self.distances.drift_for(carry, forward))
    }

    /// How much longer a run is on ground that rises by `uphill` along it: rolling uphill is held by the slope as well
    /// as by the turf.
    fn run_factor(&self, uphill: f64) -> f64 {
        if uphill <= -self.rolling {
            return RUN_FACTORS.1;
        }
        let factor = self.rolling / (self.rolling + uphill).max(1e-3);
        factor.clamp(RUN_FACTORS.0, RUN_FACTORS.1)
    }
}
