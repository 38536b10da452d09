//! What a good-enough shot of a player looks like: bands that so many of the player's own shots make.
use super::ExplainFault;
use super::bag_table::TWO_THIRDS;
use super::sample::{Quantile, Sample, Sorted, number, share};
use super::task::{self, Kind, Task};
use crate::noise::Seed;
use crate::player::{Lie, Player};
use crate::run::Run;
use crate::stats::Estimate;
use crate::units;
use std::sync::Arc;

/// The share of a player's own shots that make a good-enough band: two in three. It holds what the player can count on.
pub const GOOD_ENOUGH: f64 = TWO_THIRDS;

/// The share that make a usual band: half of them do better, half worse.
pub const USUAL: f64 = 0.5;

/// Fewest plays of every task: with fewer no error can be told.
pub const LEAST_PLAYS: u64 = 100;

/// Most plays of every task: all of them are kept until they are counted.
pub const MOST_PLAYS: u64 = 1_000_000;

/// A band of tee shots: at least so long and at most so far from the line, both equally hard to meet for this player.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TeeBand {
    /// Carry and run, at least, yards along the line.
    pub total: Quantile,
    /// From the line aimed along, at most, yards to either side.
    pub side: Quantile,
}

/// A tee shot with the longest club, down the middle of a fairway [`super::FAIRWAY_WIDTH`] yards wide with rough beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct TeeShot {
    /// The club.
    pub club: String,
    /// What half of the tee shots are as good as.
    pub usual: TeeBand,
    /// What two thirds of the tee shots are as good as.
    pub good_enough: TeeBand,
    /// Share that finish on the fairway.
    pub on_fairway: Estimate,
}

/// An approach from the fairway at a pin in the middle of a green [`super::GREEN_ACROSS`] yards across.
#[derive(Clone, Debug, PartialEq)]
pub struct Approach {
    /// Yards to the pin.
    pub yards: f64,
    /// What is swung.
    pub stroke: String,
    /// Feet from the pin within which half of the shots finish.
    pub usual_ft: Quantile,
    /// Feet from the pin within which two thirds do.
    pub good_enough_ft: Quantile,
    /// Share that finish on the green.
    pub on_green: Estimate,
}

/// A stroke around the green, and how the ball is holed out.
#[derive(Clone, Debug, PartialEq)]
pub struct AroundGreen {
    /// Yards to the pin.
    pub yards: f64,
    /// The lie: fairway, rough or bunker.
    pub lie: Lie,
    /// The stroke: the player's ordinary one.
    pub stroke: String,
    /// Feet from the pin within which half of the first strokes finish.
    pub usual_ft: Quantile,
    /// Feet from the pin within which two thirds do.
    pub good_enough_ft: Quantile,
    /// Share of first strokes that finish on the green or in the hole.
    pub on_green: Estimate,
    /// Share down in two strokes or fewer.
    pub in_two: Estimate,
    /// Share down in three strokes or fewer.
    pub in_three: Estimate,
}

/// A putt on an ordinary green, and how the ball is holed out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Putt {
    /// Its length, feet.
    pub feet: f64,
    /// Share holed.
    pub holed: Estimate,
    /// Share down in two putts or fewer.
    pub in_two: Estimate,
    /// Feet from the hole within which two thirds of the misses stop; None where no putt missed.
    pub leave_ft: Option<Quantile>,
}

/// What shots of a player look like, from tee to hole.
///
/// All on level ground of medium firmness in still air, with the player's ordinary choice of stroke, aimed at the pin. Every
/// task meets the luck of the same seed, so neighbouring rows share it.
#[derive(Clone, Debug, PartialEq)]
pub struct Expectations {
    /// Plays of every task.
    pub plays: u64,
    /// The seed that fixed the luck.
    pub seed: Seed,
    /// The tee shot.
    pub tee_shot: TeeShot,
    /// Approaches, shortest first, as far as the player reaches.
    pub approaches: Vec<Approach>,
    /// Strokes around the green: by lie, then shortest first.
    pub around_green: Vec<AroundGreen>,
    /// Putts, shortest first.
    pub putts: Vec<Putt>,
}

