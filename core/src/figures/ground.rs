//! Bounce, run and roll: the turf under a ball.

/// Angle by which turf gives, as a share of the angle of the blow from the vertical, per m/s of its speed: 15.4 degrees at
/// 18.6 m/s and 44.4 degrees.
///
/// Share, per m/s. From memory: Penner 2002, Can. J. Phys. 80, after Haake's impacts.
pub(crate) const GIVE: f64 = 15.4 / (18.6 * 44.4);

/// Turf gives by at most this share of the angle of the blow. Penner's line is for the speeds of a landing ball; a hard low
/// ball would otherwise be thrown back by a wall of turf.
///
/// Share. Chosen, no source.
pub(crate) const MOST_OF_ANGLE: f64 = 0.85;

/// The most that turf gives: an eighth of a turn.
///
/// Radians. Chosen, no source.
pub(crate) const MOST_GIVE: f64 = std::f64::consts::FRAC_PI_4;

/// Restitution of turf at a speed v into it, m/s: a - b v + c v^2. Continuous with [`FAST_RESTITUTION`] within 1 %.
///
/// Numbers, a to c. From memory: Penner 2002, Can. J. Phys. 80.
pub(crate) const RESTITUTION: [f64; 3] = [0.510, 0.0375, 0.000_903];

/// The speed into the turf above which restitution no longer falls, and what it is then.
///
/// Metres a second, number. From memory: Penner 2002, Can. J. Phys. 80.
pub(crate) const FAST_RESTITUTION: (f64, f64) = (20.0, 0.120);

/// Friction of a ball that slides in a blow.
///
/// Number. From memory: Penner 2002, Can. J. Phys. 80.
pub(crate) const FRICTION: f64 = 0.40;

/// A ball that comes down from no higher than this, and rolls, skips on.
///
/// Metres. Chosen, no source.
pub(crate) const LOW_HOP: f64 = 0.30;

/// Speed that a skipping ball loses with every metre, over gravity, on turf of medium give.
///
/// Seconds a metre. Fitted: chains of hops worked out one by one, on turf of factors 0.6 to 1.25.
pub(crate) const SKIP_LOSS: f64 = 0.0196;

/// Rebound of a skipping ball, m/s, over the square of its speed, on turf of medium give.
///
/// Seconds a metre. Fitted: chains of hops worked out one by one, on turf of factors 0.6 to 1.25.
pub(crate) const SKIP_REBOUND: f64 = 0.0785;

/// Rolling resistance of a fairway: published runs of drives are met with it.
///
/// Number. Common practice, no source.
pub(crate) const FAIRWAY_ROLLING: f64 = 0.20;

/// Rolling resistance of a green times its Stimpmeter reading: the bar releases the ball at 1.8288 m/s (published), v^2 / 2d
/// = 5/7 rolling g.
///
/// Feet. Computed: from the speed at which the bar releases the ball, to three digits.
pub(crate) const GREEN_ROLLING: f64 = 0.783;

/// What a ball meets on a surface, next to a fairway of the course.
pub(crate) struct Surface {
    /// Factor on the angle by which the turf gives at a blow: how much of it long grass, litter or sand takes up.
    ///
    /// Factor.
    pub(crate) give: f64,
    /// Factor on rolling resistance: the toll a yard takes.
    ///
    /// Factor.
    pub(crate) rolling: f64,
    /// A rebound that rises less than this does not clear the grass, and the ball rolls.
    ///
    /// Metres.
    pub(crate) clearance: f64,
}

/// Tee, fairway and fringe; on a green the ball rolls by the green's own speed.
///
/// Common practice, no source.
pub(crate) const MOWN: Surface = Surface {
    give: 1.0,
    rolling: 1.0,
    clearance: 0.020,
};

/// First cut of rough.
///
/// Common practice, no source.
pub(crate) const FIRST_CUT: Surface = Surface {
    give: 1.05,
    rolling: 1.6,
    clearance: 0.035,
};

/// Rough, and ground out of bounds.
///
/// Common practice, no source.
pub(crate) const ROUGH: Surface = Surface {
    give: 1.15,
    rolling: 2.5,
    clearance: 0.060,
};

/// The floor of a wood.
///
/// Common practice, no source.
pub(crate) const TREES: Surface = Surface {
    give: 1.2,
    rolling: 4.0,
    clearance: 0.080,
};

/// Deep rough.
///
/// Common practice, no source.
pub(crate) const DEEP_ROUGH: Surface = Surface {
    give: 1.3,
    rolling: 6.0,
    clearance: 0.150,
};

/// Sand.
///
/// Common practice, no source.
pub(crate) const BUNKER: Surface = Surface {
    give: 1.8,
    rolling: 12.0,
    clearance: 0.250,
};

/// Give of turf after rain. All four firmnesses together give runs of a drive from 6 to 60 yards.
///
/// Factor. Chosen, no source.
pub(crate) const SOFT: f64 = 1.25;

/// Give of turf on an ordinary day: the turf of Penner 2002.
///
/// Factor. Exact: what the others are told next to.
pub(crate) const MEDIUM: f64 = 1.0;

/// Give of dry turf.
///
/// Factor. Chosen, no source.
pub(crate) const FIRM: f64 = 0.75;

/// Give of baked seaside turf.
///
/// Factor. Chosen, no source.
pub(crate) const LINKS_FIRM: f64 = 0.6;

/// How a ball may come down so that a player's own run is met, on the way from the least run to the most: up to 1 its pace is
/// that share of the usual, from there to 2 its backspin falls to nothing, beyond it is faster by the rest.
///
/// Numbers, least and most. Chosen, no source.
pub(crate) const LANDINGS: (f64, f64) = (0.3, 2.5);

/// A player who plans a stroke takes the slope of the ground to change its run by no more than these.
///
/// Factors, least and most. Chosen, no source.
pub(crate) const PLANNED_RUNS: (f64, f64) = (0.4, 2.5);
