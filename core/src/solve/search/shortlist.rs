//! Actions under trial in one situation: tried over little luck first, and only the good ones over more.
use super::action::{Action, Mesh, beside, offer};
use super::sight::{Sight, Sum};
use crate::noise::Noise;
use crate::shot::Shot;
use crate::situation::Situation;
use crate::solve::places::Code;

/// An action and what it has come to so far.
#[derive(Clone, Copy, Debug)]
pub(in crate::solve) struct Tried {
    pub(in crate::solve) action: Action,
    pub(in crate::solve) shot: Shot,
    pub(in crate::solve) sum: Sum,
    /// Where its outcomes are kept.
    outcomes: usize,
}

/// Where one stroke of an action ended.
#[derive(Clone, Copy, Debug)]
struct Ended {
    code: Code,
    /// Strokes and penalties to come.
    cost: f32,
}

/// Actions under trial from one situation, and working space for the next.
#[derive(Default)]
pub(in crate::solve) struct Shortlist {
    pub(in crate::solve) offers: Vec<Action>,
    tried: Vec<Tried>,
    /// Outcomes of each action in the order of the luck; `free` lists the slots that no action has.
    outcomes: Vec<Vec<Ended>>,
    free: Vec<usize>,
}

/// Successive halving (Jamieson and Talwalkar 2016): round by round twice the luck for half the actions, so that each round
/// takes about as many strokes.
#[derive(Clone, Copy, Debug)]
pub(in crate::solve) struct Trials {
    /// Luck of the first round and of the last, from the start of the set.
    pub(in crate::solve) luck: (usize, usize),
    /// Strokes of a round: as many actions stay after it as they are enough for.
    pub(in crate::solve) strokes: usize,
    /// How many stay at least, and after the last round at most.
    pub(in crate::solve) stay: usize,
    /// From which luck on, and how many of the best, are varied after a round: by whole steps first, and by half over four times
    /// as much luck; see [`beside`].
    pub(in crate::solve) vary: (usize, usize),
    /// True where those that are clearly behind are out, too.
    pub(in crate::solve) race: bool,
}

impl Trials {
    pub(in crate::solve) const fn race(
        luck: (usize, usize),
        strokes: usize,
        stay: usize,
        vary: (usize, usize),
    ) -> Self {
        Trials {
            luck,
            strokes,
            stay,
            vary,
            race: true,
        }
    }
}

/// Of everything, from one place.
const LONG: Trials = Trials {
    race: false,
    ..Trials::race((32, 2048), 4096, 4, (32, 4))
};

/// Luck over which actions are usually told apart at last: room for so many outcomes is made at once.
const USUAL_LUCK: usize = 128;
/// An action drops out where its mean difference to the best, over the same luck, is more than so many standard errors. Later,
/// at 2.5, it costs strokes and finds nothing better; at 1.3 places here and there lose.
const BEHIND: f64 = 1.6;
/// A few differences tell little of how they spread: so many imagined ones, of this spread in strokes, are taken with them.
const SPREAD: (f64, f64) = (8.0, 0.5);

impl Tried {
    /// Adds a stroke that ended so; `own` is about what the situation is worth.
    #[inline]
    fn add(&mut self, code: Code, sight: &Sight<'_>, own: f64) -> Ended {
        let after = sight.after(code, own);
        self.sum.add(after, own);
        #[expect(
            clippy::cast_possible_truncation,
            reason = "single precision is enough"
        )]
        let cost = after.cost(own) as f32;
        Ended { code, cost }
    }
}

impl Shortlist {
    /// The actions, best first; after them any that stayed for their boldness or their safety.
    pub(in crate::solve) fn tried(&self) -> &[Tried] {
        &self.tried
    }

    /// Where one of the actions ends over a set of luck whose first part it was tried over.
    pub(in crate::solve) fn outcomes(
        &self,
        tried: &Tried,
        sight: &Sight<'_>,
        from: Situation,
        luck: &[Noise],
    ) -> impl ExactSizeIterator<Item = Code> {
        let known = &self.outcomes[tried.outcomes];
        let shot = sight.scene.address(from, &tried.shot);
        let code = move |(i, noise): (usize, &Noise)| match known.get(i) {
            Some(ended) => ended.code,
            None => sight.code(&shot, noise),
        };
        luck.iter().enumerate().map(code)
    }

