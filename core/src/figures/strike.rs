//! How the club meets the ball: full and partial swings, and how they are missed.
//!
//! Between flush and the worst there is no gap: misses of every severity lie between them.

/// The severity from which a strike counts as a mishit: half of the way, in rank, from flush to the worst.
///
/// Share. Exact: by definition.
pub(crate) const MISHIT: f64 = 0.5;

/// A strike never carries less than this of the meant carry: the far tail of the normal law would otherwise send a ball
/// backwards.
///
/// Share of the meant carry. Chosen, no source.
pub const LEAST_CARRY: f64 = 0.02;

/// The part of a full swing's spread in depth that the shortest swing has, too: spreads of clubs grow with about the square
/// root of their carry (Course Rating System Manual 2020, 4-4), and so does a partial swing's near the full one.
///
/// Share. Chosen, no source.
pub(crate) const SPREAD_FLOOR: f64 = 0.5;

/// Beyond the middle of a club's flush strikes they spread by no more than this, whoever swings: a ball is often carried
/// shorter than a club gives and never much farther.
///
/// Share of the carry. Common practice, no source.
pub(crate) const MOST_BEYOND: f64 = 0.06;

/// How a middling golfer's full swings are missed: the worst of each of two kinds. Duffs come up short (fat, topped), the
/// others fly most of the way but wild, or thin.
pub(crate) struct Misses {
    /// Mishits that are duffs.
    ///
    /// Share of mishits.
    pub(crate) duff_part: f64,
    /// Mean carry of the worst duff.
    ///
    /// Share of a flush strike's carry.
    pub(crate) duff_carry: f64,
    /// Standard deviation of its carry.
    ///
    /// Share of a flush strike's carry.
    pub(crate) duff_carry_sd: f64,
    /// Its lateral standard deviation as a multiple of a flush strike's.
    ///
    /// Factor.
    pub(crate) duff_side: f64,
    /// Its run.
    ///
    /// Share of a flush strike's carry.
    pub(crate) duff_run: f64,
    /// Mean carry of the worst wild or thin strike.
    ///
    /// Share of a flush strike's carry.
    pub(crate) wild_carry: f64,
    /// Standard deviation of its carry.
    ///
    /// Share of a flush strike's carry.
    pub(crate) wild_carry_sd: f64,
    /// Its lateral standard deviation as a multiple of a flush strike's, of a club that is not told by a level.
    ///
    /// Factor.
    pub(crate) wild_side: f64,
    /// Its run.
    ///
    /// Share of a flush strike's carry.
    pub(crate) wild_run: f64,
    /// How many of the misses are slight: a miss lies this power of its severity, 0 to 1, from flush to the worst.
    ///
    /// Number.
    pub(crate) mildness: f64,
}

/// Full swings.
///
/// Common practice, no source.
pub(crate) const FULL_SWING: Misses = Misses {
    duff_part: 0.5,
    duff_carry: 0.25,
    duff_carry_sd: 0.12,
    duff_side: 0.8,
    duff_run: 0.15,
    wild_carry: 0.80,
    wild_carry_sd: 0.10,
    wild_side: 4.0,
    wild_run: 0.12,
    mildness: 2.0,
};
