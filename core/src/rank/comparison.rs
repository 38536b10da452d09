//! Plans, or players, under the same luck.
use super::counts::{Counts, Pair};
use super::prepare::{apart, names, ready, ready_one};
use super::question::FIRST_LOOK;
use super::{CompareFault, Length, Question, Ranking};
use crate::hole::Hole;
use crate::noise::PlayNoise;
use crate::plan::{Plan, Ready, Scene, WaveFault};
use crate::player::Bag;
use crate::run::Run;
use crate::shot::Stroke;
use crate::simulate::{Checkpoint, Played, Tally, Told, abreast, play, wave_end};
use crate::situation::Situation;
use rayon::prelude::*;
use std::sync::Arc;

/// A comparison under way: it advances in waves, and can be left at any time.
pub struct Comparison {
    start: Situation,
    par: u8,
    names: Vec<String>,
    sides: Vec<Side>,
    question: Question,
    milestones: Vec<Checkpoint>,
    sums: Sums,
    /// Number of the first play, which fixes its luck.
    first: u64,
    plays: u64,
    finished: bool,
    fault: Option<WaveFault>,
}

/// One of those compared: a plan as a player plays it.
struct Side {
    scene: Arc<Scene>,
    plan: Ready,
}

/// The scores of some plays, and what else is told of them, under a side whose strategy is asked by waves; None under others,
/// which are played one at a time.
type Abreast = Option<Vec<(Played, ())>>;

impl Comparison {
    /// Checks everything and prepares the plans; nothing has been played yet.
    ///
    /// # Errors
    /// Every reason why the question cannot be answered, see [`CompareFault`].
    pub fn new(
        scene: impl Into<Arc<Scene>>,
        plans: &[Plan],
        question: Question,
    ) -> Result<Self, CompareFault> {
        let scene = scene.into();
        question.check(scene.hole())?;
        let names = names(plans)?;
        let plans = ready(&scene, plans, question.begins(scene.hole()))?;
        let side = |plan| Side {
            scene: scene.clone(),
            plan,
        };
        let hole = scene.hole();
        Ok(Self::of(
            hole,
            names,
            plans.into_iter().map(side).collect(),
            question,
        ))
    }

    /// The same for players, each with a name of its own, who all play one plan.
    ///
    /// # Errors
    /// As for plans; a player who cannot be prepared for the hole, or cannot follow the plan.
    pub fn of_players(
        hole: &Arc<Hole>,
        players: &[(String, Arc<Bag>)],
        plan: &Plan,
        question: Question,
    ) -> Result<Self, CompareFault> {
        question.check(hole)?;
        let (names, bags): (Vec<String>, Vec<_>) = players.iter().cloned().unzip();
        apart("players", &names).map_err(|fault| match fault {
            CompareFault::NoPlans => CompareFault::NoPlayers,
            other => other,
        })?;
        let side = |(name, bag): (&String, Arc<Bag>)| {
            let prepared = || -> Result<Side, CompareFault> {
                let scene = Scene::new(hole.clone(), bag)?;
                let plan = ready_one(&scene, plan, &question)?;
                Ok(Side {
                    scene: Arc::new(scene),
                    plan,
                })
            };
            prepared().map_err(|fault| CompareFault::Side {
                name: name.clone(),
                fault: Box::new(fault),
            })
        };
        let sides = names.iter().zip(bags).map(side).collect::<Result<_, _>>()?;
        Ok(Self::of(hole, names, sides, question))
    }

