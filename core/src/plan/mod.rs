//! Choosing shots: strategies that always know what to do next, and plans that begin with
//! instructions and leave the rest to a strategy.

mod ahead;
mod direct;
mod document;
mod escape;
mod instruction;
mod menu;
mod outlook;
mod plays_like;
mod reach;
mod scene;
mod stations;
mod steady;
mod suggest;
mod wave;

pub use direct::Direct;
pub use escape::Escapes;
pub use instruction::{Aim, Instruction, Plan, PlanFault, Then};
pub use menu::ShotFault;
pub(crate) use menu::{around_the_green, may_putt};
pub use outlook::Outlook;
pub use plays_like::{PlaysLike, PlaysLikeFault};
pub use reach::Reach;
pub use scene::{Assessment, Scene};
pub use steady::Steady;
pub use suggest::suggest_plans;
pub use wave::{AnswerFault, Ball, WaveFault, WaveStrategy, Waves};

pub(crate) use instruction::Ready;

use crate::rules::{Drop, Options};
use crate::shot::Shot;
use crate::situation::Situation;

/// A way to play: from every situation it names the next shot.
///
/// A strategy is prepared for one [`Scene`] and is asked inside the hot loop, so an answer is a
/// look-up and allocates nothing.
pub trait Strategy: Send + Sync {
    /// The shot to play from a situation after `played` strokes and penalties of the hole, which only a strategy that plays
    /// for a score looks at.
    fn choose(&self, scene: &Scene, from: Situation, played: u8) -> Shot;

    /// Strokes still to come from a situation, as the strategy sees it; used to choose between the
    /// options of a Rule.
    fn estimate(&self, scene: &Scene, from: Situation) -> f64 {
        scene.reckon(from)
    }

    /// The option of a Rule that is taken after `played` strokes and penalties of the hole.
    fn take(&self, scene: &Scene, options: &Options, _played: u8) -> Drop {
        options.best(|s| self.estimate(scene, *s))
    }

    /// True if it can be played in a scene: one that was worked out for a hole and a player is for them alone.
    fn suits(&self, _scene: &Scene) -> bool {
        true
    }
}
