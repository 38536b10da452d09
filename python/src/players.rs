//! Plans played by plausible players: the run beside the comparison itself, and what it counted.

use pyo3::prelude::*;
use wideberth::Run;
use wideberth::rank::{AcrossPlayers, Comparison, MoreShots, PlayersRun};

use crate::getters::getters;
use crate::given::Text;
use crate::ranking::{pair, unknown};
use crate::travel::by_json;

/// A comparison, and the same plans played by plausible players if that was asked for.
pub(crate) struct Both {
    pub(crate) comparison: Comparison,
    pub(crate) players: Option<PlayersRun>,
}

impl Run for Both {
    fn advance(&mut self, count: u64) {
        match &mut self.players {
            Some(players) if self.comparison.is_finished() => players.advance(count),
            _ => self.comparison.advance(count),
        }
    }

    fn done(&self) -> u64 {
        self.comparison.done() + self.players.as_ref().map_or(0, PlayersRun::done)
    }

    fn goal(&self) -> u64 {
        self.comparison.goal() + self.players.as_ref().map_or(0, PlayersRun::goal)
    }

    fn is_finished(&self) -> bool {
        self.comparison.is_finished() && self.players.as_ref().is_none_or(PlayersRun::is_finished)
    }
}

/// Everything that `compare` counted over plausible players, by name of the plan.
///
/// Every method that takes a name raises KeyError for one that is not there.
#[pyclass(frozen, eq, name = "AcrossPlayers", module = "wideberth._wideberth")]
#[derive(PartialEq)]
pub(crate) struct PyAcrossPlayers(pub(crate) AcrossPlayers);

getters! {
    PyAcrossPlayers, self:
    /// What the players were drawn from, in words.
    source: &str = self.0.source();
    /// How many players were drawn.
    draws: usize = self.0.draws();
    /// Name of the plan with the lowest mean over the players.
    choice: &str = &self.0.names()[self.0.choice()];
    /// What not knowing the player costs, and its standard error, strokes a play.
    cost: (f64, f64) = pair(self.0.cost());
}

#[pymethods]
impl PyAcrossPlayers {
    /// The clubs that the plans use, with the share of the lead that each explains, largest first.
    #[getter]
    fn clubs(&self) -> Vec<(String, f64)> {
        let clubs = self.0.clubs().iter();
        clubs.map(|c| (c.club.clone(), c.share)).collect()
    }

    /// Whether more shots would change the advice ("not needed", "worth", "untold"), and the club to measure if one stands out.
    #[getter]
    fn more_shots(&self) -> (&'static str, Option<String>) {
        match self.0.more_shots() {
            MoreShots::NotNeeded => ("not needed", None),
            MoreShots::Worth(club) => ("worth", club),
            MoreShots::Untold => ("untold", None),
        }
    }

    /// Share of the players for whom a plan is best, and its binomial standard error.
    fn chance_best(&self, name: Text) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.chance_best(self.index(&name)?)))
    }

    /// Mean score of a plan over the players and its standard error, strokes.
    fn mean(&self, name: Text) -> PyResult<(f64, f64)> {
        Ok(pair(self.0.mean(self.index(&name)?)))
    }
}

by_json! {
    PyAcrossPlayers(AcrossPlayers), |held| Ok(PyAcrossPlayers(held)), "counts", "counts",
    "The counts as JSON text; `from_json` gives equal counts back."
}

impl PyAcrossPlayers {
    fn index(&self, name: &str) -> PyResult<usize> {
        let names: Vec<&str> = self.0.names().iter().map(String::as_str).collect();
        let found = names.iter().position(|n| *n == name);
        found.ok_or_else(|| unknown("plan", name, &names))
    }
}
