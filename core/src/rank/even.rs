//! Plans compared on even luck: the plays of a set share their luck out among themselves.
use super::counts::Counts;
use super::prepare::{names, not_own, ready};
use super::{CompareFault, Length, Question, Ranking};
use crate::noise::{Seed, keys};
use crate::plan::{Plan, Ready, Scene};
use crate::run::Run;
use crate::simulate::{Checkpoint, Playing, Tally};
use crate::solve::scrambled;
use rayon::prelude::*;
use std::cmp::Ordering;

/// Independent sets of plays: enough to tell a standard error from.
pub const SETS: u64 = 32;

/// The plays of the first round of a run to a precision.
const FIRST_ROUND: u64 = 1_024;

/// The variance of a lead falls with the number of plays to about this power: measured over 640 to 82,000 plays of a par 4
/// with water, where the gain over independent plays grew as their number to the power of 0.25 to 0.4.
const POWER: f64 = 1.3;

/// A round has at least one and a half times the plays of the one before, and at most eight times as many: what an error
/// told from 32 sets foretells is known to an eighth.
const GROWTH: (f64, f64) = (1.5, 8.0);

/// A comparison on even luck under way: it advances in parts, one plan through one set of plays each, and can be left at any
/// time.
///
/// The plays of a set are made side by side, a stroke at a time. Before every stroke the balls are put in order, by lie and
/// then by the strokes that their plan's strategy expects from there, and a point set that is even over this order and all
/// luck of a stroke is dealt out to them: the array-RQMC method (L'Ecuyer, Lécot and Tuffin 2008, "A randomized
/// quasi-Monte Carlo simulation method for Markov chains", Operations Research 56). Each play by itself meets luck as
/// random as ever, so that every average is unbiased whatever the order; only the errors even out. Different sets are
/// scrambled independently, and standard errors are told from how far they differ.
///
/// A run to a precision plays in rounds, each a comparison of its own with more plays than the last. Sets even out the better
/// the larger they are, so that a round begun anew tells more than the sum of small ones; the last round alone is
/// told, and is what a run of that many plays would be.
pub struct EvenComparison {
    scene: Scene,
    names: Vec<String>,
    plans: Vec<Ready>,
    question: Question,
    /// Plays of every plan in a set.
    of_a_set: u32,
    /// The round under way, set by set and in each plan by plan.
    played: Vec<Tally>,
    /// The round before it: plays in a set, and what was played.
    before: Option<(u32, Vec<Tally>)>,
    /// Plays of every plan in the rounds before.
    gone: u64,
    finished: bool,
}

impl EvenComparison {
    /// Checks everything and prepares the plans; nothing has been played yet. Each plan is played `plays` times, rounded
    /// up to whole plays in [`SETS`] sets of equal size; the question's own length is passed over.
    ///
    /// # Errors
    /// As for [`super::Comparison::new`]; plays outside 64 to 3,200,000.
    pub fn new(
        scene: Scene,
        plans: &[Plan],
        question: Question,
        plays: u64,
    ) -> Result<Self, CompareFault> {
        in_range(plays, LEAST, "64 to 3,200,000")?;
        let length = Length::Plays(plays);
        Self::of_length(scene, plans, Question { length, ..question }, plays)
    }

    /// The same played until the best plan's lead over each rival is known to within so many `strokes` (half the width of
    /// its interval, as in [`Length::Precision`]), or `most` times.
    ///
    /// # Errors
    /// As for [`super::Comparison::new`]; a precision outside 0.0005 to 5 strokes, `most` outside 1,024 to 3,200,000.
    pub fn to_precision(
        scene: Scene,
        plans: &[Plan],
        question: Question,
        strokes: f64,
        most: u64,
    ) -> Result<Self, CompareFault> {
        in_range(most, FIRST_ROUND, "1,024 to 3,200,000 with a precision")?;
        let length = Length::Precision { strokes, most };
        Self::of_length(scene, plans, Question { length, ..question }, FIRST_ROUND)
    }

    fn of_length(
        scene: Scene,
        plans: &[Plan],
        question: Question,
        plays: u64,
    ) -> Result<Self, CompareFault> {
        question.check(scene.hole())?;
        for plan in plans {
            not_own(plan, "it is compared on common luck, not on even luck")?;
        }
        let names = names(plans)?;
        let plans = ready(&scene, plans, question.begins(scene.hole()))?;
        Ok(EvenComparison {
            scene,
            names,
            plans,
            question,
            of_a_set: set_of(plays),
            played: Vec::new(),
            before: None,
            gone: 0,
            finished: false,
        })
    }

    /// Plays of every plan in what [`ranking`](Self::ranking) tells.
    #[must_use]
    pub fn plays(&self) -> u64 {
        let (of_a_set, played) = self.told();
        (played.len() / self.plans.len()) as u64 * u64::from(of_a_set)
    }

    /// Ends the run, or begins a round with more plays.
    fn end_of_round(&mut self) {
        let plays = SETS * u64::from(self.of_a_set);
        let next = match self.question.length {
            Length::Plays(_) => None,
            Length::Precision { strokes, most } => {
                let off = self.ranking().widest_lead() / strokes;
                (off > 1.0 && plays < most).then(|| more(plays, off).min(most))
            }
        };
        match next {
            None => self.finished = true,
            Some(next) => {
                self.gone += plays;
                self.before = Some((self.of_a_set, std::mem::take(&mut self.played)));
                self.of_a_set = set_of(next);
            }
        }
    }

