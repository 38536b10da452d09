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
/// fitted, and rounded; the report lists with them those that were only checked. The bogey golfer's shortfall was then set
/// by hand: the fit asks for 0.10, which brings scores nearer to a length rating from memory, and takes the 90-golfer's
/// shots from 150 yards, published, farther from where they are known to end. The professional's figures are those of an
/// earlier fit, which hit fewer greens too many.
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
        levelling: 113.0,
        shortfall: anchors(0.024, 0.036, 0.083),
        duffs: anchors(0.009, 0.022, 0.095),
        wilds: anchors(0.078, 0.072, 0.128),
        wild_long: 0.82,
        wild_side: anchors(3.2, 2.9, 5.6),
        bad_lie: anchors(1.0, 1.0, 1.88),
        professional_area: 0.4,
    };
}
