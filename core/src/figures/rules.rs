//! The Rules of Golf (2023): penalties, and where a ball is dropped.

/// Penalty of relief under Rules 17 to 19.
///
/// Strokes. Published: Rules of Golf 17.1d, 18.2, 19.
pub(crate) const PENALTY: u8 = 1;

/// Penalty of relief outside a bunker.
///
/// Strokes. Published: Rules of Golf 19.3b.
pub(crate) const PENALTY_OUT_OF_BUNKER: u8 = 2;

/// One club-length: the longest club carried other than the putter (Definitions), taken as a driver of 45.5 inches; usable
/// defaults run from 45 to 46.
///
/// Yards. From memory: lengths of drivers.
pub const CLUB_LENGTH: f64 = 45.5 / 36.0;

/// How far from the reference point lateral relief goes.
///
/// Club-lengths. Published: Rules of Golf 17.1d(3), 19.2c.
pub(crate) const LATERAL: f64 = 2.0;

/// How far back on the line a drop is looked for. The Rule has no limit; farther back than this no golfer gains.
///
/// Yards. Chosen, no source.
pub(crate) const FARTHEST_BACK: f64 = 60.0;

/// How far behind an edge a ball is dropped: clear of it.
///
/// Yards. Chosen, no source.
pub(crate) const CLEAR: f64 = 0.25;
