//! A player on a hole on a day, prepared for strokes: every flight, every turf and how far each stroke goes.
//!
//! A player's own figures anchor the physics: a stroke carries what the player carries and runs, on level ground
//! of medium firmness in still air, what the player's ball runs. Physics gives the differences: wind, air,
//! height, firmness, slope, grass.

use crate::flight::{FlightFault, FlightTable, LaunchConditions, Weather};
use crate::geometry::Vector;
use crate::ground::{Ball, Firmness, Slope, Turf, run_out};
use crate::hole::{Hole, Surface};
use crate::player::{Bag, ClubId, Lie, Swing, Touch};
use std::sync::Arc;

/// What is swung.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stroke {
    /// A club from the bag, fully or in part.
    Swing(ClubId),
    /// A stroke around the green, or a punch.
    Touch(Touch),
    /// A putt at the hole.
    Putt,
}

/// A player on a hole.
#[derive(Clone, Debug)]
pub struct Setting {
    hole: Arc<Hole>,
    bag: Arc<Bag>,
    clubs: Vec<Prepared>,
    touches: [Prepared; 4],
}

/// One stroke prepared for the day.
#[derive(Clone, Debug)]
pub struct Prepared {
    /// Its flight.
    pub flight: FlightTable,
    /// What its ball meets on each surface, in the order of [`Surface::ALL`]; None where a ball stops.
    pub turfs: [Option<Turf>; 12],
    /// Rolling resistance of the ground on which the player's run was told.
    pub home_rolling: f64,
    /// How far it goes.
    pub distances: Distances,
}

/// Carry and run together, by carry: what a player plans with, on level ground in still air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Distances {
    /// Carry and total at even steps of the carry, yards, both rising.
    rows: [(f64, f64); Self::ROWS],
}

impl Distances {
    const ROWS: usize = 9;

    /// The carry to mean so that carry and run come to `total` yards; beyond the longest in proportion.
    #[must_use]
    #[inline]
    pub fn carry_for(&self, total: f64) -> f64 {
        let above = self.rows.iter().position(|row| row.1 >= total);
        let i = above.unwrap_or(Self::ROWS - 1).max(1);
        let ((c0, t0), (c1, t1)) = (self.rows[i - 1], self.rows[i]);
        c0 + (c1 - c0) * (total - t0) / (t1 - t0)
    }

    /// Carry and run of a strike meant to carry `carry` yards.
    #[must_use]
    #[inline]
    pub fn total_for(&self, carry: f64) -> f64 {
        let above = self.rows.iter().position(|row| row.0 >= carry);
        let i = above.unwrap_or(Self::ROWS - 1).max(1);
        let ((c0, t0), (c1, t1)) = (self.rows[i - 1], self.rows[i]);
        t0 + (t1 - t0) * (carry - c0) / (c1 - c0)
    }

    /// Share of the total that is carry, for a total of `total` yards.
    #[must_use]
    pub fn carry_share(&self, total: f64) -> f64 {
        (self.carry_for(total) / total).clamp(0.0, 1.0)
    }
}

/// Stimpmeter reading of the green on which runs around the green are told, feet: the default of a hole.
const HOME_GREEN: f64 = 9.0;

impl Setting {
    /// Prepares a player on a hole.
    ///
    /// # Errors
    /// A club whose carry no believable launch gives.
    pub fn new(hole: Arc<Hole>, bag: Arc<Bag>) -> Result<Self, FlightFault> {
        let day = Day::of(&hole);
        let clubs = bag
            .clubs()
            .map(|club| {
                let swing = bag.swing(club, Lie::Tee);
                let launch = LaunchConditions::usual(bag.name(club), swing.full_carry)?;
                day.prepare(swing, launch, false)
            })
            .collect::<Result<_, _>>()?;
        let touch = |touch: Touch| {
            let lie = if touch == Touch::BunkerShot { Lie::Bunker } else { Lie::Fairway };
            let swing = bag.touch(touch, lie);
            let (launch, around_the_green) = match touch {
                Touch::Chip => (LaunchConditions::CHIP, true),
                Touch::Pitch => (LaunchConditions::PITCH, true),
                Touch::BunkerShot => (LaunchConditions::BUNKER_SHOT, true),
                Touch::Punch => (LaunchConditions::usual("6-iron", swing.full_carry)?.punched(), false),
            };
            day.prepare(swing, launch, around_the_green)
        };
        let [a, b, c, d] = Touch::ALL.map(touch);
        let touches = [a?, b?, c?, d?];
        Ok(Setting { hole, bag, clubs, touches })
    }

