//! A solved hole: a strategy, and what it is worth from everywhere.
use super::action::{Action, Mesh, offer};
use super::fault::SolveFault;
use super::finish::given_code;
use super::layers::{Chance, Decider, Decisions, Layer, Strokes, follow};
use super::level::Luck;
use super::model::{Model, Values};
use super::place::{Place, in_state, signed};
use super::places::{Code, Places};
use super::shortlist::Shortlist;
use super::sight::Sight;
use super::strategy::played_in;
use super::task::{Objective, Task};
use super::think;
use crate::geometry::Point;
use crate::hole::Surface;
use crate::noise::Noise;
use crate::plan::{Scene, Strategy};
use crate::player::Lie;
use crate::shot::{Shot, Stroke};
use crate::situation::Situation;
use std::sync::{Arc, OnceLock};

/// The parts of a solution.
pub(super) struct Found {
    pub(super) scene: Arc<Scene>,
    pub(super) task: Task,
    pub(super) places: Arc<Places>,
    pub(super) luck: Arc<Luck>,
    pub(super) played: Arc<Model>,
    /// Strokes to come when strokes alone are minded.
    pub(super) values: Values,
    pub(super) decisions: Decisions,
    pub(super) given: Option<Arc<dyn Strategy>>,
}

/// A hole solved for a player: a strategy to be played like any other, and what it is worth from everywhere.
///
/// Between the places that were solved the stroke of the nearest is played, aimed between its target and those of the
/// places around that play much the same, with the carry and the allowance for wind and slope of where the ball lies;
/// close to the pin, turned and stretched with the way to it.
/// For a score a shot depends on the strokes already played.
pub struct Solution {
    pub(super) found: Found,
    /// Strokes to come when strokes alone are minded.
    base: Layer,
    /// Chances of holing out in 1, 2, ... strokes when strokes alone are minded.
    chances: OnceLock<Vec<Layer>>,
    /// The chances, and the strokes to come, of one who plays for a score, by strokes left.
    for_score: OnceLock<(Vec<Layer>, Vec<Layer>)>,
}

/// The most strokes that a chance is told for.
pub const MOST_TOLD: u8 = 24;

/// Strokes, or chance, by which a shot is clearly better than another: what a close look cannot tell apart is less.
const CLEARLY: f64 = 0.003;

/// A shot that was looked at closely, with where it ends.
pub(super) struct Looked {
    pub(super) shot: Shot,
    pub(super) codes: Vec<Code>,
}

impl Solution {
    pub(super) fn new(found: Found) -> Self {
        Solution {
            base: Layer {
                of_states: found.values.of_states.clone(),
                nodes: found.values.nodes.clone(),
            },
            found,
            chances: OnceLock::new(),
            for_score: OnceLock::new(),
        }
    }

    /// The player on the hole.
    #[must_use]
    pub fn scene(&self) -> &Scene {
        &self.found.scene
    }

    /// What was solved.
    #[must_use]
    pub fn task(&self) -> &Task {
        &self.found.task
    }

    /// True where a given strategy was valued, not a hole solved.
    #[must_use]
    pub fn is_given(&self) -> bool {
        self.found.given.is_some()
    }

    /// Number of places with a shot of their own.
    #[must_use]
    pub fn places(&self) -> usize {
        self.found.places.states().len()
    }

    /// The strokes it is played for, from the tee; None where only the mean counts.
    pub(super) fn most(&self) -> Option<usize> {
        let layers = self.found.decisions.layers.len();
        (layers > 0).then_some(layers)
    }

