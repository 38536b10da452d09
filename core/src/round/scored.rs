//! Every way to play every hole, played: the scores that a round is put together of.
use super::RoundFault;
use super::field::seed_of;
use super::ways::{CourseWays, HoleWay};
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Plan, Ready, Scene, Then};
use crate::player::Lie;
use crate::run::Run;
use crate::simulate::{Listener, Told, play};
use crate::situation::Situation;
use crate::units;
use rayon::prelude::*;

/// The fewest plays of every way and the most.
const PLAYS: (u64, u64) = (200, 100_000);

/// What is known of one play of one way.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Mark {
    /// Strokes and penalties.
    pub(super) score: u8,
    /// Strokes and penalties before the first putt; the score where there was none.
    pub(super) before_putt: u8,
    /// True if the tee shot came to rest in play: without a penalty, in neither sand nor trees.
    pub(super) in_play: bool,
    /// Length of the first putt, feet; 0 where there was none.
    pub(super) putt_ft: f32,
}

/// The plays of one hole, by way and play.
pub(super) type Marks = Vec<Vec<Mark>>;

/// Every way to play every hole being played: it advances in waves.
///
/// The ways of a hole meet the same luck, play by play, and that is the luck of [`super::Rounds`] under the same seed.
pub struct Scoring {
    ways: CourseWays,
    plans: Vec<Vec<Ready>>,
    seed: Seed,
    goal: u64,
    done: u64,
    holes: Vec<Marks>,
}

impl Scoring {
    /// Prepares `plays` plays of every way; nothing has been played yet.
    ///
    /// # Errors
    /// Fewer than 200 plays or more than 100,000.
    pub fn new(ways: CourseWays, seed: Seed, plays: u64) -> Result<Self, RoundFault> {
        Self::check(plays)?;
        let field = ways.field();
        let numbers = field.course().numbers();
        let plans = (0..numbers.len())
            .map(|place| {
                let ready = |way: HoleWay| {
                    let then = Then::Custom(ways.solution(place, way).clone());
                    Plan::new(way.name(), Vec::new(), then)
                        .and_then(|plan| {
                            let strategy = ways.solution(place, way).clone();
                            let scene = &field.scenes()[place];
                            plan.ready(scene, strategy, Situation::on_the_tee(scene.hole()))
                        })
                        .map_err(|fault| RoundFault::Plan {
                            hole: numbers[place],
                            fault,
                        })
                };
                HoleWay::ALL.into_iter().map(ready).collect()
            })
            .collect::<Result<Vec<Vec<Ready>>, _>>()?;
        Ok(Scoring {
            holes: vec![vec![Vec::new(); HoleWay::ALL.len()]; plans.len()],
            plans,
            ways,
            seed,
            goal: plays,
            done: 0,
        })
    }

    /// Refuses a number of plays.
    ///
    /// # Errors
    /// Fewer than 200 plays or more than 100,000.
    pub fn check(plays: u64) -> Result<(), RoundFault> {
        #[expect(clippy::cast_precision_loss, reason = "for a message, and a range")]
        let (given, range) = (plays as f64, (PLAYS.0 as f64, PLAYS.1 as f64));
        RoundFault::unless("plays", given, range, "200 to 100,000")
    }

    /// The ways that are played.
    #[must_use]
    pub fn ways(&self) -> &CourseWays {
        &self.ways
    }

    /// The seed of the luck.
    #[must_use]
    pub fn seed(&self) -> Seed {
        self.seed
    }

    /// The plays of every hole, in the order of play.
    pub(super) fn holes(&self) -> &[Marks] {
        &self.holes
    }
}

impl Run for Scoring {
    /// Plays every way up to `count` more times on the current thread pool.
    fn advance(&mut self, count: u64) {
        let end = self.goal.min(self.done.saturating_add(count));
        let numbers = self.done..end;
        let (plans, scenes, seed) = (&self.plans, self.ways.field().scenes(), self.seed);
        self.holes
            .par_iter_mut()
            .enumerate()
            .flat_map(|(place, ways)| {
                ways.par_iter_mut()
                    .enumerate()
                    .map(move |(way, marks)| (place, way, marks))
            })
            .for_each(|(place, way, marks)| {
                let (scene, plan) = (&scenes[place], &plans[place][way]);
                let seed = seed_of(seed, place);
                let marked = |number| mark(scene, plan, PlayNoise::new(seed, number));
                marks.par_extend(numbers.clone().into_par_iter().map(marked));
            });
        self.done = end;
    }

    /// Plays of every way so far.
    fn done(&self) -> u64 {
        self.done
    }

    /// Plays of every way in all.
    fn goal(&self) -> u64 {
        self.goal
    }
}

/// One play.
fn mark(scene: &Scene, plan: &Ready, luck: PlayNoise) -> Mark {
    let mut tee = TeeShot::default();
    let start = Situation::on_the_tee(scene.hole());
    let played = play(scene, plan, start, luck, u8::MAX, &mut tee);
    let (before_putt, yards) = played.first_putt.unwrap_or((played.score, 0.0));
    #[expect(clippy::cast_possible_truncation, reason = "a length of a putt, feet")]
    let putt_ft = units::feet_from_yards(yards) as f32;
    Mark {
        score: played.score,
        before_putt,
        in_play: tee.in_play,
        putt_ft,
    }
}

/// Listens to the first stroke.
#[derive(Default)]
struct TeeShot {
    heard: bool,
    in_play: bool,
}

impl Listener for TeeShot {
    fn hear(&mut self, told: &Told) {
        if !self.heard {
            let lies_well = |to: Situation| !matches!(to.lie, Lie::Bunker | Lie::Trees);
            self.in_play = told.penalty == 0 && told.to.is_none_or(lies_well);
            self.heard = true;
        }
    }
}
