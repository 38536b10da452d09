//! What is known of a hole beside what it is played on: where it lies, whose data it is, its other tees, who is near.
use crate::geometry::{LocalPlane, Point};

/// What is known of a hole beside what it is played on. Nothing here changes a play.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct About {
    /// True where +y of the plan is known to be north, as on every map in degrees.
    pub north_up: bool,
    /// The plane that the plan is laid on, where it is known where on the earth the hole lies.
    pub place: Option<LocalPlane>,
    /// The credit that the data of the map asks for, to be shown wherever the hole is.
    pub attribution: Option<String>,
    /// The tees of the hole that have a name, in the order of the map.
    pub tees: Vec<NamedTee>,
    /// Who and what near the hole must not be hit, one sentence each: roads, houses, paths.
    pub cautions: Vec<String>,
}

/// A tee with a name.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedTee {
    /// The colour of its markers, or another name.
    pub name: String,
    /// Where the tee shot is played from: the middle of the tee.
    pub at: Point,
}
