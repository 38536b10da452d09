//! `direct`: the golfer whom nobody advises. At the flag whenever it can be reached, else as far down the line of play as
//! can be, with the habits of the player.
use super::ahead::{farthest_on_line, past_the_trees};
use super::stations::Stations;
use super::{Scene, Strategy};
use crate::figures::choice::AT_THE_PIN;
use crate::player::Lie;
use crate::shot::Shot;
use crate::situation::Situation;

/// Plays at the pin (at the middle of the green if the player does not aim at every flag) whenever a club reaches it, and
/// otherwise as far along the line of play as the longest club goes. Takes no notice of hazards but for water straight ahead and
/// trees in the way, and follows the player's [`Habits`](crate::player::Habits): the one strategy that does.
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
        past_the_trees(scene, from, scene.shot_by_habit(from, &goal))
    }
}
