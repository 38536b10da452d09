//! The strokes around the green, and the low one from under trees.

/// How a scratch and a bogey golfer play one of the strokes from a good lie.
pub(crate) struct Touch {
    /// The longest carry that can be meant.
    ///
    /// Yards.
    pub(crate) full_carry: f64,
    /// No player carries it farther than this, however short the driver.
    ///
    /// Share of the driver's carry.
    pub(crate) longest: f64,
    /// Run on a medium green.
    ///
    /// Share of the carry.
    pub(crate) run: f64,
    /// Standard deviation of the carry, scratch and bogey.
    ///
    /// Share of the carry.
    pub(crate) depth: (f64, f64),
    /// What is added to it whatever the carry.
    ///
    /// Yards.
    pub(crate) depth_floor: (f64, f64),
    /// Standard deviation of the direction.
    ///
    /// Degrees.
    pub(crate) direction_deg: (f64, f64),
    /// Strokes that are mishit.
    ///
    /// Share of strokes.
    pub(crate) mishits: (f64, f64),
    /// Mishits that are duffs; the others are thin.
    ///
    /// Share of mishits.
    pub(crate) duff_part: f64,
}

/// A chip flies a third of the way.
///
/// Fitted: spreads and mishits by hand, to the shots from inside 60 yards that finish on the green (Broadie, published) and to
/// a professional's strokes from 20 to 60 yards (his tables); carries chosen; carry to run common practice, no source.
pub(crate) const CHIP: Touch = Touch {
    full_carry: 35.0,
    longest: 0.25,
    run: 2.0,
    depth: (0.19, 0.25),
    depth_floor: (0.25, 0.35),
    direction_deg: (2.5, 3.6),
    mishits: (0.02, 0.05),
    duff_part: 0.5,
};

/// A pitch flies three quarters of the way.
///
/// Fitted: as the chip.
pub(crate) const PITCH: Touch = Touch {
    full_carry: 75.0,
    longest: 0.4,
    run: 0.33,
    depth: (0.075, 0.115),
    depth_floor: (1.5, 1.9),
    direction_deg: (3.2, 4.4),
    mishits: (0.035, 0.075),
    duff_part: 0.5,
};

/// How much more spread a lob has than a pitch, whose swing it is.
///
/// Factor. Common practice, no source.
pub(crate) const LOB_SPREAD: f64 = 1.15;

/// How many times the mishits of a pitch a lob has, scratch and bogey: the fuller swing under the ball is a skill of its own.
///
/// Factors. Common practice, no source.
pub(crate) const LOB_MISHITS: (f64, f64) = (2.0, 3.0);

/// A lob flies nine tenths of the way, with a pitch's swing and less room for error.
///
/// Common practice, no source.
pub(crate) const LOB: Touch = Touch {
    full_carry: 35.0,
    longest: 0.2,
    run: 0.12,
    depth: (LOB_SPREAD * PITCH.depth.0, LOB_SPREAD * PITCH.depth.1),
    depth_floor: (
        LOB_SPREAD * PITCH.depth_floor.0,
        LOB_SPREAD * PITCH.depth_floor.1,
    ),
    direction_deg: (
        LOB_SPREAD * PITCH.direction_deg.0,
        LOB_SPREAD * PITCH.direction_deg.1,
    ),
    mishits: (
        LOB_MISHITS.0 * PITCH.mishits.0,
        LOB_MISHITS.1 * PITCH.mishits.1,
    ),
    duff_part: 0.5,
};

/// A bunker shot flies seven tenths of the way.
///
/// Fitted: as the chip.
pub(crate) const BUNKER_SHOT: Touch = Touch {
    full_carry: 40.0,
    longest: 0.25,
    run: 0.43,
    depth: (0.18, 0.29),
    depth_floor: (1.9, 4.4),
    direction_deg: (4.8, 8.4),
    mishits: (0.10, 0.38),
    duff_part: 0.6,
};

