//! One shot from one place: what it is worth, by strokes left.
use super::by_left::{Decider, Followed, followed_after};
use super::signed;
use crate::solve::places::Code;
use crate::solve::search::model::{ByPlace, strokes_after};
use crate::solve::search::sight::MOST_STROKES;

/// The outcomes of a shot from a place of its own, between the states.
///
/// A ball that must be played again from there is played by the same shot.
pub(in crate::solve) struct Place<'a> {
    decider: Decider<'a>,
    codes: &'a [Code],
    /// Strokes to come where strokes alone count.
    strokes: f64,
    /// What is to be paid with 1, 2, ... strokes left.
    costs: Vec<f64>,
}

/// How often it is worked out again which balls are better played again than dropped: it hangs on its own result.
const LOOKS: usize = 4;

impl<'a> Place<'a> {
    /// What a shot comes to with up to `left` strokes left.
    pub(in crate::solve) fn new(decider: Decider<'a>, codes: &'a [Code], left: usize) -> Self {
        let mut strokes = MOST_STROKES;
        for _ in 0..LOOKS {
            let nodes = &decider.base.nodes;
            strokes = strokes_after(decider.places, nodes, codes, strokes, decider.fixed);
        }
        let mut place = Place {
            decider,
            codes,
            strokes,
            costs: Vec::with_capacity(left),
        };
        // Where strokes alone count they tell all there is to pay.
        let told = decider.decisions.by_left.is_empty();
        for number in 0..if told { 0 } else { left } {
            let left = signed(number) + 1;
            let own = (place.cost(left - 2), strokes);
            place.costs.push(decider.cost_after(left, codes, own));
        }
        place
    }

    /// Strokes to come where strokes alone count.
    pub(in crate::solve) fn strokes(&self) -> f64 {
        self.strokes
    }

    /// What is to be paid with so many strokes left.
    pub(in crate::solve) fn cost(&self, left: i32) -> f64 {
        let stakes = self.decider.decisions.stakes;
        if self.decider.decisions.by_left.is_empty() {
            return stakes.stroke * self.strokes;
        }
        match usize::try_from(left - 1) {
            Ok(number) => self.costs.get(number).copied().unwrap_or(self.strokes),
            Err(_) => stakes.failing + stakes.stroke * self.strokes,
        }
    }

    /// A quantity with `left` strokes left; `beyond` is what it is here with none left.
    pub(in crate::solve) fn follow<F: Followed>(
        &self,
        quantity: &F,
        by_left: &[ByPlace],
        left: usize,
        beyond: f64,
    ) -> f64 {
        let mut here: Vec<f64> = Vec::with_capacity(left);
        for number in 0..left {
            let left = signed(number) + 1;
            let own = (self.cost(left - 2), self.strokes);
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
                by_left,
                again,
            ));
        }
        here.last().copied().unwrap_or(beyond)
    }
}
