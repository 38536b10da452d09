//! What neighbouring places tell of each other's aims.
//!
//! Over a few dozen strokes two aims close together are told apart by chance. Neighbours have luck of their own, and the
//! best aim changes little from one place to the next: between them it is better known.
use super::action::Action;
use super::level::Level;
use crate::plan::Scene;
use crate::player::Lie;

impl Level {
    /// An action of a state, with its target moved to the middle of those of like actions that the places near chose.
    pub(in crate::solve) fn smoothed(&self, scene: &Scene, state: usize, action: u8) -> Action {
        let pin = scene.hole().pin();
        let from = self.places.states()[state].situation;
        let action = self.model.actions(state)[usize::from(action)];
        if matches!(from.lie, Lie::Green | Lie::Tee) {
            return action;
        }
        let others = self.places.states_near(from).map(|(near, weight)| {
            let at = self.places.states()[near].situation.at;
            (self.best(near).moved(at, from.at, pin), weight)
        });
        action.among(scene, from, others)
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
        assert_eq!(level.smoothed(&scene, state, 0).target, pin);
        let off = pin + Vector::new(2.0, 1.0);
        let action = Action {
            target: off,
            ..*level.best(state)
        };
        level.model.set_action(state, 0, action);
        let smoothed = level.smoothed(&scene, state, 0).target;
        assert!((smoothed - (pin + Vector::new(0.5, 0.25))).norm() < 1e-12);
        // The other action is like none that is chosen near: it stays.
        let other = level.model.actions(state)[1];
        assert_eq!(level.smoothed(&scene, state, 1), other);
    }
}
