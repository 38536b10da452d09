//! Plans compared: which scores best, how sure that is, and where each goes wrong.

use crate::hole::Hole;
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Direct, Plan, PlanFault, Ready, Scene, Steady, Strategy, Then};
use crate::simulate::{Cause, Checkpoint, Recording, Tally, play};
use crate::situation::Situation;
use crate::stats::{Difference, Estimate, Paired};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// What is asked about some plans.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Question {
    /// Fixes the luck.
    pub seed: Seed,
    /// How long to play.
    pub length: Length,
    /// A blow-up is this many over par or worse.
    pub blow_up: u8,
    /// Milestones to count, with their names.
    pub checkpoints: Vec<(String, Checkpoint)>,
    /// The score at which the ball is picked up (Maximum Score, Rule 21.2), if there is one.
    pub maximum_score: Option<u8>,
}

/// When a comparison ends.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Length {
    /// After this many plays of every plan.
    Plays(u64),
    /// When the best plan's lead over each rival is known to within this many strokes, or after the
    /// most plays allowed.
    Precision {
        /// Half the width of the 95 % interval, strokes.
        strokes: f64,
        /// The most plays of every plan.
        most: u64,
    },
}

/// The plays after which a run to a precision is first judged; then every time it has grown by half.
const FIRST_LOOK: u64 = 1_000;

/// The most plays one comparison may ask for.
pub const MOST_PLAYS: u64 = 1_000_000_000;

/// The most plans in one comparison: the pairs grow with the square of it.
pub const MOST_PLANS: usize = 500;

/// Confidence level of every interval.
pub const LEVEL: f64 = 0.95;

/// Why a comparison cannot be started.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CompareFault {
    /// No plans.
    #[error("plans is empty; give at least one plan")]
    NoPlans,
    /// Too many plans.
    #[error("plans has {given} entries; it must have 1 to {MOST_PLANS}")]
    TooManyPlans {
        /// How many were given.
        given: usize,
    },
    /// Two plans with one name.
    #[error("plans has two named {name:?}; names must differ, they tell the results apart")]
    SameName {
        /// The name.
        name: String,
    },
    /// A plan that this player cannot follow.
    #[error(transparent)]
    Plan(#[from] PlanFault),
    /// A number outside its range.
    #[error("{field} is {value}; it must be {allowed}")]
    Range {
        /// Name of the field.
        field: &'static str,
        /// The value given.
        value: f64,
        /// What is allowed.
        allowed: &'static str,
    },
    /// A checkpoint with absurd numbers.
    #[error("checkpoint {name:?}: within_ft must be above 0 and after_strokes at least 1")]
    Checkpoint {
        /// Its name.
        name: String,
    },
}

impl Question {
    /// Twenty thousand plays; a blow-up is three over par or worse.
    #[must_use]
    pub fn new(seed: Seed) -> Self {
        Question {
            seed,
            length: Length::Plays(20_000),
            blow_up: 3,
            checkpoints: Vec::new(),
            maximum_score: None,
        }
    }

    fn check(&self, hole: &Hole) -> Result<(), CompareFault> {
        let range = |field, value: f64, ok: bool, allowed| {
            if ok {
                Ok(())
            } else {
                Err(CompareFault::Range {
                    field,
                    value,
                    allowed,
                })
            }
        };
        #[expect(clippy::cast_precision_loss, reason = "for a message")]
        match self.length {
            Length::Plays(n) => {
                range(
                    "plays",
                    n as f64,
                    (1..=MOST_PLAYS).contains(&n),
                    "1 to 1,000,000,000",
                )?;
            }
            Length::Precision { strokes, most } => {
                range(
                    "precision",
                    strokes,
                    (0.0005..=5.0).contains(&strokes),
                    "0.0005 to 5 strokes",
                )?;
                range(
                    "plays",
                    most as f64,
                    (FIRST_LOOK..=MOST_PLAYS).contains(&most),
                    "1,000 to 1,000,000,000",
                )?;
            }
        }
        range(
            "blow_up",
            f64::from(self.blow_up),
            (1..=20).contains(&self.blow_up),
            "1 to 20 over par",
        )?;
        if let Some(most) = self.maximum_score {
            range(
                "maximum_score",
                f64::from(most),
                most > hole.par() && most <= 60,
                "above par and at most 60",
            )?;
        }
        match self.checkpoints.iter().find(|(_, c)| !c.is_valid()) {
            Some((name, _)) => Err(CompareFault::Checkpoint { name: name.clone() }),
            None => Ok(()),
        }
    }
}

