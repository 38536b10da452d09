//! What a shot from somewhere comes to over an even set of luck, and what a stroke gained by being chosen.
use crate::noise::{Noise, spread};
use crate::plan::Strategy;
use crate::rules::Procedure;
use crate::shot::{Addressed, Next, Shot};
use crate::situation::Situation;
use crate::solve::solution::Solution;

/// Strokes of luck by which a shot is valued.
const LUCK: u32 = 2_048;

/// What a stroke gained, by its choice and by how it was played: both add up to all that it gained.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Split {
    /// What the shot gained on the best there is, before it was played. Less than 0 where another was better.
    pub choice: f64,
    /// What came of it against what was to be expected of that shot.
    pub execution: f64,
    /// How far luck alone takes the execution of such a shot: a standard deviation, strokes.
    pub luck: f64,
}

/// What a shot comes to: strokes to hole out on average, and their standard deviation over the luck of the shot.
pub(crate) struct Valuation {
    pub(crate) strokes: f64,
    pub(crate) deviation: f64,
}

impl Valuation {
    pub(crate) fn of(solution: &Solution, from: Situation, shot: &Shot) -> Self {
        let shot = solution.scene().address(from, shot);
        let after = |noise: &Noise| after(solution, from, &shot, noise);
        let all: Vec<f64> = spread(LUCK).iter().map(after).collect();
        let n = f64::from(LUCK);
        let mean = all.iter().sum::<f64>() / n;
        let squares: f64 = all.iter().map(|v| (v - mean) * (v - mean)).sum();
        Valuation {
            strokes: 1.0 + mean,
            deviation: (squares / (n - 1.0)).sqrt(),
        }
    }
}

impl Solution {
    /// Splits what a stroke `gained` into the choice of its shot and the execution. Shot and best shot are valued over the
    /// same luck, so that the best gains nothing by its choice.
    #[must_use]
    pub fn split(&self, from: Situation, shot: &Shot, gained: f64) -> Split {
        let best = self.choose(self.scene(), from, 0);
        let told = Valuation::of(self, from, shot);
        let choice = if best == *shot {
            0.0
        } else {
            Valuation::of(self, from, &best).strokes - told.strokes
        };
        Split {
            choice,
            execution: gained - choice,
            luck: told.deviation,
        }
    }
}

/// Penalty strokes and strokes to come after a shot from a situation.
fn after(solution: &Solution, from: Situation, shot: &Addressed<'_>, noise: &Noise) -> f64 {
    match shot.play(noise).next {
        Next::Holed => 0.0,
        Next::Play(next) => solution.worth(next, 0),
        Next::Relief(relief) => {
            let scene = solution.scene();
            let drop = solution.take(scene, &relief.options(scene.hole()), 0);
            let again = drop.procedure == Procedure::StrokeAndDistance;
            let next = if again { from } else { drop.situation };
            f64::from(drop.penalty) + solution.worth(next, 0)
        }
    }
}
