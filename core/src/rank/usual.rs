//! The usual way of the ball under a plan: what each stroke is aimed at and leaves, what lies in its way, and on which side
//! the tee shot is better missed.
use crate::geometry::{Point, Vector, right_of, unit_or_up};
use crate::hole::{Hole, InTheWay, Side};
use crate::shot::Stroke;
use crate::simulate::{Played, Recording, StrokeRow};
use crate::stats::{Estimate, Histogram};

/// Strokes followed at most.
const MOST_LEGS: u32 = 4;
/// A stroke is usual if at least one in so many plays has it.
const USUAL: usize = 2;
/// Within so many yards of the pin the ball has arrived.
const ARRIVED: f64 = 15.0;
/// Share of a stroke's balls that are within the fan, and no farther than the farthest told.
const NEARLY_ALL: f64 = 0.95;
/// One in so many tee shots counts as missed far to a side.
const MISSED: usize = 6;

/// What usually becomes of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct UsualWay {
    /// The strokes to the green, one after the other.
    pub legs: Vec<Leg>,
    /// Yards to the pin from where the second stroke is played: the median.
    pub left: f64,
    /// How much more a tee shot missed far to the right costs than one missed far to the left, strokes.
    pub right_costs: Estimate,
    /// The scores.
    pub scores: Histogram,
}

/// A stroke of the usual way.
#[derive(Clone, Debug, PartialEq)]
pub struct Leg {
    /// What is played most often.
    pub stroke: Stroke,
    /// Where it is played from, what it is aimed at and where it comes to rest: medians of each coordinate.
    pub from: Point,
    /// The aim.
    pub aim: Point,
    /// Where it comes to rest.
    pub rest: Point,
    /// The bunkers and penalty areas that it may find, nearest first.
    pub in_the_way: Vec<InTheWay>,
}

impl UsualWay {
    /// Reads it off a recording; None of one without any play.
    #[must_use]
    pub fn of(recording: &Recording) -> Option<Self> {
        let (plays, rows) = (recording.plays(), recording.strokes());
        let hole = recording.scene().hole();
        let tee_shots: Vec<&StrokeRow> = rows.iter().filter(|row| row.stroke == 1).collect();
        let left = rows.iter().filter(|row| row.stroke == 2);
        let mut scores = Histogram::default();
        plays.iter().for_each(|play| scores.add(play.score));
        Some(UsualWay {
            legs: legs(hole, rows, plays.len()),
            left: median(left.map(|row| row.told.from.to_pin(hole))).unwrap_or(0.0),
            right_costs: right_costs(plays, &tee_shots)?,
            scores,
        })
    }

    /// The score that two of three plays do not exceed.
    #[must_use]
    pub fn good_enough(&self) -> u8 {
        self.scores.quantile(2.0 / 3.0)
    }

    /// The side to miss on: the one that costs less, if by more than two standard errors.
    #[must_use]
    pub fn better_side(&self) -> Option<Side> {
        let Estimate {
            mean,
            standard_error,
        } = self.right_costs;
        if !(mean.abs() > 2.0 * standard_error) {
            return None;
        }
        Some(if mean > 0.0 { Side::Left } else { Side::Right })
    }
}

/// The strokes that most plays have, from the tee until the ball arrives.
fn legs(hole: &Hole, rows: &[StrokeRow], plays: usize) -> Vec<Leg> {
    let mut legs = Vec::new();
    for number in 1..=MOST_LEGS {
        let mine: Vec<&StrokeRow> = rows
            .iter()
            .filter(|row| row.stroke == number && row.told.shot.stroke != Stroke::Putt)
            .collect();
        let Some(leg) = (USUAL * mine.len() >= plays)
            .then(|| leg(hole, &mine))
            .flatten()
        else {
            break;
        };
        let arrived = (leg.rest - hole.pin()).norm() < ARRIVED;
        legs.push(leg);
        if arrived {
            break;
        }
    }
    legs
}

fn leg(hole: &Hole, rows: &[&StrokeRow]) -> Option<Leg> {
    let place = |at: fn(&StrokeRow) -> Point| {
        let x = median(rows.iter().map(|row| at(row).x))?;
        let y = median(rows.iter().map(|row| at(row).y))?;
        Some(Point::new(x, y))
    };
    let from = place(|row| row.told.from.at)?;
    let aim = place(|row| row.told.shot.target)?;
    let asides = rows.iter().map(|row| {
        let (along, right) = seen_from_the_aim(row);
        right.abs() / along.max(1.0)
    });
    let gone = rows.iter().map(|row| gone(row).norm());
    let fan = quantile(asides, NEARLY_ALL)?;
    let farthest = quantile(gone, NEARLY_ALL)?;
    Some(Leg {
        stroke: most_played(rows)?,
        from,
        aim,
        rest: place(|row| row.told.outcome.rest)?,
        in_the_way: hole.in_the_way(from, aim, fan.min(1.0), farthest),
    })
}

/// The stroke played most often; of equals, the one first seen.
fn most_played(rows: &[&StrokeRow]) -> Option<Stroke> {
    let mut counts: Vec<(Stroke, usize)> = Vec::new();
    for row in rows {
        let stroke = row.told.shot.stroke;
        match counts.iter_mut().find(|(other, _)| *other == stroke) {
            Some((_, count)) => *count += 1,
            None => counts.push((stroke, 1)),
        }
    }
    let most = counts.iter().map(|(_, count)| *count).max()?;
    let first = counts.into_iter().find(|&(_, count)| count == most)?;
    Some(first.0)
}

/// How much more the tee shots farthest to the right of their aim led to than those farthest to the left, strokes.
fn right_costs(plays: &[Played], tee_shots: &[&StrokeRow]) -> Option<Estimate> {
    let mut by_side: Vec<(f64, u8)> = plays
        .iter()
        .zip(tee_shots)
        .map(|(play, row)| (seen_from_the_aim(row).1, play.score))
        .collect();
    by_side.sort_by(|a, b| a.0.total_cmp(&b.0));
    let count = by_side.len().div_ceil(MISSED);
    let scores = |of: &[(f64, u8)]| {
        let mut scores = Histogram::default();
        of.iter().for_each(|&(_, score)| scores.add(score));
        scores.mean()
    };
    let left = scores(by_side.get(..count)?);
    let right = scores(by_side.get(by_side.len() - count..)?);
    (count > 0).then(|| Estimate {
        mean: right.mean - left.mean,
        standard_error: right.standard_error.hypot(left.standard_error),
    })
}

fn gone(row: &StrokeRow) -> Vector {
    row.told.outcome.rest - row.told.from.at
}

/// Where a stroke came to rest: yards along its aim, and to the right of it.
fn seen_from_the_aim(row: &StrokeRow) -> (f64, f64) {
    let ahead = unit_or_up(row.told.shot.target - row.told.from.at);
    let gone = gone(row);
    (gone.dot(&ahead), gone.dot(&right_of(ahead)))
}

fn median(values: impl Iterator<Item = f64>) -> Option<f64> {
    quantile(values, 0.5)
}

/// The smallest of some values that at least a share of them do not exceed; None of none.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a share of a count"
)]
fn quantile(values: impl Iterator<Item = f64>, share: f64) -> Option<f64> {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    let wanted = (share * values.len() as f64).ceil().max(1.0) as usize;
    values.get(wanted - 1).copied()
}
