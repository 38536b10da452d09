//! How a player putts.

/// The spread of a player's putts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Putting {
    /// Standard deviation of the direction on short putts, degrees.
    pub direction_deg: f64,
    /// Standard deviation of the roll-out distance as a share of it.
    pub pace: f64,
}
