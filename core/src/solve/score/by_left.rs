//! Playing for a score, by strokes left: what is decided everywhere when 1, 2, ... strokes are left, and what comes of it.
use super::{NOTHING, is_cheaper, signed};
use crate::solve::places::{Code, Places};
use crate::solve::search::level::Level;
use crate::solve::search::model::{ByPlace, Model};
use rayon::prelude::*;

/// What is at stake for a player who plays for a score: what is paid, so that the least is best.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::solve) struct Stakes {
    /// For every stroke.
    pub(in crate::solve) stroke: f64,
    /// For not holing out in the strokes there are.
    pub(in crate::solve) failing: f64,
}

impl Stakes {
    /// Those of a player for whom strokes alone count.
    pub(in crate::solve) const STROKES: Stakes = Stakes {
        stroke: 1.0,
        failing: 0.0,
    };
}

/// Decisions by strokes left.
#[derive(Clone, Debug)]
pub(in crate::solve) struct Decisions {
    pub(in crate::solve) stakes: Stakes,
    /// What is still to be paid from every place with 1, 2, ... strokes left. With none left it is what failing costs, and what
    /// a stroke costs for each one still to come when it is played for the fewest.
    pub(in crate::solve) by_left: Vec<ByPlace>,
    /// The action chosen, by strokes left and state.
    pub(in crate::solve) chosen: Vec<Vec<u8>>,
}

impl Decisions {
    /// Those of a player for whom strokes alone count.
    pub(in crate::solve) fn of_strokes() -> Self {
        Decisions {
            stakes: Stakes::STROKES,
            by_left: Vec::new(),
            chosen: Vec::new(),
        }
    }

    /// Adds what is decided with one stroke more left.
    pub(in crate::solve) fn push(&mut self, by_place: ByPlace, chosen: Vec<u8>) {
        self.by_left.push(by_place);
        self.chosen.push(chosen);
    }
}

/// What becomes of a stroke once it is decided which relief is taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::solve) enum Next {
    Holed,
    /// Played from there, with so many strokes left.
    Lies(Code, i32),
    /// Played again, with so many strokes left.
    Again(i32),
}

/// What an action must be better by to be taken in place of the usual one: less is not told from nothing over the luck
/// of a table, and what looks best by chance is not.
const CLEARLY: f64 = 0.003;

/// A player who decides.
#[derive(Clone, Copy)]
pub(in crate::solve) struct Decider<'a> {
    pub(in crate::solve) places: &'a Places,
    /// Strokes to come on average, where strokes alone count.
    pub(in crate::solve) base: &'a ByPlace,
    pub(in crate::solve) decisions: &'a Decisions,
    /// True if the drops in the table are taken, whatever they cost.
    pub(in crate::solve) fixed: bool,
}

