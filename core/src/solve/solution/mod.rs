//! A solved hole: a strategy, and what it is worth from everywhere.

pub(super) mod advice;
pub(super) mod gained;
pub(super) mod map;
pub(super) mod pointed;
mod strategy;
pub(super) mod valuation;

use crate::geometry::Point;
use crate::hole::Surface;
use crate::noise::Noise;
use crate::plan::{Scene, Strategy};
use crate::player::Lie;
use crate::shot::Shot;
use crate::situation::Situation;
use crate::solve::fault::SolveFault;
use crate::solve::places::{Code, Places};
use crate::solve::score::by_left::{Chance, Decider, Decisions, Strokes, follow, in_state};
use crate::solve::score::place::Place;
use crate::solve::score::{is_cheaper, signed};
use crate::solve::search::action::Action;
use crate::solve::search::level::Luck;
use crate::solve::search::model::{ByPlace, Model};
use crate::solve::search::shortlist::Shortlist;
use crate::solve::search::sight::Sight;
use crate::solve::task::Task;
use std::sync::{Arc, OnceLock};

/// A hole solved for a player: a strategy to be played like any other, and what it is worth from everywhere.
///
/// Between the places that were solved the stroke of the nearest is played at its target (which is the mean of those of like
/// strokes around it), with the carry and the allowance for wind and slope of where the ball lies; close to the pin, turned
/// and stretched with the way to it. Where trees stand in its way that do not there, that of another place around is.
/// For a score a shot depends on the strokes already played.
pub struct Solution {
    pub(in crate::solve) scene: Arc<Scene>,
    pub(in crate::solve) task: Task,
    pub(in crate::solve) places: Arc<Places>,
    pub(in crate::solve) luck: Arc<Luck>,
    /// The actions that are played, of every state the usual one first, and where they end over luck they were not chosen by.
    pub(in crate::solve) played: Arc<Model>,
    /// Strokes to come where strokes alone count.
    pub(in crate::solve) values: ByPlace,
    pub(in crate::solve) decisions: Decisions,
    /// The strategy that was valued, where the hole was not solved.
    pub(in crate::solve) given: Option<Arc<dyn Strategy>>,
    /// Chances of holing out in 1, 2, ... strokes where strokes alone count.
    pub(in crate::solve) chances: OnceLock<Vec<ByPlace>>,
    /// The chances, and the strokes to come, of one who plays for a score, by strokes left.
    pub(in crate::solve) for_score: OnceLock<(Vec<ByPlace>, Vec<ByPlace>)>,
}

/// Strokes to hole out from which on a hole is as good as never finished: with so many on average more than a quarter of
/// plays are broken off at the stroke cap, if each try of two strokes ends it with the same chance.
const SELDOM: f64 = 50.0;

/// The most strokes that a chance is told for.
pub const MOST_TOLD: u8 = 24;

/// A shot that was looked at closely, with where it ends.
pub(in crate::solve) struct Looked {
    pub(in crate::solve) shot: Shot,
    pub(in crate::solve) codes: Vec<Code>,
}

impl Solution {
    /// The player on the hole.
    #[must_use]
    pub fn scene(&self) -> &Scene {
        &self.scene
    }

    /// What was solved.
    #[must_use]
    pub fn task(&self) -> &Task {
        &self.task
    }

    /// True where a given strategy was valued, not a hole solved.
    #[must_use]
    pub fn is_given(&self) -> bool {
        self.given.is_some()
    }

    /// Number of places with a shot of their own.
    #[must_use]
    pub fn places(&self) -> usize {
        self.places.states().len()
    }

    /// The strokes it is played for, from the tee; None where only the mean counts.
    pub(in crate::solve) fn most(&self) -> Option<usize> {
        let most = self.decisions.by_left.len();
        (most > 0).then_some(most)
    }

