//! Every stroke of every play, for those who ask for it.
use super::{Played, Told, play};
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Ready, Scene};
use crate::situation::Situation;
use rayon::prelude::*;

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
    scene: Scene,
    plan: Ready,
    start: Situation,
    seed: Seed,
    pick_up: u8,
    plays: Vec<Played>,
    strokes: Vec<StrokeRow>,
}

impl Recording {
    pub(crate) fn new(scene: Scene, plan: Ready, seed: Seed, pick_up: u8) -> Self {
        Recording {
            start: Situation::on_the_tee(scene.hole()),
            scene,
            plan,
            seed,
            pick_up,
            plays: Vec::new(),
            strokes: Vec::new(),
        }
    }

    /// The same recording with every play begun from `start` in place of the tee; for before anything is played.
    #[must_use]
    pub fn starting_at(self, start: Situation) -> Self {
        Recording { start, ..self }
    }

    /// Plays `count` more plays on the current thread pool.
    pub fn advance(&mut self, count: u64) {
        let done = self.plays.len() as u64;
        let told: Vec<(Played, Vec<Told>)> = (done..done + count)
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
            .collect();
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
