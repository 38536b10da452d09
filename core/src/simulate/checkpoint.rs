//! A milestone of a play, such as putting for par from inside fifteen feet.
use super::Played;
use crate::units;
use serde::{Deserialize, Serialize};

/// Something a play may reach on the way.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Checkpoint {
    /// The first putt is from no farther than this, after no more than this many strokes and
    /// penalties. A ball holed from off the green has met it if it was holed in that many strokes.
    FirstPutt {
        /// Longest first putt, feet.
        within_ft: f64,
        /// Most strokes and penalties before it.
        after_strokes: u8,
    },
}

impl Checkpoint {
    /// True if a play reached it.
    #[must_use]
    pub fn reached(&self, played: &Played) -> bool {
        let Checkpoint::FirstPutt {
            within_ft,
            after_strokes,
        } = *self;
        match played.first_putt {
            Some((strokes, yards)) => {
                strokes <= after_strokes && units::feet_from_yards(yards) <= within_ft
            }
            None => !played.unfinished && played.score <= after_strokes,
        }
    }

    /// True if the numbers make sense.
    #[must_use]
    pub fn is_valid(&self) -> bool {
        let Checkpoint::FirstPutt {
            within_ft,
            after_strokes,
        } = *self;
        within_ft > 0.0 && within_ft.is_finite() && after_strokes > 0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A first putt of 5 yards after two strokes: within 15 feet and two strokes of it, not one foot or one stroke fewer.
    #[test]
    fn a_checkpoint_is_reached_at_its_very_numbers() {
        let played = Played {
            score: 4,
            penalties: 0,
            putts: 2,
            unfinished: false,
            first_putt: Some((2, 5.0)),
            cause: None,
        };
        let reached = |within_ft, after_strokes, played: &Played| {
            Checkpoint::FirstPutt {
                within_ft,
                after_strokes,
            }
            .reached(played)
        };
        assert!(reached(15.0, 2, &played) && reached(20.0, 3, &played));
        assert!(!reached(14.0, 2, &played) && !reached(15.0, 1, &played));
        // Holed from off the green in four.
        let chipped = Played {
            putts: 0,
            first_putt: None,
            ..played
        };
        assert!(reached(1.0, 4, &chipped) && !reached(1.0, 3, &chipped));
    }
}
