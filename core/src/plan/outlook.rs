//! A quick reckoning of the strokes still to come, for choosing a drop or a landing place.
//!
//! It is a ruler, not a result: no number a user sees comes from it. On the green it is the
//! player's own putting, averaged; off the green it is a straight line in distance, as published
//! for club golfers (Broadie 2008: score about 2.79 + 0.0066 x yards for a 90-golfer), with the slope
//! set by the player's own length.

use crate::geometry::Vector;
use crate::hole::Hole;
use crate::noise::{self, Noise};
use crate::player::{Bag, Lie, Putting};
use crate::putting::{self, Green};
use crate::situation::Situation;

/// Strokes expected from distance and lie.
#[derive(Clone, Debug)]
pub struct Outlook {
    /// Mean putts from 0, 1, 2, ... yards.
    putts: Vec<f64>,
    /// Strokes per yard beyond the short game.
    per_yard: f64,
}

/// The longest putt that is tabulated, yards.
const LONGEST_PUTT: u16 = 60;

/// Where the short game ends, yards.
const SHORT_GAME: f64 = 60.0;

impl Outlook {
    /// Works out the table for a player whose longest shot off a fairway goes `longest` yards, on greens like `green`.
    #[must_use]
    pub fn new(bag: &Bag, green: &Green, longest: f64) -> Self {
        Outlook {
            putts: mean_putts(bag.putting(), green),
            per_yard: 1.0 / longest.max(1.0),
        }
    }

    /// Strokes to hole out from a situation.
    #[must_use]
    pub fn strokes(&self, hole: &Hole, from: Situation) -> f64 {
        let distance = from.to_pin(hole);
        if from.lie == Lie::Green {
            return self.putts(distance);
        }
        // Around the green: up and two putts, a little more from farther off.
        let short = 2.2 + 0.6 * distance.min(SHORT_GAME) / SHORT_GAME;
        short + (distance - SHORT_GAME).max(0.0) * self.per_yard + lie_cost(from.lie)
    }

    /// Mean putts from `distance` yards on the green.
    #[must_use]
    pub fn putts(&self, distance: f64) -> f64 {
        lookup(&self.putts, distance)
    }
}

/// Strokes that a lie costs against a fairway (common practice, no source).
fn lie_cost(lie: Lie) -> f64 {
    match lie {
        Lie::Tee | Lie::Fringe => -0.1,
        Lie::Fairway | Lie::Green => 0.0,
        Lie::FirstCut => 0.05,
        Lie::Rough => 0.2,
        Lie::Bunker | Lie::DeepRough => 0.5,
        Lie::Trees => 0.9,
    }
}

/// Mean putts from every whole yard, by averaging the player's own putts over an even spread of
/// luck; a miss is followed by what is left from where it stopped.
fn mean_putts(skill: &Putting, green: &Green) -> Vec<f64> {
    let luck = noise::spread(128);
    let mut table: Vec<f64> = (0..=LONGEST_PUTT)
        .map(|yards| 1.0 + f64::from(yards.min(9)) / 9.0)
        .collect();
    // What is left is mostly shorter than what was putted: a few sweeps settle the table.
    for _ in 0..4 {
        for yards in 0..=LONGEST_PUTT {
            table[usize::from(yards)] =
                1.0 + mean_left(skill, green, f64::from(yards), &luck, &table);
        }
    }
    table
}

fn mean_left(skill: &Putting, green: &Green, distance: f64, luck: &[Noise], table: &[f64]) -> f64 {
    let left: f64 = luck
        .iter()
        .map(|noise| putting::stroke(skill, green, Vector::new(0.0, distance), noise))
        .filter(|rolled| !rolled.holed)
        .map(|rolled| lookup(table, rolled.past.hypot(rolled.right)))
        .sum();
    #[expect(clippy::cast_precision_loss, reason = "a small count")]
    let n = luck.len() as f64;
    left / n
}

/// The table's value at `at` yards, interpolated; the last value beyond its end.
fn lookup(table: &[f64], at: f64) -> f64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a distance is not negative"
    )]
    let below = at as usize;
    match table.get(below..below + 2) {
        Some(pair) => pair[0] + (pair[1] - pair[0]) * at.fract(),
        None => table.last().copied().unwrap_or(2.0),
    }
}
