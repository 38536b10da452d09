//! How far golfers of one level differ: what a player is taken for before shots are seen.

/// How far one figure of a player strays from that of the level, as standard deviations on the scale on which it is fitted.
pub(crate) struct Spread {
    /// With all clubs together.
    ///
    /// Number.
    pub(crate) player: f64,
    /// With clubs of like carry together.
    ///
    /// Number.
    pub(crate) like: f64,
    /// With each club by itself.
    ///
    /// Number.
    pub(crate) club: f64,
}

/// Log of the carry: of three players of a handicap one hits it more than 8 % longer or shorter than usual.
///
/// Common practice, no source.
pub(crate) const CARRY: Spread = Spread {
    player: 0.07,
    like: 0.03,
    club: 0.02,
};

/// Log of the spread, per yard of carry, in depth or to the side: one in three has spreads a third wider or narrower.
///
/// Common practice, no source.
pub(crate) const SPREAD: Spread = Spread {
    player: 0.25,
    like: 0.10,
    club: 0.10,
};

/// Lateral bias per yard of carry: one in three has a bias of more than 2 degrees.
///
/// Common practice, no source.
pub(crate) const BIAS: Spread = Spread {
    player: 0.03,
    like: 0.02,
    club: 0.01,
};

/// Inverse hyperbolic tangent of the correlation of carry and lateral.
///
/// Common practice, no source.
pub(crate) const CORRELATION: Spread = Spread {
    player: 0.20,
    like: 0.10,
    club: 0.10,
};

/// Log odds of a strike that is not flush.
///
/// Common practice, no source.
pub(crate) const MISHITS: Spread = Spread {
    player: 0.50,
    like: 0.20,
    club: 0.20,
};

/// Clubs are alike when the logs of their carries differ by less than about this: three or four clubs.
///
/// Number. Common practice, no source.
pub(crate) const LIKE: f64 = 0.30;

/// Shots that no strike explains: with it a shot 4 or 5 standard deviations from everything counts as an outlier.
///
/// Share of shots. Common practice, no source.
pub(crate) const BACKGROUND: f64 = 0.005;
