//! One stroke prepared for a day.
use super::level::{LevelRun, LevelRuns};
use super::{Distances, LandingFactors};
use crate::figures::ground::PLANNED_RUNS;
use crate::flight::{FlightTable, Track};
use crate::geometry::{Vector, right_of};
use crate::ground::Turf;
use crate::hole::Surface;

/// What a player plans a stroke with that is to end on one kind of ground.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// How far it goes there on the level, on the day.
    pub day: Distances,
    /// How far it goes there on level ground of medium firmness in still air: what the player knows by heart.
    pub home: Distances,
    /// Rolling resistance there on the day.
    pub rolling: f64,
}

/// One stroke prepared for a day.
#[derive(Clone, Debug)]
pub struct Prepared {
    /// Its flight.
    pub flight: FlightTable,
    /// How its ball comes down next to what the flight says: how the player's own run is met.
    pub lands: LandingFactors,
    /// False for a ball that stops dead where it lands (a run of 0).
    pub runs: bool,
    /// True for the putter from off the green, whose ball rolls from the start.
    pub rolls: bool,
    /// Rolling resistance of the ground on which the player's run was told.
    pub home_rolling: f64,
    /// The player's usual miss: yards to the right of the aim per yard of meant carry.
    pub bias: f64,
    /// Tangent of the launch angle: how much a side slope turns the ball.
    pub lift: f64,
    /// Yards to the downhill side for every yard of run and unit of side slope where a full stroke lands.
    pub kick: f64,
    /// What it is planned with for the kind of ground on which the player's run was told: fairway for a club.
    pub told: Planned,
    /// The same for a green.
    pub green: Planned,
    /// Its runs on level ground in still air.
    pub(super) level: LevelRuns,
}

/// How often a stroke on a slope is tried to find what must be meant for it to end where it should, and the error that is
/// left, yards.
const MEANT_LOOKS: usize = 4;
const MEANT_CLOSE: f64 = 0.05;

impl Prepared {
    /// What the stroke is planned with when it is to end on a surface. A ball that is to end on grass longer than
    /// fairway is planned as on fairway: it seldom comes down there.
    #[must_use]
    #[inline]
    pub fn ending_on(&self, surface: Surface) -> &Planned {
        if surface == Surface::Green {
            &self.green
        } else {
            &self.told
        }
    }

    /// The run on level ground in still air of a solid strike that carries `carry` yards, on turf that is that of a surface;
    /// None where only following the ball tells it. Hot path.
    #[inline]
    pub(crate) fn level_run(&self, carry: f64, on: (Surface, &Turf)) -> Option<LevelRun<'_>> {
        self.level.run(&self.flight, self.lands, carry, on)
    }

    /// Yards to the right of an aim along the unit vector `forward` by which a ball ends for every yard of its way, that in
    /// still air at home would end `turned` yards aside for every yard of a carry of `carry`.
    #[must_use]
    #[inline]
    pub(super) fn aside(&self, turned: f64, carry: f64, forward: Vector) -> f64 {
        if turned == 0.0 {
            return 0.0;
        }
        aside(turned, carry, &self.flight.track(carry, forward))
    }

    /// The carry to mean, and how far to the right of the aim the ball will end, for a stroke along `forward` to end
    /// `distance` yards along it and `rise` yards higher, on ground of a kind that rises by `slope`; `turned` is as in
    /// [`Prepared::aside`]. A carry that is nearly right saves looks.
    #[must_use]
    pub(super) fn meant(
        &self,
        on: &Planned,
        distance: f64,
        forward: Vector,
        (rise, slope): (f64, Vector),
        turned: f64,
        nearly: Option<f64>,
    ) -> (f64, f64) {
        let along = on.day.along(forward);
        // A yard up plays about a yard longer.
        let about = || on.day.carry_for(distance + rise, along);
        if rise == 0.0 && slope == Vector::zeros() {
            let carry = about();
            let aside = self.aside(turned, carry, forward) * distance;
            return (carry, aside + on.day.drift_for(carry, forward));
        }
        let mut carry = nearly.unwrap_or_else(about);
        let factor = on.run_factor(slope.dot(&forward));
        let mut off = 0.0;
        let bearing = self.flight.bearing(forward);
        for _ in 0..MEANT_LOOKS {
            let track = bearing.track(carry);
            let share = self.flight.share_to(&track, rise);
            let total = on.day.total_for(carry, along);
            let run = (total - track.carry).max(0.0);
            let ends = track.carry * share + run * factor;
            let across = slope.dot(&right_of(forward));
            off = self.flight.drift(&track, share) - track.drift - across * self.kick * run
                + aside(turned, carry, &track) * distance;
            // Close enough.
            if (distance - ends).abs() < MEANT_CLOSE {
                break;
            }
            carry = on
                .day
                .carry_for(total + distance - ends, along)
                .max(0.02 * carry);
        }
        (carry, off + on.day.drift_for(carry, forward))
    }
}

/// See [`Prepared::aside`]; for a stroke whose flight is known.
#[inline]
fn aside(turned: f64, carry: f64, track: &Track) -> f64 {
    turned * track.swerve * carry / track.carry.max(1.0)
}

impl Planned {
    /// How much longer a run is on ground that rises by `uphill` along it: rolling uphill is held by the slope as well
    /// as by the turf.
    fn run_factor(&self, uphill: f64) -> f64 {
        if uphill <= -self.rolling {
            return PLANNED_RUNS.1;
        }
        let factor = self.rolling / (self.rolling + uphill).max(1e-3);
        factor.clamp(PLANNED_RUNS.0, PLANNED_RUNS.1)
    }
}
