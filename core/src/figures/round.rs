//! Rounds: what is counted, and what a bad hole is.

/// From no farther than this a stroke from off the green is one around it.
///
/// Yards. Common practice, no source.
pub(crate) const AROUND_THE_GREEN: f64 = 50.0;

/// So many over par or worse a hole is a blow-up: its first mistake is counted.
///
/// Strokes. Chosen, no source.
pub(crate) const BLOW_UP: u8 = 2;

/// So many over par or worse is what the way `safe` to play a hole avoids.
///
/// Strokes. Chosen, no source.
pub(crate) const SAFE_FROM: u8 = 3;

/// What the way `safe` pays to avoid it.
///
/// Strokes. Chosen, no source.
pub(crate) const SAFE_PRICE: f64 = 1.0;

/// A shot counts as one at the green if the club, in the middle of its pattern, carries within this of the way to the pin.
///
/// Share. Chosen, no source.
pub(crate) const AT_THE_GREEN: f64 = 0.12;
