//! A player by average score, as golfers know it: the handicap that such scores give.
use super::fault::{PlayerFault, check};
use super::{Player, Reference};
use crate::figures::handicapping::{LOWEST_EIGHT, SLOPES, SPREAD, STANDARD_SLOPE, USUAL_RATING};

/// Scores of a golfer, and how hard the course is that they were made on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AverageScore {
    /// Mean of all rounds of 18 holes, strokes.
    pub score: f64,
    /// Course Rating, what a scratch golfer is expected to score there: 50 to 90.
    pub rating: f64,
    /// Slope Rating, how much harder it is for a bogey golfer: 55 to 155.
    pub slope: f64,
}

impl AverageScore {
    /// An average on a course of rating 70 and the standard slope of 113.
    #[must_use]
    pub fn new(score: f64) -> Self {
        AverageScore {
            score,
            rating: USUAL_RATING,
            slope: STANDARD_SLOPE,
        }
    }

    /// The Handicap Index of a golfer with that average.
    ///
    /// An index is the mean of the lowest 8 of the last 20 score differentials, of 113 / slope x (score - rating) each (Rules
    /// of Handicapping, published). Differentials are taken as normal about their mean, so the index lies 0.93 of their
    /// standard deviation below the average one. Caps on the scores of single holes are left out.
    ///
    /// # Errors
    /// A rating or slope that no course has, or an average that no Handicap Index of 0 to 54 gives.
    pub fn handicap(&self) -> Result<f64, PlayerFault> {
        let (rating, slope) = (self.rating, self.slope);
        check("", "course_rating", rating, 50.0..=90.0, "50 to 90 strokes")?;
        check("", "slope_rating", slope, SLOPES.0..=SLOPES.1, "55 to 155")?;
        let score_of = |handicap: f64| rating + slope / STANDARD_SLOPE * average(handicap);
        let (least, most) = (score_of(0.0), score_of(54.0));
        if !(least..=most).contains(&self.score) {
            return Err(PlayerFault::AverageScore {
                given: *self,
                least,
                most,
            });
        }
        let differential = STANDARD_SLOPE / slope * (self.score - rating);
        let (mut low, mut high) = (0.0, 54.0);
        for _ in 0..60 {
            let handicap = 0.5 * (low + high);
            if average(handicap) < differential {
                low = handicap;
            } else {
                high = handicap;
            }
        }
        Ok(0.5 * (low + high))
    }
}

/// The mean score differential of a golfer of some Handicap Index.
fn average(handicap: f64) -> f64 {
    handicap + LOWEST_EIGHT * spread(handicap)
}

/// The standard deviation of a golfer's differentials: in equal steps between the bands, level beyond them.
fn spread(handicap: f64) -> f64 {
    let after = SPREAD.partition_point(|(at, _)| *at <= handicap);
    match (after.checked_sub(1), SPREAD.get(after)) {
        (Some(before), Some((to, high))) => {
            let (from, low) = SPREAD[before];
            low + (high - low) * (handicap - from) / (to - from)
        }
        (Some(last), None) => SPREAD[last].1,
        (None, _) => SPREAD[0].1,
    }
}

impl Player {
    /// A man or woman whose rounds average so many strokes: the player of the handicap that such scores give.
    ///
    /// # Errors
    /// As [`AverageScore::handicap`].
    pub fn from_average_score(
        reference: Reference,
        average: AverageScore,
    ) -> Result<Self, PlayerFault> {
        let handicap = average.handicap()?;
        // A golfer knows an index to a tenth.
        Player::from_reference(reference, (10.0 * handicap).round() / 10.0)
    }
}
