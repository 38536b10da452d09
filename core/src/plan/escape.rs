//! The way out of the trees: a low punch through the safest gap, worked out beforehand for every
//! place under them.

use super::Outlook;
use crate::geometry::{Point, Vector};
use crate::hole::{Hole, Surface};
use crate::player::{Bag, Lie, Touch};
use crate::shot::{Shot, Stroke, low_ball_hazard};
use crate::situation::Situation;
use rayon::prelude::*;
use std::ops::ControlFlow;

/// Side of a cell within which one way out is used, yards.
const CELL: f64 = 5.0;
/// Directions tried.
const DIRECTIONS: u16 = 36;
/// What being stopped by trees costs beyond the stroke, in strokes (common practice, no source).
const STOPPED: f64 = 1.0;

/// A grid over the stands of trees with the punch to play from each cell.
#[derive(Clone, Debug)]
pub struct Escapes {
    corner: Point,
    columns: usize,
    rows: usize,
    /// Displacement of the punch from the ball; the length is carry and run together.
    ways: Vec<Option<Vector>>,
    pin: Point,
    carry_share: f64,
    full: f64,
}

impl Escapes {
    /// Works out the ways out of every stand of trees on a hole.
    #[must_use]
    pub fn new(hole: &Hole, bag: &Bag, outlook: &Outlook) -> Self {
        let punch = bag.touch(Touch::Punch, Lie::Trees);
        let (corner, columns, rows) = cover(hole);
        let full = punch.full_carry * (1.0 + punch.run);
        let ways = (0..columns * rows)
            .into_par_iter()
            .map(|cell| {
                let at = centre(corner, columns, cell);
                (hole.surface_at(at) == Surface::Trees).then(|| safest(hole, outlook, at, full))
            })
            .collect();
        Escapes {
            corner,
            columns,
            rows,
            ways,
            pin: hole.pin(),
            carry_share: 1.0 / (1.0 + punch.run),
            full,
        }
    }

    /// The punch out of the trees from `at`.
    #[must_use]
    pub fn shot_from(&self, at: Point) -> Shot {
        let way = self.way(at).unwrap_or_else(|| {
            // Under an edge of a stand that no cell centre lies in: straight at the pin.
            let line = self.pin - at;
            line * (self.full / line.norm().max(self.full))
        });
        Shot {
            stroke: Stroke::Touch(Touch::Punch),
            target: at + way,
            carry: way.norm() * self.carry_share,
        }
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked against the grid"
    )]
    fn way(&self, at: Point) -> Option<Vector> {
        let offset = (at - self.corner) / CELL;
        let (column, row) = (offset.x.floor(), offset.y.floor());
        if !(column >= 0.0 && row >= 0.0) {
            return None;
        }
        let (column, row) = (column as usize, row as usize);
        if column >= self.columns || row >= self.rows {
            return None;
        }
        self.ways[row * self.columns + column]
    }
}

/// The grid that covers every stand of trees: its lower left corner, columns and rows.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a hole is small"
)]
fn cover(hole: &Hole) -> (Point, usize, usize) {
    let stands = hole
        .features()
        .iter()
        .filter(|f| f.surface == Surface::Trees);
    let boxes = stands.map(|f| f.outline.bounds());
    let Some((low, high)) = boxes.reduce(|a, b| (a.0.inf(&b.0), a.1.sup(&b.1))) else {
        return (Point::origin(), 0, 0);
    };
    let cells = (high - low) / CELL;
    (
        low,
        cells.x.floor() as usize + 1,
        cells.y.floor() as usize + 1,
    )
}

#[expect(clippy::cast_precision_loss, reason = "a small grid")]
fn centre(corner: Point, columns: usize, cell: usize) -> Point {
    let (column, row) = ((cell % columns) as f64, (cell / columns) as f64);
    corner + Vector::new(column + 0.5, row + 0.5) * CELL
}

/// The punch with the fewest strokes to come: the chance to get through times the worth of where it
/// finishes, with room on both sides, against being stopped.
fn safest(hole: &Hole, outlook: &Outlook, at: Point, full: f64) -> Vector {
    let stopped = outlook.strokes(
        hole,
        Situation {
            at,
            lie: Lie::Trees,
        },
    ) + STOPPED;
    let mut best = (f64::INFINITY, Vector::zeros());
    for i in 0..DIRECTIONS {
        let angle = f64::from(i) * std::f64::consts::TAU / f64::from(DIRECTIONS);
        let (sin, cos) = libm::sincos(angle);
        let along = Vector::new(sin, cos);
        for (length, through) in lengths(hole, at, along, full) {
            let finish = worth(hole, outlook, at, along * length);
            let value = through * finish + (1.0 - through) * stopped;
            if value < best.0 {
                best = (value, along * length);
            }
        }
    }
    best.1
}

/// The lengths worth trying along a direction, each with the chance that the trees let the ball
/// through that far: just clear of the trees, and in steps up to the longest punch.
fn lengths(hole: &Hole, at: Point, along: Vector, full: f64) -> impl Iterator<Item = (f64, f64)> {
    const STEPS: usize = 8;
    let mut chances = [0.0; STEPS];
    let step = full / STEPS as f64;
    let mut met = 0.0;
    let _: ControlFlow<()> = hole.walk(at, at + along * full, |piece, surface| {
        let hazard = match surface {
            Surface::Trees => low_ball_hazard(hole.canopy_of(piece.layer)) * full,
            _ => 0.0,
        };
        for (k, chance) in chances.iter_mut().enumerate() {
            let share = (k + 1) as f64 / STEPS as f64;
            if share > piece.from && share <= piece.to {
                *chance = libm::exp(-(met + hazard * (share - piece.from)));
            }
        }
        met += hazard * (piece.to - piece.from);
        ControlFlow::Continue(())
    });
    chances
        .into_iter()
        .enumerate()
        .map(move |(k, chance)| ((k + 1) as f64 * step, chance))
}

/// Mean strokes to come over where a punch may finish: as meant, and 12 % to either side and 15 %
/// short or long (common practice, no source). A finish in a penalty area or out of bounds costs two
/// strokes, to keep well away from.
fn worth(hole: &Hole, outlook: &Outlook, at: Point, way: Vector) -> f64 {
    let right = Vector::new(way.y, -way.x);
    let finishes = [
        way,
        way + right * 0.12,
        way - right * 0.12,
        way * 1.15,
        way * 0.85,
    ];
    let total: f64 = finishes
        .into_iter()
        .map(|finish| {
            let p = at + finish;
            match Lie::on(hole.surface_at(p)) {
                Some(lie) => outlook.strokes(hole, Situation { at: p, lie }),
                None => {
                    outlook.strokes(
                        hole,
                        Situation {
                            at: p,
                            lie: Lie::Rough,
                        },
                    ) + 2.0
                }
            }
        })
        .sum();
    total / 5.0
}
