//! What can be wrong with a course.
use super::{MOST_HOLES, number};
use crate::hole::Hole;
use crate::text::{LONGEST_CREDIT, LONGEST_NAME, allowed, is_fit};
use std::fmt;
use std::sync::Arc;

/// One thing wrong with a course.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum CourseFault {
    /// A text with nothing in it.
    #[error("{field} is {value:?}; it must be text that is not empty")]
    Empty {
        /// The field.
        field: &'static str,
        /// What was given.
        value: String,
    },
    /// A text that cannot be shown as it is.
    #[error("{field} is {value:?}; it must be {}", allowed(*.longest))]
    Unfit {
        /// The field.
        field: &'static str,
        /// What was given.
        value: String,
        /// The most characters that it may have.
        longest: usize,
    },
    /// No holes, or more than a round has.
    #[error("holes has {count} holes; it must have 1 to {MOST_HOLES}")]
    Count {
        /// How many.
        count: usize,
    },
    /// Two holes that are called by one number.
    #[error(
        "holes[{first}] and holes[{second}] are both number {number}; the numbers of a course must differ"
    )]
    SameNumber {
        /// The number.
        number: u8,
        /// Place of the first, counted from 0.
        first: usize,
        /// Place of the second.
        second: usize,
    },
    /// Two holes of one stroke index.
    #[error(
        "holes[{first}] and holes[{second}] both have stroke index {index}; those of a course must differ"
    )]
    SameIndex {
        /// The stroke index.
        index: u8,
        /// Place of the first, counted from 0.
        first: usize,
        /// Place of the second.
        second: usize,
    },
    /// Stroke indexes on some of the holes.
    #[error(
        "holes[{place}] has no stroke index and others have; all holes of a course must have one, or none"
    )]
    SomeIndexes {
        /// Place of the first that has none, counted from 0.
        place: usize,
    },
}

/// Every fault of a course, in the order found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CourseFaults(pub Vec<CourseFault>);

impl fmt::Display for CourseFaults {
    /// One fault a line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.0.iter().enumerate() {
            let line = if i > 0 { "\n" } else { "" };
            write!(f, "{line}{fault}")?;
        }
        Ok(())
    }
}

impl std::error::Error for CourseFaults {}

/// Everything that is wrong.
pub(super) fn faults(
    name: &str,
    attribution: Option<&str>,
    holes: &[Arc<Hole>],
) -> Vec<CourseFault> {
    let mut faults = Vec::new();
    faults.extend(of_text("name", name, LONGEST_NAME));
    faults.extend(attribution.and_then(|credit| of_text("attribution", credit, LONGEST_CREDIT)));
    let count = holes.len();
    if !(1..=MOST_HOLES).contains(&count) {
        faults.push(CourseFault::Count { count });
        return faults;
    }
    let numbers: Vec<Option<u8>> = (0..count).map(|i| Some(number(holes, i))).collect();
    faults.extend(twice(&numbers).into_iter().map(|(number, first, second)| {
        CourseFault::SameNumber {
            number,
            first,
            second,
        }
    }));
    let indexes: Vec<Option<u8>> = holes.iter().map(|hole| hole.stroke_index()).collect();
    faults.extend(twice(&indexes).into_iter().map(|(index, first, second)| {
        CourseFault::SameIndex {
            index,
            first,
            second,
        }
    }));
    let missing = indexes.iter().position(Option::is_none);
    if let Some(place) = missing.filter(|_| indexes.iter().any(Option::is_some)) {
        faults.push(CourseFault::SomeIndexes { place });
    }
    faults
}

/// What is wrong with a name or a credit.
fn of_text(field: &'static str, text: &str, longest: usize) -> Option<CourseFault> {
    let value = text.to_owned();
    if text.trim().is_empty() {
        Some(CourseFault::Empty { field, value })
    } else if is_fit(text, longest) {
        None
    } else {
        Some(CourseFault::Unfit {
            field,
            value,
            longest,
        })
    }
}

/// The values that occur again, with the place where each was first and the place where it is again.
fn twice(values: &[Option<u8>]) -> Vec<(u8, usize, usize)> {
    let again = |(second, value): (usize, &Option<u8>)| {
        let value = (*value)?;
        let first = values[..second].iter().position(|v| *v == Some(value))?;
        Some((value, first, second))
    };
    values.iter().enumerate().filter_map(again).collect()
}
