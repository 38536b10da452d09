//! Values by strokes left: how a player decides who plays for a score, and what comes of it.
use super::model::{Model, Values};
use super::places::{Code, Places};
use rayon::prelude::*;

/// What a player minds who plays for a score.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Minds {
    /// A stroke.
    pub(super) stroke: f64,
    /// Not holing out in the strokes there are.
    pub(super) failing: f64,
}

impl Minds {
    /// Strokes alone.
    pub(super) const STROKES: Minds = Minds {
        stroke: 1.0,
        failing: 0.0,
    };
}

/// A number for every place when so many strokes are left.
#[derive(Clone, Debug, Default)]
pub(super) struct Layer {
    pub(super) of_states: Vec<f64>,
    pub(super) nodes: Vec<f32>,
}

/// Decisions by strokes left.
#[derive(Clone, Debug)]
pub(super) struct Decisions {
    pub(super) minds: Minds,
    /// What is minded to come with 1, 2, ... strokes left; with none left it is what the base says, and the failing.
    pub(super) layers: Vec<Layer>,
    /// The action chosen, by strokes left and state.
    pub(super) chosen: Vec<Vec<u8>>,
}

impl Decisions {
    /// Those of a player who minds strokes alone.
    pub(super) fn of_strokes() -> Self {
        Decisions {
            minds: Minds::STROKES,
            layers: Vec::new(),
            chosen: Vec::new(),
        }
    }

    /// Adds what is decided with one stroke more left.
    pub(super) fn push(&mut self, layer: Layer, chosen: Vec<u8>) {
        self.layers.push(layer);
        self.chosen.push(chosen);
    }
}

/// What becomes of a stroke once it is decided which relief is taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Next {
    Holed,
    /// Played from there, with so many strokes left.
    Lies(Code, i32),
    /// Played again, with so many strokes left.
    Again(i32),
}

/// Differences of chances and strokes that are none.
const NOTHING: f64 = 1e-9;
/// What an action must be better by to be taken in place of the usual one: less is not told from nothing over the luck
/// of a table, and what looks best by chance is not.
const CLEARLY: f64 = 0.003;

/// A player who decides.
#[derive(Clone, Copy)]
pub(super) struct Decider<'a> {
    pub(super) places: &'a Places,
    /// Strokes to come on average, when nothing else is minded.
    pub(super) base: &'a Values,
    pub(super) decisions: &'a Decisions,
    /// True if the drops in the table are taken, whatever they cost.
    pub(super) fixed: bool,
}

impl Decider<'_> {
    fn layer(&self, left: i32) -> Option<&Layer> {
        let number = usize::try_from(left - 1).ok()?;
        self.decisions.layers.get(number)
    }

    fn failing(&self, left: i32) -> f64 {
        if left <= 0 {
            self.decisions.minds.failing
        } else {
            0.0
        }
    }

    /// What is minded of a ball that lies somewhere with so many strokes left.
    #[inline]
    pub(super) fn minded(&self, left: i32, code: Code) -> f64 {
        match self.layer(left) {
            Some(layer) => self.places.value(&layer.nodes, code),
            None => {
                let strokes = self.places.value(&self.base.nodes, code);
                self.failing(left) + self.decisions.minds.stroke * strokes
            }
        }
    }

    /// What is minded in a state with so many strokes left.
    #[inline]
    pub(super) fn minded_in(&self, left: i32, state: usize) -> f64 {
        match self.layer(left) {
            Some(layer) => layer.of_states[state],
            None => self.failing(left) + self.decisions.minds.stroke * self.base.of_states[state],
        }
    }

    /// What comes of a stroke from a place with so many strokes left before it. `own` is what is minded of the place
    /// itself with two strokes fewer, and its strokes to come.
    #[inline]
    pub(super) fn next(&self, left: i32, code: Code, own: (f64, f64)) -> Next {
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
        let stroke = self.decisions.minds.stroke;
        let drop = stroke * f64::from(penalty) + self.minded(after, code);
        let again = stroke + own.0;
        let better = if (again - drop).abs() <= NOTHING {
            let strokes = self.places.value(&self.base.nodes, code);
            1.0 + own.1 < f64::from(penalty) + strokes
        } else {
            again < drop
        };
        if better {
            Next::Again(left - 2)
        } else {
            Next::Lies(code, after)
        }
    }

    /// The mean of some quantity after a stroke with these outcomes.
    #[inline]
    pub(super) fn mean(
        &self,
        left: i32,
        codes: &[Code],
        own: (f64, f64),
        mut of: impl FnMut(Next) -> f64,
    ) -> f64 {
        mean_of(codes, |code| of(self.next(left, code, own)))
    }

    /// What is minded of the outcomes of a stroke, the stroke included. Hot path.
    #[inline]
    pub(super) fn minded_after(&self, left: i32, codes: &[Code], own: (f64, f64)) -> f64 {
        let stroke = self.decisions.minds.stroke;
        // Most balls are played as they lie, with a stroke fewer left.
        let as_it_lies = self.layer(left - 1);
        let rest = mean_of(codes, |code| {
            if let Some(layer) = as_it_lies.filter(|_| code.is_played()) {
                return self.places.value(&layer.nodes, code);
            }
            match self.next(left, code, own) {
                Next::Holed => 0.0,
                Next::Lies(code, after) => {
                    stroke * f64::from(code.penalty()) + self.minded(after, code)
                }
                Next::Again(_) => stroke + own.0,
            }
        });
        stroke + rest
    }

    /// The best action of a state with so many strokes left, and what is then minded; where nothing hangs on it, the one
    /// with the fewest strokes to come.
    pub(super) fn best(&self, model: &Model, left: i32, state: usize) -> (f64, u8) {
        let own = (self.minded_in(left - 2, state), self.base.of_states[state]);
        let minded = |action: u8| {
            let codes = model.codes(state, usize::from(action));
            self.minded_after(left, codes, own)
        };
        let usual = self.base.chosen[state];
        let mut best = (minded(usual), usual);
        if best.0 <= CLEARLY {
            return best; // Nothing is minded less than nothing.
        }
        #[expect(clippy::cast_possible_truncation, reason = "a few actions")]
        let count = model.actions(state).len() as u8;
        for action in 0..count {
            let this = minded(action);
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

/// Decides with one stroke more left than there are layers.
pub(super) fn add_layer(places: &Places, base: &Values, model: &Model, decisions: &mut Decisions) {
    let decider = Decider {
        places,
        base,
        decisions,
        fixed: false,
    };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_possible_wrap,
        reason = "at most 60"
    )]
    let left = decisions.layers.len() as i32 + 1;
    let best: Vec<(f64, u8)> = (0..model.len())
        .into_par_iter()
        .with_min_len(32)
        .map(|state| decider.best(model, left, state))
        .collect();
    let (of_states, chosen): (Vec<f64>, Vec<u8>) = best.into_iter().unzip();
    let mut layer = Layer {
        of_states,
        nodes: Vec::new(),
    };
    places.spread(&layer.of_states, &mut layer.nodes);
    decisions.push(layer, chosen);
}

