//! Players and clubs.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyType};
use std::sync::Arc;
use wideberth::player::{Bag, Club, ClubParts, Player};

use crate::errors::refused;

/// A club in one player's hands.
#[pyclass(frozen, eq, from_py_object, name = "Club", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyClub(pub(crate) Club);

#[pymethods]
impl PyClub {
    #[new]
    #[pyo3(signature = (
        name, *, carry, carry_sd, lateral_sd, lateral_bias = 0.0, correlation = 0.0, mishit_share = 0.0, run = None
    ))]
    #[expect(
        clippy::too_many_arguments,
        reason = "keyword arguments of the Python class"
    )]
    fn new(
        name: &str,
        carry: f64,
        carry_sd: f64,
        lateral_sd: f64,
        lateral_bias: f64,
        correlation: f64,
        mishit_share: f64,
        run: Option<f64>,
    ) -> PyResult<Self> {
        let parts = ClubParts {
            carry_sd,
            lateral_bias,
            lateral_sd,
            correlation,
            mishit_share,
            run: run.unwrap_or_else(|| ClubParts::usual_run(carry)),
            ..ClubParts::exact(name, carry)
        };
        Club::new(parts).map(PyClub).map_err(refused)
    }

    #[getter]
    fn name(&self) -> &str {
        &self.0.name
    }

    #[getter]
    fn carry(&self) -> f64 {
        self.0.carry
    }

    #[getter]
    fn carry_sd(&self) -> f64 {
        self.0.carry_sd
    }

    #[getter]
    fn lateral_sd(&self) -> f64 {
        self.0.lateral_sd
    }

    #[getter]
    fn lateral_bias(&self) -> f64 {
        self.0.lateral_bias
    }

    #[getter]
    fn correlation(&self) -> f64 {
        self.0.correlation
    }

    #[getter]
    fn mishit_share(&self) -> f64 {
        self.0.mishit_share
    }

    #[getter]
    fn run(&self) -> f64 {
        self.0.run
    }

    #[getter]
    fn total(&self) -> f64 {
        self.0.total()
    }

    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        let parts: ClubParts = serde_json::from_str(text).map_err(refused)?;
        Club::new(parts).map(PyClub).map_err(refused)
    }

    fn to_json(&self) -> PyResult<String> {
        let parts: &ClubParts = &self.0;
        serde_json::to_string(parts).map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((
            slf.get_type().getattr("from_json")?,
            (slf.get().to_json()?,),
        ))
    }

    fn __repr__(&self) -> String {
        let c = &self.0;
        format!(
            "{}: carry {:.0} yd (sd {:.1}), lateral {:+.1} yd (sd {:.1}), mishits {:.0} %",
            c.name,
            c.carry,
            c.carry_sd,
            c.lateral_bias,
            c.lateral_sd,
            100.0 * c.mishit_share
        )
    }
}

/// A golfer.
#[pyclass(frozen, name = "Player", module = "wideberth")]
#[derive(Clone)]
pub(crate) struct PyPlayer {
    pub(crate) player: Player,
    /// The player prepared for the simulation, once.
    pub(crate) bag: Arc<Bag>,
}

impl From<Player> for PyPlayer {
    fn from(player: Player) -> Self {
        let bag = Arc::new(player.prepare());
        PyPlayer { player, bag }
    }
}

#[pymethods]
impl PyPlayer {
    #[classmethod]
    fn from_handicap(_: &Bound<'_, PyType>, handicap: f64) -> PyResult<Self> {
        Player::from_handicap(handicap)
            .map(Self::from)
            .map_err(refused)
    }

    #[classmethod]
    fn from_json(_: &Bound<'_, PyType>, text: &str) -> PyResult<Self> {
        Player::from_json(text).map(Self::from).map_err(refused)
    }

    fn to_json(&self) -> PyResult<String> {
        self.player.to_json().map_err(refused)
    }

    fn __reduce__<'py>(slf: &Bound<'py, Self>) -> PyResult<(Bound<'py, PyAny>, (String,))> {
        Ok((
            slf.get_type().getattr("from_json")?,
            (slf.get().to_json()?,),
        ))
    }

    #[getter]
    fn name(&self) -> &str {
        &self.player.name
    }

    #[getter]
    fn handicap(&self) -> Option<f64> {
        self.player.handicap
    }

    #[getter]
    fn clubs(&self) -> Vec<PyClub> {
        self.player.clubs.iter().cloned().map(PyClub).collect()
    }

    fn club(&self, name: &str) -> PyResult<PyClub> {
        self.player.club(name).cloned().map(PyClub).map_err(refused)
    }

    /// The same player with some clubs replaced (by name) or added.
    fn with_clubs(&self, clubs: Vec<PyRef<'_, PyClub>>) -> PyResult<Self> {
        let mut parts = self.player.clone().into_parts();
        for club in clubs {
            match parts.clubs.iter_mut().find(|c| c.name == club.0.name) {
                Some(old) => *old = club.0.clone(),
                None => parts.clubs.push(club.0.clone()),
            }
        }
        Player::new(parts).map(Self::from).map_err(refused)
    }

    fn __eq__(&self, other: &Self) -> bool {
        self.player == other.player
    }

    fn __repr__(&self) -> String {
        self.player.to_string()
    }

    fn _repr_html_(&self) -> String {
        crate::hole::preformatted(&self.player.to_string())
    }

    fn tee_shot<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyDict>> {
        let shot = self.player.tee_shot();
        let d = PyDict::new(py);
        d.set_item("club", shot.club)?;
        d.set_item("carry", shot.carry)?;
        d.set_item("total", shot.total)?;
        Ok(d)
    }
}
