//! Plans played side by side under the same luck.
use super::question::FIRST_LOOK;
use super::ranking::{Counts, Pair};
use super::{CompareFault, Length, MOST_PLANS, Question, Ranking};
use crate::noise::PlayNoise;
use crate::plan::{Direct, Plan, PlanFault, Ready, Scene, Steady, Strategy, Then};
use crate::shot::Stroke;
use crate::simulate::{Checkpoint, Recording, Tally, Told, play};
use crate::situation::Situation;
use rayon::prelude::*;
use std::sync::Arc;

/// A comparison under way: it advances in waves, and can be left at any time.
pub struct Comparison {
    scene: Scene,
    start: Situation,
    names: Vec<String>,
    plans: Vec<Ready>,
    question: Question,
    milestones: Vec<Checkpoint>,
    sums: Sums,
    /// Number of the first play, which fixes its luck.
    first: u64,
    plays: u64,
    finished: bool,
}

impl Comparison {
    /// Checks everything and prepares the plans; nothing has been played yet.
    ///
    /// # Errors
    /// Every reason why the question cannot be answered, see [`CompareFault`].
    pub fn new(scene: Scene, plans: &[Plan], question: Question) -> Result<Self, CompareFault> {
        question.check(scene.hole())?;
        let names = names(plans)?;
        let plans = ready(&scene, plans)?;
        let milestones: Vec<Checkpoint> = question.checkpoints.iter().map(|(_, c)| *c).collect();
        let sums = Sums::new(plans.len(), milestones.len());
        Ok(Comparison {
            start: Situation::on_the_tee(scene.hole()),
            scene,
            names,
            plans,
            question,
            milestones,
            sums,
            first: 0,
            plays: 0,
            finished: false,
        })
    }

    /// The same comparison with every play begun from `start` in place of the tee; for before anything is played.
    #[must_use]
    pub fn starting_at(self, start: Situation) -> Self {
        Comparison { start, ..self }
    }

    /// The same comparison with the luck of the plays from number `first` on; for before anything is played.
    #[must_use]
    pub(super) fn beginning_at(self, first: u64) -> Self {
        Comparison { first, ..self }
    }

    /// What was asked.
    #[must_use]
    pub(super) fn question(&self) -> &Question {
        &self.question
    }

    /// Strokes over all plays so far, plan by plan.
    pub(super) fn strokes(&self) -> Vec<u64> {
        let tallies = self.sums.tallies.iter();
        tallies.map(|tally| tally.scores.sum()).collect()
    }

    /// Names of the clubs that at least every other play of some plan uses, in the order of the bag.
    pub(super) fn clubs_used(&self) -> Vec<String> {
        const PLAYS: u64 = 100;
        let bag = self.scene.bag();
        let mut used = vec![false; bag.len()];
        for plan in &self.plans {
            let mut plays_with = vec![0; bag.len()];
            for number in 0..PLAYS {
                let mut strokes: Vec<Told> = Vec::new();
                let luck = PlayNoise::new(self.question.seed, number);
                play(&self.scene, plan, self.start, luck, u8::MAX, &mut strokes);
                for (club, plays) in bag.clubs().zip(&mut plays_with) {
                    let with = |told: &Told| told.shot.stroke == Stroke::Swing(club);
                    *plays += u64::from(strokes.iter().any(with));
                }
            }
            for (used, plays) in used.iter_mut().zip(plays_with) {
                *used |= 2 * plays >= PLAYS;
            }
        }
        let clubs = bag.clubs().zip(used).filter(|(_, used)| *used);
        clubs.map(|(club, _)| bag.name(club).to_owned()).collect()
    }

    /// Plays of every plan so far.
    #[must_use]
    pub fn plays(&self) -> u64 {
        self.plays
    }

    /// True when the question has been answered.
    #[must_use]
    pub fn is_finished(&self) -> bool {
        self.finished
    }

    /// Plays of every plan after which the run ends or is judged next.
    #[must_use]
    pub fn next_stop(&self) -> u64 {
        match self.question.length {
            Length::Plays(n) => n,
            Length::Precision { most, .. } => {
                let mut stop = FIRST_LOOK;
                while stop <= self.plays {
                    stop += stop / 2;
                }
                stop.min(most)
            }
        }
    }

    /// Plays up to `count` more plays of every plan on the current thread pool, not beyond the next
    /// stop.
    pub fn advance(&mut self, count: u64) {
        if self.finished {
            return;
        }
        let stop = self.next_stop().min(self.plays.saturating_add(count));
        let sums = self.played(self.first + self.plays, self.first + stop);
        self.sums.merge(&sums);
        self.plays = stop;
        self.finished = match self.question.length {
            Length::Plays(n) => stop == n,
            Length::Precision { strokes, most } => {
                stop == most || (self.is_look(stop) && self.ranking().leads_within(strokes))
            }
        };
    }

    /// True if a run to a precision is judged after `plays`.
    fn is_look(&self, plays: u64) -> bool {
        let mut look = FIRST_LOOK;
        while look < plays {
            look += look / 2;
        }
        look == plays
    }

