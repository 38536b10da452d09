//! How a player putts.
use super::fault::{PlayerFault, check};
use crate::figures::putting::USUAL_READ;
use serde::{Deserialize, Serialize};

/// The spread of a player's putts, on ordinary greens: those published makes come from, with the slopes greens have.
///
/// Where the slope of a green is told, [`crate::putting::stroke`] takes out what misreading of ordinary slopes adds and puts in
/// that of the slope there is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Putting {
    /// Standard deviation of the direction on the shortest putts, degrees.
    pub direction_deg: f64,
    /// Added to it on the longest putts, degrees: break misread on an ordinary green. Half of it is felt at 20 feet, because
    /// the break seen as an angle grows with length and levels off.
    pub misread_deg: f64,
    /// Standard deviation of the roll-out distance as a share of it, three tenths of its square from slopes misread.
    pub pace: f64,
    /// How far past the hole the ball is meant to roll out if the hole is missed, feet.
    pub past_ft: f64,
    /// Share of a slope that the player allows for, in line and pace, on average (0.3 to 1.2).
    ///
    /// Below 1 putts miss on the low side, run by downhill and stay short uphill. Documents without it are read
    /// as 0.9. Common practice, no source: golfers play less break than there is, the weaker the less.
    #[serde(default = "usual_read")]
    pub read: f64,
}

/// The share of a slope that a player allows for when a document does not say.
fn usual_read() -> f64 {
    USUAL_READ
}

impl Putting {
    pub(super) fn check(&self) -> Result<(), PlayerFault> {
        let of = "putting";
        check(
            of,
            "direction_deg",
            self.direction_deg,
            0.0..=20.0,
            "0 to 20 degrees",
        )?;
        check(
            of,
            "misread_deg",
            self.misread_deg,
            0.0..=20.0,
            "0 to 20 degrees",
        )?;
        check(
            of,
            "pace",
            self.pace,
            0.0..=0.6,
            "0 to 0.6 (a share of the roll-out)",
        )?;
        check(of, "past_ft", self.past_ft, 0.1..=6.0, "0.1 to 6 feet")?;
        check(
            of,
            "read",
            self.read,
            0.3..=1.2,
            "0.3 to 1.2 (a share of the slope)",
        )
    }
}
