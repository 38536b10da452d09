//! A quick reckoning of the strokes still to come, for choosing a drop, a landing place or a way out.
//!
//! It is a ruler, not a result: no number a user sees comes from it. It is the player's own: what the player needs from a
//! distance and a lie on open ground, with a fairway and an ordinary green, worked out once from the pin outward by playing
//! the player's own strokes over some luck. What lies on the hole is for whoever asks to see.

use super::Reach;
use crate::figures::choice::{
    FIRST_CUT, HALF_APRON, HALF_FAIRWAY, HALF_GREEN, LEFT_AFTER_WAY_OUT, OUT_ON_FAIRWAY, WAY_OUT,
};
use crate::geometry::Vector;
use crate::hole::Hole;
use crate::noise::{self, Noise};
use crate::player::{Lie, Putting, Swing, Touch};
use crate::putting::{self, Green};
use crate::setting::{Distances, Setting};
use crate::situation::Situation;

/// Strokes expected from distance and lie.
#[derive(Clone, Debug)]
pub struct Outlook {
    /// Mean putts from 0, 1, 2, ... yards.
    putts: Vec<f64>,
    /// Mean strokes from the fairway, rough, deep rough and sand at every step of distance.
    strokes: [Vec<f64>; 4],
}

/// The longest putt that is tabulated, yards.
const LONGEST_PUTT: u16 = 60;

/// The lies that are told apart off the green.
const LIES: [Lie; 4] = [Lie::Fairway, Lie::Rough, Lie::DeepRough, Lie::Bunker];

/// Distances at which strokes are worked out: every `NEAR` yards up to `NEAR_STEPS` of them, then every `FAR` yards.
const NEAR: f64 = 4.0;
const NEAR_STEPS: u16 = 20;
const FAR: f64 = 20.0;
const STEPS: u16 = 60;

/// Strokes of luck that are averaged, and how often the whole table is worked out again: each value hangs on others.
const LUCK: u32 = 32;
const SWEEPS: usize = 2;

impl Outlook {
    /// Works the table out for a player on a day, on greens like `green`.
    #[must_use]
    pub fn new(setting: &Setting, reach: &Reach, green: &Green) -> Self {
        let mut outlook = Outlook {
            putts: mean_putts(setting.bag().putting(), green),
            strokes: std::array::from_fn(|_| vec![0.0; usize::from(STEPS)]),
        };
        let luck = noise::spread(LUCK);
        let forward = setting.hole().line().direction(0.0);
        for step in 0..STEPS {
            let distance = distance_at(step);
            for table in &mut outlook.strokes {
                // Something to begin with: a stroke more than a little nearer.
                let nearer = table[usize::from(step.saturating_sub(1))];
                table[usize::from(step)] = nearer.max(2.0);
            }
            for _ in 0..SWEEPS {
                for (row, lie) in LIES.into_iter().enumerate() {
                    let strokes = ways(setting, reach, lie, forward, distance)
                        .map(|way| outlook.after(&way, distance, &luck))
                        .fold(f64::INFINITY, f64::min);
                    outlook.strokes[row][usize::from(step)] = 1.0 + strokes;
                }
            }
        }
        outlook
    }

    /// Strokes to hole out from a situation.
    #[must_use]
    pub fn strokes(&self, hole: &Hole, from: Situation) -> f64 {
        self.from(from.to_pin(hole), from.lie)
    }

    /// Strokes to hole out from so many yards and a lie.
    #[must_use]
    fn from(&self, distance: f64, lie: Lie) -> f64 {
        let row = |row: usize| self.read(row, distance);
        match lie {
            Lie::Green => self.putts(distance),
            Lie::Tee | Lie::Fairway | Lie::Fringe => row(0),
            Lie::FirstCut => FIRST_CUT.0 * row(0) + FIRST_CUT.1 * row(1),
            Lie::Rough => row(1),
            Lie::DeepRough => row(2),
            Lie::Bunker => row(3),
            Lie::Trees => {
                let out = (distance - WAY_OUT).max(LEFT_AFTER_WAY_OUT * distance);
                1.0 + OUT_ON_FAIRWAY * self.read(0, out)
                    + (1.0 - OUT_ON_FAIRWAY) * self.read(1, out)
            }
        }
    }

    /// Mean putts from `distance` yards on the green.
    #[must_use]
    pub fn putts(&self, distance: f64) -> f64 {
        lookup(&self.putts, distance)
    }

    fn read(&self, row: usize, distance: f64) -> f64 {
        let near = NEAR * f64::from(NEAR_STEPS);
        let at = if distance < near {
            distance / NEAR
        } else {
            f64::from(NEAR_STEPS) + (distance - near) / FAR
        };
        lookup(&self.strokes[row], at)
    }

