//! What neighbouring places tell one another: wider ones what is worth trying between them, and all of them where to aim.
//!
//! Over a few dozen strokes two aims close together are told apart by chance. Neighbours have luck of their own, and the
//! best aim changes little from one place to the next: between them it is better known.
use super::action::{Action, Mesh, at_the_pin, offer};
use super::level::Level;
use super::sight::Sight;
use crate::geometry::Vector;
use crate::plan::Scene;
use crate::player::Lie;
use crate::situation::Situation;

/// Nearer the pin than this, yards, every stroke around the green is tried at it from every place.
const SHORT_GAME: f64 = 20.0;

/// From places farther apart than this, yards, the way out of trees or past them is another: everything is tried anew.
const FAR_APART: f64 = 10.0;

/// Lists what the wide places around a place hand on to it: what they chose and what else they kept.
///
/// Of like actions that were chosen there is one, with its target between those of the wide places near. Where they have
/// nothing to hand on, and on the green and the tee, everything is listed; where trees are in the way everything besides.
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
    // The corners first: there is not room for all.
    let near = wide.places.states_near(from);
    for (place, _) in wide.places.states_around(from).chain(near) {
        add(offers, moved(place, wide.best(place)), from, MOST_CHOSEN);
    }
    for action in offers.iter_mut() {
        *action = wide.smoothed(sight.scene, from, action);
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
    let in_the_way = || from.lie == Lie::Trees || sight.scene.is_blocked(from);
    if offers.is_empty() || wide.places.grid.cell > FAR_APART && in_the_way() {
        let handed = std::mem::take(offers);
        offer(sight.scene, from, Mesh::WIDE, offers);
        offers.extend(handed);
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

impl Level {
    /// An action with its target moved to the middle of those of like actions that the places near a ball chose; as it is where
    /// that would be so short that it is a pitch.
    pub(in crate::solve) fn smoothed(
        &self,
        scene: &Scene,
        from: Situation,
        action: &Action,
    ) -> Action {
        if matches!(from.lie, Lie::Green | Lie::Tee) {
            return *action;
        }
        let pin = scene.hole().pin();
        let (mut sum, mut way) = (0.0, Vector::zeros());
        for (near, weight) in self.places.states_near(from) {
            let at = self.places.states()[near].situation.at;
            let other = self.best(near).moved(at, from.at, pin);
            if other.is_like(action, from.at) {
                sum += weight;
                way += (other.target - action.target) * weight;
            }
        }
        let middle = Action {
            stroke: action.stroke,
            target: action.target + if sum > 0.0 { way / sum } else { way },
        };
        if middle.is_stroke(scene, from) {
            middle
        } else {
            *action
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Point, Vector};
    use crate::hole::{Hole, Sketch};
    use crate::player::{ClubId, Player};
    use crate::shot::Stroke;
    use crate::solve::places::Code;
    use crate::solve::places::grid::Strip;
    use crate::solve::places::spacing::Spacing;
    use crate::solve::search::model::Part;
    use std::sync::Arc;

    /// A level at whose every place the same two clubs are kept, for the same two targets.
    fn level() -> (Level, Scene, usize) {
        let hole = Arc::new(Hole::sketch(&Sketch::new(4, 380.0)).unwrap());
        let pin = hole.pin();
        let bag = Arc::new(Player::from_handicap(18.0).unwrap().prepare());
        let scene = Scene::new(hole.clone(), bag).unwrap();
        let mut level = Level::new(&scene, Strip { width: 60.0 }, 8.0, Spacing::Even);
        let targets = [pin, pin + Vector::new(30.0, 0.0)];
        let mut part = Part::default();
        for _ in level.places.states() {
            for (club, target) in (4..).map(ClubId).zip(targets) {
                let stroke = Stroke::Swing(club);
                part.add_codes(Action { stroke, target }, [Code::HOLED].into_iter());
            }
            part.end_state(2);
        }
        level.model.extend(&part);
        level.chosen = vec![0; level.places.states().len()];
        // In the middle of the fairway, where its eight neighbours have the same lie.
        let places = level.places.states().iter();
        let inside = |at: Point| {
            let near = |x: f64, y: f64| at + Vector::new(x, y);
            [(8.0, 8.0), (-8.0, 8.0), (8.0, -8.0), (-8.0, -8.0)]
                .into_iter()
                .all(|(x, y)| hole.surface_at(near(x, y)) == crate::hole::Surface::Fairway)
        };
        let state = places
            .map(|state| state.situation)
            .position(|s| s.lie == Lie::Fairway && inside(s.at) && s.to_pin(&hole) > 100.0)
            .unwrap();
        (level, scene, state)
    }

    /// Worked out by hand: where all but one aim at the same point, that one aims a quarter of its way from there.
    #[test]
    fn targets_are_taken_to_the_middle_of_the_neighbours() {
        let (mut level, scene, state) = level();
        let pin = scene.hole().pin();
        let from = level.places.states()[state].situation;
        let smoothed = |level: &Level, number: usize| {
            level.smoothed(&scene, from, &level.model.actions(state)[number])
        };
        assert_eq!(smoothed(&level, 0).target, pin);
        let off = pin + Vector::new(2.0, 1.0);
        let action = Action {
            target: off,
            ..*level.best(state)
        };
        level.model.set_action(state, 0, action);
        let middle = smoothed(&level, 0).target;
        assert!((middle - (pin + Vector::new(0.5, 0.25))).norm() < 1e-12);
        // The other action is like none that is chosen near: it stays.
        let other = level.model.actions(state)[1];
        assert_eq!(smoothed(&level, 1), other);
    }
}
