//! Where all shots of a swing finish, solid and mishit together: exact quantiles of the mixture, without any play.
//!
//! Where a strike finishes is asked of the kernel, so there is no second description of a pattern: for a kind of contact and
//! a luck of depth the finish to the side is normal, and what is left is a sum over the kinds and an integral over depth.
use crate::noise::Noise;

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

/// Standard deviations to which luck is followed: beyond lies less than 1e-11 of it.
const FARTHEST: f64 = 7.0;
/// Steps of the depth over that range; the trapezoid rule gains digits exponentially for a smooth integrand.
const STEPS: u32 = 140;
/// Halvings of an interval: what is left is far below any yard that matters.
const HALVINGS: u32 = 34;

/// One kind of contact: its share of all strokes, and a draw that picks it.
#[derive(Clone, Copy)]
pub(super) struct Kind {
    pub(super) share: f64,
    pub(super) pick: f64,
}

/// Where all shots finish, cut into slices of equal luck of depth.
pub(super) struct Pattern {
    kinds: Vec<(f64, Vec<Slice>)>,
}

/// Where shots of one kind of contact and one luck of depth finish.
#[derive(Clone)]
struct Slice {
    depth: f64,
    /// Share of the luck of its kind.
    weight: f64,
    /// Yards along the aim.
    along: f64,
    /// Mean and standard deviation of the yards to the right of it: what there is to the side is normal.
    middle: f64,
    sd: f64,
}

impl Pattern {
    /// Asks `end` where strikes finish, along the aim and to the right of it. The shares of the kinds add up to 1.
    ///
    /// A shot to the side makes a little less of its run along the aim (3 % of the run at 15 degrees), which is left out.
    pub(super) fn of(kinds: &[Kind], end: impl Fn(&Noise) -> (f64, f64)) -> Self {
        let step = 2.0 * FARTHEST / f64::from(STEPS);
        let weight = |depth: f64| libm::exp(-0.5 * depth * depth);
        let depths = || (0..=STEPS).map(|i| step * f64::from(i) - FARTHEST);
        let total: f64 = depths().map(weight).sum();
        let slice = |pick: f64, depth: f64| {
            let luck = |side| Noise {
                depth,
                side,
                strike: pick,
                ..Noise::NONE
            };
            let (along, middle) = end(&luck(0.0));
            let aside = |side| end(&luck(side)).1;
            Slice {
                depth,
                weight: weight(depth) / total,
                along,
                middle,
                sd: 0.5 * (aside(1.0) - aside(-1.0)),
            }
        };
        let cut = |kind: &Kind| {
            let slices = depths().map(|depth| slice(kind.pick, depth)).collect();
            (kind.share, slices)
        };
        Pattern {
            kinds: kinds
                .iter()
                .filter(|kind| kind.share > 0.0)
                .map(cut)
                .collect(),
        }
    }

    /// The last of the kinds alone.
    pub(super) fn last_alone(&self) -> Self {
        let last = self.kinds.last().map(|(_, slices)| (1.0, slices.clone()));
        Pattern {
            kinds: last.into_iter().collect(),
        }
    }

    /// Mean of where shots finish along the aim, yards.
    pub(super) fn mean(&self) -> f64 {
        let mean = |slices: &[Slice]| slices.iter().map(|s| s.weight * s.along).sum::<f64>();
        self.kinds
            .iter()
            .map(|(share, slices)| share * mean(slices))
            .sum()
    }

    /// The central `share` of where shots finish along the aim, yards from where they were struck.
    pub(super) fn along(&self, share: f64) -> Span {
        let cells = self.cells();
        let chance = |x: f64| cells.iter().map(|cell| cell.below(x)).sum();
        let farthest = cells.iter().map(|cell| cell.high).fold(0.0, f64::max);
        central(share, (-1.0, farthest + 1.0), chance)
    }

    /// The central `share` of where shots finish to the side of the aim, yards to the right.
    pub(super) fn side(&self, share: f64) -> Span {
        let slices = || {
            let weighed = |(share, slices)| std::iter::repeat(share).zip(slices);
            self.kinds
                .iter()
                .map(|(share, s)| (*share, s))
                .flat_map(weighed)
        };
        let chance = |x: f64| {
            slices()
                .map(|(share, s): (f64, &Slice)| share * s.below(x))
                .sum()
        };
        let farthest = slices().map(|(_, s)| s.farthest()).fold(0.0, f64::max) + 1.0;
        central(share, (-farthest, farthest), chance)
    }

    /// What finishes between one slice and the next: the finish along the aim is straight between them.
    fn cells(&self) -> Vec<Cell> {
        let cells = |(share, slices): &(f64, Vec<Slice>)| {
            let pairs = slices.windows(2);
            pairs
                .map(|pair| Cell::between(*share, pair))
                .collect::<Vec<_>>()
        };
        self.kinds.iter().flat_map(cells).collect()
    }
}

/// Shots from one luck of depth to another, and their finishes along the aim.
struct Cell {
    /// Share of all shots with one kind of contact.
    share: f64,
    /// The luck that finishes shortest, and that which finishes longest.
    depths: (f64, f64),
    low: f64,
    high: f64,
}

impl Cell {
    fn between(share: f64, pair: &[Slice]) -> Self {
        let (a, b) = (&pair[0], &pair[1]);
        // Now and then the last hop makes a longer carry finish shorter.
        let (short, long) = if a.along <= b.along { (a, b) } else { (b, a) };
        Cell {
            share,
            depths: (short.depth, long.depth),
            low: short.along,
            high: long.along,
        }
    }

    fn below(&self, x: f64) -> f64 {
        if x <= self.low {
            return 0.0;
        }
        let (short, long) = self.depths;
        let depth = if x < self.high {
            short + (long - short) * (x - self.low) / (self.high - self.low)
        } else {
            long
        };
        self.share * (normal_below(depth) - normal_below(short)).abs()
    }
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
