//! A player prepared for the simulation: every stroke from every lie as a table of swings.
use super::{Club, Habits, Lie, PlayerFault, Putting, Swing};
use serde::{Deserialize, Serialize};

/// The index of a club in its player's bag, longest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ClubId(pub u8);

/// The strokes around the green, and the low one from under trees.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[repr(u8)]
pub enum Touch {
    /// The putter from off the green: the ball rolls from the start and never flies. What is meant in place of a
    /// carry is the whole roll, in yards of mown ground ([`Swing::rolls`]).
    Putter,
    /// Low, most of the way along the ground (a running chip).
    Chip,
    /// High, most of the way through the air.
    Pitch,
    /// As high and soft as can be, with an open face.
    Lob,
    /// From sand near the green.
    BunkerShot,
    /// A short low swing that keeps the ball under branches.
    Punch,
}

impl Touch {
    /// Every touch, in the order of the discriminants.
    pub const ALL: [Touch; 6] = [
        Touch::Putter,
        Touch::Chip,
        Touch::Pitch,
        Touch::Lob,
        Touch::BunkerShot,
        Touch::Punch,
    ];

    /// The name used in documents and tables, such as `bunker_shot`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Touch::Putter => "putter",
            Touch::Chip => "chip",
            Touch::Pitch => "pitch",
            Touch::Lob => "lob",
            Touch::BunkerShot => "bunker_shot",
            Touch::Punch => "punch",
        }
    }

    /// The name a player calls it by, such as `bunker shot`.
    #[must_use]
    pub fn spoken(self) -> String {
        self.name().replace('_', " ")
    }

    /// True if the stroke is one to play from a lie (common practice, no source): a putter wants mown grass, a lob
    /// grass and room above, a bunker shot sand. From sand a chip or a pitch is picked clean; under trees the ball
    /// is kept low.
    #[must_use]
    pub fn suits(self, lie: Lie) -> bool {
        match self {
            Touch::Putter => matches!(lie, Lie::Fairway | Lie::FirstCut | Lie::Fringe),
            Touch::Chip => !matches!(lie, Lie::Tee | Lie::Green),
            Touch::Pitch => !matches!(lie, Lie::Tee | Lie::Green | Lie::Trees),
            Touch::Lob => !matches!(lie, Lie::Tee | Lie::Green | Lie::Trees | Lie::Bunker),
            Touch::BunkerShot => lie == Lie::Bunker,
            Touch::Punch => lie != Lie::Green,
        }
    }
}

/// A player prepared for the simulation.
#[derive(Clone, Debug, PartialEq)]
pub struct Bag {
    pub(super) clubs: Vec<Club>,
    /// Full swings: `swings[club][lie]`.
    pub(super) swings: Vec<[Swing; 9]>,
    /// `touches[touch][lie]`.
    pub(super) touches: [[Swing; 9]; 6],
    /// The club with the longest carry from each lie.
    pub(super) longest: [ClubId; 9],
    pub(super) putting: Putting,
    pub(super) habits: Habits,
}

impl Bag {
    /// Number of clubs but the putter: 1 to 13.
    #[must_use]
    #[expect(clippy::len_without_is_empty, reason = "a bag is never empty")]
    pub fn len(&self) -> usize {
        self.swings.len()
    }

    /// The clubs, longest first.
    pub fn clubs(&self) -> impl DoubleEndedIterator<Item = ClubId> + ExactSizeIterator + use<> {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a bag holds at most 13 clubs"
        )]
        let count = self.swings.len() as u8;
        (0..count).map(ClubId)
    }

    /// A full or partial swing with a club. The club must be one of this bag's.
    #[must_use]
    #[inline]
    pub fn swing(&self, club: ClubId, lie: Lie) -> &Swing {
        &self.swings[usize::from(club.0)][lie as usize]
    }

    /// A stroke around the green, or a punch.
    #[must_use]
    #[inline]
    pub fn touch(&self, touch: Touch, lie: Lie) -> &Swing {
        &self.touches[touch as usize][lie as usize]
    }

    /// The club with the longest carry from `lie` (the longer of two that tie).
    #[must_use]
    #[inline]
    pub fn longest(&self, lie: Lie) -> ClubId {
        self.longest[lie as usize]
    }

    /// The name of a club of this bag.
    #[must_use]
    pub fn name(&self, club: ClubId) -> &str {
        &self.club(club).name
    }

    /// A club of this bag.
    #[must_use]
    pub fn club(&self, club: ClubId) -> &Club {
        &self.clubs[usize::from(club.0)]
    }

    /// The club of a name.
    ///
    /// # Errors
    /// [`PlayerFault::UnknownClub`] with the names there are.
    pub fn find(&self, name: &str) -> Result<ClubId, PlayerFault> {
        self.clubs()
            .find(|&id| self.name(id) == name)
            .ok_or_else(|| PlayerFault::UnknownClub {
                name: name.to_owned(),
                known: self.clubs.iter().map(|c| c.name.clone()).collect(),
            })
    }

    /// What the player chooses by habit.
    #[must_use]
    pub fn habits(&self) -> Habits {
        self.habits
    }

    /// The same player with habits taken away or given back.
    pub(crate) fn with_habits(self, habits: Habits) -> Self {
        Bag { habits, ..self }
    }

    /// How the player putts.
    #[must_use]
    #[inline]
    pub fn putting(&self) -> &Putting {
        &self.putting
    }
}