/// Some quantity that is followed through a strategy, such as a chance or strokes to come.
pub(super) trait Followed: Sync {
    /// What a stroke and each penalty stroke adds.
    const STROKE: f64;
    /// What it is when the ball is holed with so many strokes left before the stroke.
    fn holed(&self, left: i32) -> f64;
    /// What it is everywhere with so many strokes left, none or fewer; None for nothing.
    fn beyond(&self, left: i32) -> Option<&Layer>;
}

/// Follows a quantity through the chosen actions, for 1, 2, ... `top` strokes left.
pub(super) fn follow<F: Followed>(
    decider: &Decider<'_>,
    played: &Model,
    top: usize,
    quantity: &F,
) -> Vec<Layer> {
    let mut layers: Vec<Layer> = Vec::with_capacity(top);
    for number in 0..top {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_possible_wrap,
            reason = "at most 60"
        )]
        let left = number as i32 + 1;
        let of_states: Vec<f64> = (0..played.len())
            .into_par_iter()
            .with_min_len(64)
            .map(|state| {
                let chosen = decider.decisions.chosen.get(number);
                let action = chosen.map_or(0, |chosen| usize::from(chosen[state]));
                let own = (
                    decider.minded_in(left - 2, state),
                    decider.base.of_states[state],
                );
                let codes = played.codes(state, action);
                followed_after(decider, left, codes, own, quantity, &layers, |after| {
                    lookup(quantity, &layers, after).map_or(0.0, |layer| layer.of_states[state])
                })
            })
            .collect();
        let mut nodes = Vec::new();
        decider.places.spread(&of_states, &mut nodes);
        layers.push(Layer { of_states, nodes });
    }
    layers
}

/// The quantity after a stroke with these outcomes; `again` is what it is in the same place with so many strokes left.
pub(super) fn followed_after<F: Followed>(
    decider: &Decider<'_>,
    left: i32,
    codes: &[Code],
    own: (f64, f64),
    quantity: &F,
    layers: &[Layer],
    again: impl Fn(i32) -> f64,
) -> f64 {
    let rest = decider.mean(left, codes, own, |next| match next {
        Next::Holed => quantity.holed(left),
        Next::Lies(code, after) => {
            let there = lookup(quantity, layers, after)
                .map_or(0.0, |layer| decider.places.value(&layer.nodes, code));
            F::STROKE * f64::from(code.penalty()) + there
        }
        Next::Again(after) => F::STROKE + again(after),
    });
    F::STROKE + rest
}

/// The layer of a quantity for so many strokes left.
pub(super) fn lookup<'a, F: Followed>(
    quantity: &'a F,
    layers: &'a [Layer],
    left: i32,
) -> Option<&'a Layer> {
    match usize::try_from(left - 1) {
        Ok(number) => layers.get(number),
        Err(_) => quantity.beyond(left),
    }
}

/// The chance of holing out in as many strokes as are left and `extra` more.
pub(super) struct Chance<'a> {
    pub(super) extra: i32,
    /// The chances when strokes alone are minded, for 1, 2, ... strokes.
    pub(super) base: &'a [Layer],
}

impl Followed for Chance<'_> {
    const STROKE: f64 = 0.0;

    fn holed(&self, left: i32) -> f64 {
        if left + self.extra > 0 { 1.0 } else { 0.0 }
    }

    fn beyond(&self, left: i32) -> Option<&Layer> {
        let number = usize::try_from(left + self.extra - 1).ok()?;
        self.base.get(number)
    }
}

/// Strokes to come.
pub(super) struct Strokes<'a> {
    /// Strokes to come when strokes alone are minded.
    pub(super) base: &'a Layer,
}

impl Followed for Strokes<'_> {
    const STROKE: f64 = 1.0;

    fn holed(&self, _: i32) -> f64 {
        0.0
    }

    fn beyond(&self, _: i32) -> Option<&Layer> {
        Some(self.base)
    }
}