    pub(in crate::solve) fn decider(&self) -> Decider<'_> {
        Decider {
            places: &self.places,
            base: &self.values,
            decisions: &self.decisions,
            fixed: self.given.is_some(),
        }
    }

    pub(in crate::solve) fn sight(&self) -> Sight<'_> {
        Sight {
            scene: &self.scene,
            places: &self.places,
            values: &self.values.nodes,
        }
    }

    /// True where the hole is seldom or never finished from the tee: [`SELDOM`] strokes or more, where the most that is told
    /// is 60, so that values say no more than that.
    #[must_use]
    pub fn cannot_be_finished(&self) -> bool {
        self.expected_strokes(Situation::on_the_tee(self.scene().hole())) >= SELDOM
    }

    /// The situation of a ball at a place with a lie, whatever is there; or with the lie that the place gives: teed up on
    /// the tee's own spot, else by the surface.
    ///
    /// # Errors
    /// A place that is not finite, or far off the hole; without a lie, one out of bounds or in a penalty area.
    pub fn situation(&self, at: Point, lie: Option<Lie>) -> Result<Situation, SolveFault> {
        let hole = self.scene().hole();
        let refused = |what| SolveFault::NoPlace {
            x: at.x,
            y: at.y,
            what,
        };
        if !(at.x.is_finite() && at.y.is_finite()) {
            return Err(refused("not a finite number of yards"));
        }
        if !self.places.grid.holds(at) {
            return Err(refused("off the map of this hole"));
        }
        if let Some(lie) = lie {
            return Ok(Situation { at, lie });
        }
        let surface = hole.surface_at(at);
        let lie = match surface {
            Surface::OutOfBounds => return Err(refused("out of bounds")),
            _ if surface.is_penalty_area() => return Err(refused("in a penalty area")),
            _ if at == hole.tee() => Lie::Tee,
            _ => Lie::on(surface).unwrap_or(Lie::Rough),
        };
        Ok(Situation { at, lie })
    }

    /// Where a shot ends over some luck.
    fn codes(&self, from: Situation, shot: &Shot, luck: &[Noise]) -> Vec<Code> {
        let sight = self.sight();
        let shot = sight.scene.address(from, shot);
        let code = |noise| match &self.given {
            Some(given) => sight.code_by(&**given, &shot, noise),
            None => sight.code(&shot, noise),
        };
        luck.iter().map(code).collect()
    }

    /// A shot looked at closely.
    pub(in crate::solve) fn look(&self, from: Situation, shot: Shot) -> Looked {
        self.look_over(from, shot, &self.luck.long_valuing)
    }

    /// A shot looked at over some luck.
    pub(in crate::solve) fn look_over(
        &self,
        from: Situation,
        shot: Shot,
        luck: &[Noise],
    ) -> Looked {
        Looked {
            shot,
            codes: self.codes(from, &shot, luck),
        }
    }

    /// The best shots that a long look finds among those that `may` be tried; none of a strategy that was given.
    pub(in crate::solve) fn tried(
        &self,
        from: Situation,
        may: impl Fn(&Action) -> bool,
    ) -> Vec<Looked> {
        if self.given.is_some() {
            return Vec::new();
        }
        let (own, bold) = (self.values.at(&self.places, from), self.task.is_bold());
        let luck = &self.luck.long;
        let shortlist = Shortlist::long(&self.sight(), from, luck, own, bold, may);
        let tried = shortlist.tried().iter();
        tried.map(|tried| self.look(from, tried.shot)).collect()
    }

    /// What is played from a situation with so many strokes left, looked at closely: the stored choice, or where there is
    /// none the best that a long look finds.
    pub(in crate::solve) fn played_from(&self, from: Situation, left: usize) -> Looked {
        if let Some(shot) = self.stored(from, left) {
            return self.look(from, shot);
        }
        let mut looks = self.tried(from, |_| true);
        if looks.is_empty() {
            return self.look(from, self.at_the_pin(from));
        }
        let best = self.best(&looks, left);
        looks.swap_remove(best)
    }

    /// The shot that [`Strategy`] plays from a situation; None where no ball of this hole can lie so.
    pub(in crate::solve) fn stored(&self, from: Situation, left: usize) -> Option<Shot> {
        let is_stored = self.is_given()
            || from == Situation::on_the_tee(self.scene().hole())
            || self.places.holds(from);
        #[expect(clippy::cast_possible_truncation, reason = "at most 30 strokes")]
        let played = self.most().map_or(0, |most| most - left) as u8;
        is_stored.then(|| self.choose(self.scene(), from, played))
    }

    /// The ordinary shot at the pin.
    pub(in crate::solve) fn at_the_pin(&self, from: Situation) -> Shot {
        self.scene().shot_at(from, self.scene().hole().pin())
    }

    /// The number of the best of some shots with so many strokes left; of equals, that with the fewest strokes to come.
    fn best(&self, looks: &[Looked], left: usize) -> usize {
        let worth = |looked: &Looked| {
            let place = self.place(looked, left);
            (place.cost(signed(left)), place.strokes())
        };
        let worths: Vec<(f64, f64)> = looks.iter().map(worth).collect();
        let mut best = 0;
        for (number, &worth) in worths.iter().enumerate() {
            if is_cheaper(worth, worths[best]) {
                best = number;
            }
        }
        best
    }

    /// A shot that was looked at, with what it is worth by strokes left.
    pub(in crate::solve) fn place<'a>(&'a self, looked: &'a Looked, left: usize) -> Place<'a> {
        Place::new(self.decider(), &looked.codes, left)
    }

    /// Strokes left from the tee as `left` says, or as the task does.
    pub(in crate::solve) fn left(&self, left: Option<u8>) -> Result<usize, SolveFault> {
        let most = self.most().unwrap_or(usize::from(MOST_TOLD));
        let left = left.map_or(most, usize::from);
        if (1..=most).contains(&left) {
            return Ok(left);
        }
        Err(SolveFault::Left { given: left, most })
    }

    /// Strokes to hole out from a situation by what is played there, penalties included. For a score: with all the
    /// strokes left that it was solved for.
    #[must_use]
    pub fn expected_strokes(&self, from: Situation) -> f64 {
        let left = self.most().unwrap_or(0);
        if from == Situation::on_the_tee(self.scene().hole()) {
            return self.from_the_tee();
        }
        self.strokes_of(&self.place(&self.played_from(from, left), left), left)
    }

    /// Strokes to come by a shot, with so many strokes left.
    pub(in crate::solve) fn strokes_of(&self, place: &Place<'_>, left: usize) -> f64 {
        if self.most().is_none() {
            return place.strokes();
        }
        let quantity = Strokes { base: &self.values };
        let (_, strokes) = self.for_score();
        place.follow(&quantity, strokes, left, place.strokes())
    }

    /// Strokes from the tee, penalties included, when the strategy is played.
    #[must_use]
    pub fn from_the_tee(&self) -> f64 {
        match self.most() {
            None => self.values.of_states[0],
            Some(most) => self.for_score().1[most - 1].of_states[0],
        }
    }

    /// Strokes a play from the tee that it gains on another solution of the same hole and player; neither is played.
    #[must_use]
    pub fn gain_over(&self, other: &Solution) -> f64 {
        other.from_the_tee() - self.from_the_tee()
    }

    /// The chance of holing out from a situation in so many strokes or fewer, penalties included, by what is
    /// played there for the task. For a score `at_most` are also the strokes left, and None stands for all it was solved for.
    ///
    /// # Errors
    /// More strokes than the task has (where it has none, than [`MOST_TOLD`]); no stroke.
    pub fn chance(&self, from: Situation, at_most: Option<u8>) -> Result<f64, SolveFault> {
        let left = self.left(at_most)?;
        if from == Situation::on_the_tee(self.scene().hole()) {
            return Ok(self.chances_by_left()[left - 1].of_states[0]);
        }
        let played = self.played_from(from, left);
        Ok(self.chance_of(&self.place(&played, left), left))
    }

    /// The chance of holing out in the strokes left, by a shot.
    pub(in crate::solve) fn chance_of(&self, place: &Place<'_>, left: usize) -> f64 {
        place.follow(&Chance::IN_THOSE_LEFT, self.chances_by_left(), left, 0.0)
    }

    /// The chances of holing out in 1, 2, ... strokes, everywhere.
    pub(in crate::solve) fn chances_by_left(&self) -> &[ByPlace] {
        if self.most().is_some() {
            &self.for_score().0
        } else {
            self.base_chances()
        }
    }

    /// The shares of plays from the tee that score 0, 1, 2, ..., worked out without drawing any; the last entry holds
    /// [`MOST_TOLD`] and more.
    #[must_use]
    pub fn distribution(&self) -> Vec<f64> {
        let within: Vec<f64> = (0..MOST_TOLD).map(|score| self.within(score)).collect();
        let ends = within.iter().copied().chain([1.0]);
        let starts = [0.0].into_iter().chain(within.iter().copied());
        ends.zip(starts)
            .map(|(end, start)| (end - start).max(0.0))
            .collect()
    }

    /// The chance to score no more than `score` from the tee; of scores above [`MOST_TOLD`], no more than that.
    #[must_use]
    pub fn within(&self, score: u8) -> f64 {
        let score = score.min(MOST_TOLD);
        if score == 0 {
            return 0.0;
        }
        let Some(most) = self.most() else {
            return self.base_chances()[usize::from(score) - 1].of_states[0];
        };
        if usize::from(score) == most {
            return self.chances_by_left()[most - 1].of_states[0];
        }
        let quantity = Chance {
            extra: i32::from(score) - signed(most),
            base: self.base_chances(),
        };
        let by_left = follow(&self.decider(), &self.played, most, &quantity);
        in_state(&quantity, &by_left, signed(most), 0)
    }

    /// The strokes to come of one who plays for a score, by strokes left.
    pub(in crate::solve) fn strokes_by_left(&self) -> &[ByPlace] {
        &self.for_score().1
    }

    /// The chances of one for whom strokes alone count.
    fn base_chances(&self) -> &[ByPlace] {
        self.chances.get_or_init(|| {
            let decisions = Decisions::of_strokes();
            let decider = Decider {
                decisions: &decisions,
                ..self.decider()
            };
            let most = usize::from(MOST_TOLD);
            follow(&decider, &self.played, most, &Chance::IN_THOSE_LEFT)
        })
    }

    /// The chances and the strokes to come of one who plays for a score.
    fn for_score(&self) -> &(Vec<ByPlace>, Vec<ByPlace>) {
        self.for_score.get_or_init(|| {
            let top = self.most().unwrap_or(1);
            let (decider, played) = (self.decider(), &self.played);
            let strokes = Strokes { base: &self.values };
            (
                follow(&decider, played, top, &Chance::IN_THOSE_LEFT),
                follow(&decider, played, top, &strokes),
            )
        })
    }
}