    fn played(&self, from: u64, to: u64) -> Sums {
        /// Plays taken together: one plan's plays in a row keep its paths warm.
        const BLOCK: u64 = 128;
        let new = || Sums::new(self.plans.len(), self.milestones.len());
        (0..(to - from).div_ceil(BLOCK))
            .into_par_iter()
            .fold(new, |mut sums, block| {
                let start = from + block * BLOCK;
                self.play_block(start, (start + BLOCK).min(to), &mut sums);
                sums
            })
            .reduce(new, |mut a, b| {
                a.merge(&b);
                a
            })
    }

    fn play_block(&self, from: u64, to: u64, sums: &mut Sums) {
        let blow_up = self.scene.hole().par() + self.question.blow_up;
        let pick_up = self.question.maximum_score.unwrap_or(u8::MAX);
        let mut scores = [0u8; 128];
        sums.blocks.clear();
        for (plan, tally) in self.plans.iter().zip(&mut sums.tallies) {
            for (slot, number) in scores.iter_mut().zip(from..to) {
                let luck = PlayNoise::new(self.question.seed, number);
                let played = play(&self.scene, plan, self.start, luck, pick_up, &mut ());
                tally.add(&played, blow_up, &self.milestones);
                *slot = played.score;
            }
            let blown = scores.map(|score| u8::from(score >= blow_up));
            sums.blocks.push([scores, blown]);
        }
        #[expect(clippy::cast_possible_truncation, reason = "at most a block")]
        sums.pair((to - from) as usize);
    }

    /// What has been found so far.
    #[must_use]
    pub fn ranking(&self) -> Ranking {
        Ranking::of(Counts {
            plays: self.plays,
            question: self.question.clone(),
            par: self.scene.hole().par(),
            names: self.names.clone(),
            tallies: self.sums.tallies.clone(),
            pairs: self.sums.pairs.clone(),
        })
    }
}

/// The names of plans that can be told apart by them.
pub(super) fn names(plans: &[Plan]) -> Result<Vec<String>, CompareFault> {
    if plans.is_empty() {
        return Err(CompareFault::NoPlans);
    }
    if plans.len() > MOST_PLANS {
        return Err(CompareFault::TooManyPlans { given: plans.len() });
    }
    let names: Vec<String> = plans.iter().map(|p| p.name().to_owned()).collect();
    match (1..names.len()).find(|&i| names[..i].contains(&names[i])) {
        Some(i) => Err(CompareFault::SameName {
            name: names[i].clone(),
        }),
        None => Ok(names),
    }
}

/// Prepares plans, each strategy once.
pub(super) fn ready(scene: &Scene, plans: &[Plan]) -> Result<Vec<Ready>, PlanFault> {
    let mut direct: Option<Arc<dyn Strategy>> = None;
    let mut steady: Option<Arc<dyn Strategy>> = None;
    plans
        .iter()
        .map(|plan| {
            let then = match plan.then() {
                Then::Direct => direct
                    .get_or_insert_with(|| Arc::new(Direct::new(scene)))
                    .clone(),
                Then::Steady => steady
                    .get_or_insert_with(|| Arc::new(Steady::new(scene)))
                    .clone(),
                Then::Custom(strategy) => strategy.clone(),
            };
            plan.ready(scene, then)
        })
        .collect()
}

/// Prepares a run of one plan that keeps every stroke.
///
/// # Errors
/// As for [`Comparison::new`].
pub fn record(scene: Scene, plan: &Plan, question: &Question) -> Result<Recording, CompareFault> {
    question.check(scene.hole())?;
    let mut plans = ready(&scene, std::slice::from_ref(plan))?;
    let plan = plans.pop().ok_or(CompareFault::NoPlans)?;
    Ok(Recording::new(
        scene,
        plan,
        question.seed,
        question.maximum_score.unwrap_or(u8::MAX),
    ))
}

/// Everything counted: per plan, and per pair of plans.
struct Sums {
    tallies: Vec<Tally>,
    /// Pairs (0, 1), (0, 2), ..., (1, 2), ...
    pairs: Vec<Pair>,
    /// The scores of one block, plan by plan, and which of them are blow-ups; working space.
    blocks: Vec<[[u8; 128]; 2]>,
}

impl Sums {
    fn new(plans: usize, checkpoints: usize) -> Self {
        Sums {
            tallies: vec![Tally::new(checkpoints); plans],
            pairs: vec![Pair::default(); plans * plans.saturating_sub(1) / 2],
            blocks: Vec::with_capacity(plans),
        }
    }

    fn pair(&mut self, plays: usize) {
        let mut pair = 0;
        for (i, [scores, blown]) in self.blocks.iter().enumerate() {
            for [others, others_blown] in &self.blocks[i + 1..] {
                let Pair {
                    scores: by,
                    blow_ups,
                } = &mut self.pairs[pair];
                by.add_block(&scores[..plays], &others[..plays]);
                blow_ups.add_block(&blown[..plays], &others_blown[..plays]);
                pair += 1;
            }
        }
    }

    fn merge(&mut self, other: &Sums) {
        for (mine, theirs) in self.tallies.iter_mut().zip(&other.tallies) {
            mine.merge(theirs);
        }
        for (mine, theirs) in self.pairs.iter_mut().zip(&other.pairs) {
            mine.merge(theirs);
        }
    }
}
