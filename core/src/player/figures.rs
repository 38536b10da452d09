//! The figures behind players by level that no table tells: few, each with a meaning, fitted together.

/// A figure at three levels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Anchors {
    /// Of the tour professional.
    pub professional: f64,
    /// Of the scratch golfer.
    pub scratch: f64,
    /// Of the bogey golfer: a man of handicap 20.
    pub bogey: f64,
}

const fn anchors(professional: f64, scratch: f64, bogey: f64) -> Anchors {
    Anchors {
        professional,
        scratch,
        bogey,
    }
}

impl Anchors {
    /// In equal steps from the scratch (0) to the bogey golfer (1), and on.
    pub(super) fn at(&self, level: f64) -> f64 {
        self.scratch + (self.bogey - self.scratch) * level
    }
}

/// What makes a player of a level, beside the lengths and areas that course rating publishes.
///
/// [`LevelFigures::FITTED`] are those of [`Player::from_handicap`](super::Player::from_handicap). They were fitted, all
/// together, by `cargo run --release --example calibrate -- fit` to the figures that `docs/calibration.md` marks as
/// fitted, and rounded; the report lists with them those that were only checked. The bogey golfer's shortfall alone was
/// then set by hand: with the fit's 0.10 the golfer who scores about 90 hits too few greens from 150 yards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelFigures {
    /// How fast skill levels off with handicap, strokes: a step from one handicap to the next is worth less the higher
    /// they are, by a factor of e every so many strokes.
    pub levelling: f64,
    /// How far solid strikes fall short of what was meant, as a share of it: golfers take too little club. Moves with
    /// length, as do all figures about swings but the shares of mishits.
    pub shortfall: Anchors,
    /// Share of strikes that are duffed (fat, topped) from a good lie, with all clubs alike.
    pub duffs: Anchors,
    /// Share of strikes that fly wild or thin from a good lie, with the shortest clubs.
    pub wilds: Anchors,
    /// How many more of those the longest club has, as a share; it grows with the fourth power of the carry.
    pub wild_long: f64,
    /// How far the wild ones stray to the side, as a multiple of what solid strikes do.
    pub wild_side: Anchors,
    /// How many times as much as a scratch golfer a player feels rough, sand and trees.
    pub bad_lie: Anchors,
    /// Where the professional's areas lie between those of the scratch (0) and the bogey golfer (1), once both are
    /// stretched to his length.
    pub professional_area: f64,
}

impl LevelFigures {
    /// The figures in use.
    pub const FITTED: LevelFigures = LevelFigures {
        levelling: 104.0,
        shortfall: anchors(0.023, 0.032, 0.092),
        duffs: anchors(0.0095, 0.021, 0.095),
        wilds: anchors(0.0815, 0.0765, 0.1225),
        wild_long: 0.73,
        wild_side: anchors(3.2, 2.9, 5.9),
        bad_lie: anchors(1.0, 1.0, 1.94),
        professional_area: 0.31,
    };
}
