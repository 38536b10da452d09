//! What was counted of the first strokes.
use crate::geometry::Point;
use crate::player::{Contact, Lie};
use crate::rank::share;
use crate::shot::{Next, Outcome};
use crate::stats::Estimate;
use crate::units;
use serde::{Deserialize, Serialize};

/// Bins of what is left, half a foot each; the last one holds whatever is farther.
const BINS: usize = 601;

/// What was counted of the first strokes of one option.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FirstStrokes {
    /// Strokes.
    pub plays: u64,
    /// Those on the green or in the hole.
    pub on_green: u64,
    /// Those in the hole.
    pub holed: u64,
    /// Those chunked: they came up short.
    pub chunked: u64,
    /// Those thinned: they ran on.
    pub thinned: u64,
    /// What they left to the pin, by half feet.
    left: Vec<u64>,
}

impl FirstStrokes {
    pub(super) fn new() -> Self {
        FirstStrokes {
            plays: 0,
            on_green: 0,
            holed: 0,
            chunked: 0,
            thinned: 0,
            left: vec![0; BINS],
        }
    }

    /// True if what was left by `plays` strokes is all counted.
    pub(super) fn is_whole(&self, plays: u64) -> bool {
        let mut left = self.left.iter();
        let counted = left.try_fold(0_u64, |sum, &count| sum.checked_add(count));
        self.left.len() == BINS && self.plays == plays && counted == Some(plays)
    }

    pub(super) fn add(&mut self, outcome: &Outcome, contact: Contact, pin: Point) {
        let holed = outcome.next == Next::Holed;
        let on_green = matches!(outcome.next, Next::Play(s) if s.lie == Lie::Green);
        self.plays += 1;
        self.holed += u64::from(holed);
        self.on_green += u64::from(holed || on_green);
        self.chunked += u64::from(contact == Contact::Duff);
        self.thinned += u64::from(contact == Contact::Thin);
        let left_ft = units::feet_from_yards((pin - outcome.rest).norm());
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a distance, and rounding up saturates"
        )]
        let bin = (2.0 * left_ft).ceil() as usize;
        self.left[bin.min(BINS - 1)] += 1;
    }

    pub(super) fn merge(&mut self, other: &FirstStrokes) {
        self.plays += other.plays;
        self.on_green += other.on_green;
        self.holed += other.holed;
        self.chunked += other.chunked;
        self.thinned += other.thinned;
        for (mine, theirs) in self.left.iter_mut().zip(&other.left) {
            *mine += theirs;
        }
    }

    /// Those neither on the green nor in the hole.
    #[must_use]
    pub fn missed_green(&self) -> u64 {
        self.plays - self.on_green
    }

    /// A count as a share of all first strokes, with its binomial standard error.
    #[must_use]
    pub fn share(&self, count: u64) -> Estimate {
        share(count, self.plays)
    }

    /// The distance to the pin, feet, that a share (0 to 1) of first strokes do not exceed, to the next half foot;
    /// infinite if that is more than 300 feet.
    #[must_use]
    pub fn left_ft(&self, share: f64) -> f64 {
        #[expect(
            clippy::cast_precision_loss,
            reason = "counts below 2^53 are exact as f64"
        )]
        let wanted = share * self.plays as f64;
        let mut bins = (0u32..).zip(&self.left);
        let mut seen = 0;
        #[expect(
            clippy::cast_precision_loss,
            reason = "counts below 2^53 are exact as f64"
        )]
        let found = bins.find(|&(_, &count)| {
            seen += count;
            seen > 0 && seen as f64 >= wanted
        });
        found
            .map(|(bin, _)| 0.5 * f64::from(bin))
            .filter(|&ft| ft <= MOST_LEFT_FT)
            .unwrap_or(f64::INFINITY)
    }

    /// First strokes left within so many half feet of the pin.
    #[must_use]
    pub fn within_half_feet(&self, half_feet: usize) -> u64 {
        self.left.iter().take(half_feet + 1).sum()
    }
}

/// The longest distance left that is told apart, feet.
pub const MOST_LEFT_FT: f64 = 300.0;
