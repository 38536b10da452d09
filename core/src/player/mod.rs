//! The golfer: clubs and their dispersion, lies, short game and putting.
mod bag;
mod club;
mod describe;
mod document;
mod fault;
mod figures;
mod golfer;
mod level;
mod lie;
mod lie_effect;
mod misses;
mod model;
mod putting;
mod reference;
mod short_game;
mod swing;

pub use bag::{Bag, ClubId, Touch};
pub use club::{Club, ClubParts, MishitShape};
pub use fault::PlayerFault;
pub use figures::{Anchors, LevelFigures};
pub use golfer::{Player, PlayerParts, TeeShot};
pub use lie::Lie;
pub use lie_effect::LieEffect;
pub use putting::Putting;
pub use reference::Reference;
pub use short_game::{ShortGame, TouchSkill};
pub use swing::{Contact, LEAST_CARRY, Mishit, Strike, Swing};
