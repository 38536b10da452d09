//! Surveyed heights with their own coordinates, and how they are laid on the plan of a hole.
mod around;

pub use around::Around;
pub(super) use around::Crop;

use super::fault::wrong;

use super::{ReadFault, ReadFaults};
use crate::geometry::{HeightGrid, LocalPlane, Point, Vector};
use crate::units::{feet_from_yards, yards_from_feet, yards_from_metres};

/// A unit of length of a grid.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Metres.
    #[default]
    Metres,
    /// Feet.
    Feet,
}

impl Unit {
    /// The unit of a name: `metres` or `feet`.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        match name {
            "metres" => Some(Unit::Metres),
            "feet" => Some(Unit::Feet),
            _ => None,
        }
    }

    fn yards(self, length: f64) -> f64 {
        match self {
            Unit::Metres => yards_from_metres(length),
            Unit::Feet => yards_from_feet(length),
        }
    }

    /// Feet are left as they are, to the bit.
    fn feet(self, length: f64) -> f64 {
        match self {
            Unit::Metres => feet_from_yards(yards_from_metres(length)),
            Unit::Feet => length,
        }
    }
}

/// How a grid's own coordinates are laid on the plan of a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Place {
    /// The grid counts in a unit of length (a projected system such as a national grid).
    Projected {
        /// Its unit.
        unit: Unit,
        /// The easting and northing, in that unit, of the point (0, 0) of the plan: of the tee, in a sketch and on a map.
        origin: (f64, f64),
    },
    /// The grid counts in degrees of longitude and latitude (WGS 84).
    Degrees {
        /// The plane of the map. It touches the earth where the line of play of the map begins.
        plane: LocalPlane,
    },
}

/// Heights in rows from the top, as files have them, with north up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Survey<'a> {
    /// Where the lower left height is, in the survey's own coordinates.
    pub first: (f64, f64),
    /// The steps to the next height to the right and upwards, in the same.
    pub cell: (f64, f64),
    /// Heights in a row.
    pub columns: usize,
    /// The heights, row by row from the top.
    pub values: &'a [f64],
}

impl Survey<'_> {
    /// The survey laid on the plan: heights in feet, sides in yards, as [`crate::hole::Landform`] wants them.
    ///
    /// # Errors
    /// Coordinates that are no longitude and latitude where [`Place::Degrees`] says so, and every fault of the grid
    /// that comes of it.
    pub fn on_plan(&self, heights: Unit, place: &Place) -> Result<HeightGrid, ReadFaults> {
        let mut faults = Vec::new();
        let grid = self.grid(heights, place, &mut faults);
        grid.ok_or(ReadFaults(faults))
    }

    pub(super) fn grid(
        &self,
        heights: Unit,
        place: &Place,
        faults: &mut Vec<ReadFault>,
    ) -> Option<HeightGrid> {
        let frame = Frame::of(self, place, faults)?;
        let rows = self.values.chunks(self.columns.max(1)).rev();
        let feet: Vec<f64> = rows.flatten().map(|&h| heights.feet(h)).collect();
        height_grid(&frame, self.columns, &feet, faults)
    }

    fn rows(&self) -> usize {
        self.values.len() / self.columns.max(1)
    }
}

/// Where the lower left height of a grid lies on the plan, and the steps to the next ones, yards.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    corner: Point,
    cell: Vector,
}

impl Frame {
    fn of(survey: &Survey<'_>, place: &Place, faults: &mut Vec<ReadFault>) -> Option<Self> {
        Self::new(
            survey.first,
            survey.cell,
            (survey.rows(), survey.columns),
            place,
            faults,
        )
    }

    /// The frame of a grid of so many rows and columns.
    pub(super) fn new(
        (x, y): (f64, f64),
        (across, up): (f64, f64),
        (rows, columns): (usize, usize),
        place: &Place,
        faults: &mut Vec<ReadFault>,
    ) -> Option<Self> {
        let (corner, cell) = match place {
            Place::Projected { unit, origin } => {
                let on_plan =
                    |x: f64, y: f64| Point::new(unit.yards(x - origin.0), unit.yards(y - origin.1));
                let corner = on_plan(x, y);
                (corner, on_plan(x + across, y + up) - corner)
            }
            Place::Degrees { plane } => {
                let far = (
                    x + across * columns.saturating_sub(1) as f64,
                    y + up * rows.saturating_sub(1) as f64,
                );
                if !(x.abs() <= 360.0
                    && far.0.abs() <= 360.0
                    && y.abs() <= 90.0
                    && far.1.abs() <= 90.0)
                {
                    let place = format!("({x}, {y}) to ({}, {})", far.0, far.1);
                    let allowed = "longitudes and latitudes in degrees (is it a projected grid?)";
                    faults.push(wrong("the grid's extent", &place, allowed));
                    return None;
                }
                // Not by way of the next node: the plane is linear, but takes the shorter way round the earth.
                let degree = plane.degree();
                (
                    plane.to_plane(x, y),
                    Vector::new(degree.x * across, degree.y * up),
                )
            }
        };
        Some(Frame { corner, cell })
    }
}

/// The grid of heights in feet, row by row from the bottom.
fn height_grid(
    frame: &Frame,
    columns: usize,
    feet: &[f64],
    faults: &mut Vec<ReadFault>,
) -> Option<HeightGrid> {
    HeightGrid::new(frame.corner, frame.cell, columns, feet)
        .map_err(|list| {
            faults.extend(list.into_iter().map(|fault| ReadFault::Geometry {
                feature: "the grid on the plan".to_owned(),
                message: fault.to_string(),
            }));
        })
        .ok()
}
