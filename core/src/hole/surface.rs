//! The surfaces a ball can come to rest on.
use serde::{Deserialize, Serialize};

/// What a part of the hole is. Anything not covered by a feature is [`Surface::Rough`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[repr(u8)]
pub enum Surface {
    /// The teeing area.
    Tee,
    /// Closely mown ground between tee and green.
    Fairway,
    /// First cut (semi-rough): the narrow band between fairway and rough.
    FirstCut,
    /// Rough.
    Rough,
    /// Deep rough.
    DeepRough,
    /// The collar mown close around the green.
    Fringe,
    /// The putting green.
    Green,
    /// Sand.
    Bunker,
    /// Red penalty area (Rule 17): lateral relief allowed.
    PenaltyRed,
    /// Yellow penalty area (Rule 17).
    PenaltyYellow,
    /// Out of bounds (Rule 18.2).
    OutOfBounds,
    /// Under trees.
    Trees,
}

impl Surface {
    /// Every surface, in the order of the discriminants.
    pub const ALL: [Surface; 12] = [
        Surface::Tee,
        Surface::Fairway,
        Surface::FirstCut,
        Surface::Rough,
        Surface::DeepRough,
        Surface::Fringe,
        Surface::Green,
        Surface::Bunker,
        Surface::PenaltyRed,
        Surface::PenaltyYellow,
        Surface::OutOfBounds,
        Surface::Trees,
    ];

    /// The name used in documents and tables, such as `first_cut`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Surface::Tee => "tee",
            Surface::Fairway => "fairway",
            Surface::FirstCut => "first_cut",
            Surface::Rough => "rough",
            Surface::DeepRough => "deep_rough",
            Surface::Fringe => "fringe",
            Surface::Green => "green",
            Surface::Bunker => "bunker",
            Surface::PenaltyRed => "penalty_red",
            Surface::PenaltyYellow => "penalty_yellow",
            Surface::OutOfBounds => "out_of_bounds",
            Surface::Trees => "trees",
        }
    }

    /// The surface of a document's name.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.name() == name)
    }

    /// True for red and yellow penalty areas.
    #[must_use]
    pub fn is_penalty_area(self) -> bool {
        matches!(self, Surface::PenaltyRed | Surface::PenaltyYellow)
    }

    /// True for what is mown or raked.
    #[must_use]
    pub fn is_tended(self) -> bool {
        match self {
            Surface::Tee
            | Surface::Fairway
            | Surface::FirstCut
            | Surface::Fringe
            | Surface::Green
            | Surface::Bunker => true,
            Surface::Rough
            | Surface::DeepRough
            | Surface::Trees
            | Surface::PenaltyRed
            | Surface::PenaltyYellow
            | Surface::OutOfBounds => false,
        }
    }
}
