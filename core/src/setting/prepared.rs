//! One stroke prepared for a day.
use super::Distances;
use crate::flight::FlightTable;
use crate::geometry::Vector;
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
    /// How far it goes on the level ground of the day.
    pub distances: Distances,
    /// How far it goes on level ground of medium firmness in still air: what the player knows by heart.
    pub home: Distances,
}

/// The slope of the ground changes a planned run by no more than these factors.
const RUN_FACTORS: (f64, f64) = (0.4, 2.5);

impl Prepared {
    /// The carry to mean, and the drift to the right, for a stroke along `forward` to end `distance` yards away, `rise`
    /// yards higher, where the ground rises by `uphill` along it.
    #[must_use]
    pub(super) fn meant(
        &self,
        distance: f64,
        forward: Vector,
        rise: f64,
        uphill: f64,
    ) -> (f64, f64) {
        let along = self.distances.along(forward);
        // Rolling uphill is held by the slope as well as by the turf.
        let factor = self.rolling / (self.rolling + uphill).max(1e-3);
        let factor = if uphill <= -self.rolling {
            RUN_FACTORS.1
        } else {
            factor
        };
        let factor = factor.clamp(RUN_FACTORS.0, RUN_FACTORS.1);
        let mut carry = self.distances.carry_for(distance, along);
        if rise != 0.0 || uphill != 0.0 {
            for _ in 0..3 {
                let track = self.flight.track(carry, forward);
                let share = self.flight.share_to(&track, rise);
                let run = (self.distances.total_for(carry, along) - track.carry).max(0.0);
                let ends = track.carry * share + run * factor;
                carry = self
                    .distances
                    .carry_for(
                        self.distances.total_for(carry, along) + distance - ends,
                        along,
                    )
                    .max(0.02 * carry);
            }
        }
        (carry, self.distances.drift_for(carry, forward))
    }
}
