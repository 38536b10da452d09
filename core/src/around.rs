//! The strokes around the green compared from one place: putter, running chip, pitch, lob or bunker shot.
//!
//! Every stroke that suits the lie is played first, at the pin with the length that does best, and the player's
//! ordinary strategy holes out: a comparison of plans that begin in another place than on the tee.

use crate::geometry::{Point, Vector};
use crate::hole::{Hole, Surface};
use crate::noise::{Noise, PlayNoise, Seed};
use crate::plan::{Direct, Plan, PlanFault, Scene, Steady, Strategy, Then};
use crate::player::{Contact, Lie, Touch};
use crate::rank::{CompareFault, Comparison, Length, Question, Ranking, share};
use crate::shot::{Next, Outcome, Shot, Stroke};
use crate::situation::Situation;
use crate::stats::Estimate;
use crate::units;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// The farthest from the edge of the green that the question makes sense, yards.
pub const FARTHEST: f64 = 100.0;

/// Why the strokes around the green cannot be compared from a place.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum AroundFault {
    /// A place that is none.
    #[error("at is ({x}, {y}); both must be finite numbers of yards")]
    NotFinite {
        /// Yards to the right.
        x: f64,
        /// Yards up.
        y: f64,
    },
    /// The ball cannot be played as it lies there, or only putted.
    #[error(
        "at is ({x:.1}, {y:.1}), which is {where_it_is}; it must be a place off the green where a ball is played as it \
         lies"
    )]
    NoPlace {
        /// Yards to the right.
        x: f64,
        /// Yards up.
        y: f64,
        /// In words.
        where_it_is: &'static str,
    },
    /// Too far from the green.
    #[error(
        "at is ({x:.1}, {y:.1}), {yards:.0} yards from the green; it must be at most {FARTHEST:.0} yards from its edge"
    )]
    TooFar {
        /// Yards to the right.
        x: f64,
        /// Yards up.
        y: f64,
        /// Yards to the nearest edge of the green.
        yards: f64,
    },
    /// The question itself.
    #[error(transparent)]
    Compare(#[from] CompareFault),
    /// A strategy that cannot be followed.
    #[error(transparent)]
    Plan(#[from] PlanFault),
}

/// The first stroke of one option.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Opening {
    /// The stroke.
    pub touch: Touch,
    /// What is meant, yards: the carry, or the putter's whole roll.
    pub meant: f64,
    /// Yards to the right of the pin that is aimed, for wind and slope; left is negative.
    pub right: f64,
    /// How far a solid strike without any luck carries, yards; none for the putter.
    pub carry: f64,
    /// How far it then runs, yards (to the hole, if it drops).
    pub run: f64,
}

