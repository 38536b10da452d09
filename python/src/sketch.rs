//! What a hole is sketched with: hazards with a size, water across it, the sides out of bounds.

use pyo3::prelude::*;
use wideberth::hole::{Along, Bounds, Canopy, CrossingWater, Hazard};
use wideberth::plan::Aim;

use crate::errors::input_error;
use crate::given::Item;
use crate::given::given;
use crate::plan::PyAim;

/// A bunker, pond or stand of trees of a sketch, with its size; made with `hazard`.
///
/// Immutable; equal when its numbers are; can be pickled.
#[pyclass(frozen, eq, from_py_object, name = "Hazard", module = "wideberth")]
#[derive(Clone, PartialEq)]
pub(crate) struct PyHazard(Hazard);

#[pymethods]
impl PyHazard {
    fn __repr__(&self) -> String {
        let at = aim_of(&self.0);
        let size =
            |name: &str, v: Option<f64>| v.map_or(String::new(), |v| format!(", {name}={v}"));
        format!(
            "hazard({}{}{})",
            at.__repr__(),
            size("length", self.0.length),
            size("width", self.0.width)
        )
    }

    #[expect(clippy::type_complexity, reason = "the arguments of hazard")]
    fn __reduce__<'py>(
        &self,
        py: Python<'py>,
    ) -> PyResult<(
        Bound<'py, PyAny>,
        (
            PyAim,
            Option<f64>,
            Option<f64>,
            Option<String>,
            Option<f64>,
            Option<f64>,
        ),
    )> {
        let h = &self.0;
        let at = aim_of(h);
        let make = py.import("wideberth._wideberth")?.getattr("hazard")?;
        let height = h.canopy.map(|c| c.height_ft);
        let openness = h.canopy.map(|c| c.openness);
        Ok((
            make,
            (at, h.length, h.width, h.name.clone(), height, openness),
        ))
    }
}

/// A bunker, pond or stand of trees for `Hole.sketch`, with its size.
///
/// Its numbers are checked when it is drawn, for what is allowed depends on the hole.
///
/// Args:
///     place: the middle of its near edge, told with `along(...)` or `short_of_green(...)`; it reaches away from the line
///         of play from there. One 0 yards to the side lies across the line, half on each side.
///     length: yards along the line of play, 0.5 to 1000; None for the usual length of its kind.
///     width: yards across it, 0.5 to 1000; None for the usual width of its kind.
///     name: a name, to be told in `Hole.features`.
///     height_ft: of trees, their height in feet, above 0, at most 300; default 40.
///     openness: of trees, the chance of a ball to get through ten yards of them, 0 to 1; default 0.5.
///
/// Raises:
///     InputError: a place that is not told along the line of play.
///
/// Example:
///     >>> import wideberth as wb
///     >>> pond = wb.hazard(wb.along(230, right=18), length=60, width=30, name="the mere")
///     >>> pond
///     hazard(along(230, right=18), length=60, width=30)
///     >>> hole = wb.Hole.sketch(par=4, length=380, water=[pond])
///     >>> hole.surface_at(wb.along(230, right=25))
///     'penalty_red'
///     >>> brook = wb.hazard(wb.short_of_green(20), length=6, width=120)
///     >>> wb.Hole.sketch(par=4, length=380, water=[brook]).surface_at(wb.short_of_green(20))
///     'penalty_red'
#[pyfunction]
#[pyo3(signature = (place, length = None, width = None, name = None, height_ft = None, openness = None))]
pub(crate) fn hazard(
    #[pyo3(from_py_with = given)] place: &PyAim,
    #[pyo3(from_py_with = given)] length: Option<f64>,
    #[pyo3(from_py_with = given)] width: Option<f64>,
    #[pyo3(from_py_with = given)] name: Option<String>,
    #[pyo3(from_py_with = given)] height_ft: Option<f64>,
    #[pyo3(from_py_with = given)] openness: Option<f64>,
) -> PyResult<PyHazard> {
    let usual = Canopy::default();
    let canopy = (height_ft.is_some() || openness.is_some()).then(|| Canopy {
        height_ft: height_ft.unwrap_or(usual.height_ft),
        openness: openness.unwrap_or(usual.openness),
    });
    Ok(PyHazard(Hazard {
        length,
        width,
        name,
        canopy,
        ..hazard_at(place)?
    }))
}

/// A hazard of the usual size at a place along the line of play.
fn hazard_at(aim: &PyAim) -> PyResult<Hazard> {
    match aim.0 {
        Aim::Along { along, right } => Ok(Hazard::new(along, right)),
        Aim::ShortOfGreen { yards, right } => Ok(Hazard {
            along: Along::ShortOfGreen(yards),
            ..Hazard::new(0.0, right)
        }),
        Aim::At { .. } => Err(input_error(format!(
            "hazard: place is {}; it must be told along the line of play, with along(...) or short_of_green(...)",
            aim.__repr__()
        ))),
    }
}

/// Where a hazard was told to lie.
fn aim_of(hazard: &Hazard) -> PyAim {
    let right = hazard.right;
    PyAim(match hazard.along {
        Along::FromTee(along) => Aim::Along { along, right },
        Along::ShortOfGreen(yards) => Aim::ShortOfGreen { yards, right },
    })
}

/// A place, or a hazard with a size.
#[derive(FromPyObject)]
pub(crate) enum SketchHazard {
    Hazard(PyHazard),
    Place(PyAim),
}

impl Item for SketchHazard {
    const ITEMS: &'static str = "places such as along(230, left=12), and of hazard(...)";

    fn of(item: &Bound<'_, PyAny>) -> Option<Self> {
        item.extract().ok()
    }
}

impl SketchHazard {
    fn hazard(self, of: &str) -> PyResult<Hazard> {
        match self {
            SketchHazard::Hazard(hazard) => Ok(hazard.0),
            SketchHazard::Place(aim) => hazard_at(&aim).map_err(|_| {
                input_error(format!(
                    "{of} has {}; a place in a sketch must be told along the line of play, with along(...) or \
                     short_of_green(...)",
                    aim.__repr__()
                ))
            }),
        }
    }
}

/// The hazards of one kind; `of` is the field they are given in.
pub(crate) fn hazards(of: &str, list: Vec<SketchHazard>) -> PyResult<Vec<Hazard>> {
    list.into_iter().map(|h| h.hazard(of)).collect()
}

/// Water across the whole hole, each of (yards from the tee to its middle, yards from bank to bank).
pub(crate) fn crossings(list: Vec<(f64, f64)>) -> Vec<CrossingWater> {
    let crossing = |(at, width)| CrossingWater {
        at,
        width,
        name: None,
    };
    list.into_iter().map(crossing).collect()
}

/// The sides that are out of bounds, by name.
pub(crate) fn bounds(side: &str) -> PyResult<Bounds> {
    Bounds::from_name(side).ok_or_else(|| {
        input_error(format!(
            "out_of_bounds is {side:?}; it must be \"left\", \"right\", \"both\" or None"
        ))
    })
}