    /// Plays one plan through one set.
    fn play(&self, plan: &Ready, set: u64) -> Tally {
        let blow_up = self.scene.hole().par() + self.question.blow_up;
        let pick_up = self.question.maximum_score.unwrap_or(u8::MAX);
        let seed: Seed = self.question.seed;
        let start = Playing::new(self.question.begins(self.scene.hole()));
        let milestones: Vec<Checkpoint> = self.milestones().collect();
        let mut tally = Tally::new(milestones.len());
        let mut in_play: Vec<(Order, Playing)> =
            vec![(Order::default(), start); self.of_a_set as usize];
        for stroke in 0.. {
            if in_play.is_empty() {
                break;
            }
            let keys = keys(seed, set, stroke);
            let mut still = Vec::with_capacity(in_play.len());
            for (rank, (_, mut playing)) in (0..).zip(in_play) {
                let noise = scrambled(rank, &keys);
                if playing.stroke(&self.scene, plan, &noise, pick_up, &mut ()) {
                    tally.add(&playing.played(pick_up), blow_up, &milestones);
                } else {
                    let ball = playing.ball();
                    let expected = plan.strategy().estimate(&self.scene, ball);
                    still.push((Order(ball.lie as u8, expected), playing));
                }
            }
            // A stable sort: of balls that are alike, the order is that before the stroke.
            still.sort_by(|a, b| a.0.cmp(b.0));
            in_play = still;
        }
        tally
    }

    fn milestones(&self) -> impl Iterator<Item = Checkpoint> + '_ {
        self.question.checkpoints.iter().map(|(_, c)| *c)
    }

    /// Plays in a set, and what is told: the last round that was played to its end, or the first as far as it is.
    fn told(&self) -> (u32, &[Tally]) {
        let plans = self.plans.len();
        let all = self.played.len() as u64 == SETS * plans as u64;
        match &self.before {
            Some((of_a_set, played)) if !all => (*of_a_set, played),
            _ => {
                let whole = self.played.len() - self.played.len() % plans;
                (self.of_a_set, &self.played[..whole])
            }
        }
    }

    /// What has been found so far.
    #[must_use]
    pub fn ranking(&self) -> Ranking {
        let (_, played) = self.told();
        let plans = self.names.len();
        let of_plan = |plan: usize| -> Vec<Tally> {
            let sets = played.iter().skip(plan).step_by(plans);
            sets.cloned().collect()
        };
        Ranking::of(Counts {
            plays: self.plays(),
            question: self.question.clone(),
            par: self.scene.hole().par(),
            names: self.names.clone(),
            tallies: Vec::new(),
            pairs: Vec::new(),
            sets: (0..plans).map(of_plan).collect(),
        })
    }
}

impl Run for EvenComparison {
    /// Plays about `count` more plays of every plan on the current thread pool, and not beyond the round: each plan goes through
    /// whole sets, and no thread is left without one.
    fn advance(&mut self, count: u64) {
        if self.finished {
            return;
        }
        let plans = self.plans.len() as u64;
        let done = self.played.len() as u64;
        let held = count.saturating_mul(plans) / u64::from(self.of_a_set.max(1));
        let held = held.max(rayon::current_num_threads() as u64);
        let end = (SETS * plans).min(done.saturating_add(held));
        let parts: Vec<(u64, &Ready)> = (0..SETS)
            .flat_map(|set| self.plans.iter().map(move |plan| (set, plan)))
            .zip(0..end)
            .filter_map(|(part, number)| (number >= done).then_some(part))
            .collect();
        let played: Vec<Tally> = parts
            .into_par_iter()
            .with_max_len(1)
            .map(|(set, plan)| self.play(plan, set))
            .collect();
        self.played.extend(played);
        if end == SETS * plans {
            self.end_of_round();
        }
    }

    /// Plays of every plan so far, in all rounds.
    fn done(&self) -> u64 {
        self.gone + self.played.len() as u64 * u64::from(self.of_a_set) / self.plans.len() as u64
    }

    /// Plays of every plan after which the run ends or is judged next.
    fn goal(&self) -> u64 {
        self.gone + SETS * u64::from(self.of_a_set)
    }

    /// True when the question has been answered.
    fn is_finished(&self) -> bool {
        self.finished
    }
}

/// The fewest plays and the most.
const LEAST: u64 = 2 * SETS;
const MOST: u64 = 100_000 * SETS;

/// Refuses a number of plays that sets cannot hold.
fn in_range(plays: u64, least: u64, allowed: &'static str) -> Result<(), CompareFault> {
    if (least..=MOST).contains(&plays) {
        return Ok(());
    }
    #[expect(clippy::cast_precision_loss, reason = "for a message")]
    let value = plays as f64;
    let field = "plays";
    Err(CompareFault::Range {
        field,
        value,
        allowed,
    })
}

/// Plays of a set, of so many plays in all.
fn set_of(plays: u64) -> u32 {
    u32::try_from(plays.div_ceil(SETS)).unwrap_or(u32::MAX)
}

/// The plays of the next round, where the lead is known to so many times what was asked for, a twentieth to spare.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a few million at most, grown eightfold at most"
)]
fn more(plays: u64, off: f64) -> u64 {
    let times = libm::pow(1.05 * off, 2.0 / POWER).clamp(GROWTH.0, GROWTH.1);
    (plays as f64 * times) as u64
}

/// What balls are put in order of: the lie, then the strokes to be expected.
#[derive(Clone, Copy, Debug, Default)]
struct Order(u8, f64);

impl Order {
    fn cmp(self, other: Order) -> Ordering {
        self.0.cmp(&other.0).then(self.1.total_cmp(&other.1))
    }
}