impl Opening {
    /// The name of the option.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self.touch {
            Touch::Chip => "running chip",
            Touch::BunkerShot => "bunker shot",
            touch => touch.name(),
        }
    }

    fn shot(&self, hole: &Hole, from: Point) -> Shot {
        let way = hole.pin() - from;
        let right = Vector::new(way.y, -way.x) / way.norm().max(1e-9);
        Shot {
            stroke: Stroke::Touch(self.touch),
            target: hole.pin() + right * self.right,
            carry: self.meant,
        }
    }
}

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
    fn new() -> Self {
        FirstStrokes {
            plays: 0,
            on_green: 0,
            holed: 0,
            chunked: 0,
            thinned: 0,
            left: vec![0; BINS],
        }
    }

    fn add(&mut self, outcome: &Outcome, contact: Contact, pin: Point) {
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

    fn merge(&mut self, other: &FirstStrokes) {
        self.plays += other.plays;
        self.on_green += other.on_green;
        self.holed += other.holed;
        self.chunked += other.chunked;
        self.thinned += other.thinned;
        for (mine, theirs) in self.left.iter_mut().zip(&other.left) {
            *mine += theirs;
        }
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

/// A comparison of the strokes around the green under way: it advances in waves, and can be left at any time.
pub struct Around {
    scene: Scene,
    start: Situation,
    seed: Seed,
    openings: Vec<Opening>,
    firsts: Vec<FirstStrokes>,
    comparison: Comparison,
}

impl Around {
    /// Checks everything and chooses the length of each first stroke; nothing has been played yet.
    ///
    /// The options are the strokes that suit the lie at `at` and reach the green, or the longest of them if none does.
    /// After its first stroke each is played by the strategy `then`.
    ///
    /// # Errors
    /// A place on a green, where a ball is not played as it lies, or far from the green; every reason why the
    /// question cannot be answered.
    pub fn new(
        scene: Scene,
        at: Point,
        then: &Then,
        question: Question,
    ) -> Result<Self, AroundFault> {
        let start = lying(scene.hole(), at)?;
        let then: Arc<dyn Strategy> = match then {
            Then::Direct => Arc::new(Direct::new(&scene)),
            Then::Steady => Arc::new(Steady::new(&scene)),
            Then::Custom(strategy) => strategy.clone(),
        };
        let place = Place {
            scene: &scene,
            start,
            then,
        };
        let openings = place.openings()?;
        let plans = openings
            .iter()
            .map(|opening| place.plan(opening.name(), opening))
            .collect::<Result<Vec<_>, _>>()?;
        let seed = question.seed;
        let comparison = Comparison::new(scene.clone(), &plans, question)?.starting_at(start);
        Ok(Around {
            firsts: vec![FirstStrokes::new(); openings.len()],
            scene,
            start,
            seed,
            openings,
            comparison,
        })
    }

    /// Plays of every option so far.
    #[must_use]
    pub fn plays(&self) -> u64 {
        self.comparison.plays()
    }

    /// True when the question has been answered.
    #[must_use]
    pub fn is_finished(&self) -> bool {
        self.comparison.is_finished()
    }

    /// Plays of every option after which the run ends or is judged next.
    #[must_use]
    pub fn next_stop(&self) -> u64 {
        self.comparison.next_stop()
    }

    /// Plays up to `count` more plays of every option on the current thread pool, not beyond the next stop.
    pub fn advance(&mut self, count: u64) {
        let from = self.plays();
        self.comparison.advance(count);
        let firsts = self.first_strokes(from, self.plays());
        merge(&mut self.firsts, &firsts);
    }

    /// What became of the first strokes of some plays. The same luck gives the same strokes as in the comparison, so
    /// they need not be listened to there.
    fn first_strokes(&self, from: u64, to: u64) -> Vec<FirstStrokes> {
        /// Plays taken together.
        const BLOCK: u64 = 512;
        let new = || vec![FirstStrokes::new(); self.openings.len()];
        (0..(to - from).div_ceil(BLOCK))
            .into_par_iter()
            .fold(new, |mut firsts, block| {
                let start = from + block * BLOCK;
                for play in start..(start + BLOCK).min(to) {
                    self.first_stroke(play, &mut firsts);
                }
                firsts
            })
            .reduce(new, |mut a, b| {
                merge(&mut a, &b);
                a
            })
    }

    /// The first stroke of one play under every option.
    fn first_stroke(&self, play: u64, firsts: &mut [FirstStrokes]) {
        let hole = self.scene.hole();
        let noise = PlayNoise::new(self.seed, play).stroke(0);
        for (first, opening) in firsts.iter_mut().zip(&self.openings) {
            let shot = opening.shot(hole, self.start.at);
            let outcome = self.scene.resolve(self.start, &shot, &noise);
            let swing = self.scene.bag().touch(opening.touch, self.start.lie);
            first.add(&outcome, swing.contact(&noise), hole.pin());
        }
    }

    /// What has been found so far.
    #[must_use]
    pub fn found(&self) -> AroundRanking {
        AroundRanking {
            ranking: self.comparison.ranking(),
            at: (self.start.at.x, self.start.at.y),
            lie: self.start.lie,
            to_pin: self.start.to_pin(self.scene.hole()),
            openings: self.openings.clone(),
            firsts: self.firsts.clone(),
        }
    }
}

fn merge(into: &mut [FirstStrokes], from: &[FirstStrokes]) {
    for (mine, theirs) in into.iter_mut().zip(from) {
        mine.merge(theirs);
    }
}

/// The strokes around the green in order, fewest strokes to hole out first, with everything counted about them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AroundRanking {
    /// The options as plans in the order of `openings`; a score is the number of strokes and penalties to hole out.
    pub ranking: Ranking,
    /// Where the first stroke is played from, yards.
    pub at: (f64, f64),
    /// The lie there.
    pub lie: Lie,
    /// Yards to the pin.
    pub to_pin: f64,
    /// The first stroke of each option.
    pub openings: Vec<Opening>,
    /// What became of it.
    pub firsts: Vec<FirstStrokes>,
}

impl AroundRanking {
    /// Share of plays of an option that were down in `strokes` or fewer, penalties included.
    #[must_use]
    pub fn down_in(&self, option: usize, strokes: u8) -> Estimate {
        self.ranking.at_most(option, strokes)
    }
}

/// The ball at a place where the question makes sense.
fn lying(hole: &Hole, at: Point) -> Result<Situation, AroundFault> {
    let (x, y) = (at.x, at.y);
    if !(x.is_finite() && y.is_finite()) {
        return Err(AroundFault::NotFinite { x, y });
    }
    let surface = hole.surface_at(at);
    let where_it_is = match surface {
        Surface::OutOfBounds => Some("out of bounds"),
        Surface::PenaltyRed | Surface::PenaltyYellow => Some("in a penalty area"),
        Surface::Green => Some("on a putting green"),
        _ => None,
    };
    let lie = match (Lie::on(surface), where_it_is) {
        (Some(lie), None) => lie,
        (_, words) => {
            return Err(AroundFault::NoPlace {
                x,
                y,
                where_it_is: words.unwrap_or("no place to play from"),
            });
        }
    };
    let yards = (hole.green().outline.nearest_edge_point(at) - at).norm();
    if yards > FARTHEST {
        return Err(AroundFault::TooFar { x, y, yards });
    }
    Ok(Situation { at, lie })
}

/// One place and one way to go on, from which first strokes are tried.
struct Place<'a> {
    scene: &'a Scene,
    start: Situation,
    then: Arc<dyn Strategy>,
}

