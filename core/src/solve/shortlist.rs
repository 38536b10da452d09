//! Actions under trial in one situation: tried over little luck first, and only the good ones over more.
use super::action::{Action, beside};
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
}

/// Actions under trial from one situation, and working space for the next.
#[derive(Default)]
pub(super) struct Shortlist {
    pub(super) offers: Vec<Action>,
    tried: Vec<Tried>,
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
        self.tried.clear();
        let offers = std::mem::take(&mut self.offers);
        self.tried
            .extend(offers.iter().map(|action| start(sight, action, from)));
        self.offers = offers;
        let mut done = 0;
        for round in rounds {
            for tried in &mut self.tried {
                try_out(sight, tried, from, &luck[done..round.luck], own);
            }
            done = round.luck;
            self.keep(round.keep, bold);
            self.vary(sight, from, &luck[..done], round, own);
        }
        self.tried
            .sort_by(|a, b| a.sum.strokes().total_cmp(&b.sum.strokes()));
    }

    fn vary(
        &mut self,
        sight: &Sight<'_>,
        from: Situation,
        luck: &[Noise],
        round: &Round,
        own: f64,
    ) {
        let (count, size) = round.vary;
        for i in 0..count.min(self.tried.len()) {
            let action = self.tried[i].action;
            for varied in beside(sight.scene, &action, from, size) {
                let mut tried = start(sight, &varied, from);
                try_out(sight, &mut tried, from, luck, own);
                self.tried.push(tried);
            }
        }
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
        self.tried.truncate(kept);
    }
}

fn start(sight: &Sight<'_>, action: &Action, from: Situation) -> Tried {
    Tried {
        action: *action,
        shot: action.shot(sight.scene, from),
        sum: Sum::default(),
    }
}

#[inline]
fn try_out(sight: &Sight<'_>, tried: &mut Tried, from: Situation, luck: &[Noise], own: f64) {
    for noise in luck {
        let code = sight.code(from, &tried.shot, noise);
        tried.sum.add(sight, code, own);
    }
}
