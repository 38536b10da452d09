//! Trees: what a stand stops, and what becomes of a ball that ends where it is hard to find.

/// Height of trees that tell none.
///
/// Feet. Common practice, no source.
pub(crate) const HEIGHT_FT: f64 = 40.0;

/// Openness of a stand that tells none: half of all balls get through ten yards of it.
///
/// Chance. Common practice, no source.
pub(crate) const OPENNESS: f64 = 0.5;

/// The length of canopy that openness is told for.
///
/// Yards. Exact: by definition.
pub(crate) const OPENNESS_OVER: f64 = 10.0;

/// A ball below the lowest branches meets trunks: of what the canopy stops they stop this much.
///
/// Share. Common practice, no source.
pub(crate) const TRUNKS: f64 = 0.5;

/// Where the lowest branches are.
///
/// Share of the height of the trees. Common practice, no source.
pub(crate) const LOWEST_BRANCH: f64 = 0.3;

/// A ball in trees that is not found, and one that is found but cannot be played.
///
/// Chances. Common practice, no source.
pub(crate) const SEARCH_IN_TREES: (f64, f64) = (0.04, 0.06);

/// The same in deep rough.
///
/// Chances. Common practice, no source.
pub(crate) const SEARCH_IN_DEEP_ROUGH: (f64, f64) = (0.03, 0.03);