/// A comparison under way: it advances in waves, and can be left at any time.
pub struct Comparison {
    scene: Scene,
    start: Situation,
    names: Vec<String>,
    plans: Vec<Ready>,
    question: Question,
    milestones: Vec<Checkpoint>,
    sums: Sums,
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
        if plans.is_empty() {
            return Err(CompareFault::NoPlans);
        }
        if plans.len() > MOST_PLANS {
            return Err(CompareFault::TooManyPlans { given: plans.len() });
        }
        let names: Vec<String> = plans.iter().map(|p| p.name().to_owned()).collect();
        if let Some(i) = (1..names.len()).find(|&i| names[..i].contains(&names[i])) {
            return Err(CompareFault::SameName {
                name: names[i].clone(),
            });
        }
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
            plays: 0,
            finished: false,
        })
    }

    /// The same comparison with every play begun from `start` in place of the tee; for before anything is played.
    #[must_use]
    pub fn starting_at(self, start: Situation) -> Self {
        Comparison { start, ..self }
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
        let stop = self.next_stop().min(self.plays + count);
        let sums = self.played(self.plays, stop);
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
        sums.scores.clear();
        for (plan, tally) in self.plans.iter().zip(&mut sums.tallies) {
            for (slot, number) in scores.iter_mut().zip(from..to) {
                let luck = PlayNoise::new(self.question.seed, number);
                let played = play(&self.scene, plan, self.start, luck, pick_up, &mut ());
                tally.add(&played, blow_up, &self.milestones);
                *slot = played.score;
            }
            sums.scores.push(scores);
        }
        #[expect(clippy::cast_possible_truncation, reason = "at most a block")]
        sums.pair((to - from) as usize);
    }

    /// What has been found so far.
    #[must_use]
    pub fn ranking(&self) -> Ranking {
        Ranking::new(self)
    }
}

/// Prepares plans, each strategy once.
fn ready(scene: &Scene, plans: &[Plan]) -> Result<Vec<Ready>, PlanFault> {
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
    pairs: Vec<Paired>,
    /// The scores of one block, plan by plan; working space.
    scores: Vec<[u8; 128]>,
}

impl Sums {
    fn new(plans: usize, checkpoints: usize) -> Self {
        Sums {
            tallies: vec![Tally::new(checkpoints); plans],
            pairs: vec![Paired::default(); plans * plans.saturating_sub(1) / 2],
            scores: Vec::with_capacity(plans),
        }
    }

