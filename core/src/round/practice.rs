//! What practice is worth: the same rounds with one skill better, and with better choices.
use super::field::seed_of;
use super::played::number;
use super::rounds::check_rounds;
use super::skills::{Band, Levels, Practice};
use super::{Field, RoundFault, Way, check_target};
use crate::course::Course;
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Ready, Scene};
use crate::player::{Habits, Player, Reference};
use crate::run::Run;
use crate::simulate::{Playing, play};
use crate::situation::Situation;
use crate::stats::Estimate;
use rayon::prelude::*;
use std::sync::Arc;

/// What is asked about practice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PracticeQuestion {
    /// How the holes are played.
    pub way: Way,
    /// The seed that fixes the luck.
    pub seed: Seed,
    /// Rounds of each.
    pub rounds: u64,
    /// Whose scratch golfer and levels the player is measured by.
    pub reference: Reference,
    /// How much of the way to the scratch golfer is gone in each skill, above 0 and at most 1.
    pub share: f64,
    /// A score to be broken, if the chance of that is to be told.
    pub to_break: Option<u16>,
}

/// What one thing to practise is worth.
#[derive(Clone, Debug, PartialEq)]
pub struct PracticeGain {
    /// What is practised.
    pub skill: String,
    /// The part of the game: tee shots, approaches, approaches by distance, around the green, putting, choice.
    pub part: &'static str,
    /// Strokes a round that it saves, paired.
    pub saved: Estimate,
    /// What it adds to the chance of the target, paired; NaN without a target.
    pub chance: Estimate,
    /// The handicap of the level whose skill is most like the player's; NaN for choice.
    pub like: f64,
}

/// The parts of one choice: the habits given up.
const CHOICE: &str = "choice";

/// A side of the comparison: the player as changed, on every hole.
struct Side {
    skill: String,
    part: &'static str,
    like: f64,
    /// The strokes that are made as practised; None for all.
    band: Option<Band>,
    holes: Holes,
    sums: Sums,
}

/// A player prepared on every hole, with the plan there.
struct Holes {
    field: Field,
    plans: Vec<Ready>,
}

/// Sums over rounds of what a side saves, and of targets met with it and without.
#[derive(Clone, Copy, Default)]
struct Sums {
    saved: i64,
    squares: u64,
    met: i64,
    differ: u64,
}

/// Practice being priced: it advances in waves of rounds.
///
/// Every side plays the same rounds with the same luck, so a difference is what the skill makes and little else.
pub struct PracticeRun {
    question: PracticeQuestion,
    base: Holes,
    sides: Vec<Side>,
    done: u64,
    /// Totals of the player as usual, and rounds that meet the target.
    total: u64,
    met: u64,
}

impl PracticeRun {
    /// Prepares the player with every skill changed in turn; nothing has been played yet.
    ///
    /// A skill in which the player is as good as the scratch golfer or better goes towards the professional's. Habits are given
    /// up altogether, for there is no tenth of aiming at every flag.
    ///
    /// # Errors
    /// Fewer than two rounds or too many, a share or a target out of range, a player who cannot be prepared for a hole.
    pub fn new(
        course: &Arc<Course>,
        player: &Player,
        question: PracticeQuestion,
    ) -> Result<Self, RoundFault> {
        check_rounds("plays", question.rounds)?;
        let range = (2.0, f64::INFINITY);
        RoundFault::unless("plays", number(question.rounds), range, "2 to 100,000,000")?;
        let share = question.share;
        RoundFault::unless("share", share, (1e-6, 1.0), "above 0 and at most 1")?;
        if let Some(to_break) = question.to_break {
            check_target(course, to_break)?;
        }
        let prepared = |player: Player| -> Result<Holes, RoundFault> {
            let field = Field::new(course.clone(), &Arc::new(player.prepare()))?;
            let plans = field.ready(&field.plans(question.way)?)?;
            Ok(Holes { field, plans })
        };
        let levels = Levels::new(question.reference)?;
        let professional = Player::professional()?;
        let mut sides = Practice::all(player)
            .into_par_iter()
            .map(|practice| {
                let like = levels.like(practice, player);
                let toward = if like > 0.0 {
                    levels.scratch()
                } else {
                    &professional
                };
                Ok(Side {
                    skill: practice.name(),
                    part: practice.part(),
                    like,
                    band: practice.band(),
                    holes: prepared(practice.practised(player, toward, share)?)?,
                    sums: Sums::default(),
                })
            })
            .collect::<Result<Vec<_>, RoundFault>>()?;
        if player.habits != Habits::NONE && question.way == Way::Direct {
            let advised = player.clone().with_habits(Habits::NONE)?;
            sides.push(Side {
                skill: "habits given up".to_owned(),
                part: CHOICE,
                like: f64::NAN,
                band: None,
                holes: prepared(advised)?,
                sums: Sums::default(),
            });
        }
        Ok(PracticeRun {
            question,
            base: prepared(player.clone())?,
            sides,
            done: 0,
            total: 0,
            met: 0,
        })
    }

