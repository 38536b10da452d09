//! One shot from one place: what it is worth, by strokes left.
use super::layers::{Decider, Followed, Layer, followed_after, lookup};
use super::model::strokes_after;
use super::places::Code;
use super::sight::MOST_STROKES;

/// The outcomes of a shot from a place of its own, between the states.
///
/// A ball that must be played again from there is played by the same shot.
pub(super) struct Place<'a> {
    decider: Decider<'a>,
    codes: &'a [Code],
    /// Strokes to come when strokes alone are minded.
    strokes: f64,
    /// What is minded with 1, 2, ... strokes left.
    minded: Vec<f64>,
}

/// Looks that settle which balls are rather played again than dropped.
const LOOKS: usize = 4;

impl<'a> Place<'a> {
    /// What a shot comes to with up to `left` strokes left.
    pub(super) fn new(decider: Decider<'a>, codes: &'a [Code], left: usize) -> Self {
        let mut strokes = MOST_STROKES;
        for _ in 0..LOOKS {
            let nodes = &decider.base.nodes;
            strokes = strokes_after(decider.places, nodes, codes, strokes, decider.fixed);
        }
        let mut place = Place {
            decider,
            codes,
            strokes,
            minded: Vec::with_capacity(left),
        };
        for number in 0..left {
            let left = signed(number) + 1;
            let own = (place.minded(left - 2), strokes);
            place.minded.push(decider.minded_after(left, codes, own));
        }
        place
    }

    /// Strokes to come when strokes alone are minded.
    pub(super) fn strokes(&self) -> f64 {
        self.strokes
    }

    /// What is minded with so many strokes left.
    pub(super) fn minded(&self, left: i32) -> f64 {
        let minds = self.decider.decisions.minds;
        if self.decider.decisions.layers.is_empty() {
            return minds.stroke * self.strokes;
        }
        match usize::try_from(left - 1) {
            Ok(number) => self.minded.get(number).copied().unwrap_or(self.strokes),
            Err(_) => minds.failing + minds.stroke * self.strokes,
        }
    }

    /// A quantity with `left` strokes left; `beyond` is what it is here with none left.
    pub(super) fn follow<F: Followed>(
        &self,
        quantity: &F,
        layers: &[Layer],
        left: usize,
        beyond: f64,
    ) -> f64 {
        let mut here: Vec<f64> = Vec::with_capacity(left);
        for number in 0..left {
            let left = signed(number) + 1;
            let own = (self.minded(left - 2), self.strokes);
            let again = |after: i32| match usize::try_from(after - 1) {
                Ok(number) => here.get(number).copied().unwrap_or(beyond),
                Err(_) => beyond,
            };
            here.push(followed_after(
                &self.decider,
                left,
                self.codes,
                own,
                quantity,
                layers,
                again,
            ));
        }
        here.last().copied().unwrap_or(beyond)
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    reason = "at most 60"
)]
pub(super) fn signed(count: usize) -> i32 {
    count as i32
}

/// The quantity in a state with so many strokes left.
pub(super) fn in_state<F: Followed>(
    quantity: &F,
    layers: &[Layer],
    left: i32,
    state: usize,
) -> f64 {
    lookup(quantity, layers, left).map_or(0.0, |layer| layer.of_states[state])
}
