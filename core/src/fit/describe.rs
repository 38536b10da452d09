//! How sure a club's figures are, in words.
use super::fitted::{Figure, Uncertainty};
use std::fmt;

impl fmt::Display for Uncertainty {
    /// What was seen of the club, then each figure's standard error and the weight of the evidence.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}: {} shots ({:.1} mishits, {:.1} outliers), {} outcomes\n{:<14}{:>9}{:>9}",
            self.club,
            self.shots,
            self.mishits,
            self.outliers,
            self.outcomes,
            "figure",
            "error",
            "weight"
        )?;
        for figure in Figure::ALL {
            let (error, weight) = (self.errors[figure], 100.0 * self.weights[figure]);
            match figure {
                Figure::Correlation | Figure::MishitShare => {
                    write!(f, "\n{:<14}{error:>9.3}{weight:>7.0} %", figure.name())?;
                }
                _ => write!(f, "\n{:<14}{error:>9.2}{weight:>7.0} %", figure.name())?,
            }
        }
        write!(
            f,
            "\nErrors in yards and shares; a weight of 0 % is the level alone, of 100 % the evidence alone."
        )
    }
}
