//! Rounds under way: every hole played as often as there are rounds.
use super::field::seed_of;
use super::kept::KeptSums;
use super::played::PlayedRounds;
use super::statistics::{Keeper, Kept};
use super::{Field, RoundFault, Way};
use crate::course::MOST_HOLES;
use crate::figures::round::BLOW_UP;
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Plan, Ready};
use crate::run::Run;
use crate::simulate::{STROKE_CAP, Tally, play};
use crate::situation::Situation;
use rayon::prelude::*;

/// The most rounds that may be asked for.
pub const MOST_ROUNDS: u64 = 100_000_000;

/// Rounds whose scores are kept hole by hole, for what is told of rounds in their order, such as an index.
pub(super) const MOST_KEPT: u64 = 20_000;

/// Rounds of a course under way: they advance in waves, and can be left at any time.
///
/// Whatever is summed up is a whole number, so that neither threads nor waves change a bit. Memory does not grow with the
/// number of rounds beyond the first twenty thousand.
pub struct Rounds {
    field: Field,
    plans: Vec<Ready>,
    names: Vec<String>,
    seed: Seed,
    goal: u64,
    done: u64,
    sums: Sums,
}

impl Rounds {
    /// Prepares `rounds` rounds in which every hole is played one way; nothing has been played yet.
    ///
    /// # Errors
    /// No rounds or more than [`MOST_ROUNDS`].
    pub fn new(field: Field, way: Way, seed: Seed, rounds: u64) -> Result<Self, RoundFault> {
        let plans = field.plans(way)?;
        Self::of_plans(field, &plans, seed, rounds)
    }

    /// The same with a plan for each hole.
    ///
    /// # Errors
    /// Another number of plans than there are holes, a plan that cannot be played on its hole, and as [`Rounds::new`].
    pub fn of_plans(
        field: Field,
        plans: &[Plan],
        seed: Seed,
        rounds: u64,
    ) -> Result<Self, RoundFault> {
        check_rounds("plays", rounds)?;
        Ok(Rounds {
            plans: field.ready(plans)?,
            names: plans.iter().map(|plan| plan.name().to_owned()).collect(),
            sums: Sums::new(field.scenes().len()),
            field,
            seed,
            goal: rounds,
            done: 0,
        })
    }

    fn play_block(&self, rounds: std::ops::Range<u64>, sums: &mut Sums) {
        let holes = self.plans.len();
        let count = usize::try_from(rounds.end - rounds.start).unwrap_or(0);
        let mut scores = vec![0_u8; count * holes];
        let mut kept = vec![Kept::default(); count];
        for (place, (scene, plan)) in self.field.scenes().iter().zip(&self.plans).enumerate() {
            let seed = seed_of(self.seed, place);
            let start = Situation::on_the_tee(scene.hole());
            let blow_up = scene.hole().par() + BLOW_UP;
            let (tally, of_hole) = &mut sums.holes[place];
            for (slot, number) in rounds.clone().enumerate() {
                let mut keeper = Keeper::new(scene.hole());
                let luck = PlayNoise::new(seed, number);
                let played = play(scene, plan, start, luck, u8::MAX, &mut keeper);
                tally.add(&played, blow_up, &[]);
                let of_play = keeper.kept(&played);
                of_hole.add(&of_play);
                kept[slot].add(&of_play);
                scores[slot * holes + place] = played.score;
            }
        }
        for (of_round, kept) in scores.chunks_exact(holes).zip(&kept) {
            let total: usize = of_round.iter().map(|&score| usize::from(score)).sum();
            sums.totals[total] += 1;
            sums.kept.add(kept);
        }
        if rounds.start < MOST_KEPT {
            sums.scores.push((rounds.start, scores));
        }
    }

    /// What has been played so far.
    #[must_use]
    pub fn played(&self) -> PlayedRounds {
        PlayedRounds::new(
            self.field.course().clone(),
            self.names.clone(),
            self.seed,
            self.done,
            &self.sums,
        )
    }
}

impl Run for Rounds {
    /// Plays up to `count` more rounds on the current thread pool.
    fn advance(&mut self, count: u64) {
        /// Rounds taken together: one hole's plays in a row keep its paths warm.
        const BLOCK: u64 = 32;
        let end = self.goal.min(self.done.saturating_add(count));
        let holes = self.field.scenes().len();
        let from = self.done;
        let sums = (0..(end - from).div_ceil(BLOCK))
            .into_par_iter()
            .fold(
                || Sums::new(holes),
                |mut sums, block| {
                    let first = from + block * BLOCK;
                    self.play_block(first..(first + BLOCK).min(end), &mut sums);
                    sums
                },
            )
            .reduce(
                || Sums::new(holes),
                |mut a, b| {
                    a.merge(b);
                    a
                },
            );
        self.sums.merge(sums);
        self.done = end;
    }

    /// Rounds so far.
    fn done(&self) -> u64 {
        self.done
    }

    /// Rounds in all.
    fn goal(&self) -> u64 {
        self.goal
    }
}

/// Refuses a number of rounds.
pub(super) fn check_rounds(field: &'static str, rounds: u64) -> Result<(), RoundFault> {
    #[expect(clippy::cast_precision_loss, reason = "for a message, and a range")]
    let (given, most) = (rounds as f64, MOST_ROUNDS as f64);
    RoundFault::unless(field, given, (1.0, most), "1 to 100,000,000")
}

/// Everything counted.
pub(super) struct Sums {
    /// Rounds by their total.
    pub(super) totals: Vec<u64>,
    pub(super) kept: KeptSums,
    /// What each hole came to.
    pub(super) holes: Vec<(Tally, KeptSums)>,
    /// Scores of rounds in a row, hole by hole, with the number of the first round.
    pub(super) scores: Vec<(u64, Vec<u8>)>,
}

impl Sums {
    fn new(holes: usize) -> Self {
        Sums {
            totals: vec![0; usize::from(STROKE_CAP) * MOST_HOLES + 1],
            kept: KeptSums::default(),
            holes: vec![(Tally::new(0), KeptSums::default()); holes],
            scores: Vec::new(),
        }
    }

    fn merge(&mut self, other: Sums) {
        for (mine, theirs) in self.totals.iter_mut().zip(&other.totals) {
            *mine += theirs;
        }
        self.kept.merge(&other.kept);
        for (mine, theirs) in self.holes.iter_mut().zip(&other.holes) {
            mine.0.merge(&theirs.0);
            mine.1.merge(&theirs.1);
        }
        self.scores.extend(other.scores);
    }
}
