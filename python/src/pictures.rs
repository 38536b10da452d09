//! What pictures need: the shots of a bag, the ellipse of two thirds of some points, and the way to `wideberth.plot`.

use numpy::{AllowTypeChange, IntoPyArray, PyArray2, PyArrayLike2, PyArrayMethods};
use pyo3::prelude::*;
use pyo3::types::PyDict;
use wideberth::explain;
use wideberth::stats::Ellipse;

use crate::errors::refused;
use crate::fork;
use crate::given::given;
use crate::player::PyPlayer;
use crate::pool;
use crate::whole::{SeedGiven, Whole};

/// The share of shots that every ellipse and every span is about.
const TWO_THIRDS: f64 = 2.0 / 3.0;

/// Keywords for Python: those that are given.
pub(crate) fn given_of<'py>(
    py: Python<'py>,
    keywords: &[(&str, Option<Bound<'py, PyAny>>)],
) -> PyResult<Bound<'py, PyDict>> {
    let given = PyDict::new(py);
    for (name, value) in keywords {
        if let Some(value) = value {
            given.set_item(name, value)?;
        }
    }
    Ok(given)
}

/// What a function of `wideberth.plot` draws of an object on `ax`; keywords of None are left out.
pub(crate) fn drawn<'py>(
    of: &Bound<'py, PyAny>,
    function: &str,
    ax: Option<Bound<'py, PyAny>>,
    keywords: &[(&str, Option<Bound<'py, PyAny>>)],
) -> PyResult<Bound<'py, PyAny>> {
    let given = given_of(of.py(), keywords)?;
    let module = of.py().import("wideberth.plot")?;
    module.getattr(function)?.call((of, ax), Some(&given))
}

/// An ellipse as (x of the middle, y of the middle, half the longer axis, half the shorter axis, degrees from +x
/// towards +y to the longer axis).
type EllipseFields = (f64, f64, f64, f64, f64);

/// The ellipse within which two thirds of some points lie closest together; outlying points do not stretch it.
///
/// Args:
///     points: shape (n, 2), float64 or what converts to it.
///
/// Returns:
///     (x of the middle, y of the middle, half the longer axis, half the shorter axis, degrees counter-clockwise from +x
///     to the longer axis), or None where it has no area: fewer than three points, points on a line, numbers that are not
///     finite.
#[pyfunction]
pub(crate) fn two_thirds_ellipse(
    py: Python<'_>,
    points: PyArrayLike2<'_, f64, AllowTypeChange>,
) -> Option<EllipseFields> {
    let rows = points.as_array();
    if rows.ncols() != 2 {
        return None;
    }
    let points: Vec<[f64; 2]> = rows.rows().into_iter().map(|p| [p[0], p[1]]).collect();
    let ellipse = fork::at_work(py, || Ellipse::tightest(&points, TWO_THIRDS))?;
    let [long, short] = ellipse.half_axes;
    let [x, y] = ellipse.centre;
    Some((x, y, long, short, ellipse.angle.to_degrees()))
}

/// Where full shots of every club come to rest, on the ground and from the lie that `Player.table` is about.
///
/// Args:
///     player: the player.
///     shots: shots of every club, 1 to 100,000.
///     seed: a whole number that fixes the luck.
///
/// Returns:
///     The clubs, longest first: (name, array of shape (shots, 2): yards to the right of the aim and along it).
///
/// Raises:
///     InputError: a number of shots out of range; a club whose carry no believable ball speed gives.
#[pyfunction]
#[pyo3(signature = (player, *, shots, seed))]
pub(crate) fn club_shots<'py>(
    py: Python<'py>,
    #[pyo3(from_py_with = given)] player: &PyPlayer,
    shots: Whole,
    seed: SeedGiven,
) -> PyResult<Vec<(String, Bound<'py, PyArray2<f64>>)>> {
    let shots = shots.fit("shots", "1 to 100000")?;
    let seed = seed.fit()?;
    let pool = pool::pool(None)?;
    let player = player.player.clone();
    let clubs = pool::ask(py, &pool, move || explain::club_shots(&player, shots, seed))?;
    let clubs = clubs.map_err(refused)?;
    let column = |club: explain::ClubShots| {
        let count = club.rest.len();
        let flat: Vec<f64> = club.rest.into_flattened();
        let rest = flat.into_pyarray(py).reshape([count, 2])?;
        Ok((club.club, rest))
    };
    clubs.into_iter().map(column).collect()
}
