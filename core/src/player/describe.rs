//! A player in words: the bag, club by club.
use super::Player;
use std::fmt;

impl fmt::Display for Player {
    /// Name and handicap, then each club's carry and total, spreads, bias and mishits, in yards.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.name)?;
        if let Some(handicap) = self.handicap {
            write!(f, ", handicap {handicap}")?;
        }
        write!(
            f,
            "\n{:<16}{:>7}{:>7}{:>7}{:>9}{:>7}{:>9}",
            "club", "carry", "sd", "total", "lateral", "sd", "mishits"
        )?;
        for club in &self.clubs {
            write!(
                f,
                "\n{:<16}{:>7.0}{:>7.1}{:>7.0}{:>+9.1}{:>7.1}{:>7.0} %",
                club.name,
                club.carry,
                club.carry_sd,
                club.total(),
                club.lateral_bias,
                club.lateral_sd,
                100.0 * club.mishit_share
            )?;
        }
        write!(
            f,
            "\nYards, solid full strikes from a good lie; lateral is positive to the right of the aim."
        )
    }
}
