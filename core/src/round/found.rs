//! What is found about a target: chances, the ways that are taken, and a row of the plan for each hole.
use super::RoundFault;
use super::budget::{scores_to_make, within};
use super::scored::{Mark, Scoring};
use super::target::{Choices, Compared, Recursion, Values};
use super::ways::{CourseWays, HoleWay};
use super::words::{self, Turn};
use crate::course::Course;
use crate::noise::Seed;
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
    /// How likely the plan comes to each hole, and to the end, with so many strokes; the last entry of each holds more.
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
        let crossed = [(0, 1), (1, 0)].map(|(choosing, valuing)| {
            halves[valuing].compared(&halves[choosing].choices(), &fewest)
        });
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
            chances: both(&crossed),
            choices: choices
                .iter()
                .map(|row| row.iter().map(|&way| way as u8).collect())
                .collect(),
            likely,
            plan,
        };
        Ok(Target { course, found })
    }

    /// What was found, of a course; None of what is about one of another number of holes.
    #[must_use]
    pub fn restored(course: Arc<Course>, found: TargetFound) -> Option<Self> {
        let holes = course.holes().len();
        let wide = usize::from(found.to_break) + 1;
        let fits = found.plan.len() == holes
            && found.choices.len() == holes
            && found.chances.len() == holes + 1
            && found.likely.len() == holes + 1
            && found.chances.iter().all(|row| row.len() == wide)
            && found
                .choices
                .iter()
                .flatten()
                .all(|&w| usize::from(w) < HoleWay::ALL.len());
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

/// The mean of two estimates from different plays.
fn mean([a, b]: [Estimate; 2]) -> Estimate {
    Estimate {
        mean: 0.5 * (a.mean + b.mean),
        standard_error: 0.5 * libm::hypot(a.standard_error, b.standard_error),
    }
}

/// The mean of the chances of both halves, from everywhere.
fn both([a, b]: &[Compared; 2]) -> Values {
    let rows = a.values.iter().zip(&b.values);
    rows.map(|(a, b)| a.iter().zip(b).map(|(a, b)| 0.5 * (a + b)).collect())
        .collect()
}

/// What the plan is made of.
struct Planning<'a> {
    ways: &'a CourseWays,
    all: &'a Recursion<'a>,
    choices: &'a Choices,
    chances: &'a Values,
    likely: &'a Values,
}

impl Planning<'_> {
    /// A row a hole.
    fn plan(&self) -> Vec<HolePlan> {
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
            .filter(|&strokes| self.is_open(place, strokes))
            .map(|strokes| Turn {
                needed: self.all.most - strokes,
                way: self.told_way(place, strokes),
            })
            .collect();
        words::press(course.numbers()[place], left.len(), par, &turns)
    }

    /// True of what happens now and then, and leaves the target neither made nor lost.
    fn is_open(&self, place: usize, strokes: usize) -> bool {
        const RARE: f64 = 0.005;
        const SURE: f64 = 0.97;
        let chance = self.chances[place][strokes];
        self.likely[place][strokes] >= RARE && (1.0 - SURE..=SURE).contains(&chance)
    }

    /// The way that is worth telling: fewest strokes where another gains less than half a point in a hundred.
    fn told_way(&self, place: usize, strokes: usize) -> HoleWay {
        const WORTH: f64 = 0.005;
        let after = &self.chances[place + 1];
        let usual: f64 = self
            .all
            .scores(place, HoleWay::Fewest)
            .into_iter()
            .map(|(score, share)| share * after[(strokes + score).min(after.len() - 1)])
            .sum();
        if self.chances[place][strokes] - usual < WORTH {
            HoleWay::Fewest
        } else {
            self.choices[place][strokes]
        }
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

#[expect(clippy::cast_precision_loss, reason = "at most 100,000")]
fn share_of(plays: &[Mark], what: impl Fn(&Mark) -> bool) -> Estimate {
    let count = plays.iter().filter(|mark| what(mark)).count();
    crate::rank::share(count as u64, plays.len() as u64)
}

fn mean_score(plays: &[Mark]) -> Estimate {
    let scores: Vec<f64> = plays.iter().map(|mark| f64::from(mark.score)).collect();
    super::played::mean_of(&scores)
}
