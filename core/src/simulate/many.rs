//! Many strokes of one shot: the kernel itself, for an experiment of one's own.
use crate::noise::{PlayNoise, Seed};
use crate::plan::{Scene, ShotFault};
use crate::run::Run;
use crate::shot::{Outcome, Shot};
use crate::situation::Situation;
use rayon::prelude::*;
use std::sync::Arc;

/// The most strokes of one shot.
pub const MOST_STROKES: u64 = 10_000_000;

/// One shot played many times from one place: it advances in waves.
///
/// Stroke number `i` has the luck of the first stroke of play `i` under the same seed.
pub struct ManyStrokes {
    scene: Arc<Scene>,
    from: Situation,
    shot: Shot,
    seed: Seed,
    goal: u64,
    outcomes: Vec<Outcome>,
}

impl ManyStrokes {
    /// Prepares `count` strokes; nothing has been played yet. A carry of more than the stroke can give is its full one.
    ///
    /// # Errors
    /// A shot that cannot be played from there; a count outside 1 to [`MOST_STROKES`].
    pub fn new(
        scene: impl Into<Arc<Scene>>,
        from: Situation,
        shot: &Shot,
        seed: Seed,
        count: u64,
    ) -> Result<Self, ShotFault> {
        #[expect(clippy::cast_precision_loss, reason = "for a message")]
        if !(1..=MOST_STROKES).contains(&count) {
            return Err(ShotFault::Range {
                field: "n",
                value: count as f64,
                allowed: "1 to 10,000,000",
            });
        }
        let scene = scene.into();
        let shot = scene.playable(from, shot)?;
        Ok(ManyStrokes {
            scene,
            from,
            shot,
            seed,
            goal: count,
            outcomes: Vec::new(),
        })
    }

    /// What became of them so far, in their order.
    #[must_use]
    pub fn outcomes(&self) -> &[Outcome] {
        &self.outcomes
    }

    /// The player on the hole.
    #[must_use]
    pub fn scene(&self) -> &Scene {
        &self.scene
    }
}

impl Run for ManyStrokes {
    /// Plays up to `count` more on the current thread pool.
    fn advance(&mut self, count: u64) {
        let done = self.done();
        let end = self.goal.min(done.saturating_add(count));
        let shot = self.scene.address(self.from, &self.shot);
        let played = (done..end)
            .into_par_iter()
            .map(|number| shot.play(&PlayNoise::new(self.seed, number).stroke(0)));
        let played: Vec<Outcome> = played.collect();
        self.outcomes.extend(played);
    }

    /// Strokes so far.
    fn done(&self) -> u64 {
        self.outcomes.len() as u64
    }

    /// Strokes in all.
    fn goal(&self) -> u64 {
        self.goal
    }
}
