//! What is found about a target: chances, the ways that are taken, and a row of the plan for each hole.
use super::RoundFault;
use super::planning::Planning;
use super::scored::Scoring;
use super::target::{Choices, Compared, Recursion, Values};
use super::ways::HoleWay;
use crate::course::Course;
use crate::noise::Seed;
use crate::run::Run;
use crate::stats::Estimate;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// The best chance of a total on a course, and the plan for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Target {
    /// The course.
    pub course: Arc<Course>,
    /// What was found.
    pub found: TargetFound,
}

/// What was found about a target.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TargetFound {
    /// The score to be broken: a total of one less meets the target.
    pub to_break: u16,
    /// The seed that fixed the luck.
    pub seed: Seed,
    /// Plays of every way on every hole.
    pub plays: u64,
    /// Yards between the places that were solved.
    pub cell: f64,
    /// The chance to break it by the plan, chosen on one half of the plays and valued on the other, both ways round.
    pub chance: Estimate,
    /// The chance by fewest strokes on every hole, on the same plays.
    pub by_fewest: Estimate,
    /// What the plan gains on fewest strokes everywhere, paired.
    pub gain: Estimate,
    /// Chances before each hole and after the last, by strokes so far: the mean of both halves.
    pub chances: Vec<Vec<f64>>,
    /// The way taken on each hole, by strokes so far, by its place in [`HoleWay::ALL`]: chosen on all plays.
    pub choices: Vec<Vec<u8>>,
    /// How likely the plan comes to each hole, and to the end, with so many strokes, as the chances are reckoned; the last
    /// entry of each holds more.
    pub likely: Vec<Vec<f64>>,
    /// The plan, a row a hole.
    pub plan: Vec<HolePlan>,
}

/// The plan for one hole.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HolePlan {
    /// The way it is played by one who has made what the budget says so far, by its place in [`HoleWay::ALL`].
    pub way: u8,
    /// The score to make: those of all holes add up to one less than the score to be broken.
    pub score_to_make: u8,
    /// How often it is made.
    pub made: Estimate,
    /// Mean score by that way.
    pub mean: Estimate,
    /// How often bogey or better is made.
    pub bogey_or_better: Estimate,
    /// The club from the tee.
    pub club: String,
    /// Where it is aimed.
    pub aim: String,
    /// Yards to the pin from where a solid tee shot ends.
    pub leave: f64,
    /// The tee shot in words.
    pub words: String,
    /// How the way turns with the score, in a sentence.
    pub press: String,
    /// Milestones on the way.
    pub checkpoints: Vec<CheckpointTold>,
    /// The shares of plays by score of every way in the order of [`HoleWay::ALL`], lowest score first.
    pub scores: Vec<Vec<(u8, f64)>>,
}

/// Milestones on every hole: off the tee, putting for par, putting for bogey.
const MILESTONES: usize = 3;

/// A milestone on a hole: how often it is reached, and what reaching it is worth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CheckpointTold {
    /// What it is.
    pub kind: Milestone,
    /// Of a putt, the most feet it may be long.
    pub within_ft: Option<u16>,
    /// How often it is reached.
    pub made: Estimate,
    /// By how much the chance of the target is higher where it is reached than where it is not; None where it always or never is.
    pub worth: Option<f64>,
}

/// A kind of milestone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Milestone {
    /// The tee shot in play: without a penalty, in neither sand nor trees.
    OffTheTee,
    /// Putting for par within so many feet.
    PuttForPar,
    /// Putting for bogey within so many feet.
    PuttForBogey,
}

impl Milestone {
    /// The name used in tables.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Milestone::OffTheTee => "in play off the tee",
            Milestone::PuttForPar => "putting for par",
            Milestone::PuttForBogey => "putting for bogey",
        }
    }
}

impl Target {
    /// The best chance to break a score, and the plan for it, by the plays of a finished run.
    ///
    /// The total is reckoned exactly from the scores of each hole: nothing is lost by playing too few whole rounds. The ways are
    /// chosen by estimates, and the best of several estimates looks better than it is; so the plan is chosen on one half of the
    /// plays and valued on the other, and the other way round, and the mean of both is told.
    ///
    /// # Errors
    /// A score that no budget can meet: one stroke a hole or fewer, or more than eight over par a hole.
    pub fn of(scoring: &Scoring, to_break: u16) -> Result<Self, RoundFault> {
        let ways = scoring.ways();
        let course = ways.field().course().clone();
        check(&course, to_break)?;
        let most = usize::from(to_break) - 1;
        let plays = usize::try_from(scoring.done()).unwrap_or(usize::MAX);
        let over = |from, to| Recursion {
            holes: scoring.holes(),
            plays: (from, to),
            most,
        };
        let (all, halves) = (over(0, plays), [over(0, plays / 2), over(plays / 2, plays)]);
        let fewest: Choices = vec![vec![HoleWay::Fewest; most + 2]; course.holes().len()];
        let crossed = crossed(&halves, &fewest);
        let choices = all.choices();
        let chances = all.followed(&choices);
        let likely = all.occupied(&choices);
        let plan = Planning {
            ways,
            all: &all,
            choices: &choices,
            chances: &chances,
            likely: &likely,
        }
        .plan();
        let of = |estimate: fn(&Compared) -> Estimate| mean(crossed.each_ref().map(estimate));
        let found = TargetFound {
            to_break,
            seed: scoring.seed(),
            plays: scoring.done(),
            cell: ways.cell(),
            chance: of(|c| c.chance),
            by_fewest: of(|c| c.other),
            gain: of(|c| c.gain),
            chances: both(crossed.each_ref().map(|c| &c.values)),
            choices: choices
                .iter()
                .map(|row| row.iter().map(|&way| way as u8).collect())
                .collect(),
            likely: both(crossed.each_ref().map(|c| &c.shares)),
            plan,
        };
        Ok(Target { course, found })
    }

