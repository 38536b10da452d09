//! The game as a finite table: states, the actions kept in each, and where each ends over a fixed set of luck.
use super::action::Action;
use super::shortlist::Shortlist;
use super::sight::{After, Sight, mean_strokes};
use crate::noise::Noise;
use crate::player::Lie;
use crate::situation::Situation;
use crate::solve::places::{Code, Places};
use rayon::prelude::*;

/// States, actions and outcomes.
#[derive(Clone, Debug, Default)]
pub(in crate::solve) struct Model {
    /// The first action of each state, and the end.
    first_action: Vec<u32>,
    actions: Vec<Action>,
    /// The first outcome of each action, and the end.
    first_code: Vec<u32>,
    codes: Vec<Code>,
}

/// A number for every place, such as strokes to come.
#[derive(Clone, Debug, Default)]
pub(in crate::solve) struct ByPlace {
    pub(in crate::solve) of_states: Vec<f64>,
    /// The same by node of the places.
    pub(in crate::solve) nodes: Vec<f32>,
}

impl ByPlace {
    pub(in crate::solve) fn new(places: &Places, of_states: Vec<f64>) -> Self {
        let mut nodes = Vec::new();
        places.spread(&of_states, &mut nodes);
        ByPlace { of_states, nodes }
    }

    /// Takes the numbers of the states over to the nodes.
    pub(in crate::solve) fn spread(&mut self, places: &Places) {
        places.spread(&self.of_states, &mut self.nodes);
    }

    /// The number of a situation anywhere on the hole. The tee is a state of its own, the first.
    #[inline]
    pub(in crate::solve) fn at(&self, places: &Places, situation: Situation) -> f64 {
        match situation.lie {
            Lie::Tee => self.of_states[0],
            _ => places.value_at(&self.nodes, situation),
        }
    }
}

/// Actions and outcomes of some states in a row, to be added to a [`Model`].
#[derive(Default)]
pub(in crate::solve) struct Part {
    counts: Vec<u8>,
    actions: Vec<Action>,
    lengths: Vec<u32>,
    codes: Vec<Code>,
}

impl Part {
    /// Ends a state that has `count` actions.
    pub(in crate::solve) fn end_state(&mut self, count: usize) {
        #[expect(clippy::cast_possible_truncation, reason = "a few actions")]
        self.counts.push(count as u8);
    }

    /// Adds an action of the state under way with its outcomes over some luck.
    pub(in crate::solve) fn add(
        &mut self,
        sight: &Sight<'_>,
        state: usize,
        action: Action,
        luck: &[Noise],
    ) {
        let from = sight.places.states()[state].situation;
        let shot = sight.scene.address(from, &action.shot(sight.scene, from));
        let codes = luck.iter().map(|noise| sight.code(&shot, noise));
        self.add_codes(action, codes);
    }

    /// Adds a state with what was tried there and stayed, and where that ends over some luck.
    pub(in crate::solve) fn add_tried(
        &mut self,
        shortlist: &Shortlist,
        sight: &Sight<'_>,
        from: Situation,
        luck: &[Noise],
    ) {
        for tried in shortlist.tried() {
            self.add_codes(tried.action, shortlist.outcomes(tried, sight, from, luck));
        }
        self.end_state(shortlist.tried().len());
    }

    /// Adds an action of the state under way with its outcomes.
    pub(in crate::solve) fn add_codes(
        &mut self,
        action: Action,
        codes: impl ExactSizeIterator<Item = Code>,
    ) {
        self.actions.push(action);
        #[expect(clippy::cast_possible_truncation, reason = "some thousand")]
        self.lengths.push(codes.len() as u32);
        self.codes.extend(codes);
    }
}

impl Model {
    /// Adds the next states.
    pub(in crate::solve) fn extend(&mut self, part: &Part) {
        if self.first_action.is_empty() {
            self.first_action.push(0);
            self.first_code.push(0);
        }
        let mut end = self.first_action.last().copied().unwrap_or(0);
        for &count in &part.counts {
            end += u32::from(count);
            self.first_action.push(end);
        }
        let mut end = self.first_code.last().copied().unwrap_or(0);
        for &length in &part.lengths {
            end += length;
            self.first_code.push(end);
        }
        self.actions.extend_from_slice(&part.actions);
        self.codes.extend_from_slice(&part.codes);
    }

