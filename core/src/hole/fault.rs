//! Everything that can be wrong with a hole, and the list that reports it all at once.
use super::Surface;
use crate::geometry::{HeightFault, LineFault, Point, PolygonFault};
use std::fmt;

/// Which feature a fault is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FeatureRef {
    /// Its place in the list it was given in, counted from 0.
    pub index: usize,
    /// What it is.
    pub surface: Surface,
    /// Its name, if it has one.
    pub name: Option<String>,
}

impl fmt::Display for FeatureRef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.surface.name())?;
        if let Some(name) = &self.name {
            write!(f, " {name:?}")?;
        }
        write!(f, " (feature {})", self.index)
    }
}

/// One thing wrong with a hole.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum HoleFault {
    /// A plain value is not allowed.
    #[error("{field} is {value}; it must be {allowed}")]
    Field {
        /// The field, such as `par` or `water[0].width`.
        field: String,
        /// The value received.
        value: String,
        /// What is allowed.
        allowed: String,
    },
    /// Something every hole needs was not given.
    #[error("{field} is missing")]
    Missing {
        /// What is missing.
        field: &'static str,
    },
    /// A coordinate is no finite number, or lies absurdly far away.
    #[error(
        "{what} is at ({x}, {y}); coordinates must be finite and within 100000 yards of the origin \
         (are the units wrong, or latitude and longitude swapped?)"
    )]
    Coordinate {
        /// What has the coordinate.
        what: String,
        /// Yards to the right.
        x: f64,
        /// Yards up.
        y: f64,
    },
    /// The outline of a feature is no valid polygon.
    #[error("{feature}: {fault}")]
    Outline {
        /// The feature.
        feature: FeatureRef,
        /// What is wrong with its outline.
        fault: PolygonFault,
    },
    /// The line of play is no valid line.
    #[error("line of play: {0}")]
    Line(LineFault),
    /// The line of play is longer than any hole.
    #[error(
        "the line of play is {length:.0} yards long; a hole must be 30 to 2640 yards (1.5 miles) long: \
         are the units wrong, or latitude and longitude swapped?"
    )]
    TooLong {
        /// Yards along the line of play.
        length: f64,
    },
    /// The line of play is shorter than any hole.
    #[error(
        "the line of play is {length:.1} yards long; a hole must be 30 to 2640 yards (1.5 miles) long: \
         are the units wrong?"
    )]
    TooShort {
        /// Yards along the line of play.
        length: f64,
    },
    /// The line of play starts away from the tee.
    #[error(
        "the line of play starts {distance:.0} yards from the tee; it must start within 30 yards of it"
    )]
    LineStart {
        /// Yards from the tee to the first vertex.
        distance: f64,
    },
    /// The line of play ends away from the green.
    #[error(
        "the line of play ends {distance:.0} yards from the green; it must end within 30 yards of a green"
    )]
    LineEnd {
        /// Yards from the last vertex to the nearest green.
        distance: f64,
    },
    /// No feature is a green.
    #[error("no green: a hole needs at least one feature that is a green")]
    NoGreen,
    /// The pin is not on a green.
    #[error("pin ({:.1}, {:.1}) must lie on the green; it is {distance:.1} yards from {green}", .pin.x, .pin.y)]
    PinOffGreen {
        /// Where the pin is.
        pin: Point,
        /// The nearest green.
        green: FeatureRef,
        /// Yards from the pin to that green.
        distance: f64,
    },
    /// Another feature lies on the green where the pin is.
    #[error("pin ({:.1}, {:.1}) must lie on the green; there the green is covered by {by}", .pin.x, .pin.y)]
    PinCovered {
        /// Where the pin is.
        pin: Point,
        /// What covers the green there.
        by: FeatureRef,
    },
    /// The tee is out of bounds or in a penalty area.
    #[error("tee ({:.1}, {:.1}) must not be out of bounds or in a penalty area; it lies in {area}", .tee.x, .tee.y)]
    TeeInTrouble {
        /// Where the tee is.
        tee: Point,
        /// What it lies in.
        area: FeatureRef,
    },
    /// A hazard of a sketch covers the tee or the pin.
    #[error("{field} covers the {place}; a hazard must leave the tee and the pin free")]
    Covers {
        /// The hazard, such as `water[0]`.
        field: String,
        /// `tee` or `pin`.
        place: &'static str,
    },
    /// A canopy is given for something other than trees.
    #[error("{feature}: has a canopy; only trees can have one")]
    CanopyOn {
        /// The feature.
        feature: FeatureRef,
    },
    /// The height of a canopy is not allowed.
    #[error("{feature}: canopy height is {height_ft} ft; it must be above 0 and at most 300 ft")]
    CanopyHeight {
        /// The feature.
        feature: FeatureRef,
        /// The height received, feet.
        height_ft: f64,
    },
    /// The openness of a canopy is not allowed.
    #[error("{feature}: canopy openness is {openness}; it must be 0 to 1")]
    CanopyOpenness {
        /// The feature.
        feature: FeatureRef,
        /// The openness received.
        openness: f64,
    },
    /// There are more features than an index can name.
    #[error("there are {count} features; at most 65000 are allowed")]
    TooManyFeatures {
        /// How many there are.
        count: usize,
    },
    /// There are more vertices than are prepared in little time and memory.
    #[error("the features have {count} vertices in all; at most {most} are allowed")]
    TooManyVertices {
        /// How many there are.
        count: usize,
        /// The most allowed.
        most: usize,
    },
    /// Outlines are drawn so finely in one place that every look at the ground there would take long.
    #[error(
        "the outlines have {count} edges in a square of {side:.1} yards at ({:.1}, {:.1}); at most {most} are allowed: draw them \
         with fewer vertices there", .corner.x, .corner.y
    )]
    TooDense {
        /// How many there are.
        count: usize,
        /// The corner of the square with the least coordinates.
        corner: Point,
        /// Its side, yards.
        side: f64,
        /// The most allowed.
        most: usize,
    },
    /// Surveyed heights are faulty.
    #[error("heights: {0}")]
    Heights(HeightFault),
    /// Surveyed heights do not reach over a part of the hole.
    #[error("the heights do not cover the {what}: they end {short:.1} yards short of it")]
    Uncovered {
        /// The part of the hole.
        what: String,
        /// Yards from the grid to its farthest point.
        short: f64,
    },
    /// The ground at the pin is too steep for a ball to rest.
    #[error(
        "the ground at the pin ({:.1}, {:.1}) slopes {percent:.1} %; it must slope at most {most} %",
        .pin.x, .pin.y
    )]
    SteepAtPin {
        /// Where the pin is.
        pin: Point,
        /// Its slope, percent.
        percent: f64,
        /// The most allowed, percent.
        most: f64,
    },
    /// A boundary line cannot be made into an area.
    #[error("out of bounds line ({name}): {fault}")]
    Boundary {
        /// Which boundary line.
        name: String,
        /// What is wrong with it.
        fault: BoundaryFault,
    },
}

