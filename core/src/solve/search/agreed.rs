//! What neighbouring places tell of each other's choices.
//!
//! Over a few dozen strokes two good actions are often told apart by chance. Neighbours have luck of their own, and what
//! one action gains on another changes little from one place to the next: taken together they tell more.
use super::action::Action;
use super::level::Level;
use crate::geometry::Point;
use crate::plan::Scene;
use crate::player::Lie;
use rayon::prelude::*;

impl Level {
    /// The action chosen in a state.
    pub(in crate::solve) fn best(&self, state: usize) -> &Action {
        &self.model.actions(state)[usize::from(self.values.chosen[state])]
    }

    /// Chooses anew in every state among the actions kept: one is better than another where it is so on average over the
    /// places near that kept both.
    pub(in crate::solve) fn agree(&mut self, pin: Point) {
        let count = self.places.states().len();
        let worth: Vec<Vec<f64>> = (0..count)
            .into_par_iter()
            .with_min_len(64)
            .map(|state| self.worth(state))
            .collect();
        self.values.chosen = (0..count)
            .into_par_iter()
            .with_min_len(64)
            .map(|state| self.agreed(state, &worth, pin))
            .collect();
    }

    /// What every action of a state comes to, by the values as they are.
    fn worth(&self, state: usize) -> Vec<f64> {
        let (places, nodes, own) = (
            &self.places,
            &self.values.nodes,
            self.values.of_states[state],
        );
        (0..self.model.actions(state).len())
            .map(|action| self.model.strokes(places, nodes, state, action, own))
            .collect()
    }

    fn agreed(&self, state: usize, worth: &[Vec<f64>], pin: Point) -> u8 {
        let chosen = self.values.chosen[state];
        let actions = self.model.actions(state);
        let from = self.places.states()[state].situation;
        if actions.len() < 2 || matches!(from.lie, Lie::Green | Lie::Tee) {
            return chosen;
        }
        // For every place near: its weight, and what each of the actions comes to there.
        let near: Vec<(f64, Vec<Option<f64>>)> = self
            .places
            .states_near(from)
            .map(|(other, weight)| {
                let there = |action| self.like(other, action, from.at, pin);
                let worth = |action| there(action).map(|number| worth[other][number]);
                (weight, actions.iter().map(worth).collect())
            })
            .collect();
        let gain = |one: usize, than: usize| -> f64 {
            let both = near
                .iter()
                .filter_map(|(weight, worth)| Some(weight * (worth[than]? - worth[one]?)));
            both.sum()
        };
        let mut best = usize::from(chosen);
        for one in 0..actions.len() {
            if gain(one, best) > 0.0 {
                best = one;
            }
        }
        #[expect(clippy::cast_possible_truncation, reason = "a few actions")]
        let best = best as u8;
        best
    }

    /// The action of a place that is most like one seen from another place; None where none is.
    fn like(&self, place: usize, action: &Action, from: Point, pin: Point) -> Option<usize> {
        let at = self.places.states()[place].situation.at;
        let apart = |one: &Action| (one.target - action.target).norm();
        let actions = self.model.actions(place).iter();
        actions
            .map(|one| one.moved(at, from, pin))
            .enumerate()
            .filter(|(_, one)| one.is_like(action, from))
            .min_by(|(_, a), (_, b)| apart(a).total_cmp(&apart(b)))
            .map(|(number, _)| number)
    }

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
    use crate::geometry::Vector;
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
        level.values.chosen = vec![0; level.places.states().len()];
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

    /// Worked out by hand: a place counts a quarter, the four beside it an eighth each, the corners half of that.
    #[test]
    fn neighbours_outvote_what_chance_tells() {
        let (mut level, scene, state) = level();
        let pin = scene.hole().pin();
        let mut worth = vec![vec![4.0, 4.1]; level.places.states().len()];
        for (gain, best) in [(0.29, 0), (0.31, 1)] {
            worth[state] = vec![4.0, 4.0 - gain];
            assert_eq!(level.agreed(state, &worth, pin), best);
        }
        // What no neighbour kept is for the place alone to choose.
        for (number, club) in [9, 10].map(ClubId).into_iter().enumerate() {
            let stroke = Stroke::Swing(club);
            let target = level.model.actions(state)[number].target;
            level
                .model
                .set_action(state, number, Action { stroke, target });
        }
        worth[state] = vec![4.0, 3.99];
        assert_eq!(level.agreed(state, &worth, pin), 1);
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