/// Lengths tried for a first stroke, as shares of what the player would plan on level ground, and plays of each.
const LENGTHS: (f64, f64) = (0.5, 2.0);
/// Aims tried, where the ground is not level or the wind blows, as shares of the distance to the side of the plan.
const SIDES: (f64, f64) = (-0.3, 0.3);
/// How many of either, and plays of each; then between the neighbours of the best of them, and plays of each.
const TRIED: (u32, u64) = (16, 384);
const FINER: (u32, u64) = (6, 1_152);

/// The luck under which lengths are tried: the same place gets the same strokes whatever the question's seed.
const LENGTH_SEED: Seed = Seed(0x5eed_0f_1e46_7451);

impl Place<'_> {
    /// The strokes to compare, in the order of [`Touch::ALL`].
    fn openings(&self) -> Result<Vec<Opening>, AroundFault> {
        let suited = || {
            let around = Touch::ALL.into_iter().filter(|t| *t != Touch::Punch);
            around.filter(|t| t.suits(self.start.lie))
        };
        let longest = suited().max_by(|a, b| self.reach(*a).total_cmp(&self.reach(*b)));
        suited()
            .filter(|touch| self.reaches_green(*touch) || Some(*touch) == longest)
            .map(|touch| self.opening(touch))
            .collect()
    }

    /// How far from here a stroke at the pin comes to rest when it is played as far as it goes, solid and without any
    /// luck, yards.
    fn reach(&self, touch: Touch) -> f64 {
        let longest = Opening {
            meant: self.scene.bag().touch(touch, self.start.lie).full_carry,
            ..self.planned(touch)
        };
        (self.calm(&longest).rest - self.start.at).norm()
    }

    fn reaches_green(&self, touch: Touch) -> bool {
        let green = &self.scene.hole().green().outline;
        let edge = green.nearest_edge_point(self.start.at);
        self.reach(touch) >= (edge - self.start.at).norm()
    }

    /// What a solid first stroke without any luck comes to.
    fn calm(&self, opening: &Opening) -> Outcome {
        let shot = opening.shot(self.scene.hole(), self.start.at);
        self.scene.resolve(self.start, &shot, &Noise::NONE)
    }

    /// A stroke at the pin with the length, and on a slope or in wind the aim, that is down in the fewest strokes; one
    /// that does not reach the green goes as far as it can.
    fn opening(&self, touch: Touch) -> Result<Opening, AroundFault> {
        let (scene, from) = (self.scene, self.start.at);
        let full = scene.bag().touch(touch, self.start.lie).full_carry;
        let planned = self.planned(touch);
        let lengths = if self.reaches_green(touch) {
            let share = |share: f64| (share * planned.meant).min(full);
            (share(LENGTHS.0), share(LENGTHS.1))
        } else {
            (full, full)
        };
        let long = |opening: Opening, meant: f64| Opening { meant, ..opening };
        let aimed = |opening: Opening, right: f64| Opening { right, ..opening };
        let mut opening = self.best(planned, lengths, long)?;
        if !scene.setting().is_still() {
            let distance = self.start.to_pin(scene.hole());
            let side = |share: f64| planned.right + share * distance;
            opening = self.best(opening, (side(SIDES.0), side(SIDES.1)), aimed)?;
            opening = self.best(opening, lengths, long)?;
        }
        let calm = self.calm(&opening);
        Ok(Opening {
            carry: (calm.landed - from).norm(),
            run: (calm.rest - calm.landed).norm(),
            ..opening
        })
    }

    /// The stroke as the player would plan it, with the allowance for wind and slope but for the break of the run.
    fn planned(&self, touch: Touch) -> Opening {
        let setting = self.scene.setting();
        let (from, pin) = (self.start.at, self.scene.hole().pin());
        let meant = setting.meant_for(setting.touch(touch), from, pin);
        let way = pin - from;
        let right = Vector::new(way.y, -way.x) / way.norm().max(1e-9);
        Opening {
            touch,
            meant: meant.carry,
            right: (meant.target - pin).dot(&right),
            carry: 0.0,
            run: 0.0,
        }
    }

    /// The best of a stroke with many values from `low` to `high` of one of its figures, then of finer steps between
    /// the neighbours of the best.
    fn best(
        &self,
        opening: Opening,
        (low, high): (f64, f64),
        with: impl Fn(Opening, f64) -> Opening,
    ) -> Result<Opening, AroundFault> {
        let rough = self.best_of(opening, (low, high), TRIED, &with)?;
        let step = (high - low) / f64::from(TRIED.0);
        let near = ((rough - step).max(low), (rough + step).min(high));
        let fine = self.best_of(opening, near, FINER, &with)?;
        Ok(with(opening, fine))
    }

    /// Of evenly spaced values the one that holes out in the fewest strokes over some plays.
    fn best_of(
        &self,
        opening: Opening,
        (low, high): (f64, f64),
        (steps, plays): (u32, u64),
        with: impl Fn(Opening, f64) -> Opening,
    ) -> Result<f64, AroundFault> {
        if !(high > low) {
            return Ok(high);
        }
        let values: Vec<f64> = (0..=steps)
            .map(|k| low + (high - low) * f64::from(k) / f64::from(steps))
            .collect();
        let plans = values
            .iter()
            .map(|&value| self.plan(&value.to_string(), &with(opening, value)))
            .collect::<Result<Vec<_>, _>>()?;
        let mut question = Question::new(LENGTH_SEED);
        question.length = Length::Plays(plays);
        let run = Comparison::new(self.scene.clone(), &plans, question)?;
        let mut run = run.starting_at(self.start);
        run.advance(plays);
        Ok(values[run.ranking().order()[0]])
    }

    /// The plan that begins with a stroke from here.
    fn plan(&self, name: &str, opening: &Opening) -> Result<Plan, PlanFault> {
        let first = First {
            start: self.start,
            shot: opening.shot(self.scene.hole(), self.start.at),
            then: self.then.clone(),
        };
        Plan::new(name, Vec::new(), Then::Custom(Arc::new(first)))
    }
}

/// One stroke from one place, then a strategy; from that very place (stroke and distance) the same stroke again.
struct First {
    start: Situation,
    shot: Shot,
    then: Arc<dyn Strategy>,
}

impl Strategy for First {
    fn choose(&self, scene: &Scene, from: Situation) -> Shot {
        if from == self.start {
            self.shot
        } else {
            self.then.choose(scene, from)
        }
    }

    fn estimate(&self, scene: &Scene, from: Situation) -> f64 {
        self.then.estimate(scene, from)
    }
}
