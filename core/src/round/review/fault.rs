//! What can be wrong with a round that was written down.
use crate::text::table_row;
use std::fmt;

/// One thing wrong with a round that was written down.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ReviewFault {
    /// A table without a column it needs.
    #[error("the table has no column {column}; it must have {needed}, and may have {more}")]
    Missing {
        /// The column.
        column: &'static str,
        /// What every table needs.
        needed: String,
        /// What it may have.
        more: String,
    },
    /// A table that does not begin with its header.
    #[error("row 1 is blank; it must be the header, such as {needed}")]
    NoHeader {
        /// What every table needs.
        needed: String,
    },
    /// A column that nothing is read from, or that is there twice.
    #[error("column {column:?} is {what}; known are {known}")]
    Column {
        /// Its name.
        column: String,
        /// What is wrong with it.
        what: &'static str,
        /// What is known.
        known: String,
    },
    /// A table without rows, or with more than a round has.
    #[error("the table has {count} rows; it must have 1 to {most}")]
    Rows {
        /// How many.
        count: usize,
        /// The most.
        most: usize,
    },
    /// A row of another number of cells than the header.
    #[error("{}: {cells} cells; the header has {header}", table_row(*.row))]
    Cells {
        /// The line that the row stands on.
        row: usize,
        /// Its cells.
        cells: usize,
        /// Those of the header.
        header: usize,
    },
    /// A cell that is not what it must be.
    #[error("{}: {column} is {value:?}; it must be {allowed}", table_row(*.row))]
    Cell {
        /// The line that the row stands on.
        row: usize,
        /// The column.
        column: &'static str,
        /// What stands there.
        value: String,
        /// What is allowed.
        allowed: String,
    },
    /// A stroke out of its order.
    #[error("{}: stroke is {given}; on hole {hole} it must be {wanted}{hint}", table_row(*.row))]
    Order {
        /// The line that the row stands on.
        row: usize,
        /// The hole.
        hole: u8,
        /// What stands there.
        given: u32,
        /// What should stand there.
        wanted: u32,
        /// What may have been forgotten.
        hint: &'static str,
    },
    /// Rows of a hole that are parted by those of another.
    #[error(
        "{}: hole {hole} began before and was left for another; its rows must follow each other",
        table_row(*.row)
    )]
    Parted {
        /// The line that the row stands on.
        row: usize,
        /// The hole.
        hole: u8,
    },
    /// A ball that lies nowhere on its hole.
    #[error("{}: {message}", table_row(*.row))]
    Place {
        /// The line that the row stands on.
        row: usize,
        /// Why not.
        message: String,
    },
}

/// Every fault of a round, in the order found.
#[derive(Clone, Debug, PartialEq)]
pub struct ReviewFaults(pub Vec<ReviewFault>);

impl fmt::Display for ReviewFaults {
    /// One fault a line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, fault) in self.0.iter().enumerate() {
            let line = if i > 0 { "\n" } else { "" };
            write!(f, "{line}{fault}")?;
        }
        Ok(())
    }
}

impl std::error::Error for ReviewFaults {}
