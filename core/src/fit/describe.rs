//! How sure a club's figures are and what that rests on, in words.
use super::evidence::Known;
use super::fitted::{Basis, Figure, Fit, Uncertainty};
use std::fmt;

impl Fit {
    /// What plausible players are drawn from, in words that follow "drawn from".
    #[must_use]
    pub fn source(&self) -> String {
        match &self.basis {
            Basis::Level => {
                "how golfers of one level differ (common practice, no source)".to_owned()
            }
            Basis::Known(_) => {
                "how golfers of one level who have the known figures differ (common practice, no \
                                source)"
                    .to_owned()
            }
            Basis::Evidence(evidence, _) => {
                let counted = |n: usize, what: &str| match n {
                    0 => None,
                    1 => Some(format!("1 {what}")),
                    n => Some(format!("{n} {what}s")),
                };
                let shots = counted(evidence.shots.len(), "measured shot");
                let outcomes = counted(evidence.outcomes.len(), "outcome");
                let known = (self.standing != Known::default())
                    .then(|| "the figures that were known".to_owned());
                let parts: Vec<String> = shots.into_iter().chain(outcomes).chain(known).collect();
                format!("what is left open by {}", parts.join(" and "))
            }
        }
    }
}

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
