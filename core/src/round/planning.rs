//! The plan for a target, hole by hole: what to make, how, where it turns, and the milestones on the way.
use super::budget::{scores_to_make, within};
use super::found::{CheckpointTold, HolePlan, Milestone};
use super::scored::Mark;
use super::target::{Choices, Recursion, Values};
use super::ways::{CourseWays, HoleWay};
use super::words::{self, Turn};
use crate::stats::Estimate;

/// Scores so far that come up more seldom are not told of.
const RARE: f64 = 0.005;

/// What the plan is made of.
pub(super) struct Planning<'a> {
    pub(super) ways: &'a CourseWays,
    pub(super) all: &'a Recursion<'a>,
    pub(super) choices: &'a Choices,
    pub(super) chances: &'a Values,
    pub(super) likely: &'a Values,
}

impl Planning<'_> {
    /// A row a hole.
    pub(super) fn plan(&self) -> Vec<HolePlan> {
        let course = self.ways.field().course();
        let fewest = |hole| within(self.all.plays(hole, HoleWay::Fewest));
        let chances: Vec<Vec<f64>> = (0..course.holes().len()).map(fewest).collect();
        let budget = scores_to_make(&chances, self.all.most);
        let mut so_far = 0;
        let row = |(hole, &score): (usize, &usize)| {
            let way = self.choices[hole][so_far];
            so_far += score;
            self.row(hole, way, score)
        };
        budget.iter().enumerate().map(row).collect()
    }

    fn row(&self, place: usize, way: HoleWay, score: usize) -> HolePlan {
        let hole = &self.ways.field().course().holes()[place];
        let plays = self.all.plays(place, way);
        let at_most = |most: usize| share_of(plays, |mark| usize::from(mark.score) <= most);
        let tee = self.ways.solution(place, way).tee_shot();
        let scores = |way| -> Vec<(u8, f64)> {
            let scores = self.all.scores(place, way);
            #[expect(clippy::cast_possible_truncation, reason = "at most 60")]
            let told = scores.into_iter().map(|(s, share)| (s as u8, share));
            told.collect()
        };
        HolePlan {
            way: way as u8,
            #[expect(clippy::cast_possible_truncation, reason = "a small score")]
            score_to_make: score as u8,
            made: at_most(score),
            mean: mean_score(plays),
            bogey_or_better: at_most(usize::from(hole.par()) + 1),
            club: tee.club,
            aim: tee.aim,
            leave: tee.leave,
            words: tee.words,
            press: self.press(place),
            checkpoints: self.checkpoints(place, hole.par(), plays),
            scores: HoleWay::ALL.map(scores).to_vec(),
        }
    }

    /// How the way turns with the score.
    fn press(&self, place: usize) -> String {
        let course = self.ways.field().course();
        let left = &course.holes()[place..];
        let par: usize = left.iter().map(|hole| usize::from(hole.par())).sum();
        let turns: Vec<Turn> = (0..=self.all.most)
            .filter(|&strokes| self.likely[place][strokes] >= RARE)
            .map(|strokes| Turn {
                needed: self.all.most - strokes,
                way: self.choices[place][strokes],
            })
            .collect();
        words::press(course.numbers()[place], left.len(), par, &turns)
    }

    fn checkpoints(&self, place: usize, par: u8, plays: &[Mark]) -> Vec<CheckpointTold> {
        let tee = |mark: &Mark| mark.in_play;
        let mut told = vec![self.checkpoint(place, Milestone::OffTheTee, None, plays, &tee)];
        for (kind, after) in [
            (Milestone::PuttForPar, par - 1),
            (Milestone::PuttForBogey, par),
        ] {
            let feet = usual_putt(plays, after);
            let reached =
                |mark: &Mark| mark.before_putt <= after && mark.putt_ft <= f32::from(feet);
            told.push(self.checkpoint(place, kind, Some(feet), plays, &reached));
        }
        told
    }

    fn checkpoint(
        &self,
        place: usize,
        kind: Milestone,
        within_ft: Option<u16>,
        plays: &[Mark],
        reached: &dyn Fn(&Mark) -> bool,
    ) -> CheckpointTold {
        // The chance that each score leaves, over all that may have gone before.
        let chance = |score: usize| -> f64 {
            let after = &self.chances[place + 1];
            let so_far = self.likely[place].iter().enumerate();
            so_far
                .map(|(strokes, share)| share * after[(strokes + score).min(after.len() - 1)])
                .sum()
        };
        let chances: Vec<f64> = (0..=usize::from(u8::MAX)).map(chance).collect();
        let (mut sums, mut counts) = ([0.0; 2], [0.0; 2]);
        for mark in plays {
            let side = usize::from(reached(mark));
            sums[side] += chances[usize::from(mark.score)];
            counts[side] += 1.0;
        }
        let known = counts.iter().all(|&count| count > 0.0);
        CheckpointTold {
            kind,
            within_ft,
            made: share_of(plays, reached),
            worth: known.then(|| sums[1] / counts[1] - sums[0] / counts[0]),
        }
    }
}

/// The length that a first putt after no more than so many strokes usually has: the median, to the next five feet up.
fn usual_putt(plays: &[Mark], after: u8) -> u16 {
    let mut lengths: Vec<f32> = plays
        .iter()
        .filter(|mark| mark.before_putt <= after && mark.putt_ft > 0.0)
        .map(|mark| mark.putt_ft)
        .collect();
    lengths.sort_by(f32::total_cmp);
    let median = lengths.get(lengths.len() / 2).copied().unwrap_or(5.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "feet of a putt"
    )]
    let fives = (median / 5.0).ceil().max(1.0) as u16;
    5 * fives
}

fn share_of(plays: &[Mark], what: impl Fn(&Mark) -> bool) -> Estimate {
    let count = plays.iter().filter(|mark| what(mark)).count();
    crate::rank::share(count as u64, plays.len() as u64)
}

fn mean_score(plays: &[Mark]) -> Estimate {
    let scores: Vec<f64> = plays.iter().map(|mark| f64::from(mark.score)).collect();
    super::played::mean_of(&scores)
}
