//! What began a bad hole.

/// The first thing that went wrong in a play.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(u8)]
pub enum Cause {
    /// A ball in a penalty area.
    PenaltyArea,
    /// A ball out of bounds.
    OutOfBounds,
    /// A ball lost outside a penalty area.
    LostBall,
    /// A ball in the trees.
    Trees,
    /// A full or partial swing that was not struck solidly.
    Mishit,
    /// A stroke around the green that did not find it.
    ShortGame,
    /// A second putt missed.
    ThreePutt,
}

impl Cause {
    /// Every cause, in the order of the discriminants.
    pub const ALL: [Cause; 7] = [
        Cause::PenaltyArea,
        Cause::OutOfBounds,
        Cause::LostBall,
        Cause::Trees,
        Cause::Mishit,
        Cause::ShortGame,
        Cause::ThreePutt,
    ];

    /// The name used in tables.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Cause::PenaltyArea => "penalty area",
            Cause::OutOfBounds => "out of bounds",
            Cause::LostBall => "lost ball",
            Cause::Trees => "trees",
            Cause::Mishit => "mishit",
            Cause::ShortGame => "short game",
            Cause::ThreePutt => "three-putt",
        }
    }
}