    fn pair(&mut self, plays: usize) {
        let mut pair = 0;
        for i in 0..self.scores.len() {
            for j in i + 1..self.scores.len() {
                self.pairs[pair].add_block(&self.scores[i][..plays], &self.scores[j][..plays]);
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

/// The plans in order, best first, with everything counted about them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ranking {
    /// Plays of every plan.
    pub plays: u64,
    /// The question asked.
    pub question: Question,
    /// Par of the hole.
    pub par: u8,
    /// Names in the order given.
    names: Vec<String>,
    tallies: Vec<Tally>,
    pairs: Vec<Paired>,
    /// Indices of the plans, lowest mean first.
    order: Vec<usize>,
}

impl Ranking {
    fn new(c: &Comparison) -> Self {
        let means: Vec<f64> = c
            .sums
            .tallies
            .iter()
            .map(|t| t.scores.mean().mean)
            .collect();
        let mut order: Vec<usize> = (0..means.len()).collect();
        order.sort_by(|&a, &b| means[a].total_cmp(&means[b]));
        Ranking {
            plays: c.plays,
            question: c.question.clone(),
            par: c.scene.hole().par(),
            names: c.names.clone(),
            tallies: c.sums.tallies.clone(),
            pairs: c.sums.pairs.clone(),
            order,
        }
    }

    /// Indices of the plans as given, lowest mean score first.
    #[must_use]
    pub fn order(&self) -> &[usize] {
        &self.order
    }

    /// Name of the plan with an index.
    #[must_use]
    pub fn name(&self, plan: usize) -> &str {
        &self.names[plan]
    }

    /// The index of a plan by name.
    #[must_use]
    pub fn index_of(&self, name: &str) -> Option<usize> {
        self.names.iter().position(|n| n == name)
    }

    /// The counts of a plan.
    #[must_use]
    pub fn tally(&self, plan: usize) -> &Tally {
        &self.tallies[plan]
    }

    /// Mean score of a plan.
    #[must_use]
    pub fn mean(&self, plan: usize) -> Estimate {
        self.tallies[plan].scores.mean()
    }

    /// Share of plays under a plan that scored `score` or more.
    #[must_use]
    pub fn at_least(&self, plan: usize, score: u8) -> Estimate {
        share(self.tallies[plan].scores.count_at_least(score), self.plays)
    }

    /// Share of plays under a plan that scored `score` or less.
    #[must_use]
    pub fn at_most(&self, plan: usize, score: u8) -> Estimate {
        let more = score
            .checked_add(1)
            .map_or(0, |more| self.tallies[plan].scores.count_at_least(more));
        share(self.plays - more, self.plays)
    }

    /// Share of plays that blew up under a plan.
    #[must_use]
    pub fn blow_up(&self, plan: usize) -> Estimate {
        self.at_least(plan, self.par + self.question.blow_up)
    }

    /// Share of plays under a plan that scored double bogey or worse.
    #[must_use]
    pub fn double_bogey(&self, plan: usize) -> Estimate {
        self.at_least(plan, self.par + 2)
    }

    /// The scores that occurred under a plan with their shares, lowest first.
    #[expect(
        clippy::cast_precision_loss,
        reason = "counts below 2^53 are exact as f64"
    )]
    pub fn distribution(&self, plan: usize) -> impl Iterator<Item = (u8, f64)> {
        let plays = self.plays as f64;
        self.tallies[plan]
            .scores
            .occurring()
            .map(move |(score, count)| (score, count as f64 / plays))
    }

    /// Share of plays that reached each checkpoint, in the order of the question.
    pub fn checkpoints(&self, plan: usize) -> impl Iterator<Item = (&str, Estimate)> {
        let names = self
            .question
            .checkpoints
            .iter()
            .map(|(name, _)| name.as_str());
        let counts = self.tallies[plan].checkpoints.iter();
        names.zip(counts.map(|&count| share(count, self.plays)))
    }

    /// Share of a plan's blow-ups that each cause began, most frequent first; None stands for those in
    /// which no single thing went wrong. Empty when nothing blew up.
    #[must_use]
    pub fn blow_up_causes(&self, plan: usize) -> Vec<(Option<Cause>, f64)> {
        let counts = &self.tallies[plan].causes;
        let total: u64 = counts.iter().sum();
        let named = Cause::ALL.into_iter().map(Some).chain([None]);
        let mut causes: Vec<_> = named
            .zip(counts.iter().copied())
            .filter(|&(_, count)| count > 0)
            .collect();
        causes.sort_by_key(|&(_, count)| std::cmp::Reverse(count));
        causes
            .into_iter()
            .map(|(cause, count)| (cause, share(count, total).mean))
            .collect()
    }

    /// Mean penalty strokes a play.
    #[must_use]
    pub fn penalties(&self, plan: usize) -> f64 {
        share(self.tallies[plan].penalties, self.plays).mean
    }

    /// Mean strokes a play made from the putting green.
    #[must_use]
    pub fn putts(&self, plan: usize) -> f64 {
        share(self.tallies[plan].putts, self.plays).mean
    }

    /// The paired difference of two plans, first minus second, with an interval of [`LEVEL`].
    #[must_use]
    pub fn difference(&self, first: usize, second: usize) -> Difference {
        self.paired(first, second).difference(LEVEL)
    }

    /// The interval level for all rivals of the best plan together (Bonferroni).
    fn joint_level(&self) -> f64 {
        let rivals = self.names.len().saturating_sub(1).max(1);
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let rivals = rivals as f64;
        1.0 - (1.0 - LEVEL) / rivals
    }

    fn paired(&self, first: usize, second: usize) -> Paired {
        if first == second {
            let mut none = Paired::default();
            none.add_ties(self.plays);
            return none;
        }
        let (low, high) = (first.min(second), first.max(second));
        let n = self.names.len();
        let pair = self.pairs[low * n - low * (low + 1) / 2 + high - low - 1];
        if first < second {
            pair
        } else {
            pair.reversed()
        }
    }

    fn leads(&self) -> impl Iterator<Item = Difference> + '_ {
        let best = self.order[0];
        let level = self.joint_level();
        self.order[1..]
            .iter()
            .map(move |&rival| self.paired(rival, best).difference(level))
    }

    /// True when every lead of the best plan is known to within `strokes`.
    fn leads_within(&self, strokes: f64) -> bool {
        self.leads().all(|lead| lead.half_width() <= strokes)
    }

    /// True when it is settled which plan is best: every rival is worse by more than chance explains
    /// (all intervals together hold with probability [`LEVEL`], by Bonferroni), or, in a run to a precision, level
    /// with the best to within that precision.
    #[must_use]
    pub fn settled(&self) -> bool {
        let within = match self.question.length {
            Length::Plays(_) => 0.0,
            Length::Precision { strokes, .. } => strokes,
        };
        self.leads()
            .all(|lead| lead.interval.0 > 0.0 || lead.half_width() <= within)
    }
}

/// A share with its binomial standard error.
#[expect(
    clippy::cast_precision_loss,
    reason = "counts below 2^53 are exact as f64"
)]
pub(crate) fn share(count: u64, of: u64) -> Estimate {
    let p = count as f64 / of as f64;
    Estimate {
        mean: p,
        standard_error: (p * (1.0 - p) / of as f64).max(0.0).sqrt(),
    }
}