impl Expectations {
    /// The largest standard error of any share that is told.
    #[must_use]
    pub fn largest_share_error(&self) -> f64 {
        let tee = [self.tee_shot.on_fairway];
        let approaches = self.approaches.iter().map(|a| a.on_green);
        let around = self.around_green.iter();
        let around = around.flat_map(|a| [a.on_green, a.in_two, a.in_three]);
        let putts = self.putts.iter().flat_map(|p| [p.holed, p.in_two]);
        let shares = tee.into_iter().chain(approaches).chain(around).chain(putts);
        shares.map(|share| share.standard_error).fold(0.0, f64::max)
    }
}

/// Expectations being worked out: they advance in waves, and can be left at any time.
pub struct Explaining {
    tasks: Vec<Task>,
    samples: Vec<Vec<Sample>>,
    plays: u64,
    seed: Seed,
}

impl Explaining {
    /// Prepares every task; nothing has been played yet.
    ///
    /// # Errors
    /// A number of plays outside [`LEAST_PLAYS`] to [`MOST_PLAYS`]; a stroke whose carry no believable ball speed gives.
    pub fn new(player: &Player, plays: u64, seed: Seed) -> Result<Self, ExplainFault> {
        if !(LEAST_PLAYS..=MOST_PLAYS).contains(&plays) {
            return Err(ExplainFault::Plays { plays });
        }
        let tasks = task::all(&Arc::new(player.prepare()))?;
        Ok(Explaining {
            samples: vec![Vec::new(); tasks.len()],
            tasks,
            plays,
            seed,
        })
    }

    /// What came of it; None until all has been played.
    #[must_use]
    pub fn found(&self) -> Option<Expectations> {
        if self.done() < self.plays {
            return None;
        }
        let mut tee_shot = None;
        let (mut approaches, mut around_green, mut putts) = (Vec::new(), Vec::new(), Vec::new());
        for (task, samples) in self.tasks.iter().zip(&self.samples) {
            match task.kind {
                Kind::Tee => tee_shot = Some(tee(task, samples)?),
                Kind::Approach { yards } => approaches.push(approach(task, yards, samples)?),
                Kind::Around { yards, lie } => {
                    around_green.push(around(task, yards, lie, samples)?);
                }
                Kind::Putt { feet } => putts.push(putt(feet, samples)),
            }
        }
        Some(Expectations {
            plays: self.plays,
            seed: self.seed,
            tee_shot: tee_shot?,
            approaches,
            around_green,
            putts,
        })
    }
}

impl Run for Explaining {
    /// Plays up to `count` more plays of every task on the current thread pool.
    fn advance(&mut self, count: u64) {
        let from = self.done();
        let to = from.saturating_add(count).min(self.plays);
        for (task, samples) in self.tasks.iter().zip(&mut self.samples) {
            samples.extend(task.play(self.seed, from, to));
        }
    }

    /// Plays of every task so far.
    fn done(&self) -> u64 {
        self.samples
            .last()
            .map_or(0, |samples| samples.len() as u64)
    }

    /// Plays of every task after which the run ends.
    fn goal(&self) -> u64 {
        self.plays
    }
}

fn tee(task: &Task, samples: &[Sample]) -> Option<TeeShot> {
    Some(TeeShot {
        club: task.stroke_name(),
        usual: tee_band(samples, USUAL)?,
        good_enough: tee_band(samples, GOOD_ENOUGH)?,
        on_fairway: share(samples, |s| s.on_fairway),
    })
}

