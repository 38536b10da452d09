//! Stands of trees in the way of a ball.
use crate::geometry::{Point, Vector};
use crate::hole::{Canopy, Hole, Surface};
use crate::units::yards_from_feet;
use std::ops::ControlFlow;

/// The stands of trees of a hole, prepared for flights.
///
/// The chance to get through ten yards of canopy is the openness of the stand; over a path the chances multiply. A
/// ball above the trees meets nothing; one below their lowest branches only trunks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stands {
    boxes: Vec<Stand>,
    /// By feature; None for all but trees.
    canopies: Vec<Option<Wood>>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Stand {
    low: Point,
    high: Point,
    wood: Wood,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Wood {
    /// Height of the trees, yards.
    height: f64,
    /// The rate at which the canopy stops a ball, per yard.
    per_yard: f64,
}

/// A ball below the lowest branches meets trunks: this share of what the canopy stops (common practice, no source).
const TRUNKS: f64 = 0.5;
/// The lowest branches are at this share of the height of the trees (common practice, no source).
const LOWEST_BRANCH: f64 = 0.3;
/// A path through trees is judged in steps of about this many yards.
const STEP: f64 = 4.0;
/// A stand with no opening at all is one with next to none.
const LEAST_OPENNESS: f64 = 1e-9;

impl Wood {
    fn of(canopy: Canopy) -> Self {
        Wood {
            height: yards_from_feet(canopy.height_ft),
            per_yard: -libm::log(canopy.openness.max(LEAST_OPENNESS)) / 10.0,
        }
    }

    /// The rate for a ball `height` yards above the ground.
    #[inline]
    fn rate(&self, height: f64) -> f64 {
        if height >= self.height {
            0.0
        } else if height >= LOWEST_BRANCH * self.height {
            self.per_yard
        } else {
            TRUNKS * self.per_yard
        }
    }
}

/// A flight over the plan: where from, where to, and the height along it.
pub(crate) struct Path<'a, H: Fn(f64) -> f64> {
    pub(crate) hole: &'a Hole,
    pub(crate) from: Point,
    pub(crate) to: Point,
    /// Height above the start, yards, at a share of the way.
    pub(crate) height: H,
}

impl Stands {
    pub(super) fn of(hole: &Hole) -> Self {
        let wood = |i: usize| {
            let trees = hole.features()[i].surface == Surface::Trees;
            trees.then(|| Wood::of(hole.canopy_of(u16::try_from(i).ok())))
        };
        let canopies: Vec<Option<Wood>> = (0..hole.features().len()).map(wood).collect();
        let boxes = hole.features().iter().zip(&canopies);
        let boxes = boxes.filter_map(|(feature, wood)| {
            let (low, high) = feature.outline.bounds();
            wood.map(|wood| Stand { low, high, wood })
        });
        Stands {
            boxes: boxes.collect(),
            canopies,
        }
    }

    /// Where trees stop a ball, if they do: where the running chance to get through falls to `luck`, a uniform on
    /// [0, 1). Hot path.
    #[inline]
    pub(crate) fn stop<H: Fn(f64) -> f64>(&self, path: &Path<'_, H>, luck: f64) -> Option<Point> {
        let span = self.span(path)?;
        let patience = -libm::log(luck.max(f64::MIN_POSITIVE));
        let (_, stopped) = self.meet(path, span, patience);
        stopped.map(|share| path.from + (path.to - path.from) * share)
    }

    /// The chance that trees let a ball through.
    pub(crate) fn chance<H: Fn(f64) -> f64>(&self, path: &Path<'_, H>) -> f64 {
        match self.span(path) {
            None => 1.0,
            Some(span) => libm::exp(-self.meet(path, span, f64::INFINITY).0),
        }
    }

    /// The shares of the way between which the ball may be among trees. A flight has no dip, so it is above a stand
    /// where it is above it at both ends.
    #[inline]
    fn span<H: Fn(f64) -> f64>(&self, path: &Path<'_, H>) -> Option<(f64, f64)> {
        let way = path.to - path.from;
        let mut span: Option<(f64, f64)> = None;
        for stand in &self.boxes {
            let Some((enter, leave)) = clip(stand, path.from, way) else {
                continue;
            };
            let above = |share: f64| path.above_ground(share) >= stand.wood.height;
            if above(enter) && above(leave) {
                continue;
            }
            let (first, last) = span.unwrap_or((enter, leave));
            span = Some((first.min(enter), last.max(leave)));
        }
        span
    }

    /// What a ball meets over a part of its way, and the share of the way at which that comes to `most`.
    fn meet<H: Fn(f64) -> f64>(
        &self,
        path: &Path<'_, H>,
        (enter, leave): (f64, f64),
        most: f64,
    ) -> (f64, Option<f64>) {
        let way = path.to - path.from;
        let (start, end) = (path.from + way * enter, path.from + way * leave);
        let length = way.norm();
        let mut met = 0.0;
        let stopped = path.hole.walk(start, end, |piece, _| {
            let Some(wood) = piece.layer.and_then(|f| self.canopies[usize::from(f)]) else {
                return ControlFlow::Continue(());
            };
            let share = |of_part: f64| enter + (leave - enter) * of_part;
            let (from, to) = (share(piece.from), share(piece.to));
            let yards = (to - from) * length;
            let steps = (yards / STEP).ceil().clamp(1.0, 100.0);
            let step = (to - from) / steps;
            let mut at = from;
            while at < to - 0.5 * step {
                let rate = wood.rate(path.above_ground(at + 0.5 * step)) * length;
                if met + rate * step >= most {
                    return ControlFlow::Break(at + (most - met) / rate);
                }
                met += rate * step;
                at += step;
            }
            ControlFlow::Continue(())
        });
        (met, stopped.break_value())
    }
}

impl<H: Fn(f64) -> f64> Path<'_, H> {
    /// Height above the ground at a share of the way.
    #[inline]
    fn above_ground(&self, share: f64) -> f64 {
        let terrain = self.hole.terrain();
        let height = (self.height)(share);
        if terrain.is_flat() {
            return height;
        }
        let at = self.from + (self.to - self.from) * share;
        height + terrain.height(self.from) - terrain.height(at)
    }
}

/// The shares of a way that lie in the box of a stand.
#[inline]
fn clip(stand: &Stand, from: Point, way: Vector) -> Option<(f64, f64)> {
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let (low, high) = (stand.low[axis] - from[axis], stand.high[axis] - from[axis]);
        if way[axis] == 0.0 {
            if low > 0.0 || high < 0.0 {
                return None;
            }
            continue;
        }
        let over = 1.0 / way[axis];
        let (a, b) = (low * over, high * over);
        enter = enter.max(a.min(b));
        leave = leave.min(a.max(b));
    }
    (leave > enter).then_some((enter, leave))
}
