//! Strategies that are asked for many balls at once.
use super::{Scene, ShotFault, Then};
use crate::shot::Shot;
use crate::situation::Situation;
use std::error::Error;
use std::sync::Arc;

/// A ball that is to be played.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ball {
    /// Number of the play, which fixes its luck.
    pub play: u64,
    /// Strokes and penalties so far.
    pub score: u8,
    /// Where it lies, and how.
    pub from: Situation,
}

/// Why a strategy gave no shots.
pub type WaveFault = Box<dyn Error + Send + Sync>;

/// A way to play that is asked for all balls of a wave at once: what is slow to ask, such as a function in another language, is
/// then not asked often.
///
/// The balls of a wave are plays of one plan after the same number of strokes, in the order of their plays. How plays are
/// taken together does not depend on the number of threads, and one wave is asked for after the other; a strategy whose
/// answer for a ball depends on that ball alone gives the same results however they are taken together.
pub trait WaveStrategy: Send + Sync {
    /// The shot of each ball, or None for what the usual way plays.
    ///
    /// # Errors
    /// Whatever kept it from answering: the run is broken off.
    fn shots(&self, scene: &Scene, balls: &[Ball]) -> Result<Vec<Option<Shot>>, WaveFault>;
}

/// A strategy that is asked by waves, and the usual way for the balls it has no answer for.
#[derive(Clone)]
pub struct Waves {
    /// What is asked.
    pub strategy: Arc<dyn WaveStrategy>,
    /// The usual way, which also chooses between the options of a Rule.
    pub otherwise: Box<Then>,
}

/// An answer that cannot be played.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AnswerFault {
    /// Not one answer a ball.
    #[error("the strategy gave {given} answers for {asked} balls; it must give one for each")]
    Count {
        /// Answers given.
        given: usize,
        /// Balls asked for.
        asked: usize,
    },
    /// A shot that cannot be played.
    #[error("ball {ball} of those asked for: {fault}")]
    Shot {
        /// Number of the ball in its wave, from 0.
        ball: usize,
        /// Why.
        fault: ShotFault,
    },
}

impl Waves {
    /// Asks for a wave, and checks the answers: a carry of more than the stroke can give is its full one.
    pub(crate) fn ask(
        &self,
        scene: &Scene,
        balls: &[Ball],
    ) -> Result<Vec<Option<Shot>>, WaveFault> {
        if balls.is_empty() {
            return Ok(Vec::new());
        }
        let mut shots = self.strategy.shots(scene, balls)?;
        if shots.len() != balls.len() {
            return Err(Box::new(AnswerFault::Count {
                given: shots.len(),
                asked: balls.len(),
            }));
        }
        for (number, (shot, ball)) in shots.iter_mut().zip(balls).enumerate() {
            if let Some(shot) = shot {
                let playable = scene.playable(ball.from, shot);
                *shot = playable.map_err(|fault| AnswerFault::Shot {
                    ball: number,
                    fault,
                })?;
            }
        }
        Ok(shots)
    }
}