    /// A long look at one situation: everything that `may` be tried, over much luck. `own` and `bold` are as in
    /// [`Shortlist::run`].
    pub(in crate::solve) fn long(
        sight: &Sight<'_>,
        from: Situation,
        luck: &[Noise],
        own: f64,
        bold: bool,
        may: impl Fn(&Action) -> bool,
    ) -> Self {
        let mut shortlist = Shortlist::default();
        offer(sight.scene, from, Mesh::CLOSE, &mut shortlist.offers);
        shortlist.offers.retain(may);
        shortlist.run(sight, from, luck, &LONG, own, bold);
        shortlist
    }

    /// Tries the offers. `own` is about what the situation is worth. Where `bold`, two more stay that others beat on
    /// average: the one that gains most where it turns out well, and the one that loses least where it does not.
    pub(in crate::solve) fn run(
        &mut self,
        sight: &Sight<'_>,
        from: Situation,
        luck: &[Noise],
        trials: &Trials,
        own: f64,
        bold: bool,
    ) {
        self.truncate(0);
        for anywhere in [false, true] {
            for offer in 0..self.offers.len() {
                let action = self.offers[offer];
                self.start(sight, &action, from, anywhere);
            }
            if !self.tried.is_empty() {
                break;
            }
        }
        let (mut count, last) = trials.luck;
        loop {
            let luck = &luck[..count];
            self.try_out(sight, from, luck, own);
            if trials.race {
                self.drop_those_behind(bold);
            }
            let stay = trials.stay;
            if count >= last {
                return self.keep(stay, bold);
            }
            self.keep(stay.max(trials.strokes / count), bold);
            let (begin, best) = trials.vary;
            if count >= begin {
                let size = (begin as f64 / count as f64).sqrt();
                self.vary(sight, from, best, size);
                self.try_out(sight, from, luck, own);
            }
            count *= 2;
        }
    }

    /// Adds an action that may be aimed as it is, or one aimed `anywhere`.
    fn start(&mut self, sight: &Sight<'_>, action: &Action, from: Situation, anywhere: bool) {
        let shot = action.shot(sight.scene, from);
        if !(anywhere || sight.may_aim(from, &shot)) {
            return;
        }
        let outcomes = self.free.pop().unwrap_or_else(|| {
            self.outcomes.push(Vec::with_capacity(USUAL_LUCK));
            self.outcomes.len() - 1
        });
        self.outcomes[outcomes].clear();
        self.tried.push(Tried {
            action: *action,
            shot,
            sum: Sum::default(),
            outcomes,
        });
    }

    /// Tries all over some luck, as far as they have not been.
    fn try_out(&mut self, sight: &Sight<'_>, from: Situation, luck: &[Noise], own: f64) {
        for tried in &mut self.tried {
            let outcomes = &mut self.outcomes[tried.outcomes];
            let more = luck.get(outcomes.len()..).unwrap_or_default();
            if more.is_empty() {
                continue;
            }
            let shot = sight.scene.address(from, &tried.shot);
            for noise in more {
                let code = sight.code(&shot, noise);
                outcomes.push(tried.add(code, sight, own));
            }
        }
    }

    /// Drops those that are clearly behind the best; where `bold`, the boldest and the safest stay, though others beat them on
    /// average.
    fn drop_those_behind(&mut self, bold: bool) {
        let Some(best) = self.least(Sum::strokes) else {
            return;
        };
        let stay = if bold {
            [self.least(|sum| -sum.better()), self.least(Sum::worse)]
        } else {
            [None; 2]
        };
        let (outcomes, free) = (&self.outcomes, &mut self.free);
        let costs_more = |(ended, best): (&Ended, &Ended)| f64::from(ended.cost - best.cost);
        self.tried.retain(|tried| {
            let (own, place) = (&outcomes[tried.outcomes], Some(tried.outcomes));
            let may_go = place != Some(best) && !stay.contains(&place);
            let behind = may_go && is_behind(own.iter().zip(&outcomes[best]).map(costs_more));
            if behind {
                free.push(tried.outcomes);
            }
            !behind
        });
    }

    /// Where the outcomes of the action are kept that has the least of something.
    fn least(&self, of: impl Fn(&Sum) -> f64) -> Option<usize> {
        let by = |a: &&Tried, b: &&Tried| of(&a.sum).total_cmp(&of(&b.sum));
        self.tried.iter().min_by(by).map(|tried| tried.outcomes)
    }

