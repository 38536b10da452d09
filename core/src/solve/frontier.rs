//! Safety against average: what fewer blow-ups cost in strokes.
use crate::plan::Scene;
use crate::run::Run;
use crate::solve::fault::SolveFault;
use crate::solve::solution::Solution;
use crate::solve::solving::Solving;
use crate::solve::task::{Objective, Task};
use std::sync::Arc;

/// The best way to play when a blow-up costs so many strokes more.
pub struct FrontierPoint {
    /// The strategy, to be played like any other.
    pub solution: Arc<Solution>,
    /// What a blow-up was made to cost besides its strokes.
    pub price: f64,
    /// Mean strokes from the tee.
    pub mean: f64,
    /// The chance of a blow-up.
    pub blow_up: f64,
}

/// The strokes that a blow-up is made to cost at first; then prices between them are tried, where points differ.
const PRICES: [f64; 8] = [0.0, 0.5, 1.0, 2.0, 4.0, 8.0, 20.0, 100.0];
/// Neighbours that differ by no more than this in strokes and chance are alike: none is looked for between them.
const ALIKE: (f64, f64) = (0.005, 0.001);
/// Rounds of looking between them: each may halve a gap.
const ROUNDS: u32 = 4;
/// A price that differs from one tried by less than this share of it gives nothing new.
const SAME_PRICE: f64 = 0.02;
/// Differences of chance and strokes that no point is made for.
const TOO_LITTLE: f64 = 2e-5;

/// A frontier being worked out: it advances in steps, and can be left at any time.
///
/// A strategy that is best at some price of a blow-up lies on the convex edge of all that can be had, and only those are
/// found. Two neighbours are equally good at one price, that of the line through them: what is best at that price
/// lies below the line, or there is nothing below it (the search by weights of Aneja and Nair 1979, from memory). What lies
/// above the line but is beaten by no strategy on both counts is not looked for.
pub struct Fronting {
    solving: Solving,
    blow_up: u8,
    cell: f64,
    /// The points found so far, lowest mean first and each safer than the one before.
    points: Vec<FrontierPoint>,
    /// Every price tried.
    tried: Vec<f64>,
    rounds: u32,
    finished: bool,
}

impl Fronting {
    /// Checks the question; a blow-up is `blow_up` over par or worse, and `cell` is as in [`Task::cell`].
    ///
    /// # Errors
    /// A number out of range.
    pub fn new(scene: Arc<Scene>, blow_up: u8, cell: f64) -> Result<Self, SolveFault> {
        Ok(Fronting {
            solving: Solving::several(scene, tasks(&PRICES, blow_up, cell))?,
            blow_up,
            cell,
            points: Vec::new(),
            tried: PRICES.to_vec(),
            rounds: 0,
            finished: false,
        })
    }

    /// Takes over what was found, and goes on to the prices between neighbours that differ.
    fn end_round(&mut self) {
        let blow_up = self.blow_up;
        let found = self.solving.solutions();
        self.points
            .extend(found.into_iter().map(|solution| point(solution, blow_up)));
        keep_edge(&mut self.points);
        let prices = if self.rounds < ROUNDS {
            self.prices_between()
        } else {
            Vec::new()
        };
        self.finished = prices.is_empty();
        if !self.finished {
            self.rounds += 1;
            self.solving.go_on(tasks(&prices, blow_up, self.cell));
            self.tried.extend(prices);
        }
    }

    /// The prices at which neighbours that differ are equally good, but for those that were tried.
    fn prices_between(&self) -> Vec<f64> {
        let unlike = |pair: &&[FrontierPoint]| {
            pair[1].mean - pair[0].mean > ALIKE.0 || pair[0].blow_up - pair[1].blow_up > ALIKE.1
        };
        let is_new = |price: &f64| {
            let same = |tried: &f64| (tried - price).abs() <= SAME_PRICE * price;
            *price <= PRICES[PRICES.len() - 1] && !self.tried.iter().any(same)
        };
        self.points
            .windows(2)
            .filter(unlike)
            .map(|pair| price_between(&pair[0], &pair[1]))
            .filter(is_new)
            .collect()
    }

    /// The points, lowest mean first, each safer than the one before at a higher price a blow-up; empty while they are not
    /// known.
    #[must_use]
    pub fn points(self) -> Vec<FrontierPoint> {
        if self.finished {
            self.points
        } else {
            Vec::new()
        }
    }
}

impl Run for Fronting {
    /// Takes up to `count` more steps on the current thread pool.
    fn advance(&mut self, count: u64) {
        for _ in 0..count {
            if self.finished {
                break;
            }
            self.solving.advance(1);
            if self.solving.is_finished() {
                self.end_round();
            }
        }
    }

    /// Steps done so far.
    fn done(&self) -> u64 {
        self.solving.done()
    }

    /// Steps in all, as far as is known.
    fn goal(&self) -> u64 {
        self.solving.goal()
    }

    /// True when the frontier is known.
    fn is_finished(&self) -> bool {
        self.finished
    }
}

fn tasks(prices: &[f64], blow_up: u8, cell: f64) -> Vec<Task> {
    prices
        .iter()
        .map(|&price| Task {
            objective: Objective::Safe { blow_up, price },
            cell,
            ..Task::default()
        })
        .collect()
}

/// The strokes a blow-up that is avoided costs between a point and the next safer one.
fn price_between(point: &FrontierPoint, safer: &FrontierPoint) -> f64 {
    (safer.mean - point.mean) / (point.blow_up - safer.blow_up)
}

/// Sorts the points and keeps those that are best at some price: the lower convex edge, from the lowest mean to the
/// safest.
fn keep_edge(points: &mut Vec<FrontierPoint>) {
    points.sort_by(|a, b| {
        a.mean
            .total_cmp(&b.mean)
            .then(a.blow_up.total_cmp(&b.blow_up))
    });
    let mut edge: Vec<FrontierPoint> = Vec::with_capacity(points.len());
    for point in points.drain(..) {
        if edge
            .last()
            .is_some_and(|last| point.blow_up >= last.blow_up - TOO_LITTLE)
        {
            continue;
        }
        while let [.., before, last] = edge.as_slice()
            && price_between(before, last) >= price_between(last, &point)
        {
            edge.pop();
        }
        edge.push(point);
    }
    *points = edge;
}

fn point(solution: Solution, blow_up: u8) -> FrontierPoint {
    let worst_kept = solution.scene().hole().par() + blow_up - 1;
    FrontierPoint {
        mean: solution.from_the_tee(),
        blow_up: 1.0 - solution.within(worst_kept),
        price: match solution.task().objective {
            Objective::Safe { price, .. } => price,
            Objective::Fewest | Objective::AtMost(_) => 0.0,
        },
        solution: Arc::new(solution),
    }
}
