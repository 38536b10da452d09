//! One task of golf (a tee shot, an approach, a stroke around the green, a putt), played many times through the kernel.
use super::ExplainFault;
use super::practice_ground::{self, AROUND_GREEN, PUTTS_FT};
use super::sample::Sample;
use crate::geometry::{Vector, right_of, unit_or_up};
use crate::hole::{Hole, Surface};
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Direct, Plan, Ready, Scene, Then};
use crate::player::{Bag, Lie};
use crate::shot::{Next, Outcome, Shot, Stroke};
use crate::simulate::{Listener, Told, play};
use crate::situation::Situation;
use crate::units;
use rayon::prelude::*;
use std::sync::Arc;

/// What a task is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Kind {
    Tee,
    Approach { yards: f64 },
    Around { yards: f64, lie: Lie },
    Putt { feet: f64 },
}

/// A task, ready to be played.
pub(super) struct Task {
    pub(super) kind: Kind,
    scene: Arc<Scene>,
    start: Situation,
    /// The first stroke.
    pub(super) shot: Shot,
    /// How the ball is then holed out, where that is asked.
    out: Option<Arc<Ready>>,
}

/// Every task of a player, in the order in which they are told.
pub(super) fn all(bag: &Arc<Bag>) -> Result<Vec<Task>, ExplainFault> {
    let mut tasks = long_game(bag)?;
    for lie in [Lie::Fairway, Lie::Rough, Lie::Bunker] {
        for yards in AROUND_GREEN {
            tasks.push(around(bag, yards, lie)?);
        }
    }
    tasks.extend(putts(bag)?);
    Ok(tasks)
}

/// The tee shot, and the approaches that are in reach.
fn long_game(bag: &Arc<Bag>) -> Result<Vec<Task>, ExplainFault> {
    let scene = scene(practice_ground::long_hole()?, bag)?;
    let tee = Situation::on_the_tee(scene.hole());
    let club = bag.longest(Lie::Tee);
    let drive = Task {
        kind: Kind::Tee,
        scene: scene.clone(),
        start: tee,
        shot: Shot {
            stroke: Stroke::Swing(club),
            target: scene.hole().pin(),
            carry: bag.swing(club, Lie::Tee).full_carry,
        },
        out: None,
    };
    let approaches = practice_ground::APPROACHES.into_iter().filter_map(|yards| {
        let start = Situation {
            at: practice_ground::short_of_pin(scene.hole(), yards),
            lie: Lie::Fairway,
        };
        scene
            .reaches(start, scene.hole().pin())
            .then(|| at_pin(Kind::Approach { yards }, &scene, start, None))
    });
    Ok([drive].into_iter().chain(approaches).collect())
}

/// A stroke around the green, and what it takes to hole out.
fn around(bag: &Arc<Bag>, yards: f64, lie: Lie) -> Result<Task, ExplainFault> {
    let (hole, start) = practice_ground::around_green(yards, lie)?;
    let scene = scene(hole, bag)?;
    let out = holing_out(&scene)?;
    Ok(at_pin(
        Kind::Around { yards, lie },
        &scene,
        start,
        Some(out),
    ))
}

/// The putts, and what it takes to hole out.
fn putts(bag: &Arc<Bag>) -> Result<Vec<Task>, ExplainFault> {
    let scene = scene(practice_ground::putting_green()?, bag)?;
    let out = holing_out(&scene)?;
    let putt = |feet: f64| {
        let yards = feet / units::FEET_PER_YARD;
        let start = Situation {
            at: practice_ground::short_of_pin(scene.hole(), yards),
            lie: Lie::Green,
        };
        at_pin(Kind::Putt { feet }, &scene, start, Some(out.clone()))
    };
    Ok(PUTTS_FT.map(putt).into())
}

fn scene(hole: Hole, bag: &Arc<Bag>) -> Result<Arc<Scene>, ExplainFault> {
    Ok(Arc::new(Scene::new(Arc::new(hole), bag.clone())?))
}

/// The player's ordinary game at the pin.
fn holing_out(scene: &Scene) -> Result<Arc<Ready>, ExplainFault> {
    let plan = Plan::new("at the pin", Vec::new(), Then::Direct)?;
    let tee = Situation::on_the_tee(scene.hole());
    let then = Arc::new(Direct::new(scene));
    Ok(Arc::new(plan.ready(scene, then, tee)?))
}

/// The player's ordinary stroke at the pin.
fn at_pin(kind: Kind, scene: &Arc<Scene>, start: Situation, out: Option<Arc<Ready>>) -> Task {
    Task {
        kind,
        scene: scene.clone(),
        start,
        shot: scene.shot_at(start, scene.hole().pin()),
        out,
    }
}

/// Keeps what became of the first stroke.
struct First(Option<Outcome>);

impl Listener for First {
    fn hear(&mut self, stroke: &Told) {
        if self.0.is_none() {
            self.0 = Some(stroke.outcome);
        }
    }
}

impl Task {
    /// Plays of a range of numbers, on the current thread pool, in their order.
    pub(super) fn play(&self, seed: Seed, from: u64, to: u64) -> Vec<Sample> {
        (from..to)
            .into_par_iter()
            .map(|number| self.play_once(PlayNoise::new(seed, number)))
            .collect()
    }

    fn play_once(&self, luck: PlayNoise) -> Sample {
        let played_out = self.out.as_ref().and_then(|plan| {
            let mut first = First(None);
            let played = play(&self.scene, plan, self.start, luck, u8::MAX, &mut first);
            first.0.map(|outcome| (outcome, played.score))
        });
        let (outcome, strokes) = played_out.unwrap_or_else(|| {
            let outcome = self.scene.resolve(self.start, &self.shot, &luck.stroke(0));
            (outcome, 0)
        });
        self.sample(&outcome, strokes)
    }

    fn sample(&self, outcome: &Outcome, strokes: u8) -> Sample {
        let forward: Vector = unit_or_up(self.shot.target - self.start.at);
        let way = outcome.rest - self.start.at;
        let holed = outcome.next == Next::Holed;
        Sample {
            along: way.dot(&forward),
            right: way.dot(&right_of(forward)),
            left: (self.scene.hole().pin() - outcome.rest).norm(),
            on_fairway: outcome.surface == Surface::Fairway,
            on_green: holed || outcome.surface == Surface::Green,
            strokes,
        }
    }

    /// What is swung, by the name a coach uses.
    pub(super) fn stroke_name(&self) -> String {
        self.scene.stroke_name(self.shot.stroke)
    }
}