    /// Puts other actions in place of those of the first state, which is all that is in `part`.
    pub(in crate::solve) fn replace_first(&mut self, part: &Part) {
        let old_actions = self.range(0);
        let old_codes = 0..self.first_code[old_actions.end] as usize;
        let mut ends: Vec<u32> = vec![0];
        for &length in &part.lengths {
            ends.push(ends[ends.len() - 1] + length);
        }
        let shift = |at: u32, old: usize, new: usize| at - index(old) + index(new);
        for first in &mut self.first_action[1..] {
            *first = shift(*first, old_actions.end, part.actions.len());
        }
        for first in &mut self.first_code[old_actions.end..] {
            *first = shift(*first, old_codes.end, part.codes.len());
        }
        ends.pop();
        self.first_code.splice(old_actions.clone(), ends);
        self.actions
            .splice(old_actions, part.actions.iter().copied());
        self.codes.splice(old_codes, part.codes.iter().copied());
    }

    /// Number of states.
    pub(in crate::solve) fn len(&self) -> usize {
        self.first_action.len().saturating_sub(1)
    }

    /// The actions of a state.
    #[inline]
    pub(in crate::solve) fn actions(&self, state: usize) -> &[Action] {
        &self.actions[self.range(state)]
    }

    /// Puts another action in place of one, for a test.
    #[cfg(test)]
    pub(in crate::solve) fn set_action(&mut self, state: usize, action: usize, other: Action) {
        let at = self.range(state).start + action;
        self.actions[at] = other;
    }

    #[inline]
    fn range(&self, state: usize) -> std::ops::Range<usize> {
        self.first_action[state] as usize..self.first_action[state + 1] as usize
    }

    /// The outcomes of the action at a place among the state's own.
    #[inline]
    pub(in crate::solve) fn codes(&self, state: usize, action: usize) -> &[Code] {
        let action = self.first_action[state] as usize + action;
        &self.codes[self.first_code[action] as usize..self.first_code[action + 1] as usize]
    }

    /// Bytes of the table.
    pub(in crate::solve) fn bytes(&self) -> usize {
        let firsts = 4 * (self.first_action.len() + self.first_code.len());
        size_of_val(&*self.codes) + size_of_val(&*self.actions) + firsts
    }
}

/// Strokes to come by a stroke with these outcomes, when `own` is what the place is worth as far as is known; see
/// [`After::of`].
#[inline]
pub(in crate::solve) fn strokes_after(
    places: &Places,
    nodes: &[f32],
    codes: &[Code],
    own: f64,
    fixed: bool,
) -> f64 {
    let (mut again, mut to_come) = (0, 0.0);
    for &code in codes {
        match After::of(places, nodes, code, own, fixed) {
            After::Holed => {}
            After::Again => again += 1,
            After::ToCome(strokes) => to_come += strokes,
        }
    }
    #[expect(clippy::cast_possible_truncation, reason = "some thousand")]
    mean_strokes(codes.len() as u32, again, to_come)
}

impl Model {
    /// Chooses the best action of every state by the values as they are and takes over what they come to; gives the
    /// largest change, and the actions chosen.
    pub(in crate::solve) fn improve(
        &self,
        places: &Places,
        values: &mut ByPlace,
    ) -> (f64, Vec<u8>) {
        self.sweep(places, values, |state, own, nodes| {
            let mut best = (f64::INFINITY, 0);
            for action in 0..self.range(state).len() {
                let codes = self.codes(state, action);
                let strokes = strokes_after(places, nodes, codes, own, false);
                if strokes < best.0 {
                    best = (strokes, action);
                }
            }
            best
        })
    }

    /// Takes over what the first action of every state comes to by the values as they are, with drops that may be `fixed`;
    /// gives the largest change.
    pub(in crate::solve) fn evaluate(
        &self,
        places: &Places,
        values: &mut ByPlace,
        fixed: bool,
    ) -> f64 {
        let first = |state, own, nodes: &[f32]| {
            let codes = self.codes(state, 0);
            (strokes_after(places, nodes, codes, own, fixed), 0)
        };
        self.sweep(places, values, first).0
    }

    fn sweep(
        &self,
        places: &Places,
        values: &mut ByPlace,
        of: impl Fn(usize, f64, &[f32]) -> (f64, usize) + Sync,
    ) -> (f64, Vec<u8>) {
        let new: Vec<(f64, usize)> = (0..self.len())
            .into_par_iter()
            .with_min_len(64)
            .map(|state| of(state, values.of_states[state], &values.nodes))
            .collect();
        let mut change = 0.0_f64;
        for (old, &(new, _)) in values.of_states.iter_mut().zip(&new) {
            change = change.max((new - *old).abs());
            *old = new;
        }
        values.spread(places);
        #[expect(clippy::cast_possible_truncation, reason = "a few actions")]
        let chosen = new.iter().map(|&(_, action)| action as u8).collect();
        (change, chosen)
    }
}

#[expect(clippy::cast_possible_truncation, reason = "fewer than 2^32 outcomes")]
fn index(at: usize) -> u32 {
    at as u32
}
