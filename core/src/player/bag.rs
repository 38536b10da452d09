//! A player prepared for the simulation: every stroke from every lie as a table of swings.
use super::{Lie, Putting, Swing};

/// The index of a club in its player's bag, longest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ClubId(pub u8);

/// The strokes around the green, and the low one from under trees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(u8)]
pub enum Touch {
    /// Low, most of the way along the ground.
    Chip,
    /// High, most of the way through the air.
    Pitch,
    /// From sand near the green.
    BunkerShot,
    /// A short low swing that keeps the ball under branches.
    Punch,
}

/// A player prepared for the simulation.
#[derive(Clone, Debug, PartialEq)]
pub struct Bag {
    /// Full swings: `swings[club][lie]`.
    swings: Vec<[Swing; 9]>,
    /// `touches[touch][lie]`.
    touches: [[Swing; 9]; 4],
    putting: Putting,
}

impl Bag {
    /// Number of clubs but the putter.
    #[must_use]
    pub fn len(&self) -> usize {
        self.swings.len()
    }

    /// A full or partial swing with a club.
    #[must_use]
    pub fn swing(&self, club: ClubId, lie: Lie) -> &Swing {
        &self.swings[usize::from(club.0)][lie as usize]
    }

    /// A stroke around the green, or a punch.
    #[must_use]
    pub fn touch(&self, touch: Touch, lie: Lie) -> &Swing {
        &self.touches[touch as usize][lie as usize]
    }

    /// How the player putts.
    #[must_use]
    pub fn putting(&self) -> &Putting {
        &self.putting
    }
}
