//! Where blow-ups lose their strokes: every stroke of them valued, and the losses added up by kind.
use super::prepare::{not_own, ready_one};
use super::{CompareFault, Question};
use crate::hole::Surface;
use crate::noise::PlayNoise;
use crate::plan::{Plan, Ready, Scene};
use crate::player::{Bag, Lie, Touch};
use crate::run::Run;
use crate::shot::{Next, Stroke};
use crate::simulate::{Cause, Played, Told, cause, play};
use crate::solve::{Recorded, Solution, Valued};
use crate::stats::{Estimate, PartOfTotal, Parts};
use rayon::prelude::*;
use std::sync::Arc;

/// How strokes are told apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kinds {
    /// By what went wrong with the stroke itself; all strokes with which nothing did are one kind.
    Cause,
    /// By the club, or the stroke around the green.
    Club,
    /// Tee shots, other full and partial swings, strokes around the green, putts.
    Stroke,
    /// By the surface on which the ball stopped, before any relief; holed balls are a kind of their own.
    Surface,
}

impl Kinds {
    /// All of them.
    pub const ALL: [Kinds; 4] = [Kinds::Cause, Kinds::Club, Kinds::Stroke, Kinds::Surface];

    /// The name used in tables.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Kinds::Cause => "cause",
            Kinds::Club => "club",
            Kinds::Stroke => "stroke",
            Kinds::Surface => "surface",
        }
    }

    /// The kinds by a name.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        Kinds::ALL.into_iter().find(|kinds| kinds.name() == name)
    }

    /// What the kinds are called, in their order.
    #[must_use]
    pub fn labels(self, bag: &Bag) -> Vec<String> {
        let owned = |names: &[&str]| names.iter().map(|&n| n.to_owned()).collect();
        match self {
            Kinds::Cause => {
                let causes = Cause::ALL.into_iter().map(Cause::name);
                causes.chain(["nothing wrong"]).map(str::to_owned).collect()
            }
            Kinds::Club => {
                let clubs = bag.clubs().map(|club| bag.name(club).to_owned());
                let touches = Touch::ALL.map(Touch::spoken);
                let putt = ["putt".to_owned()];
                clubs.chain(touches).chain(putt).collect()
            }
            Kinds::Stroke => owned(&["tee shot", "approach", "around the green", "putt"]),
            Kinds::Surface => {
                let surfaces = Surface::ALL.map(Surface::name);
                owned(&[&surfaces[..], &["holed"]].concat())
            }
        }
    }

    /// The number of a stroke's kind; `putts` counts those of the play up to it.
    fn of(self, told: &Told, bag: &Bag, putts: u8) -> usize {
        match self {
            Kinds::Cause => cause(told.from, &told.shot, &told.outcome, putts)
                .map_or(Cause::ALL.len(), |cause| cause as usize),
            Kinds::Club => match told.shot.stroke {
                Stroke::Swing(club) => usize::from(club.0),
                Stroke::Touch(touch) => bag.len() + touch as usize,
                Stroke::Putt => bag.len() + Touch::ALL.len(),
            },
            Kinds::Stroke => match told.shot.stroke {
                Stroke::Swing(_) if told.from.lie == Lie::Tee => 0,
                Stroke::Swing(_) => 1,
                Stroke::Touch(_) => 2,
                Stroke::Putt => 3,
            },
            Kinds::Surface if told.outcome.next == Next::Holed => Surface::ALL.len(),
            Kinds::Surface => told.outcome.surface as usize,
        }
    }
}

/// Blow-ups of one plan being valued stroke by stroke: a run that advances in waves.
///
/// The plays are those that a comparison counts under the same question.
pub struct Losing {
    scene: Scene,
    plan: Ready,
    solution: Arc<Solution>,
    question: Question,
    kinds: Kinds,
    goal: u64,
    done: u64,
    parts: Parts,
}

/// What one kind of stroke loses in blow-ups.
#[derive(Clone, Debug, PartialEq)]
pub struct Loss {
    /// What the kind is called.
    pub kind: String,
    /// Its strokes in a blow-up, and what they lose, with its share of all that is lost.
    pub part: PartOfTotal,
}

