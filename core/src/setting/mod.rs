//! A player on a hole on a day, prepared for strokes: every flight, every turf, every tree and how far each stroke goes.
//!
//! A player's own figures anchor the physics: in still air a stroke carries what the player carries, and on level
//! ground of medium firmness it runs what the player's ball runs. Physics gives the differences: wind, air, height,
//! firmness, slope, grass.

mod anchor;
mod clearing;
mod day;
mod distances;
mod fault;
mod level;
mod prepared;
mod side_hill;
mod stands;

pub use anchor::LandingFactors;
pub use distances::{Distances, Meant};
pub use fault::SettingFault;
pub use prepared::{Planned, Prepared};
pub use side_hill::SideHill;
pub(crate) use stands::Path;
pub use stands::Stands;

use crate::flight::{LaunchConditions, check_carry};
use crate::geometry::{Point, Vector, right_of, unit_or_up};
use crate::ground::Turfs;
use crate::hole::{Hole, Surface};
use crate::player::{Bag, ClubId, Lie, Touch};
use day::Day;
use rayon::prelude::*;
use std::convert::Infallible;
use std::ops::ControlFlow;
use std::sync::Arc;

/// Times an aim is looked at: the first tells how much to hold off, the second what the wind is along that line.
const AIMS: usize = 2;
/// An aim turned by less than this, radians, meets the same wind.
const TURNED: f64 = 0.01;

/// A ball that rolls down a steep slope is started with no less than this share of its way.
const LEAST_ROLL: f64 = 0.1;

/// A player on a hole on a day.
#[derive(Clone, Debug)]
pub struct Setting {
    hole: Arc<Hole>,
    bag: Arc<Bag>,
    clubs: Vec<Prepared>,
    touches: Vec<Prepared>,
    turfs: Turfs,
    stands: Stands,
    still: bool,
}

impl Setting {
    /// Prepares a player on a hole under its conditions.
    ///
    /// # Errors
    /// The first stroke whose carry no believable ball speed gives.
    pub fn new(hole: Arc<Hole>, bag: Arc<Bag>) -> Result<Self, SettingFault> {
        let day = Day::of(&hole)?;
        let clubs: Vec<ClubId> = bag.clubs().collect();
        let clubs = clubs
            .into_par_iter()
            .map(|club| {
                day.club(bag.swing(club, Lie::Tee), bag.club(club))
                    .map_err(|fault| SettingFault::of(bag.name(club), fault))
            })
            .collect::<Result<_, _>>()?;
        let touches = Touch::ALL
            .into_par_iter()
            .map(|touch| {
                day.touch(&bag, touch)
                    .map_err(|fault| SettingFault::of(touch.name(), fault))
            })
            .collect::<Result<_, _>>()?;
        Ok(Setting {
            turfs: day.turfs().clone(),
            stands: Stands::of(&hole),
            still: hole.terrain().is_flat() && day.is_still(),
            hole,
            bag,
            clubs,
            touches,
        })
    }

    /// The hole.
    #[must_use]
    #[inline]
    pub fn hole(&self) -> &Hole {
        &self.hole
    }

    /// The player's strokes.
    #[must_use]
    #[inline]
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

    /// What a ball meets on every surface.
    #[must_use]
    #[inline]
    pub fn turfs(&self) -> &Turfs {
        &self.turfs
    }

    /// The stands of trees.
    #[must_use]
    #[inline]
    pub fn stands(&self) -> &Stands {
        &self.stands
    }

    /// True where a shot needs no allowance: no wind and level ground.
    #[must_use]
    #[inline]
    pub fn is_still(&self) -> bool {
        self.still
    }

    /// How the ground lies under a ball at `at` that is to be played along the unit vector `forward`.
    #[must_use]
    #[inline]
    pub fn side_hill(&self, at: Point, forward: Vector) -> SideHill {
        if self.hole.terrain().is_flat() {
            SideHill::LEVEL
        } else {
            SideHill::of(self.hole.terrain().slope(at), forward)
        }
    }

    /// What to mean so that the middle of a stroke's pattern ends at a target: the carry as on a still day on level ground,
    /// and the target to aim over instead. The player's usual miss, wind, height, the slope of the run and of the lie are
    /// allowed for; for the putter from off the green the climb and the grass that its ball rolls through.
    #[must_use]
    pub fn meant_for(&self, prepared: &Prepared, from: Point, target: Point) -> Meant {
        self.meant_on(prepared, from, target, self.hole.surface_at(target))
    }

