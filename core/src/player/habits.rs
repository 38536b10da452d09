//! What a golfer chooses by habit when nobody advises.
use super::fault::{PlayerFault, check};
use serde::{Deserialize, Serialize};

/// Habits of choice. They are no part of how the ball is struck: the strategy `direct` alone follows them, and what they
/// cost is the difference between playing with and without.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Habits {
    /// Too little club: a swing at the pin is chosen as if the way were shorter by this share of it, 0 to 0.3. The golfer
    /// goes by the best strikes, not by the middle of all.
    pub too_little_club: f64,
    /// Aims at every flag, and not at the middle of the green.
    pub every_flag: bool,
    /// Chips or pitches from mown ground off the green, where the putter takes fewer strokes; from within 15 yards of the
    /// hole on the fringe everybody putts.
    #[serde(default)]
    pub always_chips: bool,
}

impl Habits {
    /// No habits: the right club for the middle of the green, and the putter where it does.
    pub const NONE: Habits = Habits {
        too_little_club: 0.0,
        every_flag: false,
        always_chips: false,
    };

    /// Checks the habits.
    ///
    /// # Errors
    /// A habit out of range, with its value and what is allowed.
    pub fn check(self) -> Result<(), PlayerFault> {
        check(
            "",
            "habits.too_little_club",
            self.too_little_club,
            0.0..=0.3,
            "0 to 0.3 (a share of the way)",
        )
    }
}
