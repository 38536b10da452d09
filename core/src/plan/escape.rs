//! The way out of the trees: a low punch through the safest gap.

use super::Scene;
use crate::figures::choice::{ASTRAY_UNDER_TREES, CAUTION_OF_WATER, CAUTION_UNDER_TREES};
use crate::geometry::{Point, Vector, right_of};
use crate::hole::{Hole, Surface};
use crate::noise::{self, Noise};
use crate::player::{Lie, Touch};
use crate::shot::{Shot, Stroke};
use crate::situation::Situation;
use std::sync::OnceLock;

/// Side of a cell within which one way out is used, yards.
const CELL: f64 = 5.0;
/// Directions tried.
const DIRECTIONS: u16 = 30;
/// Lengths tried in each.
const LENGTHS: u16 = 6;
/// Ways that are played out before one is chosen, and the luck over which each is.
const PLAYED_OUT: usize = 8;
const LUCK: u32 = 16;

/// A grid over the stands of trees with the punch to play from each cell, worked out when a ball first lies there.
///
/// What is worked out for a cell depends on nothing but the cell, so it does not matter who asks first.
#[derive(Clone, Debug)]
pub struct Escapes {
    corner: Point,
    columns: usize,
    rows: usize,
    /// Displacement of the punch from the ball; the length is carry and run together.
    ways: Vec<OnceLock<Vector>>,
    luck: Vec<Noise>,
}

impl Escapes {
    /// Lays the grid over every stand of trees of a hole.
    #[must_use]
    pub fn new(hole: &Hole) -> Self {
        let (corner, columns, rows) = cover(hole);
        Escapes {
            corner,
            columns,
            rows,
            ways: vec![OnceLock::new(); columns * rows],
            luck: noise::spread(LUCK),
        }
    }

    /// The punch out of the trees from `at`.
    #[must_use]
    pub fn shot_from(&self, scene: &Scene, at: Point) -> Shot {
        let way = match self.cell(at) {
            Some(cell) => {
                let middle = centre(self.corner, self.columns, cell);
                *self.ways[cell].get_or_init(|| safest(scene, middle, &self.luck))
            }
            // Not under trees of this hole: straight at the pin.
            None => {
                let line = scene.hole().pin() - at;
                let full = longest_punch(scene);
                line * (full / line.norm().max(full))
            }
        };
        punch(scene, at, way)
    }

    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked against the grid"
    )]
    fn cell(&self, at: Point) -> Option<usize> {
        let offset = (at - self.corner) / CELL;
        let (column, row) = (offset.x.floor(), offset.y.floor());
        if !(column >= 0.0 && row >= 0.0) {
            return None;
        }
        let (column, row) = (column as usize, row as usize);
        (column < self.columns && row < self.rows).then_some(row * self.columns + column)
    }
}

/// The punch from `at` that ends `way` from there.
fn punch(scene: &Scene, at: Point, way: Vector) -> Shot {
    let setting = scene.setting();
    let meant = setting.meant_for(setting.touch(Touch::Punch), at, at + way);
    Shot {
        stroke: Stroke::Touch(Touch::Punch),
        target: meant.target,
        carry: meant.carry,
    }
}

/// Carry and run of the longest punch, yards.
fn longest_punch(scene: &Scene) -> f64 {
    let full = scene.bag().touch(Touch::Punch, Lie::Trees).full_carry;
    let distances = &scene.setting().touch(Touch::Punch).told.day;
    distances.total_for(full, 0.0)
}

/// Balls come to rest within so many yards of the line of play, however they are struck: no carry is longer. Trees farther off
/// have no cells, or two groves far apart on one map would ask for more of them than there is memory for.
const IN_PLAY: f64 = 450.0;

/// The grid that covers the stands of trees that a ball can come to: its lower left corner, columns and rows.
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
    let (near, far) = hole.line().bounds();
    let margin = Vector::new(IN_PLAY, IN_PLAY);
    let (low, high) = (low.sup(&(near - margin)), high.inf(&(far + margin)));
    if !(low.x <= high.x && low.y <= high.y) {
        return (Point::origin(), 0, 0);
    }
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

/// The punch with the fewest strokes to come and the least trouble: the likeliest few by a quick reckoning (the chance
/// to get through times the worth of where it finishes, against being stopped) are played out.
fn safest(scene: &Scene, at: Point, luck: &[Noise]) -> Vector {
    let from = Situation {
        at,
        lie: Lie::Trees,
    };
    let full = longest_punch(scene);
    let stopped = scene.outlook.strokes(scene.hole(), from) + CAUTION_UNDER_TREES;
    let mut tries = [(0.0, Vector::zeros()); (DIRECTIONS * LENGTHS) as usize];
    for (i, slot) in (0..).zip(&mut tries) {
        let angle = f64::from(i / LENGTHS) * std::f64::consts::TAU / f64::from(DIRECTIONS);
        let (sin, cos) = libm::sincos(angle);
        let length = full * f64::from(i % LENGTHS + 1) / f64::from(LENGTHS);
        let way = Vector::new(sin, cos) * length;
        *slot = (worth(scene, at, way), way);
    }
    // The trees only make a way worse than where it ends: once enough are better than that, the rest are not looked at.
    tries.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let mut likeliest = [(f64::INFINITY, Vector::zeros()); PLAYED_OUT];
    for (finish, way) in tries {
        let last = &mut likeliest[PLAYED_OUT - 1];
        if finish.min(stopped) >= last.0 {
            break;
        }
        let through = scene.chance(from, &punch(scene, at, way));
        let value = through * finish + (1.0 - through) * stopped;
        if value < last.0 {
            *last = (value, way);
            likeliest.sort_by(|a, b| a.0.total_cmp(&b.0));
        }
    }
    played_out(scene, from, &mut likeliest, luck)
}

/// The best of some ways by playing them out: all over half of the luck, the better half of them over the rest.
fn played_out(
    scene: &Scene,
    from: Situation,
    ways: &mut [(f64, Vector); PLAYED_OUT],
    luck: &[Noise],
) -> Vector {
    for (value, _) in ways.iter_mut().filter(|(value, _)| value.is_finite()) {
        *value = 0.0;
    }
    let (first, rest) = luck.split_at(luck.len() / 2);
    for (luck, left) in [(first, PLAYED_OUT), (rest, PLAYED_OUT / 2)] {
        let ways = &mut ways[..left];
        for (value, way) in ways.iter_mut().filter(|(value, _)| value.is_finite()) {
            let assessed = scene.assess(from, &punch(scene, from.at, *way), luck);
            *value += assessed.strokes + CAUTION_UNDER_TREES * assessed.trouble;
        }
        ways.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
    ways[0].1
}

/// Mean strokes to come over where a punch may finish: as meant, to either side, short and long. A finish in a penalty area or
/// out of bounds costs more than it does, to keep well away from.
fn worth(scene: &Scene, at: Point, way: Vector) -> f64 {
    let (hole, outlook) = (scene.hole(), &scene.outlook);
    let right = right_of(way);
    let (aside, deep) = ASTRAY_UNDER_TREES;
    let finishes = [
        way,
        way + right * aside,
        way - right * aside,
        way * (1.0 + deep),
        way * (1.0 - deep),
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
                    ) + CAUTION_OF_WATER
                }
            }
        })
        .sum();
    total / 5.0
}