    /// What was found, of a course; None of what is about one of another number of holes.
    #[must_use]
    pub fn restored(course: Arc<Course>, found: TargetFound) -> Option<Self> {
        let holes = course.holes().len();
        let wide = usize::from(found.to_break) + 1;
        let is_way = |way: u8| usize::from(way) < HoleWay::ALL.len();
        let fits = found.plan.len() == holes
            && found.choices.len() == holes
            && found.chances.len() == holes + 1
            && found.likely.len() == holes + 1
            && found.chances.iter().all(|row| row.len() == wide)
            && found.choices.iter().flatten().copied().all(is_way)
            && found
                .plan
                .iter()
                .all(|hole| is_way(hole.way) && hole.checkpoints.len() == MILESTONES);
        fits.then_some(Target { course, found })
    }

    /// The chance of one who stands on the tee of the hole with a number, with so many strokes so far.
    ///
    /// # Errors
    /// A number that no hole has.
    pub fn chance_from(&self, hole: i64, strokes: u32) -> Result<f64, RoundFault> {
        let (place, strokes) = self.place(hole, strokes)?;
        Ok(self.found.chances[place][strokes])
    }

    /// The way that one takes who stands there.
    ///
    /// # Errors
    /// A number that no hole has.
    pub fn way_from(&self, hole: i64, strokes: u32) -> Result<HoleWay, RoundFault> {
        let (place, strokes) = self.place(hole, strokes)?;
        Ok(HoleWay::ALL[usize::from(self.found.choices[place][strokes])])
    }

    fn place(&self, hole: i64, strokes: u32) -> Result<(usize, usize), RoundFault> {
        let numbers = self.course.numbers();
        let place = u8::try_from(hole)
            .ok()
            .and_then(|n| self.course.place_of(n));
        let place = place.ok_or_else(|| RoundFault::NoHole {
            given: hole,
            known: numbers
                .iter()
                .map(u8::to_string)
                .collect::<Vec<_>>()
                .join(", "),
        })?;
        let strokes = usize::try_from(strokes).unwrap_or(usize::MAX);
        Ok((place, strokes.min(usize::from(self.found.to_break))))
    }
}

/// Refuses a score that no budget can meet.
pub fn check(course: &Course, to_break: u16) -> Result<(), RoundFault> {
    let holes = u16::try_from(course.holes().len()).unwrap_or(1);
    let (least, most) = (holes + 2, course.par() + 8 * holes);
    RoundFault::unless(
        "target",
        f64::from(to_break),
        (f64::from(least), f64::from(most)),
        &format!(
            "{least} to {most} on a course of {holes} holes and par {}",
            course.par()
        ),
    )
}

/// The ways chosen on each half of the plays, compared with fewest strokes on the other: nothing is valued by what it was chosen
/// by.
fn crossed(halves: &[Recursion<'_>; 2], fewest: &Choices) -> [Compared; 2] {
    [(0, 1), (1, 0)]
        .map(|(choosing, valuing)| halves[valuing].compared(&halves[choosing].choices(), fewest))
}

/// The mean of two estimates from different plays.
fn mean([a, b]: [Estimate; 2]) -> Estimate {
    Estimate {
        mean: 0.5 * (a.mean + b.mean),
        standard_error: 0.5 * libm::hypot(a.standard_error, b.standard_error),
    }
}

/// The mean of both halves, from everywhere.
fn both([a, b]: [&Values; 2]) -> Values {
    let rows = a.iter().zip(b);
    rows.map(|(a, b)| a.iter().zip(b).map(|(a, b)| 0.5 * (a + b)).collect())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::scored::{Mark, Marks};
    use super::*;

    /// One hole, 4 to make. By fewest strokes half of the plays do. Another way always does in the first half of the plays and
    /// never in the second: chosen by the first it is worth nothing in the second, and by the second it is not chosen.
    #[test]
    fn no_way_is_valued_by_the_plays_it_was_chosen_by() {
        let marks = |way: HoleWay| -> Vec<Mark> {
            let score = |play: usize| match (way, play < 200) {
                (HoleWay::Fewest, _) => 4 + u8::from(play.is_multiple_of(2)),
                (_, true) => 4,
                (_, false) => 6,
            };
            (0..400)
                .map(|play| Mark {
                    score: score(play),
                    ..Mark::default()
                })
                .collect()
        };
        let holes: [Marks; 1] = [HoleWay::ALL.map(marks).to_vec()];
        let halves = [(0, 200), (200, 400)].map(|plays| Recursion {
            holes: &holes,
            plays,
            most: 4,
        });
        let found = crossed(&halves, &vec![vec![HoleWay::Fewest; 6]; 1]);
        assert_eq!(found.each_ref().map(|c| c.chance.mean), [0.0, 0.5]);
        assert_eq!(found.each_ref().map(|c| c.other.mean), [0.5, 0.5]);
    }

    /// 1 with an error of 3 and 3 with one of 4: 2, with half of 5.
    #[test]
    fn two_halves_by_hand() {
        let estimate = |mean, standard_error| Estimate {
            mean,
            standard_error,
        };
        assert_eq!(
            mean([estimate(1.0, 3.0), estimate(3.0, 4.0)]),
            estimate(2.0, 2.5)
        );
    }
}
