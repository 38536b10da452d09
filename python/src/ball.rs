//! The ball itself: putts and the hole.

use numpy::PyArray2;
use pyo3::prelude::*;
use pyo3::types::PyType;
use wideberth::putting::{Choice, Ending, captured_at};
use wideberth::units::FEET_PER_YARD;

use crate::errors::refused;
use crate::player::PyPlayer;

/// Whether the hole takes a ball.
///
/// A ball through the centre is taken at up to 1.63 m/s (Holmes 1991), less the farther off centre it is.
///
/// Args:
///     speed_ft_s: Speed at the rim of the hole, feet a second.
///     offset_in: How far from the centre of the hole the ball would pass, inches, to either side.
///
/// Example:
///     >>> from wideberth import ball
///     >>> ball.captured(speed_ft_s=4, offset_in=0), ball.captured(speed_ft_s=4, offset_in=1.5)
///     (True, False)
#[pyfunction]
#[pyo3(signature = (*, speed_ft_s, offset_in = 0.0))]
pub(crate) fn captured(speed_ft_s: f64, offset_in: f64) -> PyResult<bool> {
    captured_at(speed_ft_s, offset_in).map_err(refused)
}

/// A putt on a planar slope: the line and the pace that hole it.
///
/// The launch, made without error, enters the centre of the hole at the speed that would run `past_ft` beyond
/// it on a level green.
///
/// Args:
///     length_ft: From the ball to the hole, feet: 0.5 to 300.
///     slope_percent: How much the ground falls to the right and ahead of the line to the hole, per cent
///         (negative: rises).
///     green_speed: Stimpmeter reading, feet: 3 to 20.
///     past_ft: How far the ball would run past the hole on a level green, feet.
///
/// Example:
///     >>> from wideberth import ball
///     >>> downhill = ball.putt(length_ft=10, slope_percent=(1, 2), green_speed=10)
///     >>> uphill = ball.putt(length_ft=10, slope_percent=(1, -2), green_speed=10)
///     >>> downhill.break_in > uphill.break_in > 0
///     True
#[pyfunction]
#[pyo3(signature = (*, length_ft, slope_percent = (0.0, 0.0), green_speed = 10.0, past_ft = 1.0))]
pub(crate) fn putt(
    length_ft: f64,
    slope_percent: (f64, f64),
    green_speed: f64,
    past_ft: f64,
) -> PyResult<PyPutt> {
    PyPutt::new(length_ft, slope_percent, green_speed, past_ft)
}

/// A putt on a planar slope and the launch that holes it; `putt` makes one.
#[pyclass(frozen, name = "Putt", module = "wideberth.ball")]
pub(crate) struct PyPutt {
    asked: (f64, (f64, f64), f64, f64),
    choice: Choice,
}

#[pymethods]
impl PyPutt {
    #[new]
    fn new(
        length_ft: f64,
        slope_percent: (f64, f64),
        green_speed: f64,
        past_ft: f64,
    ) -> PyResult<Self> {
        let choice =
            Choice::new(length_ft, slope_percent, green_speed, past_ft).map_err(refused)?;
        Ok(PyPutt {
            asked: (length_ft, slope_percent, green_speed, past_ft),
            choice,
        })
    }

    /// From the ball to the hole, feet.
    #[getter]
    fn length_ft(&self) -> f64 {
        self.asked.0
    }

    /// Fall of the ground to the right and ahead, per cent.
    #[getter]
    fn slope_percent(&self) -> (f64, f64) {
        self.asked.1
    }

    /// Stimpmeter reading, feet.
    #[getter]
    fn green_speed(&self) -> f64 {
        self.asked.2
    }

    /// How far the ball would run past the hole on a level green, feet.
    #[getter]
    fn past_ft(&self) -> f64 {
        self.asked.3
    }

    /// How far the ball breaks, inches, positive to the right: aim as far to the other side of the hole.
    #[getter]
    fn break_in(&self) -> f64 {
        self.choice.break_in
    }

    /// Where the ball starts, degrees clockwise from the line to the hole (negative: to the left).
    #[getter]
    fn aim_deg(&self) -> f64 {
        self.choice.aim_deg
    }

    /// Speed of the ball at the start, rolling, feet a second.
    #[getter]
    fn launch_ft_s(&self) -> f64 {
        self.choice.launch_speed * FEET_PER_YARD
    }

    /// The path into the hole, shape (n, 2): feet to the right and ahead, a point every fiftieth of a second.
    #[getter]
    fn path<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyArray2<f64>>> {
        let path = py.detach(|| self.choice.path());
        debug_assert_eq!(path.ending, Ending::Holed);
        let feet = |p: &wideberth::geometry::Point| vec![p.x * FEET_PER_YARD, p.y * FEET_PER_YARD];
        let rows: Vec<Vec<f64>> = path.points.iter().map(feet).collect();
        PyArray2::from_vec2(py, &rows).map_err(refused)
    }

    /// Chance that a player holes the putt, playing his own line and pace.
    ///
    /// Args:
    ///     player: The player, a `wideberth.Player`.
    fn make_chance(&self, py: Python<'_>, player: &PyPlayer) -> f64 {
        let skill = player.player.putting;
        py.detach(|| self.choice.make_chance(&skill))
    }

    fn __eq__(&self, other: &Self) -> bool {
        self.asked == other.asked
    }

    #[expect(clippy::type_complexity, reason = "the shape that pickle wants")]
    fn __reduce__<'py>(
        slf: &Bound<'py, Self>,
    ) -> (Bound<'py, PyType>, (f64, (f64, f64), f64, f64)) {
        (slf.get_type(), slf.get().asked)
    }

    fn __repr__(&self) -> String {
        let side = if self.choice.break_in < 0.0 {
            "left"
        } else {
            "right"
        };
        format!(
            "putt of {} ft: breaks {:.1} in to the {side}, starts at {:.2} ft/s",
            self.asked.0,
            self.choice.break_in.abs(),
            self.launch_ft_s()
        )
    }
}
