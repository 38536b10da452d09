//! Every stroke of every play, for those who ask for it.
use super::{Played, Told, abreast, play, wave_end};
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Ready, Scene, WaveFault};
use crate::run::Run;
use crate::situation::Situation;
use crate::stats::Histogram;
use rayon::prelude::*;
use std::sync::Arc;

/// One stroke of one play.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StrokeRow {
    /// Number of the play, from 0.
    pub play: u64,
    /// Number of the stroke within the play, from 1 (penalty strokes are not numbered).
    pub stroke: u32,
    /// What happened.
    pub told: Told,
}

/// A recorded run: all plays of one plan with all their strokes.
pub struct Recording {
    scene: Arc<Scene>,
    plan: Ready,
    start: Situation,
    seed: Seed,
    pick_up: u8,
    goal: u64,
    plays: Vec<Played>,
    strokes: Vec<StrokeRow>,
    fault: Option<WaveFault>,
}

impl Recording {
    pub(crate) fn new(
        start: Situation,
        scene: Arc<Scene>,
        plan: Ready,
        seed: Seed,
        pick_up: u8,
        goal: u64,
    ) -> Self {
        Recording {
            start,
            scene,
            plan,
            seed,
            pick_up,
            goal,
            plays: Vec::new(),
            strokes: Vec::new(),
            fault: None,
        }
    }

    fn one_by_one(&self, done: u64, end: u64) -> Vec<(Played, Vec<Told>)> {
        (done..end)
            .into_par_iter()
            .map(|number| {
                let mut strokes = Vec::with_capacity(8);
                let luck = PlayNoise::new(self.seed, number);
                let played = play(
                    &self.scene,
                    &self.plan,
                    self.start,
                    luck,
                    self.pick_up,
                    &mut strokes,
                );
                (played, strokes)
            })
            .collect()
    }

    /// Plays what is asked by waves, as far as it goes.
    fn abreast(&mut self, done: u64, end: u64) -> Vec<(Played, Vec<Told>)> {
        let mut told = Vec::new();
        let mut from = done;
        while let (Some(own), None, true) = (self.plan.own(), &self.fault, from < end) {
            let to = wave_end(from, 1).min(end);
            let plan = (&self.plan, own);
            match abreast(
                &self.scene,
                plan,
                self.start,
                self.seed,
                self.pick_up,
                from..to,
            ) {
                Ok(plays) => told.extend(plays),
                Err(fault) => self.fault = Some(fault),
            }
            from = to;
        }
        told
    }

    /// What a strategy broke the run off with, if one did.
    pub fn take_fault(&mut self) -> Option<WaveFault> {
        self.fault.take()
    }

    fn keep(&mut self, done: u64, told: Vec<(Played, Vec<Told>)>) {
        for (number, (played, strokes)) in (done..).zip(told) {
            self.plays.push(played);
            let rows = (1..).zip(strokes);
            self.strokes.extend(rows.map(|(stroke, told)| StrokeRow {
                play: number,
                stroke,
                told,
            }));
        }
    }

    /// Plays so far.
    #[must_use]
    pub fn plays(&self) -> &[Played] {
        &self.plays
    }

    /// Their mean score; NaN of none.
    #[must_use]
    pub fn mean_score(&self) -> f64 {
        let mut scores = Histogram::default();
        self.plays
            .iter()
            .for_each(|played| scores.add(played.score));
        scores.mean().mean
    }

    /// Their strokes, play by play.
    #[must_use]
    pub fn strokes(&self) -> &[StrokeRow] {
        &self.strokes
    }

    /// The player on the hole.
    #[must_use]
    pub fn scene(&self) -> &Scene {
        &self.scene
    }
}

impl Run for Recording {
    /// Plays up to `count` more plays on the current thread pool; for a strategy of one's own so many that its waves are
    /// always the same. Nothing more once a strategy has broken the run off.
    fn advance(&mut self, count: u64) {
        if self.is_finished() {
            return;
        }
        let done = self.done();
        let told = if self.plan.own().is_some() {
            self.abreast(done, wave_end(done, count).min(self.goal))
        } else {
            self.one_by_one(done, done.saturating_add(count).min(self.goal))
        };
        self.keep(done, told);
    }

    /// Plays so far.
    fn done(&self) -> u64 {
        self.plays.len() as u64
    }

    /// Plays in all.
    fn goal(&self) -> u64 {
        self.goal
    }

    /// True when all are played, or a strategy has broken the run off.
    fn is_finished(&self) -> bool {
        self.fault.is_some() || self.done() == self.goal
    }
}
