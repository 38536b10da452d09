//! What the places of a wider level hand on to those between them.
use super::action::{Action, Mesh, at_the_pin, offer};
use super::level::Level;
use super::sight::Sight;
use crate::geometry::{Point, Vector};
use crate::player::Lie;
use crate::situation::Situation;

/// Nearer the pin than this, yards, every stroke around the green is tried at it from every place.
const SHORT_GAME: f64 = 20.0;

/// Lists what the wide places around a place hand on to it: what they chose and what else they kept.
///
/// Of like actions that were chosen there is one, with its target between those of the wide places near. False where they
/// have nothing to hand on, and on the green and the tee: then everything is listed.
pub(super) fn hand_on(
    sight: &Sight<'_>,
    wide: &Level,
    from: Situation,
    offers: &mut Vec<Action>,
) -> bool {
    if matches!(from.lie, Lie::Green | Lie::Tee) || !wide.places.knows(from.lie) {
        offer(sight.scene, from, Mesh::WIDE, offers);
        return false;
    }
    offers.clear();
    let mut blends: [Option<Blend>; BLENDS] = [None; BLENDS];
    let pin = sight.scene.hole().pin();
    let moved = |corner: usize, action: &Action| {
        action.moved(wide.places.states()[corner].situation.at, from.at, pin)
    };
    let corners = wide.places.states_around(from);
    // The corners first: there is not room for all.
    let near = corners
        .map(|(corner, _)| (corner, LEAST_WEIGHT))
        .chain(wide.places.states_near(from));
    for (corner, weight) in near {
        let best = moved(corner, wide.best(corner));
        blend(&mut blends, &best, weight, from.at);
    }
    offers.extend(blends.iter().flatten().map(Blend::action));
    for (corner, _) in wide.places.states_around(from) {
        for action in wide.model.actions(corner) {
            let action = moved(corner, action);
            let known = offers.iter().any(|offer| offer.is_like(&action, from.at));
            if !known && offers.len() < MOST_OFFERS {
                offers.push(action);
            }
        }
    }
    let handed = offers.len();
    offers.retain(|action| action.is_stroke(sight.scene, from));
    if from.to_pin(sight.scene.hole()) < SHORT_GAME || offers.len() < handed {
        at_the_pin(sight.scene, from, offers);
    }
    if offers.is_empty() {
        offer(sight.scene, from, Mesh::WIDE, offers);
        return false;
    }
    true
}

/// Like actions of several places, with their targets weighed.
#[derive(Clone, Copy)]
struct Blend {
    first: Action,
    weight: f64,
    /// Sum of the ways from the first target to the others, weighed.
    way: Vector,
}

/// The most different actions that are taken over of those chosen around a place.
const BLENDS: usize = 4;
/// The most that are taken over of all kept around it.
const MOST_OFFERS: usize = 24;
/// A corner counts at least so much: a place that lies on a corner asks the others, too.
const LEAST_WEIGHT: f64 = 1e-9;

impl Blend {
    fn action(&self) -> Action {
        Action {
            stroke: self.first.stroke,
            target: self.first.target + self.way / self.weight,
        }
    }
}

fn blend(blends: &mut [Option<Blend>], action: &Action, weight: f64, from: Point) {
    for slot in blends {
        match slot {
            None => {
                *slot = Some(Blend {
                    first: *action,
                    weight,
                    way: Vector::zeros(),
                });
                return;
            }
            Some(blend) if blend.first.is_like(action, from) => {
                blend.weight += weight;
                blend.way += (action.target - blend.first.target) * weight;
                return;
            }
            Some(_) => {}
        }
    }
}
