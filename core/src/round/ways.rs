//! A few ways to play each hole of a course, solved.
use super::{Field, RoundFault};
use crate::figures::round::{SAFE_FROM, SAFE_PRICE};
use crate::hole::Hole;
use crate::run::Run;
use crate::solve::{Objective, Solution, Solving, Task};
use rayon::prelude::*;
use std::sync::Arc;

/// A way to play a hole whose scores a round is put together of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum HoleWay {
    /// Fewest strokes on average.
    Fewest,
    /// The best chance of one under par or better.
    Birdie,
    /// The best chance of par or better.
    Par,
    /// The best chance of one over par or better.
    Bogey,
    /// The best chance of two over par or better.
    Double,
    /// Fewest strokes where three over par or worse costs a stroke more.
    Safe,
}

impl HoleWay {
    /// Every way, in the order of the discriminants.
    pub const ALL: [HoleWay; 6] = [
        HoleWay::Fewest,
        HoleWay::Birdie,
        HoleWay::Par,
        HoleWay::Bogey,
        HoleWay::Double,
        HoleWay::Safe,
    ];

    /// The name used in tables and sentences.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            HoleWay::Fewest => "fewest strokes",
            HoleWay::Birdie => "birdie first",
            HoleWay::Par => "par first",
            HoleWay::Bogey => "bogey first",
            HoleWay::Double => "double bogey first",
            HoleWay::Safe => "safe",
        }
    }

    /// What it is to be best at on a hole.
    #[must_use]
    pub fn objective(self, hole: &Hole) -> Objective {
        let par = hole.par();
        match self {
            HoleWay::Fewest => Objective::Fewest,
            HoleWay::Birdie => Objective::AtMost(par - 1),
            HoleWay::Par => Objective::AtMost(par),
            HoleWay::Bogey => Objective::AtMost(par + 1),
            HoleWay::Double => Objective::AtMost(par + 2),
            HoleWay::Safe => Objective::Safe {
                blow_up: SAFE_FROM,
                price: SAFE_PRICE,
            },
        }
    }
}

/// Every way to play every hole, solved: by hole in the order of play, and in each by [`HoleWay::ALL`].
#[derive(Clone)]
pub struct CourseWays {
    field: Field,
    cell: f64,
    solutions: Vec<Vec<Arc<Solution>>>,
}

impl CourseWays {
    /// The player on the course.
    #[must_use]
    pub fn field(&self) -> &Field {
        &self.field
    }

    /// Yards between the places that were solved, as in [`Task::cell`].
    #[must_use]
    pub fn cell(&self) -> f64 {
        self.cell
    }

    /// The solution of a way on the hole at a place.
    #[must_use]
    pub fn solution(&self, place: usize, way: HoleWay) -> &Arc<Solution> {
        &self.solutions[place][way as usize]
    }
}

/// The holes of a course being solved: it advances in steps, and can be left at any time.
///
/// All ways of a hole share one search: they differ in what is made of the shots that were looked at.
pub struct SolvingWays {
    field: Field,
    cell: f64,
    holes: Vec<Solving>,
}

impl SolvingWays {
    /// Checks the question and lays the places; nothing has been solved yet.
    ///
    /// # Errors
    /// A cell out of range.
    pub fn new(field: Field, cell: f64) -> Result<Self, RoundFault> {
        let holes = field
            .scenes()
            .par_iter()
            .map(|scene| {
                let task = |way: HoleWay| Task {
                    objective: way.objective(scene.hole()),
                    cell,
                    thorough: false,
                };
                Solving::several_nearby(scene.clone(), HoleWay::ALL.map(task).to_vec())
            })
            .collect::<Result<Vec<_>, _>>()?;
        Ok(SolvingWays { field, cell, holes })
    }

    /// The ways; None while they are not solved.
    #[must_use]
    pub fn ways(mut self) -> Option<CourseWays> {
        if !self.is_finished() {
            return None;
        }
        let solutions = |solving: &mut Solving| -> Vec<Arc<Solution>> {
            solving.solutions().into_iter().map(Arc::new).collect()
        };
        Some(CourseWays {
            solutions: self.holes.iter_mut().map(solutions).collect(),
            field: self.field,
            cell: self.cell,
        })
    }
}

impl Run for SolvingWays {
    /// Takes up to `count` more steps on every hole, on the current thread pool.
    fn advance(&mut self, count: u64) {
        self.holes
            .par_iter_mut()
            .with_max_len(1)
            .for_each(|hole| hole.advance(count));
    }

    /// Steps done so far.
    fn done(&self) -> u64 {
        self.holes.iter().map(Solving::done).sum()
    }

    /// Steps in all, as far as is known.
    fn goal(&self) -> u64 {
        self.holes.iter().map(Solving::goal).sum()
    }

    /// True when every hole is solved.
    fn is_finished(&self) -> bool {
        self.holes.iter().all(Solving::is_finished)
    }
}
