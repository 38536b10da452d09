//! Stands of trees in the way of a ball.
use super::clearing::Clearing;
use crate::geometry::{Point, Vector};
use crate::hole::{Canopy, Feature, Hole, Surface};
use crate::units::yards_from_feet;
use std::ops::ControlFlow;

/// The stands of trees of a hole, prepared for flights.
///
/// The chance to get through ten yards of canopy is the openness of the stand; over a path the chances multiply. A
/// ball above the trees meets nothing; one below their lowest branches only trunks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stands {
    clearing: Clearing,
    /// Height of the tallest trees, yards.
    tallest: f64,
    /// By feature; None for all but trees.
    canopies: Vec<Option<Wood>>,
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
/// A path through trees is judged in steps of this many yards.
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
        let trees = |feature: &&Feature| feature.surface == Surface::Trees;
        let outlines = hole.features().iter().filter(trees).map(|f| &f.outline);
        let heights = canopies.iter().flatten().map(|wood| wood.height);
        Stands {
            clearing: Clearing::around(outlines),
            tallest: heights.fold(0.0, f64::max),
            canopies,
        }
    }

    /// Where trees stop a ball, if they do: where the running chance to get through falls to `luck`, a uniform on
    /// [0, 1). Hot path.
    #[inline]
    pub(crate) fn stop<H: Fn(f64) -> f64>(&self, path: &Path<'_, H>, luck: f64) -> Option<Point> {
        let patience = || -libm::log(luck.max(f64::MIN_POSITIVE));
        let (_, stopped) = self.pass(path, patience);
        stopped.map(|share| path.from + (path.to - path.from) * share)
    }

    /// The chance that trees let a ball through.
    pub(crate) fn chance<H: Fn(f64) -> f64>(&self, path: &Path<'_, H>) -> f64 {
        libm::exp(-self.pass(path, || f64::INFINITY).0)
    }

    /// What a ball meets on its way, and the share of the way at which that comes to `most`.
    ///
    /// It leaps from clearing to clearing; only where trees are near and the ball is low is the map asked what is
    /// there. A flight has no dip, so it is above trees between two places where it is.
    #[inline]
    fn pass<H: Fn(f64) -> f64>(
        &self,
        path: &Path<'_, H>,
        most: impl Fn() -> f64,
    ) -> (f64, Option<f64>) {
        let (low, high, side) = self.clearing.bounds();
        let way = path.to - path.from;
        let Some((enter, leave)) = clip(low, high, path.from, way) else {
            return (0.0, None);
        };
        let per_yard = 1.0 / way.norm();
        let margin = STEP * per_yard;
        let mut met = 0.0;
        let mut low_from = None;
        let mut at = enter;
        while at < leave {
            let clear = self.clearing.at(path.from + way * at).unwrap_or(0.0);
            let step = if clear > 0.0 { clear } else { 0.5 * side } * per_yard;
            let next = (at + step).min(leave);
            // A step more on both sides: what is judged in steps must not depend on where a part begins.
            let is_low = clear == 0.0
                && (path.above_ground(at - margin) < self.tallest
                    || path.above_ground(next + margin) < self.tallest);
            match low_from {
                None if is_low => low_from = Some(at),
                Some(from) if !is_low => {
                    let (more, stopped) = self.meet(path, (from, at), most() - met);
                    met += more;
                    if stopped.is_some() {
                        return (met, stopped);
                    }
                    low_from = None;
                }
                _ => {}
            }
            at = next;
        }
        if let Some(from) = low_from {
            let (more, stopped) = self.meet(path, (from, leave), most() - met);
            return (met + more, stopped);
        }
        (met, None)
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
            // Steps of the whole way, whatever part of it is looked at: a mirrored way is judged alike.
            let step = STEP / length;
            let mut at = from;
            while at < to {
                let middle = ((at / step).floor() + 0.5) * step;
                let next = (middle + 0.5 * step).min(to).max(at + 1e-9);
                let rate = wood.rate(path.above_ground(middle)) * length;
                if met + rate * (next - at) >= most {
                    return ControlFlow::Break(at + (most - met) / rate);
                }
                met += rate * (next - at);
                at = next;
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

/// The shares of a way that lie in a box.
#[inline]
fn clip(low: Point, high: Point, from: Point, way: Vector) -> Option<(f64, f64)> {
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let (low, high) = (low[axis] - from[axis], high[axis] - from[axis]);
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