impl HoleFault {
    /// A fault of a plain value.
    pub(crate) fn field(
        field: impl Into<String>,
        value: impl fmt::Display,
        allowed: impl Into<String>,
    ) -> Self {
        HoleFault::Field {
            field: field.into(),
            value: value.to_string(),
            allowed: allowed.into(),
        }
    }
}

/// Why a boundary line does not part the map in two.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BoundaryFault {
    /// The line itself is faulty.
    #[error("{0}")]
    Line(LineFault),
    /// The tee and the pin are on different sides of the line, so neither side can be out.
    #[error("the tee and the pin lie on different sides of it")]
    SidesDiffer,
    /// The area it bounds is no valid polygon: the line or its straight extension crosses or touches itself.
    #[error(
        "the line, with its first and last segments extended straight beyond the map, must part the map in two: {0}"
    )]
    Area(PolygonFault),
}

/// Every fault of a hole, in the order found.
#[derive(Clone, Debug, PartialEq)]
pub struct HoleFaults(pub Vec<HoleFault>);

impl fmt::Display for HoleFaults {
    /// One fault a line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.0.iter().enumerate() {
            if i > 0 {
                writeln!(f)?;
            }
            write!(f, "{fault}")?;
        }
        Ok(())
    }
}

impl std::error::Error for HoleFaults {}
