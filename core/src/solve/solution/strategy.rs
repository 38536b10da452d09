//! A solution as a strategy: the look-ups of the hot loop.
use crate::plan::{Scene, Strategy};
use crate::player::Lie;
use crate::rules::{Drop, Options};
use crate::shot::Shot;
use crate::situation::Situation;
use crate::solve::places::Places;
use crate::solve::score::{is_cheaper, signed};
use crate::solve::search::action::Action;
use crate::solve::solution::Solution;

impl Solution {
    /// What is to be paid when the ball lies somewhere with so many strokes left, and its strokes to come.
    fn cost_at(&self, left: i32, at: Situation) -> (f64, f64) {
        let decider = self.decider();
        if at.lie == Lie::Tee {
            let strokes = self.values.of_states[0];
            return (decider.cost_in(left, 0), strokes);
        }
        let code = self.places.code(at);
        let strokes = self.places.value(&self.values.nodes, code);
        (decider.cost(left, code), strokes)
    }

    fn strokes_left(&self, played: u8) -> i32 {
        signed(self.most().unwrap_or(0)) - i32::from(played)
    }
}

/// The shot that is played from a situation, when `of` tells the action of each state: that of the nearest, unless it cannot be
/// played from here, or trees stand in its way that do not there; then that of another around. None where the hole has no such
/// lie. Hot path.
#[inline]
fn played_in<'a>(
    scene: &Scene,
    places: &Places,
    from: Situation,
    of: impl Fn(usize) -> &'a Action,
) -> Option<Shot> {
    let state = places.state_at(from)?;
    if matches!(from.lie, Lie::Tee | Lie::Green) {
        return Some(of(state).shot(scene, from));
    }
    let pin = scene.hole().pin();
    // None where it would be a pitch from here.
    let seen = |state: usize| {
        let action = of(state).moved(places.states()[state].situation.at, from.at, pin);
        let shot = action.shot(scene, from);
        action.is_stroke(scene, from).then_some(shot)
    };
    let suits = |state: usize, shot: &Shot| {
        let place = places.states()[state].situation;
        scene.is_open(from, shot) || !scene.is_open(place, &of(state).shot(scene, place))
    };
    let nearest = seen(state);
    if nearest.is_some_and(|shot| suits(state, &shot)) {
        return nearest;
    }
    let around = places.states_around(from);
    let others = around.filter_map(|(state, share)| Some((state, share, seen(state)?)));
    let suitable = others.filter(|(state, _, shot)| suits(*state, shot));
    let other = suitable.max_by(|(_, a, _), (_, b, _)| a.total_cmp(b));
    let at_the_pin = || Action::at_the_pin(scene, from).shot(scene, from);
    let other = other.map(|(_, _, shot)| shot).or(nearest);
    Some(other.unwrap_or_else(at_the_pin))
}

impl Strategy for Solution {
    fn choose(&self, scene: &Scene, from: Situation, played: u8) -> Shot {
        if let Some(given) = &self.given {
            return given.choose(scene, from, played);
        }
        let number = usize::try_from(self.strokes_left(played) - 1).ok();
        let chosen = number.and_then(|n| self.decisions.chosen.get(n));
        let shot = played_in(scene, &self.places, from, |state| {
            // The first is the usual one.
            let action = chosen.map_or(0, |chosen| usize::from(chosen[state]));
            &self.played.actions(state)[action]
        });
        shot.unwrap_or_else(|| scene.shot_at(from, scene.hole().pin()))
    }

    fn estimate(&self, _: &Scene, from: Situation) -> f64 {
        self.values.at(&self.places, from)
    }

    fn take(&self, scene: &Scene, options: &Options, played: u8) -> Drop {
        if let Some(given) = &self.given {
            return given.take(scene, options, played);
        }
        if self.most().is_none() {
            return options.best(|s| self.estimate(scene, *s));
        }
        let left = self.strokes_left(played);
        let stroke = self.decisions.stakes.stroke;
        let cost = |drop: &Drop| {
            let penalty = f64::from(drop.penalty);
            let (cost, strokes) = self.cost_at(left - i32::from(drop.penalty), drop.situation);
            (stroke * penalty + cost, penalty + strokes)
        };
        let mut best = options.as_slice()[0];
        let mut least = cost(&best);
        for drop in &options.as_slice()[1..] {
            let this = cost(drop);
            if is_cheaper(this, least) {
                (best, least) = (*drop, this);
            }
        }
        best
    }

    fn suits(&self, scene: &Scene) -> bool {
        let own = self.scene();
        (std::ptr::eq(own.hole(), scene.hole()) || own.hole() == scene.hole())
            && (std::ptr::eq(own.bag(), scene.bag()) || own.bag() == scene.bag())
    }
}
