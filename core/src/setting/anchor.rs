//! How a player's own run is met: by how that player's ball comes down.
use crate::figures::ground::LANDINGS;
use crate::flight::{FlightTable, Landing};
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

/// How a player's ball comes down next to what the flight of its launch says: what the player's own run tells.
///
/// A run that differs from what the usual flight would make of it is put down to the landing, not to the turf: usual
/// launches are guesses, and the paths of slow balls come down too flat. A ball that runs less comes in at less pace,
/// one that runs more with less backspin, and if that is not enough at more pace. So a following wind, which adds to
/// the pace, adds to the run of any player.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LandingFactors {
    /// Factor on the speed along the ground.
    pub pace: f64,
    /// Factor on the backspin.
    pub backspin: f64,
}

impl LandingFactors {
    /// The usual flight's.
    pub(super) const USUAL: Self = LandingFactors {
        pace: 1.0,
        backspin: 1.0,
    };

    /// The landing with these factors.
    #[must_use]
    #[inline]
    pub fn on(self, landing: Landing) -> Landing {
        Landing {
            forward_mps: self.pace * landing.forward_mps,
            side_mps: self.pace * landing.side_mps,
            backspin_rad_s: self.backspin * landing.backspin_rad_s,
            ..landing
        }
    }

    /// One way from the least run to the most, as [`LANDINGS`] tells it: at less than the usual pace, as usual at 1, without
    /// backspin at 2, then faster.
    fn at(place: f64) -> Self {
        LandingFactors {
            pace: place.min(1.0) + (place - 2.0).max(0.0),
            backspin: (2.0 - place).clamp(0.0, 1.0),
        }
    }
}

/// Places looked at before the closest search: a ball that comes in very fast and low is thrown up by the turf, so that
/// beyond some pace it runs less.
const PLACES: u32 = 22;

/// Where a ball comes to rest on level turf after a flight meant to carry `carry` yards along `forward`: yards from
/// where it landed.
pub(super) fn level_run(
    flight: &FlightTable,
    carry: f64,
    forward: Vector,
    factors: LandingFactors,
    turf: &Turf,
) -> Vector {
    let landing = factors.on(flight.track(carry, forward).landing);
    run_out(&Ball::landing(&landing, forward), &Slope::LEVEL, turf).rest
}

/// The side slope on which the kick is measured.
const SIDE: f64 = 0.04;
/// Runs shorter than this, yards, tell nothing of it.
const LEAST_RUN: f64 = 0.5;

/// Yards to the downhill side for every yard of level run and unit of side slope, after a flight that carries `carry`.
pub(super) fn side_kick(
    flight: &FlightTable,
    carry: f64,
    factors: LandingFactors,
    turf: &Turf,
) -> f64 {
    let run = level_run(flight, carry, Vector::y(), factors, turf).y;
    if !(run > LEAST_RUN) {
        return 0.0;
    }
    let landing = factors.on(flight.track(carry, Vector::y()).landing);
    let slope = Slope::rising(Vector::new(-SIDE, 0.0));
    let aside = run_out(&Ball::landing(&landing, Vector::y()), &slope, turf)
        .rest
        .x;
    (aside / (SIDE * run)).max(0.0)
}

/// The factors with which a stroke that carries `carry` yards runs `run` yards at home; the nearest that are believable
/// if none does.
pub(super) fn anchor(flight: &FlightTable, carry: f64, run: f64, home: Home) -> LandingFactors {
    let Some(turf) = home.turf() else {
        return LandingFactors::USUAL;
    };
    let runs = |place: f64| {
        let factors = LandingFactors::at(place);
        level_run(flight, carry, Vector::y(), factors, &turf).y
    };
    let (short, long) = LANDINGS;
    let step = (long - short) / f64::from(PLACES);
    let mut longest = (short, runs(short));
    for k in 1..=PLACES {
        if longest.1 >= run {
            break;
        }
        let place = short + step * f64::from(k);
        let there = runs(place);
        if there >= run {
            let place = between(place - step, place, |place| runs(place) < run);
            return LandingFactors::at(place);
        }
        if there > longest.1 {
            longest = (place, there);
        }
    }
    LandingFactors::at(longest.0)
}

/// The place between two where `before` turns false, by halving.
fn between(mut low: f64, mut high: f64, before: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..24 {
        let middle = 0.5 * (low + high);
        if before(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