    fn of(hole: &Hole, names: Vec<String>, sides: Vec<Side>, question: Question) -> Self {
        let milestones: Vec<Checkpoint> = question.checkpoints.iter().map(|(_, c)| *c).collect();
        Comparison {
            start: question.begins(hole),
            par: hole.par(),
            sums: Sums::new(sides.len(), milestones.len()),
            names,
            sides,
            question,
            milestones,
            first: 0,
            plays: 0,
            finished: false,
            fault: None,
        }
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
        let bag = self.sides[0].scene.bag();
        let mut used = vec![false; bag.len()];
        for Side { scene, plan } in &self.sides {
            let mut plays_with = vec![0; bag.len()];
            for number in 0..PLAYS {
                let mut strokes: Vec<Told> = Vec::new();
                let luck = PlayNoise::new(self.question.seed, number);
                play(scene, plan, self.start, luck, u8::MAX, &mut strokes);
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

    /// What a strategy broke the run off with, if one did: then it is finished, and tells of the plays before.
    pub fn take_fault(&mut self) -> Option<WaveFault> {
        self.fault.take()
    }

    /// True if a run to a precision is judged after `plays`.
    fn is_look(&self, plays: u64) -> bool {
        let mut look = FIRST_LOOK;
        while look < plays {
            look += look / 2;
        }
        look == plays
    }

    fn played(&self, from: u64, to: u64) -> Result<Sums, WaveFault> {
        /// Plays taken together: one plan's plays in a row keep its paths warm.
        const BLOCK: u64 = 128;
        let new = || Sums::new(self.sides.len(), self.milestones.len());
        let sides = self.sides.iter().map(|side| self.abreast(side, from, to));
        let own: Vec<Abreast> = sides.collect::<Result<_, _>>()?;
        let own = |side: usize, number: u64| {
            let played = own[side].as_ref();
            played.map(|plays| plays[(number - from) as usize].0)
        };
        Ok((0..(to - from).div_ceil(BLOCK))
            .into_par_iter()
            .fold(new, |mut sums, block| {
                let start = from + block * BLOCK;
                self.play_block(start, (start + BLOCK).min(to), &own, &mut sums);
                sums
            })
            .reduce(new, |mut a, b| {
                a.merge(&b);
                a
            }))
    }

    /// Plays side by side what is asked by waves.
    fn abreast(&self, side: &Side, from: u64, to: u64) -> Result<Abreast, WaveFault> {
        let Some(own) = side.plan.own() else {
            return Ok(None);
        };
        let mut played = Vec::new();
        while from + (played.len() as u64) < to {
            let done = from + played.len() as u64;
            let end = wave_end(done, 1).min(to);
            played.extend(abreast(
                &side.scene,
                (&side.plan, own),
                self.start,
                self.question.seed,
                self.pick_up(),
                self.first + done..self.first + end,
            )?);
        }
        Ok(Some(played))
    }

    fn pick_up(&self) -> u8 {
        self.question.maximum_score.unwrap_or(u8::MAX)
    }

    fn play_block(
        &self,
        from: u64,
        to: u64,
        own: &impl Fn(usize, u64) -> Option<Played>,
        sums: &mut Sums,
    ) {
        let blow_up = self.par + self.question.blow_up;
        let mut scores = [0u8; 128];
        sums.blocks.clear();
        let sides = self.sides.iter().zip(&mut sums.tallies).enumerate();
        for (at, (Side { scene, plan }, tally)) in sides {
            for (slot, number) in scores.iter_mut().zip(from..to) {
                let played = own(at, number).unwrap_or_else(|| {
                    let luck = PlayNoise::new(self.question.seed, self.first + number);
                    play(scene, plan, self.start, luck, self.pick_up(), &mut ())
                });
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
            par: self.par,
            names: self.names.clone(),
            tallies: self.sums.tallies.clone(),
            pairs: self.sums.pairs.clone(),
            sets: Vec::new(),
        })
    }
}

impl Run for Comparison {
    /// Plays up to `count` more plays of every plan on the current thread pool, not beyond the next
    /// stop; more where a strategy is asked by waves, so that its waves are always the same.
    fn advance(&mut self, count: u64) {
        if self.finished {
            return;
        }
        let end = if self.sides.iter().any(|side| side.plan.own().is_some()) {
            wave_end(self.plays, count)
        } else {
            self.plays.saturating_add(count)
        };
        let stop = self.goal().min(end);
        match self.played(self.plays, stop) {
            Ok(sums) => self.sums.merge(&sums),
            Err(fault) => {
                (self.fault, self.finished) = (Some(fault), true);
                return;
            }
        }
        self.plays = stop;
        self.finished = match self.question.length {
            Length::Plays(n) => stop == n,
            Length::Precision { strokes, most } => {
                stop == most || (self.is_look(stop) && self.ranking().widest_lead() <= strokes)
            }
        };
    }

    /// Plays of every plan so far.
    fn done(&self) -> u64 {
        self.plays
    }

    /// Plays of every plan after which the run ends or is judged next; those made once it has ended, which a run to a
    /// precision may do before the next look it was heading for.
    fn goal(&self) -> u64 {
        match self.question.length {
            _ if self.finished => self.plays,
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

    /// True when the question has been answered.
    fn is_finished(&self) -> bool {
        self.finished
    }
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
