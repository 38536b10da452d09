//! What becomes of a stroke, as far as values are known: where the solver plays the game. (Strokes of a strategy that is
//! only valued are played in `finish.rs`.)
use super::places::{Code, Places};
use crate::noise::Noise;
use crate::plan::Scene;
use crate::rules::{Drop, Procedure, Relief};
use crate::shot::{Next, Shot};
use crate::situation::Situation;

/// A player on a hole with a value for every place.
#[derive(Clone, Copy)]
pub(super) struct Sight<'a> {
    pub(super) scene: &'a Scene,
    pub(super) places: &'a Places,
    pub(super) values: &'a [f32],
}

impl Sight<'_> {
    /// Where a stroke ends. Of the drops a Rule allows the one with the best value is taken. Hot path.
    #[inline]
    pub(super) fn code(&self, from: Situation, shot: &Shot, noise: &Noise) -> Code {
        match self.scene.resolve(from, shot, noise).next {
            Next::Holed => Code::HOLED,
            Next::Play(situation) => self.places.code(situation),
            Next::Relief(relief) => self.relief(&relief),
        }
    }

    /// Strokes and penalties to come after a stroke.
    #[inline]
    pub(super) fn cost(&self, code: Code, own: f64) -> f64 {
        if code == Code::HOLED {
            return 0.0;
        }
        if code == Code::AGAIN {
            return 1.0 + own;
        }
        let drop = f64::from(code.penalty()) + self.places.value(self.values, code);
        if code.penalty() > 0 {
            drop.min(1.0 + own)
        } else {
            drop
        }
    }

    fn relief(&self, relief: &Relief) -> Code {
        let options = relief.options(self.scene.hole());
        let mut best = (f64::INFINITY, Code::AGAIN);
        for drop in options.as_slice() {
            let Drop {
                situation,
                penalty,
                procedure,
            } = *drop;
            if procedure == Procedure::StrokeAndDistance {
                continue;
            }
            let code = self.places.drop_code(situation, penalty);
            let cost = f64::from(penalty) + self.places.value(self.values, code);
            if cost < best.0 {
                best = (cost, code);
            }
        }
        best.1
    }
}

/// What one action has come to over some luck.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Sum {
    /// Strokes tried.
    tries: u32,
    /// Of them, those that are to be played again.
    again: u32,
    /// Strokes and penalties to come after the others.
    to_come: f64,
    /// Sums of strokes gained, and of strokes lost, against about what the place itself is worth.
    better: f64,
    worse: f64,
}

impl Sum {
    /// Adds what one stroke came to; `own` is about what the situation itself is worth. Hot path.
    #[inline]
    pub(super) fn add(&mut self, sight: &Sight<'_>, code: Code, own: f64) {
        self.tries += 1;
        if code == Code::HOLED {
            self.better += own;
        } else if code == Code::AGAIN {
            self.again += 1;
            self.worse += 2.0;
        } else {
            let drop = f64::from(code.penalty()) + sight.places.value(sight.values, code);
            if code.penalty() > 0 && 1.0 + own < drop {
                self.again += 1;
                self.worse += 2.0;
            } else {
                self.to_come += drop;
                self.better += (own - 1.0 - drop).max(0.0);
                self.worse += (drop + 1.0 - own).max(0.0);
            }
        }
    }

    /// Strokes from here to the hole: the v of v = 1 + the share played again x (1 + v) + the rest to come.
    pub(super) fn strokes(&self) -> f64 {
        settled(self.tries, self.again, self.to_come)
    }

    /// How much is gained where the stroke turns out well.
    pub(super) fn better(&self) -> f64 {
        self.better / f64::from(self.tries.max(1))
    }

    /// How much is lost where it turns out badly.
    pub(super) fn worse(&self) -> f64 {
        self.worse / f64::from(self.tries.max(1))
    }
}

/// The most strokes that any place is said to be worth: a stroke that is never in play.
pub(super) const MOST_STROKES: f64 = 60.0;

/// Solves v = 1 + (again / tries) (1 + v) + to_come / tries.
#[inline]
pub(super) fn settled(tries: u32, again: u32, to_come: f64) -> f64 {
    if again >= tries {
        return MOST_STROKES;
    }
    let v = (f64::from(tries) + f64::from(again) + to_come) / f64::from(tries - again);
    v.min(MOST_STROKES)
}
