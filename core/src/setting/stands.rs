//! Stands of trees in the way of a ball.
use super::clearing::Clearing;
use crate::figures::trees::{LOWEST_BRANCH, OPENNESS_OVER, TRUNKS};
use crate::geometry::Point;
use crate::hole::{Canopy, Feature, Hole, Surface};
use crate::units::yards_from_feet;
use std::ops::ControlFlow;

/// The stands of trees of a hole, prepared for flights.
///
/// Trees stand where they are drawn, whatever the ground under them is. The chance to get through ten yards of canopy is
/// the openness of the stand; over a path the chances multiply. A ball above the trees meets nothing; one below their
/// lowest branches only trunks.
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

/// A path through trees is judged in steps of this many yards.
const STEP: f64 = 4.0;
/// A stand with no opening at all is one with next to none.
const LEAST_OPENNESS: f64 = 1e-9;

impl Wood {
    fn of(canopy: Canopy) -> Self {
        Wood {
            height: yards_from_feet(canopy.height_ft),
            per_yard: -libm::log(canopy.openness.max(LEAST_OPENNESS)) / OPENNESS_OVER,
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

    /// True on a hole without trees.
    #[must_use]
    pub fn are_none(&self) -> bool {
        self.tallest == 0.0
    }

    /// True if no trees are on the straight way between two places, nor close to it. Hot path.
    #[inline]
    pub(crate) fn are_off(&self, from: Point, to: Point) -> bool {
        let Some(crossing) = self.clearing.crossing(from, to - from) else {
            return true;
        };
        let mut at = crossing.enter;
        while at < crossing.leave {
            let (clear, on) = crossing.clear(at);
            if !clear {
                return false;
            }
            at += on;
        }
        true
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
    /// It leaps from clearing to clearing, and over level ground from where it has risen above the tallest trees to where
    /// it sinks below them: a flight has no dip. What is there is asked of the map only where trees may be near and the
    /// ball is low.
    #[inline]
    fn pass<H: Fn(f64) -> f64>(
        &self,
        path: &Path<'_, H>,
        most: impl Fn() -> f64,
    ) -> (f64, Option<f64>) {
        let way = path.to - path.from;
        let Some(crossing) = self.clearing.crossing(path.from, way) else {
            return (0.0, None);
        };
        let margin = STEP / way.norm();
        let level = path.hole.terrain().is_flat();
        let mut high = None;
        let mut met = 0.0;
        let mut low_from = None;
        let mut at = crossing.enter;
        while at < crossing.leave {
            let (clear, on) = crossing.clear(at);
            let mut next = at + on;
            // A step more on both sides: what is judged in steps must not depend on where a part begins.
            let is_low = !clear
                && if level {
                    let (from, to) = *high.get_or_insert_with(|| path.above(self.tallest));
                    let (from, to) = (from + margin, to - margin);
                    let is_high = from <= at && at < to;
                    if is_high {
                        next = to;
                    } else if at < from && from < to {
                        next = next.min(from);
                    }
                    !is_high
                } else {
                    next = at + crossing.look();
                    path.above_ground(at - margin) < self.tallest
                        || path.above_ground(next + margin) < self.tallest
                };
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
            let (more, stopped) = self.meet(path, (from, crossing.leave), most() - met);
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
        let stopped = path.hole.walk_trees(start, end, |piece, trees| {
            let Some(wood) = trees.and_then(|f| self.canopies[usize::from(f)]) else {
                return ControlFlow::Continue(());
            };
            let share = |of_part: f64| enter + (leave - enter) * of_part;
            let (from, to) = (share(piece.from), share(piece.to));
            // Steps of the whole way, whatever part of it is looked at: a mirrored way is judged alike.
            let step = STEP / length;
            let mut at = from;
            while at < to {
                // Cut to a whole number by a conversion: to round down is a call on many processors.
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "a count of steps"
                )]
                let middle = (f64::from((at / step) as u32) + 0.5) * step;
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

/// About where a flight is highest, and how often the places are looked for at which it passes the tallest trees.
const MIDDLE: f64 = 0.57;
const LOOKS: usize = 3;
/// Nowhere on a way.
const NOWHERE: (f64, f64) = (f64::INFINITY, f64::NEG_INFINITY);

impl<H: Fn(f64) -> f64> Path<'_, H> {
    /// Shares of the way between which a ball over level ground is nowhere lower than `top`: not quite all there are.
    #[inline]
    fn above(&self, top: f64) -> (f64, f64) {
        let most = (self.height)(MIDDLE);
        if !(most > top) {
            return NOWHERE;
        }
        // Where a parabola would pass it, then straight between what is too low and what is high enough.
        let guess = (1.0 - top / most).sqrt();
        let passes = |end: f64| {
            let (mut low, mut high) = ((end, 0.0), (MIDDLE, most));
            let mut at = MIDDLE + (end - MIDDLE) * guess;
            for _ in 0..LOOKS {
                let height = (self.height)(at);
                if height >= top {
                    high = (at, height);
                } else {
                    low = (at, height);
                }
                at = high.0 + (low.0 - high.0) * (high.1 - top) / (high.1 - low.1);
            }
            high.0
        };
        (passes(0.0), passes(1.0))
    }

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
