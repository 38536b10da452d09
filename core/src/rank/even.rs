//! Plans compared on even luck: the plays of a set share their luck out among themselves.
use super::comparison::{names, ready};
use super::even_ranking::EvenRanking;
use super::{CompareFault, Question};
use crate::noise::{Seed, keys};
use crate::plan::{Plan, Ready, Scene};
use crate::simulate::{Playing, Tally};
use crate::situation::Situation;
use crate::solve::scrambled;
use rayon::prelude::*;
use std::cmp::Ordering;

/// Independent sets of plays: enough to tell a standard error from.
pub const SETS: u64 = 32;

/// A comparison on even luck under way: it advances in sets of plays, and can be left at any time.
///
/// The plays of a set are made side by side, a stroke at a time. Before every stroke the balls are put in order, by lie and
/// then by the strokes that their plan's strategy expects from there, and a point set that is even over this order and all
/// luck of a stroke is dealt out to them: the array-RQMC method (L'Ecuyer, Lécot and Tuffin 2008, "A randomized
/// quasi-Monte Carlo simulation method for Markov chains", Operations Research 56). Each play by itself meets luck as
/// random as ever, so that every average is unbiased whatever the order; only the errors even out. Different sets are
/// scrambled independently, and standard errors are told from how far they differ.
pub struct EvenComparison {
    scene: Scene,
    names: Vec<String>,
    plans: Vec<Ready>,
    question: Question,
    /// Plays of every plan in a set.
    of_a_set: u32,
    sets: Vec<Vec<SetTally>>,
}

/// What one plan came to in one set.
#[derive(Clone, Debug)]
pub(super) struct SetTally {
    pub(super) tally: Tally,
    /// Strokes simulated, penalties not counted.
    pub(super) strokes: u64,
}

impl EvenComparison {
    /// Checks everything and prepares the plans; nothing has been played yet. Each plan is played `plays` times, rounded
    /// up to whole plays in [`SETS`] sets of equal size; the question's own length and checkpoints are passed over.
    ///
    /// # Errors
    /// As for [`super::Comparison::new`]; fewer than 2 plays to a set.
    pub fn new(
        scene: Scene,
        plans: &[Plan],
        question: Question,
        plays: u64,
    ) -> Result<Self, CompareFault> {
        question.check(scene.hole())?;
        let names = names(plans)?;
        #[expect(clippy::cast_precision_loss, reason = "for a message")]
        let out_of_range = CompareFault::Range {
            field: "plays",
            value: plays as f64,
            allowed: "64 to 3,200,000",
        };
        let of_a_set = match u32::try_from(plays.div_ceil(SETS)) {
            Ok(of_a_set) if (2 * SETS..=100_000 * SETS).contains(&plays) => of_a_set,
            _ => return Err(out_of_range),
        };
        let plans = ready(&scene, plans)?;
        Ok(EvenComparison {
            scene,
            names,
            plans,
            question,
            of_a_set,
            sets: Vec::new(),
        })
    }

    /// Plays of every plan so far.
    #[must_use]
    pub fn plays(&self) -> u64 {
        self.sets.len() as u64 * u64::from(self.of_a_set)
    }

    /// Plays of every plan in all.
    #[must_use]
    pub fn goal(&self) -> u64 {
        SETS * u64::from(self.of_a_set)
    }

    /// True when every set is played.
    #[must_use]
    pub fn is_finished(&self) -> bool {
        self.sets.len() as u64 == SETS
    }

    /// Plays up to `count` more sets on the current thread pool.
    pub fn advance(&mut self, count: u64) {
        let done = self.sets.len() as u64;
        let end = SETS.min(done.saturating_add(count));
        let played: Vec<SetTally> = (done..end)
            .flat_map(|set| self.plans.iter().map(move |plan| (plan, set)))
            .collect::<Vec<_>>()
            .into_par_iter()
            .with_max_len(1)
            .map(|(plan, set)| self.play(plan, set))
            .collect();
        let sets = played.chunks(self.plans.len()).map(<[SetTally]>::to_vec);
        self.sets.extend(sets);
    }

    /// Plays one plan through one set.
    fn play(&self, plan: &Ready, set: u64) -> SetTally {
        let blow_up = self.scene.hole().par() + self.question.blow_up;
        let pick_up = self.question.maximum_score.unwrap_or(u8::MAX);
        let seed: Seed = self.question.seed;
        let start = Playing::new(Situation::on_the_tee(self.scene.hole()));
        let mut done = SetTally {
            tally: Tally::new(0),
            strokes: 0,
        };
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
                done.strokes += 1;
                if playing.stroke(&self.scene, plan, &noise, pick_up, &mut ()) {
                    done.tally.add(&playing.played(pick_up), blow_up, &[]);
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
        done
    }

    /// What has been found so far.
    #[must_use]
    pub fn ranking(&self) -> EvenRanking {
        EvenRanking::new(
            self.names.clone(),
            &self.question,
            self.scene.hole().par(),
            u64::from(self.of_a_set),
            &self.sets,
        )
    }
}

/// What balls are put in order of: the lie, then the strokes to be expected.
#[derive(Clone, Copy, Debug, Default)]
struct Order(u8, f64);

impl Order {
    fn cmp(self, other: Order) -> Ordering {
        self.0.cmp(&other.0).then(self.1.total_cmp(&other.1))
    }
}
