//! The value of a stroke that was played: strokes gained against what the player was to expect.
use crate::plan::Strategy;
use crate::simulate::Told;
use crate::situation::Situation;
use crate::solve::fault::SolveFault;
use crate::solve::solution::Solution;
use rayon::prelude::*;
use std::ops::Range;

/// A stroke that was played on a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recorded {
    /// The play it belongs to: rows of a play follow each other.
    pub play: i64,
    /// Where it was played from.
    pub from: Situation,
    /// Penalty strokes it cost.
    pub penalty: u8,
    /// True if it was holed.
    pub holed: bool,
}

impl Recorded {
    /// A stroke of a simulated play.
    #[must_use]
    pub fn of(told: &Told) -> Self {
        Recorded {
            play: 0,
            from: told.from,
            penalty: told.penalty,
            holed: told.to.is_none(),
        }
    }
}

/// What a stroke was worth.
///
/// Strokes gained after Broadie 2012, "Assessing golfer performance on the PGA TOUR": what was to be expected before the
/// stroke, less what is to be expected after it, less the strokes it took. Here the player is measured against nobody
/// else but the player's own expectation on this hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gained {
    /// Strokes to hole out that were to be expected before it.
    pub before: f64,
    /// Strokes to hole out from where the next stroke is played; 0 after the last stroke.
    pub after: f64,
    /// Strokes it took: one and its penalties. The last stroke of a play whose ball was picked up takes all that are
    /// still counted.
    pub used: u8,
    /// `before - after - used`; below 0 where strokes were lost.
    pub gained: f64,
}

/// How the value of a situation is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Valued {
    /// Looked up between the places that were solved: what the strategy itself goes by. For balls of simulated plays.
    LookedUp,
    /// The same where the ball's lie occurs; where it does not, the shots from there are looked at closely. For balls
    /// that somebody wrote down.
    Closely,
}

/// Why strokes cannot be valued.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum GainedFault {
    /// A play whose rows are parted by those of another.
    #[error(
        "row {row}: play {play} began before and was left for another; the rows of a play must follow each other"
    )]
    Parted {
        /// Number of the row, from 1.
        row: usize,
        /// Its play.
        play: i64,
    },
    /// A stroke after the ball was holed, or a play that ends with the ball on the course.
    #[error(
        "row {row}: holed is {holed}; it must be true in the last row of a play, and there alone"
    )]
    Holed {
        /// Number of the row, from 1.
        row: usize,
        /// What it says.
        holed: bool,
    },
    /// A play of more strokes than are counted.
    #[error(
        "row {row}: play {play} comes to more than {MOST} strokes and penalties; it must be at most {MOST}"
    )]
    TooMany {
        /// Number of the row, from 1.
        row: usize,
        /// Its play.
        play: i64,
    },
    /// A ball that cannot lie there.
    #[error("row {row}: {fault}")]
    Place {
        /// Number of the row, from 1.
        row: usize,
        /// What is wrong with it.
        fault: SolveFault,
    },
}

/// The most strokes and penalties of a play.
const MOST: u8 = 200;

impl Solution {
    /// Strokes to hole out from a situation after `played` strokes and penalties when the strategy is played, looked up
    /// between the places that were solved. Hot path.
    ///
    /// Only one who plays for a score has something else to expect for the strokes played.
    #[must_use]
    pub fn worth(&self, from: Situation, played: u8) -> f64 {
        let left = self
            .most()
            .map(|most| most.checked_sub(usize::from(played)));
        let Some(number) = left.flatten().and_then(|left| left.checked_sub(1)) else {
            return self.estimate(self.scene(), from);
        };
        self.strokes_by_left()[number].at(&self.places, from)
    }

