//! A ball on the green, and the hole.

use numpy::PyArray2;
use pyo3::prelude::*;
use pyo3::types::{IntoPyDict, PyDict};
use wideberth::putting::{Choice, captured_at};
use wideberth::units::FEET_PER_YARD;

use super::public;
use crate::errors::refused;
use crate::fork;
use crate::getters::getters;
use crate::given::given;
use crate::player::PyPlayer;
use crate::travel::{Made, made};

/// Whether the hole, 4.25 inches across, takes a ball.
///
/// A ball through the centre is taken at up to 1.63 m/s, 5.35 feet a second (Holmes 1991, "Putting: how a golf ball and
/// hole interact", Am. J. Phys. 59, 129), the slower the farther off centre it is.
///
/// Args:
///     speed_ft_s: speed at the rim of the hole, feet a second, 0 to 100.
///     offset_in: how far from the centre of the hole the ball would pass, inches, -100 to 100.
///
/// Raises:
///     InputError: a value out of range.
///
/// Example:
///     >>> from wideberth import ball
///     >>> ball.captured(speed_ft_s=4, offset_in=0), ball.captured(speed_ft_s=4, offset_in=1.5)
///     (True, False)
#[pyfunction]
#[pyo3(signature = (*, speed_ft_s, offset_in = 0.0))]
pub(crate) fn captured(
    #[pyo3(from_py_with = given)] speed_ft_s: f64,
    #[pyo3(from_py_with = given)] offset_in: f64,
) -> PyResult<bool> {
    captured_at(speed_ft_s, offset_in).map_err(refused)
}

/// What a putt was asked to be.
#[derive(Clone, Copy, PartialEq)]
struct Asked {
    length_ft: f64,
    slope_percent: (f64, f64),
    green_speed: f64,
    past_ft: f64,
}

/// A putt on a plane, and the line and the pace that hole it; `putt` makes one.
///
/// Immutable; equal when it was asked to be the same; can be pickled.
#[pyclass(frozen, eq, name = "Putt", module = "wideberth.ball")]
#[derive(PartialEq)]
pub(crate) struct PyPutt {
    asked: Asked,
    choice: Choice,
}

/// The line and the pace that hole a putt on a plane.
///
/// The launch, made without error, enters the centre of the hole at the speed that would run `past_ft` beyond it on a
/// level green. The ball rolls as in Penner 2002 ("The physics of putting", Can. J. Phys. 80, 83; from memory).
///
/// Args:
///     length_ft: from the ball to the hole, feet, 0.5 to 300.
///     slope_percent: by how much the ground falls to the right and ahead of the line to the hole, per cent, each -20 to
///         20 (negative: it rises).
///     green_speed: Stimpmeter reading, feet, 3 to 20.
///     past_ft: how far the ball would run past the hole on a level green, feet, 0.05 to 20.
///
/// Returns:
///     The `Putt`.
///
/// Raises:
///     InputError: a value out of range, a slope on which a ball does not come to rest, or a break so large that no line
///         within 80 degrees of the hole holes the putt.
///
/// Example:
///     >>> from wideberth import ball
///     >>> downhill = ball.putt(length_ft=10, slope_percent=(1, 2), green_speed=10)
///     >>> uphill = ball.putt(length_ft=10, slope_percent=(1, -2), green_speed=10)
///     >>> downhill.break_in > uphill.break_in > 0
///     True
#[pyfunction]
#[pyo3(
    signature = (*, length_ft, slope_percent = (0.0, 0.0), green_speed = 9.0, past_ft = 1.0),
    text_signature = "(*, length_ft, slope_percent=(0.0, 0.0), green_speed=9.0, past_ft=1.0)"
)]
pub(crate) fn putt(
    #[pyo3(from_py_with = given)] length_ft: f64,
    #[pyo3(from_py_with = given)] slope_percent: (f64, f64),
    #[pyo3(from_py_with = given)] green_speed: f64,
    #[pyo3(from_py_with = given)] past_ft: f64,
) -> PyResult<PyPutt> {
    let choice = Choice::new(length_ft, slope_percent, green_speed, past_ft).map_err(refused)?;
    Ok(PyPutt {
        asked: Asked {
            length_ft,
            slope_percent,
            green_speed,
            past_ft,
        },
        choice,
    })
}

getters! {
    PyPutt, self:
    /// From the ball to the hole, feet.
    length_ft: f64 = self.asked.length_ft;
    /// Fall of the ground to the right and ahead of the line to the hole, per cent.
    slope_percent: (f64, f64) = self.asked.slope_percent;
    /// Stimpmeter reading, feet.
    green_speed: f64 = self.asked.green_speed;
    /// How far the ball would run past the hole on a level green, feet.
    past_ft: f64 = self.asked.past_ft;
    /// How far the ball breaks, inches, positive to the right: aim as far to the other side of the hole.
    break_in: f64 = self.choice.break_in;
    /// Where the ball starts, degrees clockwise from the line to the hole (negative: to the left).
    aim_deg: f64 = self.choice.aim_deg;
    /// Speed of the ball at the start, rolling, feet a second.
    launch_ft_s: f64 = self.choice.launch_speed * FEET_PER_YARD;
}

#[pymethods]
impl PyPutt {
    /// The path into the hole, an array of shape (n, 2), float64: feet to the right of the line to the hole, and along it.
    ///
    /// There is a point every fiftieth of a second; the last is where the hole takes the ball. It is a new array at every
    /// look.
    #[getter]
    fn path<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyArray2<f64>>> {
        let path = fork::at_work(py, || self.choice.path());
        let feet = path
            .points
            .iter()
            .map(|p| vec![p.x * FEET_PER_YARD, p.y * FEET_PER_YARD]);
        PyArray2::from_vec2(py, &feet.collect::<Vec<_>>()).map_err(refused)
    }

    /// Chance that a player holes the putt on his own line and at his own pace, 0 to 1; good to about half a point.
    ///
    /// Args:
    ///     player: a `wideberth.Player`.
    fn make_chance(&self, py: Python<'_>, #[pyo3(from_py_with = given)] player: &PyPlayer) -> f64 {
        let skill = player.player.putting;
        fork::at_work(py, || self.choice.make_chance(&skill))
    }

    fn __repr__(&self) -> String {
        let inches = self.choice.break_in;
        let side = if inches < 0.0 { "left" } else { "right" };
        format!(
            "Putt of {:?} ft: breaks {:.1} in to the {side}, starts at {:.2} ft/s",
            self.asked.length_ft,
            inches.abs(),
            self.launch_ft_s()
        )
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<Made<'py>> {
        let asked = &self.asked;
        let keywords: Bound<'py, PyDict> = [
            ("length_ft", asked.length_ft),
            ("green_speed", asked.green_speed),
            ("past_ft", asked.past_ft),
        ]
        .into_py_dict(py)?;
        keywords.set_item("slope_percent", asked.slope_percent)?;
        made(public(py, "putt")?, Vec::new(), &keywords)
    }
}