    /// Adds actions next to the best ones, not yet tried.
    fn vary(&mut self, sight: &Sight<'_>, from: Situation, count: usize, size: f64) {
        for i in 0..count.min(self.tried.len()) {
            let action = self.tried[i].action;
            for varied in beside(sight.scene, &action, from, size) {
                self.start(sight, &varied, from, false);
            }
        }
    }

    fn truncate(&mut self, kept: usize) {
        self.free
            .extend(self.tried.drain(kept..).map(|tried| tried.outcomes));
    }

    /// Keeps the `keep` best, and where `bold` of the others the one that gains most and the one that loses least.
    fn keep(&mut self, keep: usize, bold: bool) {
        self.tried
            .sort_by(|a, b| a.sum.strokes().total_cmp(&b.sum.strokes()));
        let mut kept = keep.min(self.tried.len());
        for by in [|s: &Sum| -s.better(), |s: &Sum| s.worse()] {
            if bold && kept < self.tried.len() {
                self.tried[kept..].sort_by(|a, b| by(&a.sum).total_cmp(&by(&b.sum)));
                kept += 1;
            }
        }
        self.truncate(kept);
    }
}

/// True where differences are positive by more than chance.
fn is_behind(differences: impl Iterator<Item = f64>) -> bool {
    let (mut count, mut sum, mut squares) = (0.0, 0.0, 0.0);
    for difference in differences {
        count += 1.0;
        sum += difference;
        squares += difference * difference;
    }
    let (more, spread) = SPREAD;
    let mean = sum / count;
    let variance = (squares - sum * mean + more * spread * spread) / (count + more);
    mean > BEHIND * (variance / count).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hole::{Hole, Sketch};
    use crate::plan::Scene;
    use crate::player::{Lie, Player};
    use crate::solve::places::grid::Strip;
    use crate::solve::places::spacing::Spacing;
    use crate::solve::search::level::Level;
    use std::sync::Arc;

    /// Of a ball holed and of two that lie where the values put them, 64 strokes each: the best action, one that is far behind
    /// but holes one in eight, and one that is behind and nothing else. Where strokes alone count both go.
    #[test]
    fn the_boldest_stays_in_a_race_where_more_than_strokes_counts() {
        let hole = Arc::new(Hole::sketch(&Sketch::new(4, 380.0)).unwrap());
        let bag = Arc::new(Player::from_handicap(18.0).unwrap().prepare());
        let scene = Scene::new(hole, bag).unwrap();
        let level = Level::new(&scene, Strip { width: 60.0 }, 10.0, Spacing::Even);
        let sight = Sight {
            scene: &scene,
            places: &level.places,
            values: &level.values.nodes,
        };
        let fairway = |yards: f64| Situation {
            at: scene.hole().line().at(yards, 0.0),
            lie: Lie::Fairway,
        };
        let (near, far) = [300.0, 120.0]
            .map(|yards| level.places.code(fairway(yards)))
            .into();
        let own = 4.0;
        let mut bold_one = [far; 8];
        bold_one[0] = Code::HOLED;
        let all = [[near; 8], bold_one, [far; 8]];
        for (bold, stay) in [(false, &[0][..]), (true, &[0, 1][..])] {
            let mut shortlist = Shortlist::default();
            for outcomes in all {
                shortlist.start(
                    &sight,
                    &Action::at_the_pin(&scene, fairway(200.0)),
                    fairway(200.0),
                    true,
                );
                let number = shortlist.tried.len() - 1;
                for code in outcomes.repeat(8) {
                    let ended = shortlist.tried[number].add(code, &sight, own);
                    shortlist.outcomes[number].push(ended);
                }
            }
            shortlist.drop_those_behind(bold);
            let left: Vec<usize> = shortlist.tried.iter().map(|tried| tried.outcomes).collect();
            assert_eq!(left, stay);
        }
    }

    /// Worked out by hand: of eight equal differences the spread is that of the prior alone, 0.5 / sqrt 2, and its standard
    /// error an eighth of a stroke; 1.6 of them are a fifth.
    #[test]
    fn what_is_behind_by_more_than_chance_is_told() {
        let equal = |by: f64| is_behind([by; 8].into_iter());
        assert!(equal(0.21) && !equal(0.19) && !equal(-0.5));
        // The same mean, but one bad stroke makes all of it: no more than chance. With eight such it is.
        let some = |count| is_behind((0..count).map(|i| if i % 8 == 0 { 0.32 * 8.0 } else { 0.0 }));
        assert!(!some(8) && some(64));
    }
}
