//! Players by level: how far they hit it, and how well.
//!
//! Skill moves between three golfers: the scratch golfer (handicap 0) and the bogey golfer (20, a man), and on from there;
//! a tour professional stands by himself.

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

/// What makes a player of a level, beside the lengths that course rating publishes.
///
/// [`LevelFigures::FITTED`] are those of [`Player::from_handicap`](crate::player::Player::from_handicap). They were fitted, all
/// together, by `cargo run --release --example calibrate -- fit` to the figures that `docs/calibration.md` marks as
/// fitted, then rounded; the professional's and the scratch golfer's were brought together where the fit had the professional
/// the less exact of the two, and the bogey golfer's depth, duffs and wild strikes set by further runs of the same study. The
/// report lists with the fitted figures those that were only checked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelFigures {
    /// How fast skill levels off with handicap: a step from one handicap to the next is worth less the higher they are, by a
    /// factor of e every so many strokes.
    ///
    /// Strokes.
    pub levelling: f64,
    /// Standard deviation of the direction of flush strikes with a short club.
    ///
    /// Degrees.
    pub direction_deg: Anchors,
    /// How much larger it is with the longest club; it grows with the fourth power of the carry.
    ///
    /// Share.
    pub direction_long: f64,
    /// Standard deviation of the carry of flush strikes with a club that carries six tenths as far as the driver; shorter
    /// clubs are a little less exact for their length, longer ones more.
    ///
    /// Share of the carry.
    pub depth: Anchors,
    /// Strikes that are duffed (fat, topped) from a good lie, with all clubs alike; as many are missed slightly.
    ///
    /// Share of strikes.
    pub duffs: Anchors,
    /// Strikes that fly wild or thin from a good lie, with the shortest clubs; as many are missed slightly.
    ///
    /// Share of strikes.
    pub wilds: Anchors,
    /// How many more of those the longest club has; it grows with the fourth power of the carry.
    ///
    /// Share.
    pub wild_long: f64,
    /// How far the wildest stray to the side, as a multiple of what flush strikes do.
    ///
    /// Factor.
    pub wild_side: f64,
    /// How many times as much as a scratch golfer a player feels rough, sand and trees.
    ///
    /// Factor.
    pub bad_lie: Anchors,
    /// The habit of too little club: by how much a swing at the pin is chosen too short.
    ///
    /// Share of the way.
    pub too_little_club: Anchors,
}

impl LevelFigures {
    /// The figures in use; where there are three, of the professional, the scratch and the bogey golfer.
    ///
    /// Fitted: docs/calibration.md.
    pub const FITTED: LevelFigures = LevelFigures {
        levelling: 44.0,
        direction_deg: anchors(2.19, 2.51, 4.05),
        direction_long: 0.45,
        depth: anchors(0.038, 0.038, 0.114),
        duffs: anchors(0.0076, 0.019, 0.08),
        wilds: anchors(0.04, 0.051, 0.07),
        wild_long: 0.585,
        wild_side: 2.8,
        bad_lie: anchors(1.0, 1.0, 1.57),
        too_little_club: anchors(0.0172, 0.0138, 0.0442),
    };
}

/// A pair of reference golfers of course rating.
pub(crate) struct ReferenceGolfers {
    /// Handicap of the bogey golfer.
    ///
    /// Strokes.
    pub(crate) bogey: f64,
    /// Length of the tee shot, scratch and bogey.
    ///
    /// Yards.
    pub(crate) tee: (f64, f64),
    /// Length of the shot after it, scratch and bogey: what is reached in two less the tee shot.
    ///
    /// Yards.
    pub(crate) second: (f64, f64),
    /// How much wider shots lie than a man's at the same share of the longest club's carry.
    ///
    /// Factor.
    pub(crate) wide: f64,
    /// Slope Rating for every stroke by which the bogey rating of a course lies above its Course Rating.
    ///
    /// Slope Rating a stroke.
    pub(crate) slope: f64,
}

/// Men.
///
/// Published: Course Rating System Manual (2020), sections 8 and 9; Rules of Handicapping.
pub(crate) const MEN: ReferenceGolfers = ReferenceGolfers {
    bogey: 20.0,
    tee: (250.0, 200.0),
    second: (220.0, 170.0),
    wide: 1.0,
    slope: 5.381,
};