    /// The mean total of the player as usual, and the chance of the target; NaN without one.
    #[must_use]
    pub fn usual(&self) -> (f64, f64) {
        let n = number(self.done);
        let chance = number(self.met) / n;
        let has_target = self.question.to_break.is_some();
        (
            number(self.total) / n,
            if has_target { chance } else { f64::NAN },
        )
    }

    /// What everything is worth, the most strokes saved first.
    #[must_use]
    pub fn gains(&self) -> Vec<PracticeGain> {
        let n = number(self.done);
        let mut gains: Vec<PracticeGain> = self
            .sides
            .iter()
            .map(|side| {
                let Sums {
                    saved,
                    squares,
                    met,
                    differ,
                } = side.sums;
                let chance = paired(met, differ, n);
                let none = Estimate {
                    mean: f64::NAN,
                    standard_error: f64::NAN,
                };
                PracticeGain {
                    skill: side.skill.clone(),
                    part: side.part,
                    saved: paired(saved, squares, n),
                    chance: self.question.to_break.map_or(none, |_| chance),
                    like: side.like,
                }
            })
            .collect();
        gains.sort_by(|a, b| b.saved.mean.total_cmp(&a.saved.mean));
        gains
    }
}

impl Run for PracticeRun {
    /// Plays up to `count` more rounds of each on the current thread pool.
    fn advance(&mut self, count: u64) {
        /// Rounds kept at a time.
        const MOST: u64 = 4_096;
        let end = self.goal().min(self.done.saturating_add(count.min(MOST)));
        let rounds = self.done..end;
        let seed = self.question.seed;
        let base = &self.base;
        let usual = totals(base, rounds.clone(), |place, round| {
            base.score(place, luck(seed, place, round))
        });
        let most = self.question.to_break.map_or(0, |score| score - 1);
        self.sides.par_iter_mut().for_each(|side| {
            let changed = totals(base, rounds.clone(), |place, round| {
                side.score(base, place, luck(seed, place, round))
            });
            for (&usual, &changed) in usual.iter().zip(&changed) {
                side.sums.add(usual, changed, most);
            }
        });
        self.total += usual.iter().map(|&total| u64::from(total)).sum::<u64>();
        self.met += usual.iter().filter(|&&total| total <= most).count() as u64;
        self.done = end;
    }

    /// Rounds of each so far.
    fn done(&self) -> u64 {
        self.done
    }

    /// Rounds of each in all.
    fn goal(&self) -> u64 {
        self.question.rounds
    }
}

impl Sums {
    fn add(&mut self, usual: u16, changed: u16, most: u16) {
        let saved = i64::from(usual) - i64::from(changed);
        let met = i64::from(changed <= most) - i64::from(usual <= most);
        self.saved += saved;
        self.squares += saved.unsigned_abs().pow(2);
        self.met += met;
        self.differ += met.unsigned_abs();
    }
}

/// A mean of paired differences of whole numbers, by their sum and squares.
#[expect(
    clippy::cast_precision_loss,
    reason = "sums below 2^53 are exact as f64"
)]
fn paired(sum: i64, squares: u64, n: f64) -> Estimate {
    let mean = sum as f64 / n;
    let variance = (squares as f64 - n * mean * mean).max(0.0) / (n - 1.0);
    Estimate {
        mean,
        standard_error: (variance / n).sqrt(),
    }
}

/// The luck of a hole of a round.
fn luck(seed: Seed, place: usize, round: u64) -> PlayNoise {
    PlayNoise::new(seed_of(seed, place), round)
}

impl Holes {
    fn on(&self, place: usize) -> (&Scene, &Ready) {
        (&self.field.scenes()[place], &self.plans[place])
    }

    /// The score on a hole.
    fn score(&self, place: usize, luck: PlayNoise) -> u8 {
        let (scene, plan) = self.on(place);
        let start = Situation::on_the_tee(scene.hole());
        play(scene, plan, start, luck, u8::MAX, &mut ()).score
    }
}

impl Side {
    /// The score on a hole, all strokes but those that are practised made by the player as usual.
    fn score(&self, usual: &Holes, place: usize, luck: PlayNoise) -> u8 {
        let Some(band) = self.band else {
            return self.holes.score(place, luck);
        };
        let (usual, practised) = (usual.on(place), self.holes.on(place));
        let hole = usual.0.hole();
        let mut playing = Playing::new(Situation::on_the_tee(hole));
        for number in 0.. {
            let is_practised = band.holds(hole, playing.ball());
            let (scene, plan) = if is_practised { practised } else { usual };
            if playing.stroke(scene, plan, &luck.stroke(number), u8::MAX, &mut ()) {
                break;
            }
        }
        playing.played(u8::MAX).score
    }
}

/// The totals of some rounds, by what is scored on each hole of each.
fn totals(
    holes: &Holes,
    rounds: std::ops::Range<u64>,
    score: impl Fn(usize, u64) -> u8 + Sync,
) -> Vec<u16> {
    let places = holes.plans.len();
    let total = |round: u64| {
        (0..places)
            .map(|place| u16::from(score(place, round)))
            .sum()
    };
    rounds.into_par_iter().map(total).collect()
}
