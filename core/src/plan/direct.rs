//! `direct`: the golfer whom nobody advises. At the flag whenever it can be reached, else as far down the line of play as
//! can be, with the habits of the player.
use super::stations::Stations;
use super::{Scene, Strategy};
use crate::figures::choice::{AT_THE_PIN, NEARLY};
use crate::geometry::{Point, unit_or_up};
use crate::player::Lie;
use crate::shot::Shot;
use crate::situation::Situation;

/// Plays at the pin (at the middle of the green if the player does not aim at every flag) whenever a club reaches it, and
/// otherwise as far along the line of play as the longest club goes. Takes no notice of hazards, and follows the player's
/// [`Habits`](crate::player::Habits): the one strategy that does.
#[derive(Clone, Debug)]
pub struct Direct {
    stations: Stations,
}

impl Direct {
    /// Prepares the strategy for a scene.
    #[must_use]
    pub fn new(scene: &Scene) -> Self {
        Direct {
            stations: Stations::new(scene, |from| farthest_on_line(scene, from)),
        }
    }
}

impl Strategy for Direct {
    fn choose(&self, scene: &Scene, from: Situation, _: u8) -> Shot {
        if from.lie == Lie::Green {
            return scene.putt();
        }
        let hole = scene.hole();
        let pin = scene.goal(from.at, hole.pin());
        if !scene.covers(from.lie, &pin) {
            return self.stations.shot(scene, from);
        }
        let at_flag = scene.bag().habits().every_flag || pin.distance <= AT_THE_PIN;
        let goal = if at_flag {
            pin
        } else {
            scene.goal(from.at, hole.middle_of_green())
        };
        scene.shot_by_habit(from, &goal)
    }
}

/// The farthest point of the line of play within reach of a situation; the pin if that is in reach.
pub(super) fn farthest_on_line(scene: &Scene, from: Situation) -> Point {
    let hole = scene.hole();
    if scene.reaches(from, hole.pin()) {
        return hole.pin();
    }
    let line = hole.line();
    let start = line.station(from.at).along;
    let to_pin = hole.pin() - from.at;
    let reach = scene.reach.farthest(from.lie, unit_or_up(to_pin));
    if to_pin.norm() < NEARLY * reach {
        return hole.pin();
    }
    let reach = scene.reach.farthest(from.lie, line.direction(start));
    let mut best = line.at((start + reach).min(line.length()), 0.0);
    let mut along = start;
    while along < line.length() {
        let p = line.at(along, 0.0);
        if (p - from.at).norm() <= reach {
            best = p;
        }
        along += 2.0;
    }
    best
}