/// What blow-ups lose.
#[derive(Clone, Debug, PartialEq)]
pub struct Losses {
    /// Plays looked through.
    pub plays: u64,
    /// Blow-ups among them.
    pub blow_ups: u64,
    /// Strokes lost in a blow-up: its score less what was to be expected from the tee.
    pub total: Estimate,
    /// By kind, the greatest loss first; kinds that do not occur are left out.
    pub losses: Vec<Loss>,
}

impl Losing {
    /// Prepares a run of `plays` plays.
    ///
    /// # Errors
    /// As for [`super::Comparison::new`]; a solution for another hole or player.
    pub fn new(
        scene: Scene,
        plan: &Plan,
        solution: Arc<Solution>,
        question: Question,
        kinds: Kinds,
        plays: u64,
    ) -> Result<Self, CompareFault> {
        question.check(scene.hole())?;
        suits(&scene, &solution)?;
        not_own(plan, "what its blow-ups lose is not told")?;
        let plan = ready_one(&scene, plan, &question)?;
        let parts = Parts::new(kinds.labels(scene.bag()).len());
        Ok(Losing {
            scene,
            plan,
            solution,
            question,
            kinds,
            goal: plays,
            done: 0,
            parts,
        })
    }

    /// Plays once, and adds what was lost if it was a blow-up.
    fn add(&self, number: u64, told: &mut Vec<Told>, parts: &mut Parts) {
        told.clear();
        let luck = PlayNoise::new(self.question.seed, number);
        let pick_up = self.question.maximum_score.unwrap_or(u8::MAX);
        let start = self.question.begins(self.scene.hole());
        let played: Played = play(&self.scene, &self.plan, start, luck, pick_up, told);
        if played.score < self.scene.hole().par() + self.question.blow_up {
            return;
        }
        let rows: Vec<Recorded> = told.iter().map(Recorded::of).collect();
        let scores = [played.score];
        let gained = self
            .solution
            .strokes_gained(&rows, Some(&scores), Valued::LookedUp);
        let mut putts = 0;
        let lost = told.iter().zip(gained.iter().flatten());
        parts.add(lost.map(|(told, gained)| {
            putts += u8::from(told.from.lie == Lie::Green);
            let kind = self.kinds.of(told, self.scene.bag(), putts);
            (kind, -gained.gained)
        }));
    }

    /// What has been found so far.
    #[must_use]
    pub fn losses(&self) -> Losses {
        let labels = self.kinds.labels(self.scene.bag());
        let all = labels.into_iter().enumerate().map(|(number, kind)| Loss {
            kind,
            part: self.parts.part(number),
        });
        let mut losses: Vec<Loss> = all.filter(|loss| loss.part.times > 0.0).collect();
        losses.sort_by(|a, b| b.part.amount.mean.total_cmp(&a.part.amount.mean));
        Losses {
            plays: self.done,
            blow_ups: self.parts.plays(),
            total: self.parts.total(),
            losses,
        }
    }
}

impl Run for Losing {
    /// Looks through up to `count` more plays on the current thread pool.
    fn advance(&mut self, count: u64) {
        let end = self.goal.min(self.done.saturating_add(count));
        let new = || (Parts::new(self.parts.len()), Vec::new());
        let (parts, _) = (self.done..end)
            .into_par_iter()
            .fold(new, |(mut parts, mut told), number| {
                self.add(number, &mut told, &mut parts);
                (parts, told)
            })
            .reduce(new, |(mut a, told), (b, _)| {
                a.merge(&b);
                (a, told)
            });
        self.parts.merge(&parts);
        self.done = end;
    }

    /// Plays so far.
    fn done(&self) -> u64 {
        self.done
    }

    /// Plays in all.
    fn goal(&self) -> u64 {
        self.goal
    }
}

/// Refuses a solution for another hole or player.
pub(super) fn suits(scene: &Scene, solution: &Solution) -> Result<(), CompareFault> {
    use crate::plan::Strategy;
    if solution.suits(scene) {
        Ok(())
    } else {
        Err(CompareFault::OtherScene)
    }
}
