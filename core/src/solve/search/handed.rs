//! What the places of a wider level hand on to those between them.
use super::action::{Action, Mesh, at_the_pin, offer};
use super::level::Level;
use super::sight::Sight;
use crate::player::Lie;
use crate::situation::Situation;

/// Nearer the pin than this, yards, every stroke around the green is tried at it from every place.
const SHORT_GAME: f64 = 20.0;

/// Lists what the wide places around a place hand on to it: what they chose and what else they kept.
///
/// Of like actions that were chosen there is one, with its target between those of the wide places near. Where they have
/// nothing to hand on, and on the green and the tee, everything is listed.
pub(in crate::solve) fn hand_on(
    sight: &Sight<'_>,
    wide: &Level,
    from: Situation,
    offers: &mut Vec<Action>,
) {
    if matches!(from.lie, Lie::Green | Lie::Tee) || !wide.places.knows(from.lie) {
        offer(sight.scene, from, Mesh::WIDE, offers);
        return;
    }
    offers.clear();
    let pin = sight.scene.hole().pin();
    let moved = |place: usize, action: &Action| {
        action.moved(wide.places.states()[place].situation.at, from.at, pin)
    };
    let best = |(place, weight)| (moved(place, wide.best(place)), weight);
    // The corners first: there is not room for all.
    let near = || wide.places.states_near(from);
    for (action, _) in wide.places.states_around(from).chain(near()).map(best) {
        add(offers, action, from, MOST_CHOSEN);
    }
    for action in offers.iter_mut() {
        *action = action.among(sight.scene, from, near().map(best));
    }
    for (corner, _) in wide.places.states_around(from) {
        for action in wide.model.actions(corner) {
            add(offers, moved(corner, action), from, MOST_OFFERS);
        }
    }
    let handed = offers.len();
    offers.retain(|action| action.is_stroke(sight.scene, from));
    if from.to_pin(sight.scene.hole()) < SHORT_GAME || offers.len() < handed {
        at_the_pin(sight.scene, from, offers);
    }
    if offers.is_empty() {
        offer(sight.scene, from, Mesh::WIDE, offers);
    }
}

/// Adds an action where there is room for it and none that is like it.
fn add(offers: &mut Vec<Action>, action: Action, from: Situation, most: usize) {
    let known = |offer: &Action| offer.is_like(&action, from.at);
    if offers.len() < most && !offers.iter().any(known) {
        offers.push(action);
    }
}

/// The most different actions that are taken over of those chosen around a place.
const MOST_CHOSEN: usize = 4;
/// The most that are taken over of all kept around it.
const MOST_OFFERS: usize = 24;
