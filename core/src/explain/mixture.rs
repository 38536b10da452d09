//! Where all shots of a swing finish, solid and mishit together: exact quantiles of the mixture, without any play.
//!
//! Everything is read off [`Swing::strike`], so there is no second description of a pattern: for a given kind of contact
//! and luck of depth the lateral is normal, and what is left is a sum over the kinds and an integral over the depth.
use crate::noise::Noise;
use crate::player::Swing;

/// From where to where.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// The lower end (the shorter, or the farther left), yards.
    pub low: f64,
    /// The upper end, yards.
    pub high: f64,
}

impl Span {
    /// From end to end, yards.
    #[must_use]
    pub fn size(&self) -> f64 {
        self.high - self.low
    }

    /// Half way between the ends, yards.
    #[must_use]
    pub fn middle(&self) -> f64 {
        0.5 * (self.low + self.high)
    }
}

/// Standard deviations to which luck is followed: beyond lies less than 1e-15 of it.
const FARTHEST: f64 = 8.0;
/// Steps of the depth over that range; the trapezoid rule gains digits exponentially for a smooth integrand.
const STEPS: u32 = 320;
/// Halvings of an interval: what is left is below any yard that matters and above rounding.
const HALVINGS: u32 = 52;

/// One kind of contact: its share of all strokes, and a draw that picks it.
struct Kind {
    share: f64,
    pick: f64,
}

/// A swing meant to carry so many yards on a level fairway of medium firmness in still air.
///
/// A shot finishes `carry + run` yards on along its aim, and as far to the side as its direction takes it, run
/// included. (A ball on its way at an angle makes a little less of its run along the aim: 3 % of the run at 15 degrees.)
pub(super) struct Pattern<'a> {
    swing: &'a Swing,
    carry: f64,
    kinds: Vec<Kind>,
}

impl<'a> Pattern<'a> {
    /// Solid strikes and mishits.
    pub(super) fn all(swing: &'a Swing, carry: f64) -> Self {
        let (duff, thin) = (swing.duff.share, swing.thin.share);
        let kinds = [
            (duff, 0.5 * duff),
            (thin, duff + 0.5 * thin),
            (1.0 - duff - thin, Noise::NONE.strike),
        ];
        Pattern {
            swing,
            carry,
            kinds: kinds
                .into_iter()
                .filter(|&(share, _)| share > 0.0)
                .map(|(share, pick)| Kind { share, pick })
                .collect(),
        }
    }

    /// Solid strikes alone.
    pub(super) fn solid(swing: &'a Swing, carry: f64) -> Self {
        Pattern {
            swing,
            carry,
            kinds: vec![Kind {
                share: 1.0,
                pick: Noise::NONE.strike,
            }],
        }
    }

    /// The central `share` of where shots finish along the aim, yards from where they were struck.
    pub(super) fn along(&self, share: f64) -> Span {
        let end = |pick: f64, depth: f64| self.end(pick, depth, 0.0).0;
        let chance = |x: f64| {
            let below = |kind: &Kind| {
                // The finish grows with the depth: up to where is it short of x?
                let depth = bisect((-FARTHEST, FARTHEST), |depth| end(kind.pick, depth) > x);
                kind.share * normal_below(depth)
            };
            self.kinds.iter().map(below).sum()
        };
        let ends = |depth: f64| self.kinds.iter().map(move |kind| end(kind.pick, depth));
        let range = (
            ends(-FARTHEST).fold(f64::INFINITY, f64::min) - 1.0,
            ends(FARTHEST).fold(f64::NEG_INFINITY, f64::max) + 1.0,
        );
        central(share, range, chance)
    }

    /// The central `share` of where shots finish to the side of the aim, yards to the right.
    pub(super) fn side(&self, share: f64) -> Span {
        let slices = self.slices();
        let chance = |x: f64| slices.iter().map(|slice| slice.below(x)).sum();
        let farthest = slices.iter().map(Slice::farthest).fold(0.0, f64::max) + 1.0;
        central(share, (-farthest, farthest), chance)
    }

    /// Where a strike finishes: along the aim and to the right of it.
    fn end(&self, pick: f64, depth: f64, side: f64) -> (f64, f64) {
        let noise = Noise {
            depth,
            side,
            strike: pick,
            ..Noise::NONE
        };
        let strike = self.swing.strike(self.carry, &noise);
        let along = strike.carry + strike.run;
        (along, strike.lateral * along / strike.carry)
    }

    /// The lateral cut into slices of equal depth.
    fn slices(&self) -> Vec<Slice> {
        let step = 2.0 * FARTHEST / f64::from(STEPS);
        let weight = |depth: f64| libm::exp(-0.5 * depth * depth);
        let depths = || (0..=STEPS).map(|i| step * f64::from(i) - FARTHEST);
        let total: f64 = depths().map(weight).sum();
        let slice = |kind: &Kind, depth: f64| {
            let middle = self.end(kind.pick, depth, 0.0).1;
            Slice {
                weight: kind.share * weight(depth) / total,
                middle,
                sd: self.end(kind.pick, depth, 1.0).1 - middle,
            }
        };
        let cut = |kind| depths().map(move |depth| slice(kind, depth));
        self.kinds.iter().flat_map(cut).collect()
    }
}

/// The normal law of the lateral for one kind of contact and one depth.
struct Slice {
    weight: f64,
    middle: f64,
    sd: f64,
}

impl Slice {
    fn below(&self, x: f64) -> f64 {
        // Without any spread the law is a step.
        self.weight * normal_below((x - self.middle) / self.sd.max(1e-12))
    }

    fn farthest(&self) -> f64 {
        self.middle.abs() + FARTHEST * self.sd
    }
}

/// The central `share` of a distribution within `range` whose chance of a value up to x is `chance(x)`.
fn central(share: f64, range: (f64, f64), chance: impl Fn(f64) -> f64) -> Span {
    let tail = 0.5 * (1.0 - share);
    let at = |p: f64| bisect(range, |x| chance(x) > p);
    Span {
        low: at(tail),
        high: at(1.0 - tail),
    }
}

/// Where `beyond`, false below and true above, begins.
fn bisect((mut low, mut high): (f64, f64), beyond: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if beyond(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    0.5 * (low + high)
}

/// The chance that a standard normal is below `x`.
fn normal_below(x: f64) -> f64 {
    0.5 * libm::erfc(-x * std::f64::consts::FRAC_1_SQRT_2)
}
