//! Actions under trial in one situation: tried over little luck first, and only the good ones over more.
use super::action::{Action, beside};
use super::places::Code;
use super::sight::{Sight, Sum};
use crate::noise::Noise;
use crate::shot::Shot;
use crate::situation::Situation;

/// An action and what it has come to so far.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tried {
    pub(super) action: Action,
    pub(super) shot: Shot,
    pub(super) sum: Sum,
    /// Where its outcomes are kept.
    codes: usize,
}

/// Actions under trial from one situation, and working space for the next.
#[derive(Default)]
pub(super) struct Shortlist {
    pub(super) offers: Vec<Action>,
    tried: Vec<Tried>,
    /// Outcomes over the first luck of the set, in no order, and those that are free.
    codes: Vec<Vec<Code>>,
    free: Vec<usize>,
}

/// One round of trials.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Round {
    /// Luck tried up to, from the start of the set.
    pub(super) luck: usize,
    /// How many actions stay.
    pub(super) keep: usize,
    /// How many of the best are varied afterwards, and how far; see [`beside`].
    pub(super) vary: (usize, f64),
}

impl Shortlist {
    /// The actions, best first.
    pub(super) fn tried(&self) -> &[Tried] {
        &self.tried
    }

    /// Where one of the actions ends over a set of luck whose first part it was tried over.
    pub(super) fn outcomes(
        &self,
        tried: &Tried,
        sight: &Sight<'_>,
        from: Situation,
        luck: &[Noise],
    ) -> impl ExactSizeIterator<Item = Code> {
        let known = &self.codes[tried.codes];
        let code = move |(i, noise)| match known.get(i) {
            Some(&code) => code,
            None => sight.code(from, &tried.shot, noise),
        };
        luck.iter().enumerate().map(code)
    }

    /// Tries the offers in rounds. `own` is about what the situation is worth, `bold` how many actions stay that
    /// others beat on average but not where they turn out well, and as many that are the safest.
    pub(super) fn run(
        &mut self,
        sight: &Sight<'_>,
        from: Situation,
        luck: &[Noise],
        rounds: &[Round],
        own: f64,
        bold: usize,
    ) {
        self.truncate(0);
        for offer in 0..self.offers.len() {
            let action = self.offers[offer];
            self.start(sight, &action, from);
        }
        for round in rounds {
            let luck = &luck[..round.luck];
            self.try_out(sight, from, luck, own);
            self.keep(round.keep, bold);
            self.vary(sight, from, round);
            self.try_out(sight, from, luck, own);
        }
        self.tried
            .sort_by(|a, b| a.sum.strokes().total_cmp(&b.sum.strokes()));
    }

    fn start(&mut self, sight: &Sight<'_>, action: &Action, from: Situation) {
        let codes = self.free.pop().unwrap_or_else(|| {
            self.codes.push(Vec::new());
            self.codes.len() - 1
        });
        self.codes[codes].clear();
        self.tried.push(Tried {
            action: *action,
            shot: action.shot(sight.scene, from),
            sum: Sum::default(),
            codes,
        });
    }

    /// Tries all over some luck, as far as they have not been.
    fn try_out(&mut self, sight: &Sight<'_>, from: Situation, luck: &[Noise], own: f64) {
        for tried in &mut self.tried {
            let codes = &mut self.codes[tried.codes];
            for noise in &luck[codes.len()..] {
                let code = sight.code(from, &tried.shot, noise);
                tried.sum.add(sight, code, own);
                codes.push(code);
            }
        }
    }

    /// Begins with actions next to the best.
    fn vary(&mut self, sight: &Sight<'_>, from: Situation, round: &Round) {
        let (count, size) = round.vary;
        for i in 0..count.min(self.tried.len()) {
            let action = self.tried[i].action;
            for varied in beside(sight.scene, &action, from, size) {
                self.start(sight, &varied, from);
            }
        }
    }

    fn truncate(&mut self, kept: usize) {
        self.free
            .extend(self.tried.drain(kept..).map(|tried| tried.codes));
    }

    /// Keeps the `keep` best, and besides the `bold` that gain most and the `bold` that lose least.
    fn keep(&mut self, keep: usize, bold: usize) {
        self.tried
            .sort_by(|a, b| a.sum.strokes().total_cmp(&b.sum.strokes()));
        let mut kept = keep.min(self.tried.len());
        for by in [|s: &Sum| -s.better(), |s: &Sum| s.worse()] {
            let rest = &mut self.tried[kept..];
            rest.sort_by(|a, b| by(&a.sum).total_cmp(&by(&b.sum)));
            kept += bold.min(rest.len());
        }
        self.truncate(kept);
    }
}
