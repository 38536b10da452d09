//! What becomes of a stroke, as far as values are known: where the solver plays the game.
use crate::noise::Noise;
use crate::plan::{Scene, Strategy};
use crate::rules::{Drop, Procedure, Relief};
use crate::shot::{Addressed, Next, Shot};
use crate::situation::Situation;
use crate::solve::places::{Code, Places};

/// A player on a hole with a value for every place.
#[derive(Clone, Copy)]
pub(in crate::solve) struct Sight<'a> {
    pub(in crate::solve) scene: &'a Scene,
    pub(in crate::solve) places: &'a Places,
    pub(in crate::solve) values: &'a [f32],
}

impl Sight<'_> {
    /// Where a stroke ends. Of the drops a Rule allows the one with the best value is taken. Hot path.
    #[inline]
    pub(in crate::solve) fn code(&self, shot: &Addressed<'_>, noise: &Noise) -> Code {
        match shot.play(noise).next {
            Next::Holed => Code::HOLED,
            Next::Play(situation) => self.places.code(situation),
            Next::Relief(relief) => self.relief(&relief),
        }
    }

    /// Where a stroke of a strategy ends, with the drop that the strategy takes.
    pub(in crate::solve) fn code_by(
        &self,
        given: &dyn Strategy,
        shot: &Addressed<'_>,
        noise: &Noise,
    ) -> Code {
        match shot.play(noise).next {
            Next::Holed => Code::HOLED,
            Next::Play(situation) => self.places.code(situation),
            Next::Relief(relief) => {
                let drop = given.take(self.scene, &relief.options(self.scene.hole()), 0);
                if drop.procedure == Procedure::StrokeAndDistance {
                    Code::AGAIN
                } else {
                    self.places.drop_code(drop.situation, drop.penalty)
                }
            }
        }
    }

    /// What becomes of a ball, by the values as they are; `own` is about what the situation itself is worth.
    #[inline]
    pub(in crate::solve) fn after(&self, code: Code, own: f64) -> After {
        After::of(self.places, self.values, code, own, false)
    }

    /// True of a shot that is meant to come down where enough is known of what becomes of it.
    pub(in crate::solve) fn may_aim(&self, from: Situation, shot: &Shot) -> bool {
        let way = shot.target - from.at;
        let lands = from.at + way * (shot.carry / way.norm().max(1.0)).min(1.0);
        let strip = &self.places.strip;
        strip.may_aim(self.scene.hole(), from.at, lands)
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

/// What becomes of a ball once it is decided which relief is taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::solve) enum After {
    Holed,
    /// Played again from where it was, for a penalty stroke.
    Again,
    /// So many strokes and penalties are to come.
    ToCome(f64),
}

impl After {
    /// Decides by the values as they are, when `own` is what the place it was played from is worth as far as is known: the
    /// stroke is played again where that is better than a drop, unless the drops are `fixed`.
    #[inline]
    pub(in crate::solve) fn of(
        places: &Places,
        values: &[f32],
        code: Code,
        own: f64,
        fixed: bool,
    ) -> Self {
        if !code.lies() {
            return if code == Code::HOLED {
                After::Holed
            } else {
                After::Again
            };
        }
        let to_come = f64::from(code.penalty()) + places.value(values, code);
        if code.penalty() > 0 && !fixed && 1.0 + own < to_come {
            After::Again
        } else {
            After::ToCome(to_come)
        }
    }

    /// Strokes and penalties to come.
    #[inline]
    pub(in crate::solve) fn cost(self, own: f64) -> f64 {
        match self {
            After::Holed => 0.0,
            After::Again => 1.0 + own,
            After::ToCome(strokes) => strokes,
        }
    }
}

/// What one action has come to over some luck.
#[derive(Clone, Copy, Debug, Default)]
pub(in crate::solve) struct Sum {
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
    /// Adds what became of one stroke; `own` is about what the situation itself is worth. Hot path.
    #[inline]
    pub(in crate::solve) fn add(&mut self, after: After, own: f64) {
        self.tries += 1;
        match after {
            After::Holed => {}
            After::Again => self.again += 1,
            After::ToCome(strokes) => self.to_come += strokes,
        }
        let gained = own - 1.0 - after.cost(own);
        self.better += gained.max(0.0);
        self.worse -= gained.min(0.0);
    }

    /// Strokes from here to the hole: the v of v = 1 + the share played again x (1 + v) + the rest to come.
    pub(in crate::solve) fn strokes(&self) -> f64 {
        mean_strokes(self.tries, self.again, self.to_come)
    }

    /// How much is gained where the stroke turns out well.
    pub(in crate::solve) fn better(&self) -> f64 {
        self.better / f64::from(self.tries.max(1))
    }

    /// How much is lost where it turns out badly.
    pub(in crate::solve) fn worse(&self) -> f64 {
        self.worse / f64::from(self.tries.max(1))
    }
}

/// The most strokes that any place is said to be worth: a stroke that is never in play.
pub(in crate::solve) const MOST_STROKES: f64 = 60.0;

/// Strokes to hole out by a stroke that ends so: v of v = 1 + (again / tries) (1 + v) + to_come / tries.
#[inline]
pub(in crate::solve) fn mean_strokes(tries: u32, again: u32, to_come: f64) -> f64 {
    if again >= tries {
        return MOST_STROKES;
    }
    let v = (f64::from(tries) + f64::from(again) + to_come) / f64::from(tries - again);
    v.min(MOST_STROKES)
}