    /// The same; where the lie does not occur on the hole, by the best of the shots from there.
    fn worth_closely(&self, from: Situation, played: u8) -> f64 {
        let on_the_tee = from == Situation::on_the_tee(self.scene().hole());
        if on_the_tee || self.places.holds(from) {
            return self.worth(from, played);
        }
        let left = self
            .most()
            .map_or(0, |most| most.saturating_sub(usize::from(played)));
        self.strokes_of(&self.place(&self.played_from(from, left), left), left)
    }

    /// What each of some strokes gained, in their order. Over a play the gains add up to what was to be expected from its
    /// first stroke, less its score.
    ///
    /// The strokes are counted from the first of each play, as if it were that of the hole. `scores` are what the plays
    /// counted where the ball of some was picked up, in their order; without them every ball must be holed.
    ///
    /// # Errors
    /// Rows that are no plays, see [`GainedFault`].
    pub fn strokes_gained(
        &self,
        strokes: &[Recorded],
        scores: Option<&[u8]>,
        how: Valued,
    ) -> Result<Vec<Gained>, GainedFault> {
        let plays = plays(strokes, scores.is_some())?;
        let gained: Vec<Vec<Gained>> = plays
            .par_iter()
            .enumerate()
            .map(|(number, &(first, end))| {
                let score = scores.and_then(|scores| scores.get(number)).copied();
                self.gained(&strokes[first..end], score, how)
            })
            .collect();
        Ok(gained.concat())
    }

    fn gained(&self, strokes: &[Recorded], score: Option<u8>, how: Valued) -> Vec<Gained> {
        let worth = |from, played| match how {
            Valued::LookedUp => self.worth(from, played),
            Valued::Closely => self.worth_closely(from, played),
        };
        let mut gained = Vec::with_capacity(strokes.len());
        let mut played = 0;
        let mut before = strokes.first().map_or(0.0, |s| worth(s.from, 0));
        for (number, stroke) in strokes.iter().enumerate() {
            let mut used = 1 + stroke.penalty;
            let after = match strokes.get(number + 1) {
                Some(next) => worth(next.from, played + used),
                None => {
                    used = score.map_or(used, |score| score.saturating_sub(played));
                    0.0
                }
            };
            gained.push(Gained {
                before,
                after,
                used,
                gained: before - after - f64::from(used),
            });
            played += used;
            before = after;
        }
        gained
    }
}

/// The plays of some rows, each with where its rows stand: those of a play follow each other.
pub fn rows_of_plays(plays: &[i64]) -> impl Iterator<Item = (i64, Range<usize>)> {
    let mut end = 0;
    plays.chunk_by(|a, b| a == b).map(move |rows| {
        let first = end;
        end += rows.len();
        (rows[0], first..end)
    })
}

/// What each play gained in all, of what each of its rows gained.
///
/// # Panics
/// Fewer rows of what was gained than of plays.
#[must_use]
pub fn gained_by_play(plays: &[i64], gained: &[f64]) -> Vec<(i64, f64)> {
    let sums = rows_of_plays(plays).map(|(play, rows)| (play, gained[rows].iter().sum()));
    sums.collect()
}

/// The first row and the end of every play.
fn plays(strokes: &[Recorded], picked_up: bool) -> Result<Vec<(usize, usize)>, GainedFault> {
    let mut seen = std::collections::BTreeSet::new();
    let mut plays = Vec::new();
    let (mut first, mut total) = (0, 0_u32);
    for (number, stroke) in strokes.iter().enumerate() {
        let (row, play) = (number + 1, stroke.play);
        if number == first && !seen.insert(play) {
            return Err(GainedFault::Parted { row, play });
        }
        total += 1 + u32::from(stroke.penalty);
        if total > u32::from(MOST) {
            return Err(GainedFault::TooMany { row, play });
        }
        let last = strokes.get(row).is_none_or(|next| next.play != play);
        if stroke.holed != last && !(last && picked_up) {
            let holed = stroke.holed;
            return Err(GainedFault::Holed { row, holed });
        }
        if last {
            plays.push((first, row));
            (first, total) = (row, 0);
        }
    }
    Ok(plays)
}