    /// The hole.
    #[must_use]
    pub fn hole(&self) -> &Hole {
        &self.hole
    }

    /// The player's strokes.
    #[must_use]
    pub fn bag(&self) -> &Bag {
        &self.bag
    }

    /// A club prepared for the day.
    #[must_use]
    #[inline]
    pub fn club(&self, club: ClubId) -> &Prepared {
        &self.clubs[usize::from(club.0)]
    }

    /// A touch prepared for the day.
    #[must_use]
    #[inline]
    pub fn touch(&self, touch: Touch) -> &Prepared {
        &self.touches[touch as usize]
    }

    /// Carry and run of the longest strike meant with a swing of this stroke, on level ground in still air.
    #[must_use]
    pub fn full_distance(&self, prepared: &Prepared, swing: &Swing) -> f64 {
        prepared.distances.total_for(swing.full_carry)
    }
}

/// The weather and the ground of a day.
struct Day {
    weather: Weather,
    firmness: Firmness,
    green_speed: f64,
}

impl Day {
    fn of(hole: &Hole) -> Self {
        Day {
            weather: Weather::default(),
            firmness: Firmness::MEDIUM,
            green_speed: hole.green_speed(),
        }
    }

    fn prepare(&self, swing: &Swing, launch: LaunchConditions, around_the_green: bool) -> Result<Prepared, FlightFault> {
        let calm = Weather { home: self.weather.home, aerodynamics: self.weather.aerodynamics, ..Weather::default() };
        let still = FlightTable::new(launch, swing.full_carry, &calm)?;
        let home = if around_the_green { (Surface::Green, HOME_GREEN) } else { (Surface::Fairway, HOME_GREEN) };
        let give = anchor(&still, swing, home);
        let turf = |surface| Turf::on(surface, self.firmness, self.green_speed).map(|t| t.giving(give));
        let flight = if self.weather == calm { still.clone() } else { FlightTable::new(launch, swing.full_carry, &self.weather)? };
        let turfs = Surface::ALL.map(turf);
        let planned = turfs[home.0 as usize].unwrap_or(Turf::fairway(self.firmness));
        Ok(Prepared {
            flight,
            turfs,
            home_rolling: Turf::on(home.0, Firmness::MEDIUM, home.1).map_or(0.2, Turf::rolling),
            distances: distances(&still, swing.full_carry, &planned),
        })
    }
}

/// Yards that a ball runs on level turf after a calm flight of `carry` yards.
fn level_run(flight: &FlightTable, carry: f64, turf: &Turf) -> f64 {
    let track = flight.track(carry, Vector::y());
    let ball = Ball::landing(&track.landing, Vector::y());
    run_out(&ball, &Slope::LEVEL, turf).rest.y
}

/// Factors on the give of turf that are believable for a player's ball.
const LEAST_GIVE: f64 = 0.45;
const MOST_GIVE: f64 = 2.2;

/// The factor on the give of all turf with which the full stroke runs what the player's ball runs at home;
/// the nearest that is believable if none does.
fn anchor(flight: &FlightTable, swing: &Swing, (surface, green_speed): (Surface, f64)) -> f64 {
    let wanted = swing.run * swing.full_carry;
    let Some(turf) = Turf::on(surface, Firmness::MEDIUM, green_speed) else { return 1.0 };
    let run = |give: f64| level_run(flight, swing.full_carry, &turf.giving(give));
    // More give, less run.
    let (mut low, mut high) = (LEAST_GIVE, MOST_GIVE);
    for _ in 0..30 {
        let middle = 0.5 * (low + high);
        if run(middle) > wanted { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// The table of distances up to the full carry, made to rise.
fn distances(flight: &FlightTable, full_carry: f64, turf: &Turf) -> Distances {
    let mut rows = [(0.0, 0.0); Distances::ROWS];
    for i in 1..Distances::ROWS {
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let carry = full_carry * i as f64 / (Distances::ROWS - 1) as f64;
        let total = carry + level_run(flight, carry, turf);
        rows[i] = (carry, total.max(rows[i - 1].1 + 0.2 * (carry - rows[i - 1].0)));
    }
    Distances { rows }
}
