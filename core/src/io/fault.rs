//! What can be wrong with a document or a map.
use crate::course::CourseFault;
use crate::hole::HoleFault;
use crate::text::is_plain;
use std::fmt;

/// One thing wrong with a document or a map.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ReadFault {
    /// The file cannot be read.
    #[error("cannot read {}: {error}", if is_plain(file) { file.clone() } else { format!("{file:?}") })]
    File {
        /// The file's name as it was given.
        file: String,
        /// What the system says.
        error: String,
    },
    /// The text is not JSON.
    #[error("not valid JSON at line {line}, column {column}: {message}{hint}")]
    Json {
        /// Line, counted from 1.
        line: usize,
        /// Column, counted from 1 (0 before the first character of a line).
        column: usize,
        /// What is wrong there.
        message: String,
        /// A guess at what the text is instead, or nothing.
        hint: &'static str,
    },
    /// The JSON is neither of the documents read here.
    #[error(
        "neither a wideberth document (a JSON object with \"format\": \"wideberth-hole\") nor a GeoJSON map \
         (a JSON object with \"type\": \"FeatureCollection\") nor the answer of an Overpass query (\"elements\")"
    )]
    UnknownFormat,
    /// A field is not what it must be.
    #[error("{field} is {value}; it must be {allowed}")]
    Field {
        /// The field with the way to it, such as `features[3].surface`.
        field: String,
        /// The value received, as JSON, shortened.
        value: String,
        /// What is allowed.
        allowed: String,
    },
    /// A field is missing.
    #[error("{field} is missing; it must be {allowed}")]
    Missing {
        /// The field with the way to it.
        field: String,
        /// What is allowed.
        allowed: String,
    },
    /// A field is not known here.
    #[error("{field} is not a known field; known are {known}")]
    Unknown {
        /// The field with the way to it.
        field: String,
        /// The fields that are known there.
        known: String,
    },
    /// The geometry of a map's feature is faulty.
    #[error("{feature}: {message}")]
    Geometry {
        /// The feature, such as `green (feature 3)`.
        feature: String,
        /// What is wrong.
        message: String,
    },
    /// The map has no hole.
    #[error(
        "no hole in the map: it needs a LineString tagged golf=hole (or role=line_of_play) from tee to green"
    )]
    NoHole,
    /// The map has several holes and none was chosen.
    #[error("the map has {count} features golf=hole; choose one by its ref: {refs}")]
    SeveralHoles {
        /// How many.
        count: usize,
        /// Their refs.
        refs: String,
    },
    /// The chosen hole is not in the map.
    #[error("hole is {hole:?}; it must be the ref of one golf=hole of the map: {refs}")]
    NoSuchHole {
        /// The hole asked for.
        hole: String,
        /// The refs there are.
        refs: String,
    },
    /// Several holes of the map have the number that was chosen.
    #[error(
        "hole {hole:?} is not one hole of the map but several: {choices}; choose by the course too, or by a longitude and \
         latitude on the line of play"
    )]
    AmbiguousHole {
        /// The hole asked for.
        hole: String,
        /// The features it may be.
        choices: String,
    },
    /// The map has holes of several courses and none was chosen.
    #[error("the map has holes of several courses; course must be one of {courses}")]
    SeveralCourses {
        /// Their names, with how many holes each has.
        courses: String,
    },
    /// The chosen course is not in the map, or has no holes there.
    #[error("course is {course:?}; it must be a course with holes on the map: {courses}")]
    NoSuchCourse {
        /// The course asked for.
        course: String,
        /// The courses there are.
        courses: String,
    },
    /// The map uses another reference system.
    #[error(
        "crs is {crs}; it must be left out or CRS84: GeoJSON (RFC 7946) is longitude and latitude in WGS 84"
    )]
    Crs {
        /// The reference system received, shortened.
        crs: String,
    },
    /// The hole that was read is faulty.
    #[error("{0}")]
    Hole(HoleFault),
    /// The course that was read is faulty.
    #[error("{0}")]
    Course(CourseFault),
    /// A part of a document, such as a hole of a course, is faulty.
    #[error("{part}: {fault}")]
    Part {
        /// The part with the way to it, such as `holes[3]`.
        part: String,
        /// What is wrong with it.
        fault: Box<ReadFault>,
    },
}

/// Every fault of a document, in the order found.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadFaults(pub Vec<ReadFault>);

impl fmt::Display for ReadFaults {
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

impl std::error::Error for ReadFaults {}

impl From<crate::hole::HoleFaults> for ReadFaults {
    fn from(faults: crate::hole::HoleFaults) -> Self {
        ReadFaults(faults.0.into_iter().map(ReadFault::Hole).collect())
    }
}

impl From<crate::course::CourseFaults> for ReadFaults {
    fn from(faults: crate::course::CourseFaults) -> Self {
        ReadFaults(faults.0.into_iter().map(ReadFault::Course).collect())
    }
}

/// A field that has a wrong value.
pub(super) fn wrong(field: &str, value: &str, allowed: &str) -> ReadFault {
    ReadFault::Field {
        field: field.to_owned(),
        value: value.to_owned(),
        allowed: allowed.to_owned(),
    }
}
