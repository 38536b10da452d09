//! The weather and the ground of a day, and what a stroke becomes under them.
use super::anchor::{Home, anchor, level_run, side_kick};
use super::distances::Distances;
use super::level::LevelRuns;
use super::{LandingFactors, Planned, Prepared, launch_of};
use crate::figures::hole::GREEN_SPEED_FT;
use crate::figures::short_game::{USUAL_CHIP, USUAL_PITCH, USUAL_PUNCH, USUAL_SPLASH};
use crate::flight::{FlightFault, FlightTable, LaunchConditions, Weather};
use crate::geometry::Vector;
use crate::ground::Turfs;
use crate::hole::{Firmness, Hole, Surface};
use crate::player::{Bag, Club, Lie, Swing, Touch};

/// Where a player's run is told for a club: fairway.
const FAIRWAY: Home = Home {
    surface: Surface::Fairway,
    green_speed: GREEN_SPEED_FT,
};
/// Where it is told for a stroke around the green: a medium green.
const GREEN: Home = Home {
    surface: Surface::Green,
    green_speed: GREEN_SPEED_FT,
};

/// The lie that a stroke around the green, or a punch, is prepared from.
pub(super) fn lie_of(touch: Touch) -> Lie {
    match touch {
        Touch::BunkerShot => Lie::Bunker,
        _ => Lie::Fairway,
    }
}

/// A day on a hole.
pub(super) struct Day {
    weather: Weather,
    turfs: Turfs,
}

impl Day {
    pub(super) fn of(hole: &Hole) -> Result<Self, FlightFault> {
        let day = hole.conditions();
        Ok(Day {
            weather: Weather::of(day)?,
            turfs: Turfs::of(day.firmness, hole.green_speed()),
        })
    }

    /// What a ball meets on every surface.
    pub(super) fn turfs(&self) -> &Turfs {
        &self.turfs
    }

    /// True without wind.
    pub(super) fn is_still(&self) -> bool {
        self.weather.wind.mph() == 0.0
    }

    /// A full or partial swing with a club.
    pub(super) fn club(&self, swing: &Swing, club: &Club) -> Result<Prepared, FlightFault> {
        let carry = swing.full_carry * swing.flush;
        let launch = LaunchConditions::of_club(club, carry)?;
        self.prepare(swing, launch, carry, FAIRWAY)
    }

    /// A stroke around the green, or a punch.
    pub(super) fn touch(&self, bag: &Bag, touch: Touch) -> Result<Prepared, FlightFault> {
        let swing = bag.touch(touch, lie_of(touch));
        let launch = launch_of(touch, swing.full_carry)?;
        // A stroke around the green is told at the length it mostly has.
        let (usual, home) = match touch {
            Touch::Putter => return self.roll(swing, launch),
            Touch::Chip => (USUAL_CHIP, GREEN),
            Touch::Pitch => (USUAL_PITCH, GREEN),
            Touch::Lob | Touch::BunkerShot => (USUAL_SPLASH, GREEN),
            Touch::Punch => (USUAL_PUNCH * swing.full_carry, FAIRWAY),
        };
        self.prepare(swing, launch, usual.min(swing.full_carry), home)
    }

    /// The putter from off the green. Its ball rolls: neither wind nor a slope under it turns the stroke, and what is
    /// meant is told in yards of level green of the day. The flight stands for none.
    fn roll(&self, swing: &Swing, none: LaunchConditions) -> Result<Prepared, FlightFault> {
        let calm = self.weather.at_home();
        let flight = FlightTable::new(none, swing.full_carry, &calm)?;
        let distances = Distances::new(&flight, swing.full_carry, |_, _| Vector::zeros());
        let planned = Planned {
            day: distances.clone(),
            home: distances,
            rolling: self.rolling(GREEN),
        };
        Ok(Prepared {
            home_rolling: GREEN.rolling(),
            runs: true,
            rolls: true,
            lands: LandingFactors::USUAL,
            bias: 0.0,
            lift: 0.0,
            kick: 0.0,
            told: planned.clone(),
            green: planned,
            level: LevelRuns::default(),
            flight,
        })
    }

    /// The rolling resistance, on the day, of ground of the kind of home.
    fn rolling(&self, home: Home) -> f64 {
        let turf = self.turfs.on(home.surface);
        turf.map_or(1.0, |turf| turf.rolling())
    }

    fn prepare(
        &self,
        swing: &Swing,
        launch: LaunchConditions,
        usual: f64,
        home: Home,
    ) -> Result<Prepared, FlightFault> {
        let calm = self.weather.at_home();
        let full = swing.full_carry * swing.flush;
        let still = FlightTable::new(launch, full, &calm)?;
        let lands = anchor(&still, usual, swing.run * usual, home);
        let flight = if self.weather == calm {
            still.clone()
        } else {
            FlightTable::new(launch, full, &self.weather)?
        };
        let runs = swing.run > 0.0;
        let planned = |ground: Home| {
            let known = Turfs::of(Firmness::MEDIUM, ground.green_speed);
            let distances = |flight: &FlightTable, turfs: &Turfs| {
                let run = |carry: f64, forward| match turfs.on(ground.surface) {
                    Some(turf) if runs => level_run(flight, carry, forward, lands, turf),
                    _ => Vector::zeros(),
                };
                Distances::new(flight, swing.full_carry, run)
            };
            Planned {
                day: distances(&flight, &self.turfs),
                home: distances(&still, &known),
                rolling: self.rolling(ground),
            }
        };
        let kick = match self.turfs.on(home.surface) {
            Some(turf) if runs => side_kick(&still, full, lands, turf),
            _ => 0.0,
        };
        Ok(Prepared {
            told: planned(home),
            green: planned(GREEN),
            lands,
            kick,
            home_rolling: home.rolling(),
            runs,
            rolls: false,
            bias: swing.bias_slope,
            lift: libm::tan(launch.launch_deg.to_radians()),
            level: LevelRuns::default(),
            flight,
        })
    }
}
