//! What is counted over the plays of one plan.
use super::{Cause, Checkpoint, Played};
use crate::stats::Histogram;
use serde::{Deserialize, Serialize};

/// Counts over plays.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tally {
    /// Scores.
    pub scores: Histogram,
    /// Penalty strokes of each play.
    pub penalties: Histogram,
    /// Putts of each play.
    pub putts: Histogram,
    /// Plays broken off at the stroke cap.
    pub unfinished: u64,
    /// Blow-ups by the first thing that went wrong, in the order of [`Cause::ALL`]; the last entry counts
    /// those in which no single thing did.
    pub causes: [u64; Cause::ALL.len() + 1],
    /// Plays that reached each checkpoint.
    pub checkpoints: Vec<u64>,
}

impl Tally {
    /// Nothing counted yet.
    #[must_use]
    pub fn new(checkpoints: usize) -> Self {
        Tally {
            scores: Histogram::default(),
            penalties: Histogram::default(),
            putts: Histogram::default(),
            unfinished: 0,
            causes: [0; Cause::ALL.len() + 1],
            checkpoints: vec![0; checkpoints],
        }
    }

    /// True where no count of what befalls a play is larger than the number of plays.
    pub(crate) fn is_within(&self, plays: u64) -> bool {
        let mut causes = self.causes.iter();
        let blow_ups = causes.try_fold(0_u64, |sum, &count| sum.checked_add(count));
        let reached = self.checkpoints.iter().all(|&count| count <= plays);
        blow_ups.is_some_and(|blow_ups| blow_ups <= plays) && reached && self.unfinished <= plays
    }

    /// Counts one play; a score of `blow_up` or more is a blow-up.
    pub fn add(&mut self, played: &Played, blow_up: u8, checkpoints: &[Checkpoint]) {
        self.scores.add(played.score);
        self.penalties.add(played.penalties);
        self.putts.add(played.putts);
        self.unfinished += u64::from(played.unfinished);
        if played.score >= blow_up {
            let cause = played.cause.map_or(Cause::ALL.len(), |c| c as usize);
            self.causes[cause] += 1;
        }
        for (count, checkpoint) in self.checkpoints.iter_mut().zip(checkpoints) {
            *count += u64::from(checkpoint.reached(played));
        }
    }

    /// Adds the counts of another part of the run.
    pub fn merge(&mut self, other: &Tally) {
        self.scores.merge(&other.scores);
        self.penalties.merge(&other.penalties);
        self.putts.merge(&other.putts);
        self.unfinished += other.unfinished;
        let counts = self.causes.iter_mut().chain(&mut self.checkpoints);
        for (mine, theirs) in counts.zip(other.causes.iter().chain(&other.checkpoints)) {
            *mine += theirs;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// With a blow-up at 7 the causes of a 7 and an 8 count, that of a 6 does not; one without a cause is the last.
    #[test]
    fn causes_count_from_the_blow_up_on() {
        let played = |score, cause| Played {
            score,
            penalties: 0,
            putts: 2,
            unfinished: false,
            first_putt: None,
            cause,
        };
        let mut tally = Tally::new(0);
        let water = Some(Cause::PenaltyArea);
        for (score, cause) in [(6, water), (7, water), (8, water), (7, None)] {
            tally.add(&played(score, cause), 7, &[]);
        }
        let mut expected = [0; Cause::ALL.len() + 1];
        expected[Cause::PenaltyArea as usize] = 2;
        expected[Cause::ALL.len()] = 1;
        assert_eq!(tally.causes, expected);
    }
}
