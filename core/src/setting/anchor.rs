//! How a player's own run is met: by how much turf gives under that player's ball.
use crate::flight::FlightTable;
use crate::geometry::Vector;
use crate::ground::{Ball, Slope, Turf, run_out};
use crate::hole::{Firmness, Surface};

/// The ground on which a player's run is told; of medium firmness.
#[derive(Clone, Copy)]
pub(super) struct Home {
    pub(super) surface: Surface,
    /// Stimpmeter reading of its greens, feet.
    pub(super) green_speed: f64,
}

impl Home {
    fn turf(self) -> Option<Turf> {
        Turf::on(self.surface, Firmness::MEDIUM, self.green_speed)
    }

    /// Its rolling resistance.
    pub(super) fn rolling(self) -> f64 {
        self.turf().map_or(1.0, Turf::rolling)
    }
}

/// Factors on the give of turf that are believable for one player's ball: spin and angle differ from the usual.
const LEAST_GIVE: f64 = 0.4;
const MOST_GIVE: f64 = 3.0;

/// Where a ball comes to rest on level turf after a flight meant to carry `carry` yards along `forward`: yards from
/// where it landed.
pub(super) fn level_run(flight: &FlightTable, carry: f64, forward: Vector, turf: &Turf) -> Vector {
    let track = flight.track(carry, forward);
    run_out(&Ball::landing(&track.landing, forward), &Slope::LEVEL, turf).rest
}

/// The side slope on which the kick is measured.
const SIDE: f64 = 0.04;
/// Runs shorter than this, yards, tell nothing of it.
const LEAST_RUN: f64 = 0.5;

/// Yards to the downhill side for every yard of level run and unit of side slope, after a flight that carries `carry`.
pub(super) fn side_kick(flight: &FlightTable, carry: f64, turf: &Turf) -> f64 {
    let run = level_run(flight, carry, Vector::y(), turf).y;
    if !(run > LEAST_RUN) {
        return 0.0;
    }
    let track = flight.track(carry, Vector::y());
    let slope = Slope::rising(Vector::new(-SIDE, 0.0));
    let aside = run_out(&Ball::landing(&track.landing, Vector::y()), &slope, turf)
        .rest
        .x;
    (aside / (SIDE * run)).max(0.0)
}

/// The factor on the give of all turf with which a stroke that carries `carry` yards runs `run` yards at home; the
/// nearest that is believable if none does.
pub(super) fn anchor(flight: &FlightTable, carry: f64, run: f64, home: Home) -> f64 {
    let Some(turf) = home.turf() else { return 1.0 };
    let runs = |give: f64| level_run(flight, carry, Vector::y(), &turf.giving(give)).y;
    // More give, less run.
    let (mut low, mut high) = (LEAST_GIVE, MOST_GIVE);
    for _ in 0..24 {
        let middle = 0.5 * (low + high);
        if runs(middle) > run {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
