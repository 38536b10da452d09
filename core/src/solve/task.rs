//! What is to be solved.
use crate::hole::Hole;
use crate::solve::fault::SolveFault;
use crate::solve::score::by_left::Stakes;

/// What a solution is best at.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[non_exhaustive]
pub enum Objective {
    /// Fewest strokes on average.
    #[default]
    Fewest,
    /// The best chance of holing out in so many strokes or fewer from the tee, penalties included.
    AtMost(u8),
    /// Fewest strokes on average when a blow-up costs some strokes more.
    Safe {
        /// A blow-up is this many over par or worse.
        blow_up: u8,
        /// What it costs besides its strokes.
        price: f64,
    },
}

/// What is to be solved, and how finely.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// What the solution is to be best at.
    pub objective: Objective,
    /// Yards between the places that have a value, 0.5 to 10. Around the green each has a shot of its own; farther
    /// off, where values change slowly, those some 4 yards apart have, and well aside of play some 8.
    pub cell: f64,
    /// True to try every shot from every place over much luck, dozens of times slower: to check the usual way by.
    pub thorough: bool,
}

impl Default for Task {
    fn default() -> Self {
        Task {
            objective: Objective::Fewest,
            cell: 2.0,
            thorough: false,
        }
    }
}

/// The most strokes that may be played for.
pub const MOST_PLAYED_FOR: u8 = 30;

impl Task {
    pub(super) fn check(&self) -> Result<(), SolveFault> {
        in_range("cell", self.cell, (0.5, 10.0), "0.5 to 10 yards")?;
        match self.objective {
            Objective::Fewest => Ok(()),
            Objective::AtMost(most) => {
                let range = (1.0, f64::from(MOST_PLAYED_FOR));
                in_range("at_most", f64::from(most), range, "1 to 30 strokes")
            }
            Objective::Safe { blow_up, price } => {
                check_blow_up(blow_up)?;
                in_range("price", price, (0.0, 1e3), "0 to 1000 strokes")
            }
        }
    }

    /// What is at stake, and in how many strokes; None where strokes alone count.
    pub(super) fn stakes(&self, hole: &Hole) -> Option<(Stakes, usize)> {
        let stakes = |stroke, failing| Stakes { stroke, failing };
        match self.objective {
            Objective::Fewest => None,
            Objective::AtMost(most) => Some((stakes(0.0, 1.0), usize::from(most))),
            Objective::Safe { blow_up, price } => {
                let most = usize::from(hole.par()) + usize::from(blow_up) - 1;
                Some((stakes(1.0, price), most))
            }
        }
    }

    /// True where more than strokes counts: then actions may be kept for their boldness, or their safety.
    pub(super) fn is_bold(&self) -> bool {
        self.objective != Objective::Fewest
    }
}

/// Checks how many over par a blow-up is.
pub(super) fn check_blow_up(blow_up: u8) -> Result<(), SolveFault> {
    let range = (1.0, 14.0);
    in_range("blow_up", f64::from(blow_up), range, "1 to 14 over par")
}

/// Refuses a number outside its range, and NaN.
pub(super) fn in_range(
    field: &'static str,
    value: f64,
    range: (f64, f64),
    allowed: &'static str,
) -> Result<(), SolveFault> {
    if value >= range.0 && value <= range.1 {
        Ok(())
    } else {
        Err(SolveFault::Range {
            field,
            value,
            allowed,
        })
    }
}