/// A low half swing with a middle iron: it flies little more than a third as far as a club golfer's driver and runs half as
/// far again on mown ground.
///
/// Common practice, no source.
pub(crate) const PUNCH: Touch = Touch {
    full_carry: 85.0,
    longest: 0.36,
    run: 0.45,
    depth: (0.08, 0.13),
    depth_floor: (1.5, 2.2),
    direction_deg: (2.6, 4.2),
    mishits: (0.04, 0.12),
    duff_part: 0.5,
};

/// The weakest golfers miss no more of these strokes than this.
///
/// Share of strokes. Common practice, no source.
pub(crate) const MOST_MISSED: f64 = 0.44;

/// How many misses around the green are slight: a miss lies this power of its severity from flush to the worst.
///
/// Number. Common practice, no source.
pub(crate) const MILDNESS: f64 = 2.0;

/// How far the worst duff flies.
///
/// Share of a flush strike's carry. Common practice, no source.
pub(crate) const DUFF_CARRY: f64 = 0.10;

/// Standard deviation of that.
///
/// Share of a flush strike's carry. Common practice, no source.
pub(crate) const DUFF_CARRY_SD: f64 = 0.08;

/// Its lateral standard deviation as a multiple of a flush strike's.
///
/// Factor. Common practice, no source.
pub(crate) const DUFF_SIDE: f64 = 1.0;

/// How far the worst duff runs, but for a putt, which does not fly.
///
/// Share of a flush strike's carry and run. Common practice, no source.
pub(crate) const DUFF_RUN: f64 = 0.15;

/// How far the worst thin strike flies: low.
///
/// Share of a flush strike's carry. Common practice, no source.
pub(crate) const THIN_CARRY: f64 = 0.85;

/// Standard deviation of that.
///
/// Share of a flush strike's carry. Common practice, no source.
pub(crate) const THIN_CARRY_SD: f64 = 0.15;

/// Its lateral standard deviation as a multiple of a flush strike's.
///
/// Factor. Common practice, no source.
pub(crate) const THIN_SIDE: f64 = 1.5;

/// How far the worst thin chip or pitch ends.
///
/// Multiple of a flush strike's carry and run. Common practice, no source.
pub(crate) const THIN_TOTAL: f64 = 2.1;

/// The same of a bunker shot or lob, from which sand or an open face was to take the speed.
///
/// Multiple of a flush strike's carry and run. Common practice, no source.
pub(crate) const THIN_SPLASH: f64 = 2.8;

/// By how much the run of the worst thin punch falls short of a flush one's carry and run.
///
/// Share of a flush strike's carry. Common practice, no source.
pub(crate) const THIN_PUNCH: f64 = 0.7;

/// The longest putt from off the green that a player tries.
///
/// Yards. Common practice, no source.
pub(crate) const LONGEST_ROLL: f64 = 60.0;

/// How much less sure the pace of a putt from off the green is than that of one on it: the grass before the green takes more
/// or less of it.
///
/// Factor. Common practice, no source.
pub(crate) const OFF_GREEN: f64 = 1.5;

/// Standard deviation of that putt's roll, whatever its length.
///
/// Yards. Common practice, no source.
pub(crate) const ROLL_FLOOR: f64 = 0.15;

/// From off the green this much of the misread of the longest putts is felt.
///
/// Share. Common practice, no source.
pub(crate) const OFF_GREEN_MISREAD: f64 = 0.75;

/// Putts from off the green that are stubbed, by the scratch and the bogey golfer.
///
/// Shares of strokes. Common practice, no source.
pub(crate) const STUBBED: (f64, f64) = (0.005, 0.015);

/// The carry at which the run of a chip is told: the length that it mostly has.
///
/// Yards. Common practice, no source.
pub(crate) const USUAL_CHIP: f64 = 7.0;

/// The same of a pitch.
///
/// Yards. Common practice, no source.
pub(crate) const USUAL_PITCH: f64 = 30.0;

/// The same of a lob or a bunker shot.
///
/// Yards. Common practice, no source.
pub(crate) const USUAL_SPLASH: f64 = 12.0;

/// The same of a punch.
///
/// Share of its full carry. Common practice, no source.
pub(crate) const USUAL_PUNCH: f64 = 0.6;