impl Decider<'_> {
    fn by_place(&self, left: i32) -> Option<&ByPlace> {
        let number = usize::try_from(left - 1).ok()?;
        self.decisions.by_left.get(number)
    }

    fn failing(&self, left: i32) -> f64 {
        if left <= 0 {
            self.decisions.stakes.failing
        } else {
            0.0
        }
    }

    /// What is still to be paid for a ball that lies somewhere with so many strokes left.
    #[inline]
    pub(in crate::solve) fn cost(&self, left: i32, code: Code) -> f64 {
        match self.by_place(left) {
            Some(by_place) => self.places.value(&by_place.nodes, code),
            None => {
                let strokes = self.places.value(&self.base.nodes, code);
                self.failing(left) + self.decisions.stakes.stroke * strokes
            }
        }
    }

    /// What is still to be paid in a state with so many strokes left.
    #[inline]
    pub(in crate::solve) fn cost_in(&self, left: i32, state: usize) -> f64 {
        match self.by_place(left) {
            Some(by_place) => by_place.of_states[state],
            None => self.failing(left) + self.decisions.stakes.stroke * self.base.of_states[state],
        }
    }

    /// What comes of a stroke from a place with so many strokes left before it. `own` is what is to be paid in the place
    /// itself with two strokes fewer, and its strokes to come.
    #[inline]
    pub(in crate::solve) fn next(&self, left: i32, code: Code, own: (f64, f64)) -> Next {
        if !code.lies() {
            return if code == Code::HOLED {
                Next::Holed
            } else {
                Next::Again(left - 2)
            };
        }
        #[expect(clippy::cast_possible_wrap, reason = "0 to 2")]
        let penalty = code.penalty() as i32;
        let after = left - 1 - penalty;
        if penalty == 0 || self.fixed {
            return Next::Lies(code, after);
        }
        let stroke = self.decisions.stakes.stroke;
        let strokes = self.places.value(&self.base.nodes, code);
        let drop = (
            stroke * f64::from(penalty) + self.cost(after, code),
            f64::from(penalty) + strokes,
        );
        let again = (stroke + own.0, 1.0 + own.1);
        if is_cheaper(again, drop) {
            Next::Again(left - 2)
        } else {
            Next::Lies(code, after)
        }
    }

    /// What is to be paid on average for a stroke with these outcomes, the stroke included. Hot path.
    #[inline]
    pub(in crate::solve) fn cost_after(&self, left: i32, codes: &[Code], own: (f64, f64)) -> f64 {
        let stroke = self.decisions.stakes.stroke;
        // Most balls are played as they lie, with a stroke fewer left.
        let as_it_lies = self.by_place(left - 1);
        let rest = mean_of(codes, |code| {
            if let Some(by_place) = as_it_lies.filter(|_| code.is_played()) {
                return self.places.value(&by_place.nodes, code);
            }
            match self.next(left, code, own) {
                Next::Holed => 0.0,
                Next::Lies(code, after) => {
                    stroke * f64::from(code.penalty()) + self.cost(after, code)
                }
                Next::Again(_) => stroke + own.0,
            }
        });
        stroke + rest
    }

    /// The best action of a state with so many strokes left, and what is then to be paid; where no other is clearly better,
    /// the usual one, which takes the fewest strokes.
    pub(in crate::solve) fn best(&self, level: &Level, left: i32, state: usize) -> (f64, u8) {
        let own = (self.cost_in(left - 2, state), self.base.of_states[state]);
        let cost = |action: u8| {
            let codes = level.model.codes(state, usize::from(action));
            self.cost_after(left, codes, own)
        };
        let usual = level.chosen[state];
        let mut best = (cost(usual), usual);
        if best.0 <= CLEARLY {
            return best; // Nothing costs less than nothing.
        }
        #[expect(clippy::cast_possible_truncation, reason = "a few actions")]
        let count = level.model.actions(state).len() as u8;
        for action in 0..count {
            let this = cost(action);
            let margin = if best.1 == usual { CLEARLY } else { NOTHING };
            if this < best.0 - margin {
                best = (this, action);
            }
        }
        best
    }
}

#[inline]
fn mean_of(codes: &[Code], of: impl FnMut(Code) -> f64) -> f64 {
    let sum: f64 = codes.iter().copied().map(of).sum();
    #[expect(clippy::cast_precision_loss, reason = "some thousand")]
    let n = codes.len() as f64;
    sum / n
}

/// Decides everywhere with one stroke more left.
pub(in crate::solve) fn decide_next(level: &Level, decisions: &mut Decisions) {
    let decider = Decider {
        places: &level.places,
        base: &level.values,
        decisions,
        fixed: false,
    };
    let left = signed(decisions.by_left.len()) + 1;
    let best: Vec<(f64, u8)> = (0..level.len())
        .into_par_iter()
        .with_min_len(32)
        .map(|state| decider.best(level, left, state))
        .collect();
    let (of_states, chosen): (Vec<f64>, Vec<u8>) = best.into_iter().unzip();
    decisions.push(ByPlace::new(&level.places, of_states), chosen);
}

/// Some quantity that is followed through a strategy, such as a chance or strokes to come.
pub(in crate::solve) trait Followed: Sync {
    /// What a stroke and each penalty stroke adds.
    const STROKE: f64;
    /// What it is when the ball is holed with so many strokes left before the stroke.
    fn holed(&self, left: i32) -> f64;
    /// What it is everywhere when `left` is 0 or less; None where that is 0.
    fn beyond(&self, left: i32) -> Option<&ByPlace>;
}