    pub(super) fn decider(&self) -> Decider<'_> {
        Decider {
            places: &self.found.places,
            base: &self.found.values,
            decisions: &self.found.decisions,
            fixed: self.found.given.is_some(),
        }
    }

    pub(super) fn sight(&self) -> Sight<'_> {
        Sight {
            scene: &self.found.scene,
            places: &self.found.places,
            values: &self.found.values.nodes,
        }
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
        if !self.found.places.grid.holds(at) {
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
        match &self.found.given {
            Some(given) => luck
                .iter()
                .map(|noise| given_code(&sight, &**given, from, shot, noise))
                .collect(),
            None => luck
                .iter()
                .map(|noise| sight.code(from, shot, noise))
                .collect(),
        }
    }

    /// A shot looked at closely.
    pub(super) fn look(&self, from: Situation, shot: Shot) -> Looked {
        Looked {
            shot,
            codes: self.codes(from, &shot, &self.found.luck.thorough_value),
        }
    }

    /// An action, or the shot of the given strategy, looked at over some luck.
    pub(super) fn look_over(
        &self,
        from: Situation,
        action: Option<Action>,
        luck: &[Noise],
    ) -> Looked {
        let scene = self.scene();
        let shot = match (&action, &self.found.given) {
            (Some(action), _) => action.shot(scene, from),
            (None, Some(given)) => given.choose(scene, from),
            (None, None) => scene.shot_at(from, scene.hole().pin()),
        };
        Looked {
            shot,
            codes: self.codes(from, &shot, luck),
        }
    }

    /// The best shots with another stroke than the one given.
    pub(super) fn other_looks(&self, from: Situation, than: Stroke) -> Vec<Looked> {
        if self.found.given.is_some() {
            return Vec::new();
        }
        let scene = self.scene();
        let mut shortlist = Shortlist::default();
        offer(scene, from, Mesh::CLOSE, &mut shortlist.offers);
        shortlist.offers.retain(|action| action.stroke != than);
        let bold = self.found.task.bold();
        let reckoned = self.reckoned(from);
        let luck = &self.found.luck.thorough;
        think::rounds(&self.sight(), from, luck, &mut shortlist, reckoned, bold);
        let tried = shortlist.tried().iter();
        tried.map(|tried| self.look(from, tried.shot)).collect()
    }

    /// The shots worth a close look from a situation: those the strategy plays around there, and, but for a strategy
    /// that was given, the best of everything there is.
    pub(super) fn looks(&self, from: Situation) -> Vec<Looked> {
        let scene = self.scene();
        if let Some(given) = &self.found.given {
            return vec![self.look(from, given.choose(scene, from))];
        }
        let places = &self.found.places;
        let is_tee = from == Situation::on_the_tee(scene.hole());
        let mut actions: Vec<Action> = match places.state_at(from) {
            Some(state) if is_tee || places.holds(from) => {
                let mut actions = self.played_near(from, state);
                let usual = self.usual(from);
                actions.retain(|action| Some(*action) != usual);
                usual.into_iter().chain(actions).collect()
            }
            _ => Vec::new(),
        };
        let mut shortlist = Shortlist::default();
        let bold = self.found.task.bold();
        let luck = &self.found.luck.thorough;
        let reckoned = self.reckoned(from);
        think::run(&self.sight(), from, luck, &mut shortlist, reckoned, bold);
        for tried in shortlist.tried() {
            if !actions.contains(&tried.action) {
                actions.push(tried.action);
            }
        }
        actions
            .iter()
            .map(|action| self.look(from, action.shot(scene, from)))
            .collect()
    }

    /// The actions of a state as they are played from a situation.
    pub(super) fn played_near(&self, from: Situation, state: usize) -> Vec<Action> {
        let place = self.found.places.states()[state].situation.at;
        let pin = self.scene().hole().pin();
        let actions = self.found.played.actions(state).iter();
        actions
            .map(|action| action.moved(place, from.at, pin))
            .filter(|action| action.is_stroke(self.scene(), from))
            .collect()
    }

    /// What is played from a situation when strokes alone are minded; None where the hole has no such lie.
    pub(super) fn usual(&self, from: Situation) -> Option<Action> {
        let played = &self.found.played;
        played_in(self.scene(), &self.found.places, from, |state| {
            &played.actions(state)[0]
        })
    }

    /// The best of some shots with so many strokes left: its number and what it is worth. The first is what the strategy
    /// plays, and stays the best unless another is clearly better.
    pub(super) fn best<'a>(&'a self, looks: &'a [Looked], left: usize) -> (usize, Place<'a>) {
        let mut best: Option<(usize, Place<'a>)> = None;
        for (number, looked) in looks.iter().enumerate() {
            let place = Place::new(self.decider(), &looked.codes, left);
            let better = best.as_ref().is_none_or(|(leader, old)| {
                let margin = if *leader == 0 { CLEARLY } else { 1e-9 };
                let (new, old) = (minded(&place, left), minded(old, left));
                new.0 < old.0 - margin || ((new.0 - old.0).abs() <= 1e-9 && new.1 < old.1 - margin)
            });
            if better {
                best = Some((number, place));
            }
        }
        best.unwrap_or_else(|| (0, Place::new(self.decider(), &[Code::HOLED], left)))
    }

    /// Strokes left from the tee as `left` says, or as the task does.
    pub(super) fn left(&self, left: Option<u8>) -> Result<usize, SolveFault> {
        let most = self.most().unwrap_or(usize::from(MOST_TOLD));
        let left = left.map_or(most, usize::from);
        if (1..=most).contains(&left) {
            return Ok(left);
        }
        #[expect(clippy::cast_precision_loss, reason = "for a message")]
        Err(SolveFault::Left {
            given: left as f64,
            most,
        })
    }

    /// Strokes to hole out from a situation by the best shot there, penalties included. For a score: with all the
    /// strokes left that it was solved for.
    #[must_use]
    pub fn expected_strokes(&self, from: Situation) -> f64 {
        let left = self.most().unwrap_or(0);
        if from == Situation::on_the_tee(self.scene().hole()) {
            return self.from_the_tee();
        }
        let looks = self.looks(from);
        let (_, place) = self.best(&looks, left);
        self.strokes_of(&place, left)
    }

    /// Strokes to come by a shot, with so many strokes left.
    pub(super) fn strokes_of(&self, place: &Place<'_>, left: usize) -> f64 {
        if self.most().is_none() {
            return place.strokes();
        }
        let quantity = Strokes { base: &self.base };
        let (_, strokes) = self.for_score();
        place.follow(&quantity, strokes, left, place.strokes())
    }

    /// Strokes from the tee, penalties included, when the strategy is played.
    #[must_use]
    pub fn from_the_tee(&self) -> f64 {
        match self.most() {
            None => self.found.values.of_states[0],
            Some(most) => self.for_score().1[most - 1].of_states[0],
        }
    }

    /// The chance of holing out from a situation in so many strokes or fewer, penalties included, by the best shot there
    /// for the task. For a score `at_most` are also the strokes left, and None stands for all it was solved for.
    ///
    /// # Errors
    /// More strokes than the task has, or than [`MOST_TOLD`]; none.
    pub fn chance(&self, from: Situation, at_most: Option<u8>) -> Result<f64, SolveFault> {
        let left = self.left(at_most)?;
        if from == Situation::on_the_tee(self.scene().hole()) {
            return Ok(self.chance_layers()[left - 1].of_states[0]);
        }
        let looks = self.looks(from);
        let (_, place) = self.best(&looks, left);
        Ok(self.chance_of(&place, left))
    }

    /// The chance of holing out in the strokes left, by a shot.
    pub(super) fn chance_of(&self, place: &Place<'_>, left: usize) -> f64 {
        let quantity = Chance {
            extra: 0,
            base: &[],
        };
        place.follow(&quantity, self.chance_layers(), left, 0.0)
    }

    /// The chances of holing out in 1, 2, ... strokes, everywhere.
    pub(super) fn chance_layers(&self) -> &[Layer] {
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

    /// The chance to score no more than `score` from the tee.
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
            return self.chance_layers()[most - 1].of_states[0];
        }
        let quantity = Chance {
            extra: i32::from(score) - signed(most),
            base: self.base_chances(),
        };
        let layers = follow(&self.decider(), &self.found.played, most, &quantity);
        in_state(&quantity, &layers, signed(most), 0)
    }

    /// The strokes to come of one who plays for a score, by strokes left.
    pub(super) fn stroke_layers(&self) -> &[Layer] {
        &self.for_score().1
    }

    /// The chances of one who minds strokes alone.
    fn base_chances(&self) -> &[Layer] {
        self.chances.get_or_init(|| {
            let decisions = Decisions::of_strokes();
            let decider = Decider {
                decisions: &decisions,
                ..self.decider()
            };
            let quantity = Chance {
                extra: 0,
                base: &[],
            };
            follow(
                &decider,
                &self.found.played,
                usize::from(MOST_TOLD),
                &quantity,
            )
        })
    }

    /// The chances and the strokes to come of one who plays for a score.
    fn for_score(&self) -> &(Vec<Layer>, Vec<Layer>) {
        self.for_score.get_or_init(|| {
            let top = self.most().unwrap_or(1);
            let (decider, played) = (self.decider(), &self.found.played);
            let chance = Chance {
                extra: 0,
                base: &[],
            };
            (
                follow(&decider, played, top, &chance),
                follow(&decider, played, top, &Strokes { base: &self.base }),
            )
        })
    }

    /// About what a situation is worth.
    pub(super) fn reckoned(&self, from: Situation) -> f64 {
        self.estimate(self.scene(), from)
    }
}

/// What is minded of a shot with so many strokes left, and its strokes.
fn minded(place: &Place<'_>, left: usize) -> (f64, f64) {
    (place.minded(signed(left)), place.strokes())
}

/// True for a solution that plays for at most so many strokes.
pub(super) fn plays_for_a_chance(task: &Task) -> bool {
    matches!(task.objective, Objective::AtMost(_))
}
