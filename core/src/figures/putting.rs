//! Putts: the player's errors, the green, and what the hole takes.
use crate::units::{FEET_PER_YARD, METRES_PER_YARD};

/// How one golfer putts, on ordinary greens.
pub(crate) struct Putter {
    /// Standard deviation of the direction on the shortest putts.
    ///
    /// Degrees.
    pub(crate) direction_deg: f64,
    /// Added to it on the longest putts: break misread.
    ///
    /// Degrees.
    pub(crate) misread_deg: f64,
    /// Standard deviation of the roll-out.
    ///
    /// Share of the roll-out.
    pub(crate) pace: f64,
    /// How far past the hole the ball is meant to roll out if the hole is missed. It follows from the share of 10-foot putts
    /// that are left short, and is taken to be the same for all levels.
    ///
    /// Feet.
    pub(crate) past_ft: f64,
    /// How much of a slope the player allows for (common practice, no source).
    ///
    /// Share of the slope.
    pub(crate) read: f64,
}

/// A tour professional, on a green of Stimpmeter 11.
///
/// Fitted: makes of 2016-18 (31 rows of 1.25 million putts, A. Gelman's golf putting case study, 2019, published;
/// `examples/fit_putting.rs`) and 7 % of 10-foot putts short (Broadie, published).
pub(crate) const PROFESSIONAL: Putter = Putter {
    direction_deg: 1.086,
    misread_deg: 1.140,
    pace: 0.0714,
    past_ft: 1.25,
    read: 0.95,
};

/// A golfer who scores about 90, on a green of Stimpmeter 10.
///
/// Fitted: makes at 3, 5 and 8 feet, a mean of 2.0 putts from 19 feet and 17 % of 10-foot putts short (Broadie, published).
pub(crate) const NINETY: Putter = Putter {
    direction_deg: 1.368,
    misread_deg: 3.506,
    pace: 0.1116,
    past_ft: 1.25,
    read: 0.85,
};

/// How much of a slope a player allows for of whom nothing else is told: golfers play less break than there is.
///
/// Share of the slope. Common practice, no source.
pub(crate) const USUAL_READ: f64 = 0.9;

/// Putt length at which half of a player's misreading is felt: of 10, 20, 50 and 100 feet the shortest that leaves no row of
/// the makes of 2016-18 from 3 to 40 feet off by a point.
///
/// Yards. Common practice, no source.
pub(crate) const MISREAD_HALF: f64 = 20.0 / FEET_PER_YARD;

/// The hardest roll-out error that is believed: a putt goes at least this far of what was meant.
///
/// Share of the roll-out. Chosen, no source.
pub(crate) const LEAST_ROLL: f64 = 0.05;

/// Variance of roll-out that comes from the strike and grows with its energy; the rest is reading and the surface, and is felt
/// in the energy a level putt of the length needs.
///
/// Share of the variance. Published: Karlsen and Nilsson 2008 (technique 34 %, green reading 60 %, surface 6 %).
pub(crate) const STRIKE_SHARE: f64 = 0.34;

/// Variance of roll-out that comes from a misread slope: half of the reading, whose other half is distance and green speed.
///
/// Share of the variance. Common practice, no source.
pub(crate) const SLOPE_SHARE: f64 = 0.30;

/// Misreading of a known slope over that of an ordinary green, for each unit of its steepness, the grade over that at which no
/// ball rests: a slope is misread in proportion to it, and breaks a putt in proportion to green speed.
///
/// With it, on planes of [`ORDINARY_GRADE`] that fall in all directions alike, makes and mean putts come out as on greens whose
/// slope is not told, at every level. There it amounts to eight to nine tenths; the rest of what figures fitted without slopes
/// call misreading arises on the slope itself, as pace changes the break and as less of it is played than there is.
///
/// Number. Fitted: makes on greens whose slope is not told (`examples/fit_putting.rs`).
pub(crate) const MISREAD_RATE: f64 = 3.1;

/// The most that misreading counts, which keeps angles small on slopes that hardly hold a ball.
///
/// Number. Chosen, no source.
pub(crate) const MOST_MISREAD: f64 = 4.0;

/// The grade of an ordinary green around the hole, rise over run: 1 to 3 % is usual.
///
/// Share. From memory: what is usual on greens.
pub const ORDINARY_GRADE: f64 = 0.02;

/// Speed at which the bar of a Stimpmeter releases the ball: 6 ft/s, the usual figure.
///
/// Metres a second. Published: the usual figure for a Stimpmeter.
pub(crate) const STIMPMETER_SPEED: f64 = 1.8288;

/// Deceleration on a level green times the Stimpmeter reading: a ball that the bar releases rolls the reading.
///
/// Yards a second squared times feet. Computed: v^2 / 2d.
pub const ROLL_DECELERATION: f64 =
    STIMPMETER_SPEED * STIMPMETER_SPEED / (2.0 * 0.3048) / METRES_PER_YARD;

/// Offset of a ball's path from the middle of the hole, and the fastest speed at which the hole takes it: that of a rolling
/// sphere that flies from the near rim and meets the far one without rebound. Through the middle it is the 1.63 m/s of Holmes
/// 1991 ("Putting: how a golf ball and hole interact", Am. J. Phys. 59, 129).
///
/// Millimetres, metres a second. Computed: mechanics of a rolling sphere.
pub(crate) const CAPTURE: [(f64, f64); 16] = [
    (0.0, 1.63),
    (2.5, 1.62),
    (5.0, 1.60),
    (7.5, 1.56),
    (10.0, 1.52),
    (15.0, 1.41),
    (20.0, 1.30),
    (25.0, 1.19),
    (30.0, 1.06),
    (35.0, 0.90),
    (40.0, 0.66),
    (45.0, 0.49),
    (50.0, 0.35),
    (52.0, 0.25),
    (53.5, 0.13),
    (54.0, 0.0),
];