/// Follows a quantity through the chosen actions, for 1, 2, ... `top` strokes left.
pub(in crate::solve) fn follow<F: Followed>(
    decider: &Decider<'_>,
    played: &Model,
    top: usize,
    quantity: &F,
) -> Vec<ByPlace> {
    let mut by_left: Vec<ByPlace> = Vec::with_capacity(top);
    for number in 0..top {
        let left = signed(number) + 1;
        let of_states: Vec<f64> = (0..played.len())
            .into_par_iter()
            .with_min_len(64)
            .map(|state| {
                let chosen = decider.decisions.chosen.get(number);
                // Where nothing is decided the usual action is played, which is the first.
                let action = chosen.map_or(0, |chosen| usize::from(chosen[state]));
                let own = (
                    decider.cost_in(left - 2, state),
                    decider.base.of_states[state],
                );
                let codes = played.codes(state, action);
                followed_after(decider, left, codes, own, quantity, &by_left, |after| {
                    in_state(quantity, &by_left, after, state)
                })
            })
            .collect();
        by_left.push(ByPlace::new(decider.places, of_states));
    }
    by_left
}

/// The quantity after a stroke with these outcomes; `again` is what it is in the same place with so many strokes left.
pub(in crate::solve) fn followed_after<F: Followed>(
    decider: &Decider<'_>,
    left: i32,
    codes: &[Code],
    own: (f64, f64),
    quantity: &F,
    by_left: &[ByPlace],
    again: impl Fn(i32) -> f64,
) -> f64 {
    let rest = mean_of(codes, |code| match decider.next(left, code, own) {
        Next::Holed => quantity.holed(left),
        Next::Lies(code, after) => {
            let there = lookup(quantity, by_left, after)
                .map_or(0.0, |by_place| decider.places.value(&by_place.nodes, code));
            F::STROKE * f64::from(code.penalty()) + there
        }
        Next::Again(after) => F::STROKE + again(after),
    });
    F::STROKE + rest
}

/// The quantity in a state with so many strokes left.
pub(in crate::solve) fn in_state<F: Followed>(
    quantity: &F,
    by_left: &[ByPlace],
    left: i32,
    state: usize,
) -> f64 {
    lookup(quantity, by_left, left).map_or(0.0, |by_place| by_place.of_states[state])
}

/// A quantity everywhere for so many strokes left.
fn lookup<'a, F: Followed>(
    quantity: &'a F,
    by_left: &'a [ByPlace],
    left: i32,
) -> Option<&'a ByPlace> {
    match usize::try_from(left - 1) {
        Ok(number) => by_left.get(number),
        Err(_) => quantity.beyond(left),
    }
}

/// The chance of holing out in as many strokes as are left and `extra` more (fewer if negative).
pub(in crate::solve) struct Chance<'a> {
    pub(in crate::solve) extra: i32,
    /// The chances where strokes alone count, for 1, 2, ... strokes.
    pub(in crate::solve) base: &'a [ByPlace],
}

impl Chance<'_> {
    /// The chance of holing out in as many strokes as are left.
    pub(in crate::solve) const IN_THOSE_LEFT: Self = Chance {
        extra: 0,
        base: &[],
    };
}

impl Followed for Chance<'_> {
    const STROKE: f64 = 0.0;

    fn holed(&self, left: i32) -> f64 {
        if left + self.extra > 0 { 1.0 } else { 0.0 }
    }

    fn beyond(&self, left: i32) -> Option<&ByPlace> {
        let number = usize::try_from(left + self.extra - 1).ok()?;
        self.base.get(number)
    }
}

/// Strokes to come.
pub(in crate::solve) struct Strokes<'a> {
    /// Strokes to come where strokes alone count.
    pub(in crate::solve) base: &'a ByPlace,
}

impl Followed for Strokes<'_> {
    const STROKE: f64 = 1.0;

    fn holed(&self, _: i32) -> f64 {
        0.0
    }

    fn beyond(&self, _: i32) -> Option<&ByPlace> {
        Some(self.base)
    }
}