/// The band that a share of tee shots make: the longest so many in a hundred that are also among the straightest so many
/// in a hundred.
fn tee_band(samples: &[Sample], wanted: f64) -> Option<TeeBand> {
    let lengths = Sorted::new(samples.iter().map(|s| -s.along));
    let sides = Sorted::new(samples.iter().map(|s| s.right.abs()));
    // How many in a hundred a shot is among, on either count; what is wanted are those that are among few on the worse.
    let (by_length, by_side) = (
        ranks(samples, |s| -s.along),
        ranks(samples, |s| s.right.abs()),
    );
    let worse = Sorted::new(by_length.iter().zip(&by_side).map(|(a, b)| a.max(*b)));
    let cut = worse.at(wanted)?;
    let bound = |of: &Sorted, mine: &[f64], other: &[f64]| {
        let error = rank_error(mine, other, cut, wanted);
        let (low, high) = (of.at(cut - error)?, of.at(cut + error)?);
        Some(Quantile {
            value: of.at(cut)?,
            standard_error: 0.5 * (high - low),
        })
    };
    let length = bound(&lengths, &by_length, &by_side)?;
    Some(TeeBand {
        total: Quantile {
            value: -length.value,
            ..length
        },
        side: bound(&sides, &by_side, &by_length)?,
    })
}

/// Standard error of how many in a hundred of all shots meet one of the two bounds, when a share `wanted` of the shots seen
/// meets both and `cut` of them meets either.
///
/// The sum of what each shot moves it by, to first order (the delta method): with A, B and C for shots that meet this
/// bound, the other and both, `cut` moves by half of A + B - C cut / wanted, and the bound by that less A. It takes a shot at
/// one bound to meet the other as often as any that meets the one.
fn rank_error(mine: &[f64], other: &[f64], cut: f64, wanted: f64) -> f64 {
    let moved = |(mine, other): (&f64, &f64)| {
        let (a, b) = (*mine <= cut, *other <= cut);
        let meets = |it: bool| if it { 1.0 } else { 0.0 };
        0.5 * (meets(b) - meets(a) - meets(a && b) * cut / wanted)
    };
    let moves: Vec<f64> = mine.iter().zip(other).map(moved).collect();
    let n = number(moves.len());
    let mean = moves.iter().sum::<f64>() / n;
    let squares: f64 = moves.iter().map(|m| (m - mean) * (m - mean)).sum();
    squares.sqrt() / n
}

/// The share of samples that are at most as much as each; equal ones in the order of the plays.
fn ranks(samples: &[Sample], value: impl Fn(&Sample) -> f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..samples.len()).collect();
    order.sort_by(|&a, &b| value(&samples[a]).total_cmp(&value(&samples[b])));
    let mut ranks = vec![0.0; samples.len()];
    for (place, sample) in order.into_iter().enumerate() {
        ranks[sample] = number(place + 1) / number(samples.len());
    }
    ranks
}

fn approach(task: &Task, yards: f64, samples: &[Sample]) -> Option<Approach> {
    let left = left_ft(samples, |_| true);
    Some(Approach {
        yards,
        stroke: task.stroke_name(),
        usual_ft: left.quantile(USUAL)?,
        good_enough_ft: left.quantile(GOOD_ENOUGH)?,
        on_green: share(samples, |s| s.on_green),
    })
}

fn around(task: &Task, yards: f64, lie: Lie, samples: &[Sample]) -> Option<AroundGreen> {
    let left = left_ft(samples, |_| true);
    Some(AroundGreen {
        yards,
        lie,
        stroke: task.stroke_name(),
        usual_ft: left.quantile(USUAL)?,
        good_enough_ft: left.quantile(GOOD_ENOUGH)?,
        on_green: share(samples, |s| s.on_green),
        in_two: share(samples, |s| s.strokes <= 2),
        in_three: share(samples, |s| s.strokes <= 3),
    })
}

fn putt(feet: f64, samples: &[Sample]) -> Putt {
    Putt {
        feet,
        holed: share(samples, |s| s.strokes == 1),
        in_two: share(samples, |s| s.strokes <= 2),
        leave_ft: left_ft(samples, |s| s.strokes > 1).quantile(GOOD_ENOUGH),
    }
}

/// What those of the first strokes that `counts` left to the pin, feet.
fn left_ft(samples: &[Sample], counts: impl Fn(&Sample) -> bool) -> Sorted {
    let counted = samples.iter().filter(|s| counts(s));
    Sorted::new(counted.map(|s| units::feet_from_yards(s.left)))
}
