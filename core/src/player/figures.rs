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

/// What makes a player of a level, beside the lengths that course rating publishes.
///
/// [`LevelFigures::FITTED`] are those of [`Player::from_handicap`](super::Player::from_handicap). They were fitted, all
/// together, by `cargo run --release --example calibrate -- fit` to the figures that `docs/calibration.md` marks as
/// fitted; since the law of strikes last changed they were moved by hand, by runs of the same study. The
/// report lists with the fitted figures those that were only checked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelFigures {
    /// How fast skill levels off with handicap, strokes: a step from one handicap to the next is worth less the higher
    /// they are, by a factor of e every so many strokes.
    pub levelling: f64,
    /// Standard deviation of the direction of flush strikes with a short club, degrees.
    pub direction_deg: Anchors,
    /// How much larger it is with the longest club, as a share; it grows with the fourth power of the carry.
    pub direction_long: f64,
    /// Standard deviation of the carry of flush strikes, as a share of it, with a club that carries six tenths as far as
    /// the driver; shorter clubs are a little less exact for their length, longer ones more.
    pub depth: Anchors,
    /// Share of strikes that are duffed (fat, topped) from a good lie, with all clubs alike; as many are missed slightly.
    pub duffs: Anchors,
    /// Share of strikes that fly wild or thin from a good lie, with the shortest clubs; as many are missed slightly.
    pub wilds: Anchors,
    /// How many more of those the longest club has, as a share; it grows with the fourth power of the carry.
    pub wild_long: f64,
    /// How far the wildest stray to the side, as a multiple of what flush strikes do.
    pub wild_side: f64,
    /// How many times as much as a scratch golfer a player feels rough, sand and trees.
    pub bad_lie: Anchors,
    /// The habit of too little club: the share of the way by which a swing at the pin is chosen too short.
    pub too_little_club: Anchors,
}

impl LevelFigures {
    /// The figures in use.
    pub const FITTED: LevelFigures = LevelFigures {
        levelling: 42.5,
        direction_deg: anchors(2.35, 2.46, 3.9),
        direction_long: 0.16,
        depth: anchors(0.0455, 0.045, 0.11),
        duffs: anchors(0.021, 0.017, 0.084),
        wilds: anchors(0.036, 0.04, 0.083),
        wild_long: 0.62,
        wild_side: 4.1,
        bad_lie: anchors(1.0, 1.0, 1.55),
        too_little_club: anchors(0.012, 0.018, 0.047),
    };
}