    /// The same at a target that is known to lie on a surface.
    pub(crate) fn meant_on(
        &self,
        prepared: &Prepared,
        from: Point,
        target: Point,
        on: Surface,
    ) -> Meant {
        if prepared.rolls {
            let carry = self.roll_for(prepared.green.rolling, from, target);
            return Meant { carry, target };
        }
        let way = target - from;
        let distance = way.norm();
        let planned = prepared.ending_on(on);
        if self.still || !(distance > 0.0) {
            let carry = planned.day.carry_for(distance, 0.0);
            let target = allowing(prepared, from, target);
            return Meant { carry, target };
        }
        let terrain = self.hole.terrain();
        let (height, slope) = terrain.height_and_slope(target);
        let (start, under) = terrain.height_and_slope(from);
        let rise = height - start;
        let mut carry = None;
        let target = hold_off(from, target, |forward| {
            let ahead = way.dot(&forward);
            let turned = SideHill::of(under, forward).pull(prepared) + prepared.bias;
            let lie = (rise, slope);
            let (meant, aside) = prepared.meant(planned, ahead, forward, lie, turned, carry);
            carry = Some(meant);
            aside
        });
        Meant {
            carry: carry.unwrap_or(0.0),
            target,
        }
    }

    /// How far a ball must be meant to roll, yards of level ground of that rolling resistance, to come to rest at a
    /// target: its speed is spent on the resistance along the way and on the climb.
    fn roll_for(&self, resistance: f64, from: Point, target: Point) -> f64 {
        let terrain = self.hole.terrain();
        let length = (target - from).norm();
        let mut spent = terrain.height(target) - terrain.height(from);
        // Water has no turf: a ball that gets there is not rolled through it.
        let ControlFlow::Continue(()) =
            self.hole
                .walk::<Infallible>(from, target, |piece, surface| {
                    let turf = self.turfs.on(surface);
                    let toll = turf.map_or(resistance, |turf| turf.rolling());
                    spent += toll * (piece.to - piece.from) * length;
                    ControlFlow::Continue(())
                });
        (spent / resistance).max(LEAST_ROLL * length)
    }

    /// The point to aim over so that a stroke meant to carry `carry` yards, as on a still day, is in line with a
    /// target where it ends.
    #[must_use]
    pub fn aim_for(&self, prepared: &Prepared, from: Point, target: Point, carry: f64) -> Point {
        if self.still {
            return target;
        }
        let (distance, distances) = ((target - from).norm(), &prepared.told.day);
        hold_off(from, target, |forward| {
            let pull = self.side_hill(from, forward).pull(prepared);
            let total = distances.total_for(carry, distances.along(forward));
            let drift = distances.drift_for(carry, forward) / total.max(1.0);
            (drift + prepared.aside(pull, carry, forward)) * distance
        })
    }

    /// The distance that a stroke at a target plays like, yards; see [`Setting::meant_for`].
    #[must_use]
    pub fn plays_like(&self, prepared: &Prepared, from: Point, target: Point) -> f64 {
        let meant = self.meant_for(prepared, from, target);
        let planned = prepared.ending_on(self.hole.surface_at(target));
        planned.home.total_for(meant.carry, 0.0)
    }
}

/// The point to aim over so that a ball that goes the player's usual way off the aim is in line with a target.
#[must_use]
pub fn allowing(prepared: &Prepared, from: Point, target: Point) -> Point {
    target - right_of(target - from) * prepared.bias
}

/// The point to aim over so that a ball ends over a target, when `aside` is how far to the right of an aim it ends.
fn hold_off(from: Point, target: Point, mut aside: impl FnMut(Vector) -> f64) -> Point {
    let way = target - from;
    let (mut aim, mut forward) = (way, unit_or_up(way));
    for _ in 0..AIMS {
        aim = way - right_of(forward) * aside(forward);
        let turned = unit_or_up(aim);
        if (turned - forward).norm() < TURNED {
            break;
        }
        forward = turned;
    }
    from + aim
}

/// Checks that a ball can be struck as far as every stroke of a bag goes: what [`Setting::new`] would find out on a hole.
///
/// # Errors
/// The first stroke whose carry no believable ball speed gives.
pub fn check_carries(bag: &Bag) -> Result<(), SettingFault> {
    for club in bag.clubs() {
        let swing = bag.swing(club, Lie::Tee);
        let carry = swing.full_carry * swing.flush;
        LaunchConditions::of_club(bag.club(club), carry)
            .and_then(|launch| check_carry(carry, launch))
            .map_err(|fault| SettingFault::of(bag.name(club), fault))?;
    }
    for touch in Touch::ALL {
        let carry = bag.touch(touch, day::lie_of(touch)).full_carry;
        launch_of(touch, carry)
            .and_then(|launch| check_carry(carry, launch))
            .map_err(|fault| SettingFault::of(touch.name(), fault))?;
    }
    Ok(())
}

/// The launch of a stroke around the green, or of a punch that carries `carry` yards at most.
fn launch_of(touch: Touch, carry: f64) -> Result<LaunchConditions, crate::flight::FlightFault> {
    Ok(match touch {
        // A putter's ball does not fly: see `Day::roll`.
        Touch::Putter | Touch::Chip => LaunchConditions::CHIP,
        Touch::Pitch => LaunchConditions::PITCH,
        Touch::Lob => LaunchConditions::LOB,
        Touch::BunkerShot => LaunchConditions::BUNKER_SHOT,
        Touch::Punch => LaunchConditions::usual("6-iron", carry)?.punched(),
    })
}
