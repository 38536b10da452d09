//! What a lie does to a stroke: less carry, more spread, more mishits.
//!
//! A weaker golfer feels bad lies more: each factor is then raised to a power (`bad_lie` of the players by level).

/// The effect of a lie on a scratch golfer's clubs. Of each pair a short club feels the first; the second is added for the
/// longest and grows with the fourth power of the carry.
pub(crate) struct Effect {
    /// Carry that is left, and the part of it that the longest club loses on top.
    ///
    /// Shares of the carry.
    pub(crate) carry: (f64, f64),
    /// Spread, as a share of the carry, as a multiple of the club's.
    ///
    /// Factors.
    pub(crate) spread: (f64, f64),
    /// Odds of a strike that is not flush, as a multiple of the club's.
    ///
    /// Factors.
    pub(crate) mishits: (f64, f64),
}

/// A tee, where the longest club is at home. Irons are straighter and better struck from there: a weaker golfer's pattern is
/// "clearly tighter" (Broadie, published).
///
/// Common practice, no source.
pub(crate) const TEE: Effect = Effect {
    carry: (1.0, 0.0),
    spread: (0.90, 0.10),
    mishits: (0.7, 0.3),
};

/// Fairway, fringe and green, where the shortest club is at home. A long club off the ground is mishit more.
///
/// Common practice, no source.
pub(crate) const MOWN: Effect = Effect {
    carry: (1.0, 0.0),
    spread: (1.0, 0.35),
    mishits: (1.0, 0.6),
};

/// First cut of rough.
///
/// Common practice, no source.
pub(crate) const FIRST_CUT: Effect = Effect {
    carry: (0.98, 0.03),
    spread: (1.1, 0.4),
    mishits: (1.1, 0.65),
};

/// Rough.
///
/// Common practice, no source.
pub(crate) const ROUGH: Effect = Effect {
    carry: (0.94, 0.10),
    spread: (1.55, 0.4),
    mishits: (1.7, 1.0),
};

/// Deep rough.
///
/// Common practice, no source.
pub(crate) const DEEP_ROUGH: Effect = Effect {
    carry: (0.78, 0.35),
    spread: (1.8, 0.6),
    mishits: (2.2, 1.5),
};

/// Sand.
///
/// Common practice, no source.
pub(crate) const BUNKER: Effect = Effect {
    carry: (0.92, 0.15),
    spread: (2.35, 0.0),
    mishits: (5.0, 0.0),
};

/// The floor of a wood.
///
/// Common practice, no source.
pub(crate) const TREES: Effect = Effect {
    carry: (0.85, 0.20),
    spread: (1.55, 0.5),
    mishits: (1.7, 1.0),
};

/// How much of the effect of a lie on mishits a chip or a pitch from sand feels: it is picked clean, which is missed far more
/// often.
///
/// Share. Common practice, no source.
pub(crate) const PICKED_CLEAN: f64 = 1.5;

/// The same of a lob: its figures are those of a tight lie, and grass under the ball costs it few more mishits.
///
/// Share. Common practice, no source.
pub(crate) const LOB_ON_GRASS: f64 = 0.25;

/// Below this slope, rise over run, a lie is taken as level; from twice this on it turns a stroke in full.
///
/// Share. Common practice, no source.
pub(crate) const NOTICED_SLOPE: f64 = 0.03;

/// Growth of the spread per unit of slope beyond that: at 10 % a fifth more.
///
/// Factor. Common practice, no source.
pub(crate) const SLOPE_SPREAD: f64 = 3.0;

/// The same of the share of mishits: at 10 % a half more.
///
/// Factor. Common practice, no source.
pub(crate) const SLOPE_MISHITS: f64 = 7.0;
