//! The ball, and the hole it falls into.
use crate::units::METRES_PER_YARD;

/// Mass of the ball: 1.620 oz, the most that is allowed.
///
/// Kilograms. Published: Equipment Rules.
pub const BALL_MASS: f64 = 0.045_93;

/// Radius of the ball: half of 42.67 mm, the least that is allowed.
///
/// Metres. Published: Equipment Rules.
pub const BALL_RADIUS: f64 = 0.021_335;

/// Standard acceleration of free fall.
///
/// Metres a second squared. Exact: by convention.
pub const GRAVITY: f64 = 9.806_65;

/// Share of a force that moves a rolling sphere; the rest turns it.
///
/// Share. Exact: mechanics of a uniform sphere (Penner 2002, "The physics of putting", Can. J. Phys. 80:83).
pub(crate) const ROLLING_SHARE: f64 = 5.0 / 7.0;

/// What of its slip a rigid sphere loses where friction turns it into roll.
///
/// Share. Exact: mechanics of a uniform sphere.
pub(crate) const GRIP: f64 = 2.0 / 7.0;

/// Radius of the hole, which is 108 mm across.
///
/// Yards. Published: Rules of Golf.
pub const HOLE_RADIUS: f64 = 0.054 / METRES_PER_YARD;

/// Diameter of the hole as a golfer tells it: against this one a wider hole is measured.
///
/// Inches. Published: Rules of Golf (Definitions: hole).
pub(crate) const HOLE_DIAMETER_IN: f64 = 4.25;
