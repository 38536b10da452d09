//! A course: holes in the order in which they are played.
mod fault;
mod handicapping;
mod stroke_index;

pub use fault::{CourseFault, CourseFaults};
pub use handicapping::{
    MOST_INDEX, STANDARD_SLOPE, course_handicap, differential, handicap_index, net_double_bogey,
    strokes_received,
};
pub use stroke_index::stroke_indexes;

use crate::hole::Hole;
use std::fmt;
use std::sync::Arc;

/// The most holes of a course: a round.
pub const MOST_HOLES: usize = 18;

/// A course: one to eighteen holes in the order in which they are played.
///
/// Two courses are equal when their names, attributions and holes are.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    name: String,
    attribution: Option<String>,
    holes: Vec<Arc<Hole>>,
    numbers: Vec<u8>,
}

impl Course {
    /// Makes a course of its holes.
    ///
    /// A hole that has no number is called by its place. `attribution` says whose map the holes come from, where that must
    /// be told.
    ///
    /// # Errors
    /// Every fault at once: a name or attribution that is empty or cannot be shown as it is, no holes or more than [`MOST_HOLES`], two holes of one number or
    /// of one stroke index, stroke indexes on some holes alone.
    pub fn new(
        name: impl Into<String>,
        holes: Vec<Arc<Hole>>,
        attribution: Option<String>,
    ) -> Result<Self, CourseFaults> {
        let name = name.into();
        let faults = fault::faults(&name, attribution.as_deref(), &holes);
        if !faults.is_empty() {
            return Err(CourseFaults(faults));
        }
        let numbers = (0..holes.len()).map(|i| number(&holes, i)).collect();
        Ok(Course {
            name,
            attribution,
            holes,
            numbers,
        })
    }

    /// Name of the course.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Whose map the holes come from, if that must be told.
    #[must_use]
    pub fn attribution(&self) -> Option<&str> {
        self.attribution.as_deref()
    }

    /// The holes in the order in which they are played.
    #[must_use]
    pub fn holes(&self) -> &[Arc<Hole>] {
        &self.holes
    }

    /// The numbers of the holes: those on the card, or their places counted from 1.
    #[must_use]
    pub fn numbers(&self) -> &[u8] {
        &self.numbers
    }

    /// The place, counted from 0, of the hole with a number.
    #[must_use]
    pub fn place_of(&self, number: u8) -> Option<usize> {
        self.numbers.iter().position(|&n| n == number)
    }

    /// The sum of the pars.
    #[must_use]
    pub fn par(&self) -> u16 {
        self.holes.iter().map(|hole| u16::from(hole.par())).sum()
    }

    /// Yards along all lines of play together.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.holes.iter().map(|hole| hole.length()).sum()
    }

    /// The stroke indexes on the card, if it has them.
    #[must_use]
    pub fn stroke_indexes(&self) -> Option<Vec<u8>> {
        self.holes.iter().map(|hole| hole.stroke_index()).collect()
    }
}

/// The number of the hole at a place.
fn number(holes: &[Arc<Hole>], place: usize) -> u8 {
    // There are at most eighteen places.
    let own = u8::try_from(place + 1).unwrap_or(u8::MAX);
    holes[place].number().unwrap_or(own)
}

impl fmt::Display for Course {
    /// Name, par and length, then a line a hole.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let count = self.holes.len();
        let holes = if count == 1 { "hole" } else { "holes" };
        let (par, length) = (self.par(), self.length());
        write!(
            f,
            "{}, {count} {holes}, par {par}, {length:.0} yd",
            self.name
        )?;
        for (number, hole) in self.numbers.iter().zip(&self.holes) {
            let (par, length) = (hole.par(), hole.length());
            write!(f, "\n  {number:>2}  par {par}  {length:>4.0} yd")?;
            if let Some(index) = hole.stroke_index() {
                write!(f, "  stroke index {index:>2}")?;
            }
            write!(f, "  {}", hole.name())?;
        }
        if let Some(attribution) = &self.attribution {
            write!(f, "\n  {attribution}")?;
        }
        Ok(())
    }
}