/// Women. The areas that hold two thirds of their shots are 1.15 to 1.3 times as wide and deep as men's at the same share of
/// the tee shot (section 4-4); 1.25 is chosen between these.
///
/// Published: Course Rating System Manual (2020), sections 4, 8 and 9; Rules of Handicapping.
pub(crate) const WOMEN: ReferenceGolfers = ReferenceGolfers {
    bogey: 24.0,
    tee: (210.0, 150.0),
    second: (190.0, 130.0),
    wide: 1.25,
    slope: 4.24,
};

/// Run of the tee shot on a level fairway, scratch and bogey alike.
///
/// Yards. Published: Course Rating System.
pub(crate) const TEE_RUN: f64 = 20.0;

/// Run per yard of carry of a club that carries next to nothing: a short wedge.
///
/// Share of the carry. Common practice, no source.
pub(crate) const LEAST_RUN: f64 = 0.02;

/// Run that a drive has on top of [`LEAST_RUN`], per yard of carry, where only the carry of a club is known; shorter clubs
/// have less by the cube of the carry (common practice, no source).
///
/// Share of the carry. Computed: so that a drive of 250 yards in all runs 20 (Course Rating System, published).
pub(crate) const DRIVE_RUN: f64 = 0.067;

/// Carry of that drive.
///
/// Yards. Computed: 250 yards less the run, both of the Course Rating System.
pub(crate) const DRIVE_CARRY: f64 = 230.0;

/// The run per yard of carry grows no more beyond this many times [`DRIVE_CARRY`].
///
/// Factor. Chosen, no source.
pub(crate) const LONGEST_DRIVE: f64 = 1.1;

/// How fast length levels off with handicap. With the two reference golfers it gives mean drives of 240, 223, 208 and 190
/// yards at handicaps of 3, 9, 16 and 26; measured were 240, 220, 204 and 187 for "5 or less", 6-12, 13-20 and 21+.
///
/// Strokes. Fitted: UK men, R&A/USGA distance report 2018 (published).
pub(crate) const LENGTH_LEVELLING: f64 = 30.0;

/// Mean tee shot of the professional: a little longer than the 280 published for the tour of 2003 to 2010 (Broadie 2008).
///
/// Yards. Chosen, no source.
pub(crate) const PROFESSIONAL_TEE: f64 = 285.0;

/// The club that the spread in depth is told for.
///
/// Share of the driver's carry. Chosen, no source.
pub(crate) const MIDDLING: f64 = 0.6;

/// The power of the length with which that share of the carry falls: the depth of the published areas grows with about the
/// square root of the length.
///
/// Number. Published: Course Rating System Manual 2020, 4-4.
pub(crate) const LESS_DEEP: f64 = 0.5;

/// The clubs but the driver, with their carry next to the 3-wood's from a tee; all levels alike.
///
/// Shares of the 3-wood's carry. Common practice, no source.
pub(crate) const CLUBS: [(&str, f64); 12] = [
    ("3-wood", 1.0),
    ("5-wood", 0.95),
    ("4-hybrid", 0.91),
    ("5-hybrid", 0.87),
    ("5-iron", 0.84),
    ("6-iron", 0.785),
    ("7-iron", 0.73),
    ("8-iron", 0.675),
    ("9-iron", 0.62),
    ("pitching wedge", 0.565),
    ("gap wedge", 0.485),
    ("sand wedge", 0.40),
];

/// Carry of the driver off the ground.
///
/// Share of its carry from a tee. Common practice, no source.
pub(crate) const DRIVER_OFF_GROUND: f64 = 0.84;

/// Carry of the 3-wood off the ground.
///
/// Share of its carry from a tee. Common practice, no source.
pub(crate) const WOOD_OFF_GROUND: f64 = 0.97;

/// Level of the professional's short game and putting, where the scratch golfer is 0 and the bogey golfer 1: half as far
/// above scratch as the bogey golfer is below.
///
/// Number. Chosen, no source.
pub(crate) const PROFESSIONAL: f64 = -0.5;

/// Handicap of a golfer whose average score is about 90.
///
/// Strokes. Chosen, no source.
pub(crate) const NINETY: f64 = 17.0;
