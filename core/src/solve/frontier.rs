//! Safety against average: what fewer blow-ups cost in strokes.
use super::fault::SolveFault;
use super::solution::Solution;
use super::solving::Solving;
use super::task::{Objective, Task};
use crate::plan::Scene;
use std::sync::Arc;

/// A way to play that no other one beats both on average and in safety.
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

/// The strokes that a blow-up is made to cost, point by point.
const PRICES: [f64; 8] = [0.0, 0.5, 1.0, 2.0, 4.0, 8.0, 20.0, 100.0];
/// Differences of chance and strokes that no point is made for.
const TOO_LITTLE: f64 = 2e-5;

/// A frontier being worked out: it advances in steps, and can be left at any time.
pub struct Fronting {
    solving: Solving,
    blow_up: u8,
}

impl Fronting {
    /// Checks the question; a blow-up is `blow_up` over par or worse, and `cell` is as in [`Task::cell`].
    ///
    /// # Errors
    /// A number out of range.
    pub fn new(scene: Arc<Scene>, blow_up: u8, cell: f64) -> Result<Self, SolveFault> {
        let tasks = PRICES
            .into_iter()
            .map(|price| Objective::Safe { blow_up, price })
            .map(|objective| Task {
                objective,
                cell,
                ..Task::default()
            })
            .collect();
        Ok(Fronting {
            solving: Solving::several(scene, tasks)?,
            blow_up,
        })
    }

    /// Steps done so far.
    #[must_use]
    pub fn done(&self) -> u64 {
        self.solving.done()
    }

    /// Steps in all, as far as is known.
    #[must_use]
    pub fn goal(&self) -> u64 {
        self.solving.goal()
    }

    /// True when the frontier is known.
    #[must_use]
    pub fn is_finished(&self) -> bool {
        self.solving.is_finished()
    }

    /// Takes up to `count` more steps on the current thread pool.
    pub fn advance(&mut self, count: u64) {
        self.solving.advance(count);
    }

    /// The points, lowest mean first and each safer than the one before; empty while they are not known. A strategy
    /// that another one beats both on average and in safety is left out.
    #[must_use]
    pub fn points(self) -> Vec<FrontierPoint> {
        let blow_up = self.blow_up;
        let mut points: Vec<FrontierPoint> = self
            .solving
            .solutions()
            .into_iter()
            .map(|solution| point(solution, blow_up))
            .collect();
        points.sort_by(|a, b| {
            a.mean
                .total_cmp(&b.mean)
                .then(a.blow_up.total_cmp(&b.blow_up))
        });
        let mut safest = f64::INFINITY;
        points.retain(|point| {
            let safer = point.blow_up < safest - TOO_LITTLE;
            if safer {
                safest = point.blow_up;
            }
            safer
        });
        points
    }
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
