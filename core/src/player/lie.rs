//! How the ball lies, which is what a player has to play from.
use crate::hole::Surface;
use serde::{Deserialize, Serialize};

/// The lie of a ball in play.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[repr(u8)]
pub enum Lie {
    /// Teed up.
    Tee,
    /// On the fairway.
    Fairway,
    /// In the first cut (semi-rough).
    FirstCut,
    /// In the rough.
    Rough,
    /// In deep rough.
    DeepRough,
    /// On the fringe of the green.
    Fringe,
    /// On the putting green.
    Green,
    /// In sand.
    Bunker,
    /// Under trees: the swing is restricted and the ball must be kept low.
    Trees,
}

impl Lie {
    /// Every lie, in the order of the discriminants.
    pub const ALL: [Lie; 9] = [
        Lie::Tee,
        Lie::Fairway,
        Lie::FirstCut,
        Lie::Rough,
        Lie::DeepRough,
        Lie::Fringe,
        Lie::Green,
        Lie::Bunker,
        Lie::Trees,
    ];

    /// The name used in documents and tables, such as `first_cut`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Lie::Tee => "tee",
            Lie::Fairway => "fairway",
            Lie::FirstCut => "first_cut",
            Lie::Rough => "rough",
            Lie::DeepRough => "deep_rough",
            Lie::Fringe => "fringe",
            Lie::Green => "green",
            Lie::Bunker => "bunker",
            Lie::Trees => "trees",
        }
    }

    /// The lie of a document's name.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|l| l.name() == name)
    }

    /// True of a lie that costs golfers something, and weaker ones more: neither a tee nor mown grass.
    #[must_use]
    pub fn is_bad(self) -> bool {
        match self {
            Lie::Tee | Lie::Fairway | Lie::Fringe | Lie::Green => false,
            Lie::FirstCut | Lie::Rough | Lie::DeepRough | Lie::Bunker | Lie::Trees => true,
        }
    }

    /// The lie of a ball at rest on a surface it may be played from as it lies; None in a penalty
    /// area or out of bounds, where the Rules decide. A ball that comes to rest on a teeing area
    /// after the tee shot lies as on a fairway: it may not be teed up again.
    #[must_use]
    pub fn on(surface: Surface) -> Option<Self> {
        match surface {
            Surface::Tee | Surface::Fairway => Some(Lie::Fairway),
            Surface::FirstCut => Some(Lie::FirstCut),
            Surface::Rough => Some(Lie::Rough),
            Surface::DeepRough => Some(Lie::DeepRough),
            Surface::Fringe => Some(Lie::Fringe),
            Surface::Green => Some(Lie::Green),
            Surface::Bunker => Some(Lie::Bunker),
            Surface::Trees => Some(Lie::Trees),
            Surface::PenaltyRed | Surface::PenaltyYellow | Surface::OutOfBounds => None,
        }
    }
}
