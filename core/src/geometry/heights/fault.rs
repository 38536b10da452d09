//! What can be wrong with a grid of heights.
use super::MOST_NODES;
use crate::geometry::{Point, Vector, within_reach};

/// Why some numbers do not make a grid of heights.
///
/// Rows and columns are counted from 0; row 0 is the one with the smallest y.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum HeightFault {
    /// Too few rows or columns to have a slope.
    #[error("the grid has {rows} rows and {columns} columns; at least 2 of each are needed")]
    TooSmall {
        /// Rows given.
        rows: usize,
        /// Columns given.
        columns: usize,
    },
    /// More nodes than memory is set aside for.
    #[error(
        "the grid has {rows} rows and {columns} columns; at most {MOST_NODES} nodes are allowed: thin it out"
    )]
    TooLarge {
        /// Rows given.
        rows: usize,
        /// Columns given.
        columns: usize,
    },
    /// The heights do not fill the rows.
    #[error("there are {found} heights; {rows} rows of {columns} columns need {}", .rows * .columns)]
    Ragged {
        /// Rows told.
        rows: usize,
        /// Columns told.
        columns: usize,
        /// Heights given.
        found: usize,
    },
    /// The size of a cell is not allowed.
    #[error("the cell is {x} by {y} yards; each side must be 0.01 to 1000 yards")]
    Cell {
        /// Yards between columns.
        x: f64,
        /// Yards between rows.
        y: f64,
    },
    /// The corner is no place.
    #[error("the corner is ({x}, {y}); both must be finite and within 1e9 yards of 0")]
    Corner {
        /// Its x as given.
        x: f64,
        /// Its y as given.
        y: f64,
    },
    /// A height is no number.
    #[error(
        "row {row}, column {column} is {value}; every height must be a finite number (fill gaps first)"
    )]
    NotFinite {
        /// The row, counted from 0 at the smallest y.
        row: usize,
        /// The column, counted from 0 at the smallest x.
        column: usize,
        /// The height as given.
        value: f64,
    },
    /// More heights are no numbers than are listed.
    #[error("{count} more heights are not finite numbers")]
    MoreNotFinite {
        /// How many beyond those listed.
        count: usize,
    },
}

/// Faults of single heights listed one by one; the others are counted.
pub(super) const LISTED: usize = 8;

/// Everything wrong with a grid.
pub(super) fn faults_of(
    corner: Point,
    cell: Vector,
    rows: usize,
    columns: usize,
    heights: &[f64],
) -> Vec<HeightFault> {
    let mut faults = Vec::new();
    if !within_reach(corner) {
        faults.push(HeightFault::Corner {
            x: corner.x,
            y: corner.y,
        });
    }
    let sound = |side: f64| (0.01..=1000.0).contains(&side);
    if !(sound(cell.x) && sound(cell.y)) {
        faults.push(HeightFault::Cell {
            x: cell.x,
            y: cell.y,
        });
    }
    if heights.len() > MOST_NODES {
        faults.push(HeightFault::TooLarge { rows, columns });
    } else if rows < 2 || columns < 2 {
        faults.push(HeightFault::TooSmall { rows, columns });
    } else if rows * columns != heights.len() {
        faults.push(HeightFault::Ragged {
            rows,
            columns,
            found: heights.len(),
        });
    }
    let mut missing = heights.iter().enumerate().filter(|(_, h)| !h.is_finite());
    faults.extend(
        missing
            .by_ref()
            .take(LISTED)
            .map(|(i, &value)| HeightFault::NotFinite {
                row: i / columns.max(1),
                column: i % columns.max(1),
                value,
            }),
    );
    let count = missing.count();
    if count > 0 {
        faults.push(HeightFault::MoreNotFinite { count });
    }
    faults
}