    /// Mean strokes to come after a stroke from `distance` yards on open ground.
    fn after(&self, way: &Way<'_>, distance: f64, luck: &[Noise]) -> f64 {
        let sum: f64 = luck
            .iter()
            .map(|noise| {
                let strike = way.swing.strike(way.carry, noise);
                let total = way.distances.total_for(strike.carry, way.along);
                let total = if strike.mishit {
                    strike.carry + strike.run
                } else {
                    total
                };
                let (short, aside) = (distance - total, strike.lateral);
                let left = Vector::new(short, aside).norm();
                let mown = aside.abs() < HALF_FAIRWAY && short > -HALF_APRON;
                match left {
                    l if l < HALF_GREEN => self.putts(l),
                    l if mown || l < HALF_APRON => self.from(l, Lie::Fairway),
                    l => self.from(l, Lie::Rough),
                }
            })
            .sum();
        sum / f64::from(LUCK)
    }
}

fn distance_at(step: u16) -> f64 {
    match step.checked_sub(NEAR_STEPS) {
        None => NEAR * f64::from(step),
        Some(far) => NEAR * f64::from(NEAR_STEPS) + FAR * f64::from(far),
    }
}

/// A stroke that may be played on open ground.
struct Way<'a> {
    swing: &'a Swing,
    distances: &'a Distances,
    along: f64,
    carry: f64,
}

/// The strokes worth a thought at a pin some yards away: around the green those that suit the lie, from farther off the
/// clubs that get there and the longest three.
fn ways<'a>(
    setting: &'a Setting,
    reach: &'a Reach,
    lie: Lie,
    forward: Vector,
    distance: f64,
) -> impl Iterator<Item = Way<'a>> {
    let bag = setting.bag();
    let way = move |swing: &'a Swing, distances: &'a Distances| {
        let along = distances.along(forward);
        let carry = distances.carry_for(distance, along).min(swing.full_carry);
        Way {
            swing,
            distances,
            along,
            carry,
        }
    };
    let touches = [Touch::Chip, Touch::Pitch, Touch::BunkerShot].into_iter();
    let touches = touches
        .filter(move |touch| touch.suits(lie))
        .filter_map(move |touch| {
            let swing = bag.touch(touch, lie);
            let distances = &setting.touch(touch).green.day;
            let covers =
                distances.total_for(swing.full_carry, distances.along(forward)) >= distance;
            covers.then(|| way(swing, distances))
        });
    let is_swing = distance >= reach.least(lie, forward);
    let count = if is_swing { 3 } else { 0 };
    let near = reach.clubs_near(distance, lie, forward, count);
    let swings = near.map(move |club| {
        let prepared = setting.club(club);
        let planned = if distance > 250.0 {
            &prepared.told
        } else {
            &prepared.green
        };
        way(bag.swing(club, lie), &planned.day)
    });
    touches.chain(swings)
}

/// Mean putts from every whole yard, by averaging the player's own putts over an even spread of
/// luck; a miss is followed by what is left from where it stopped.
fn mean_putts(skill: &Putting, green: &Green) -> Vec<f64> {
    let luck = noise::spread(128);
    let mut table: Vec<f64> = (0..=LONGEST_PUTT)
        .map(|yards| 1.0 + f64::from(yards.min(9)) / 9.0)
        .collect();
    // What is left is mostly shorter than what was putted: a few sweeps settle the table.
    for _ in 0..4 {
        for yards in 0..=LONGEST_PUTT {
            table[usize::from(yards)] =
                1.0 + mean_left(skill, green, f64::from(yards), &luck, &table);
        }
    }
    table
}

fn mean_left(skill: &Putting, green: &Green, distance: f64, luck: &[Noise], table: &[f64]) -> f64 {
    let left: f64 = luck
        .iter()
        .map(|noise| putting::stroke(skill, green, Vector::new(0.0, distance), noise))
        .filter(|rolled| !rolled.holed)
        .map(|rolled| lookup(table, Vector::new(rolled.past, rolled.right).norm()))
        .sum();
    #[expect(clippy::cast_precision_loss, reason = "a small count")]
    let n = luck.len() as f64;
    left / n
}

/// The table's value at `at` steps, interpolated; the last value beyond its end.
fn lookup(table: &[f64], at: f64) -> f64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a distance is not negative"
    )]
    let below = at as u32;
    let first = below as usize;
    match table.get(first..first + 2) {
        Some(pair) => pair[0] + (pair[1] - pair[0]) * (at - f64::from(below)),
        None => table.last().copied().unwrap_or(2.0),
    }
}
