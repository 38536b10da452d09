//! Surveyed heights from ESRI ASCII grids.
//!
//! ```text
//! ncols 3
//! nrows 2
//! xllcorner 1000.0
//! yllcorner 2000.0
//! cellsize 1.0
//! nodata_value -9999
//! 12.1 12.3 12.2
//! 11.8 12.0 12.1
//! ```
//!
//! The keys may be in any case and order; the lower left is told by its corner (`xllcorner`, `yllcorner`) or by the centre of
//! its cell (`xllcenter`, `yllcenter`); `nodata_value` is -9999 where it is left out. Cells are square. Then come the
//! heights, row by row from the top, with any white space between.
//!
//! A grid says where it lies in a reference system of its own, which it does not name. [`Place`] tells how that is laid on
//! the plan of the hole. What is not supported: a grid turned against the plan (a projected grid is laid with its north
//! along +y, though grid north and true north differ by up to a few degrees). [`read_around`] takes what lies around a hole
//! of a larger grid, and grids with gaps where nothing is mown or raked.

mod header;

use super::fault::wrong;
use super::survey::{Around, Crop, Frame, Place, Survey, Unit};
use super::{ReadFault, ReadFaults};
use crate::geometry::{HeightGrid, MOST_NODES};
use crate::hole::Hole;
use header::{Header, header};
use std::path::Path;

/// Reads a grid from a text: heights in feet, sides in yards of the plan, as [`crate::hole::Landform`] wants them.
///
/// # Errors
/// Every key that is missing, unknown or wrong; a number of heights that is not rows times columns; every gap or
/// word among the heights (the first few by row and column, counted from 1 from the top left, as in the file).
pub fn read(text: &str, heights: Unit, place: &Place) -> Result<HeightGrid, ReadFaults> {
    let mut faults = Vec::new();
    let (header, values) = header(text, MOST_NODES, &mut faults);
    let grid = header.and_then(|header| {
        let values = values_of(values, &header, &mut faults)?;
        let survey = Survey {
            first: header.first,
            cell: (header.cell, header.cell),
            columns: header.columns,
            values: &values,
        };
        survey.grid(heights, place, &mut faults)
    });
    match grid {
        Some(grid) if faults.is_empty() => Ok(grid),
        _ => Err(ReadFaults(faults)),
    }
}

/// Reads what lies around a hole of a grid in a text, which may be much larger than the hole, and have gaps.
///
/// # Errors
/// As [`read`]; a grid that does not reach over the hole; and gaps on mown or raked ground.
pub fn read_around(
    text: &str,
    heights: Unit,
    place: &Place,
    hole: &Hole,
) -> Result<Around, ReadFaults> {
    let mut faults = Vec::new();
    let (header, words) = header(text, LARGEST, &mut faults);
    let around = header.and_then(|header| {
        let size = (header.rows, header.columns);
        let frame = Frame::new(
            header.first,
            (header.cell, header.cell),
            size,
            place,
            &mut faults,
        )?;
        let crop = Crop::of(frame, size, hole, &mut faults)?;
        let values = cropped(words, &header, &crop, &mut faults)?;
        crop.around(&values, heights, hole, &mut faults)
    });
    match around {
        Some(around) if faults.is_empty() => Ok(around),
        _ => Err(ReadFaults(faults)),
    }
}

/// Reads what lies around a hole of a grid in a file.
///
/// # Errors
/// A file that cannot be read (the message names it), or as [`read_around`].
pub fn read_file_around(
    path: &Path,
    heights: Unit,
    place: &Place,
    hole: &Hole,
) -> Result<Around, ReadFaults> {
    read_around(&super::text_of(path)?, heights, place, hole)
}

/// The most heights of a file of which only a part is kept.
const LARGEST: usize = 1_000_000_000;

/// The heights of a crop, row by row from the top; gaps are NaN. None after reporting faults.
fn cropped(
    text: &str,
    header: &Header,
    crop: &Crop,
    faults: &mut Vec<ReadFault>,
) -> Option<Vec<f64>> {
    let needed = header.columns * header.rows;
    let (mut values, mut count, mut bad) = (Vec::new(), 0, 0);
    for word in text.split_ascii_whitespace() {
        if count == needed {
            count += 1;
            break;
        }
        let (row, column) = (count / header.columns, count % header.columns);
        count += 1;
        if !crop.holds(header.rows - 1 - row, column) {
            continue;
        }
        match word.parse::<f64>().ok() {
            Some(v) if v.is_nan() || v == header.no_data => values.push(f64::NAN),
            Some(v) if v.is_finite() => values.push(v),
            _ => {
                bad += 1;
                if bad <= LISTED {
                    let (row, column) = (row + 1, column + 1);
                    let field =
                        format!("the height in row {row}, column {column} (from the top left)");
                    faults.push(wrong(&field, &shortened(word), "a finite number"));
                }
            }
        }
    }
    if count != needed {
        let found = if count > needed {
            format!("more than {needed}")
        } else {
            count.to_string()
        };
        let allowed = format!("ncols times nrows, {needed}");
        faults.push(wrong("number of heights", &found, &allowed));
    }
    (bad == 0 && count == needed).then_some(values)
}

/// Reads a grid from a file.
///
/// # Errors
/// A file that cannot be read (the message names it), or every fault of what it says.
pub fn read_file(path: &Path, heights: Unit, place: &Place) -> Result<HeightGrid, ReadFaults> {
    read(&super::text_of(path)?, heights, place)
}

/// Faults of single heights listed one by one; the others are counted.
const LISTED: usize = 8;

/// The heights from the top as they stand in the file, or None after reporting faults.
fn values_of(text: &str, header: &Header, faults: &mut Vec<ReadFault>) -> Option<Vec<f64>> {
    let needed = header.columns * header.rows;
    let (mut values, mut count, mut bad) = (Vec::new(), 0, 0);
    for word in text.split_ascii_whitespace() {
        let value = word.parse::<f64>().ok();
        let gap = value.is_some_and(|v| v == header.no_data || v.is_nan());
        match value.filter(|v| v.is_finite() && !gap) {
            Some(value) => values.push(value),
            None if count < needed => {
                bad += 1;
                if bad <= LISTED {
                    let (row, column) = (count / header.columns + 1, count % header.columns + 1);
                    let field =
                        format!("the height in row {row}, column {column} (from the top left)");
                    let what = if gap {
                        format!("{} (no data)", shortened(word))
                    } else {
                        shortened(word)
                    };
                    faults.push(wrong(&field, &what, "a finite number: fill gaps first"));
                }
            }
            None => {}
        }
        count += 1;
        if count > needed {
            break;
        }
    }
    if bad > LISTED {
        let more = (bad - LISTED).to_string();
        faults.push(wrong("number of further gaps", &more, "0"));
    }
    if count != needed {
        let found = if count > needed {
            format!("more than {needed}")
        } else {
            count.to_string()
        };
        let allowed = format!("ncols times nrows, {needed}");
        faults.push(wrong("number of heights", &found, &allowed));
    }
    (bad == 0 && count == needed).then_some(values)
}

/// A word of a file as it stands in a message.
fn shortened(word: &str) -> String {
    let mut short: String = word.chars().take(40).collect();
    if short.len() < word.len() {
        short.push_str("...");
    }
    format!("{short:?}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::LocalPlane;
    use crate::geometry::{Point, Vector};

    const PLACE: Place = Place::Projected {
        unit: Unit::Metres,
        origin: (1000.0, 2000.0),
    };

    /// A grid of two rows of three heights, written in a manner of one's own.
    const GRID: &str =
        "NCOLS 3\r\nnrows\t2\nXllCorner 990.856\nYLLCENTER 2000\ncellsize 9.144\n1 2 3\n4 5\n\n6\n";

    #[test]
    fn a_grid_is_read_from_the_top_and_laid_on_the_plan() {
        let grid = read(GRID, Unit::Feet, &PLACE).unwrap();
        assert_eq!((grid.rows(), grid.columns()), (2, 3));
        assert_eq!(
            grid.heights().collect::<Vec<_>>(),
            [4.0, 5.0, 6.0, 1.0, 2.0, 3.0]
        );
        // 9.144 m are 10 yd: the corner lies one cell to the left of the origin, its centre half a cell.
        assert!((grid.corner() - Point::new(-5.0, 0.0)).norm() < 1e-9);
        assert!((grid.cell() - Vector::new(10.0, 10.0)).norm() < 1e-9);
        let metres = read(GRID, Unit::Metres, &PLACE).unwrap();
        assert!((metres.height(Point::new(-5.0, 10.0)) - 1.0 / 0.3048).abs() < 1e-12);
    }

    /// A degree of latitude is 110,574 m at the equator and 111,694 m at a pole, of longitude 111,320 m at the equator (from
    /// memory).
    #[test]
    fn degrees_are_laid_on_the_plane_of_the_map() {
        let text = "ncols 2 nrows 2 xllcenter 0 yllcenter 0 cellsize 0.001 0 0 0 0";
        let plane = LocalPlane::new(0.0, 0.0).unwrap();
        let grid = read(text, Unit::Feet, &Place::Degrees { plane }).unwrap();
        assert!((grid.cell().x * 0.9144 - 111.320).abs() < 0.001, "{grid:?}");
        assert!((grid.cell().y * 0.9144 - 110.574).abs() < 0.001, "{grid:?}");
        let fault = read(GRID, Unit::Feet, &Place::Degrees { plane }).unwrap_err();
        assert!(fault.to_string().contains("projected grid?"), "{fault}");
    }

    #[test]
    fn every_fault_is_named() {
        for (text, words) in [
            (
                "",
                &[
                    "ncols is missing",
                    "nrows is missing",
                    "xllcorner is missing",
                    "cellsize is missing",
                ][..],
            ),
            (
                "ncols banana nrows 1 xllcorner 0 yllcorner inf cellsize 0 ",
                &["ncols is banana", "nrows is 1", "yllcorner is inf"],
            ),
            (
                "ncols 2 nrows 2 xllcorner 0 yllcorner 0 cellsize -3 1 2 3 4",
                &["cellsize is -3; it must be a number above 0"],
            ),
            (
                "ncols 2 nrows 2 xllcorner 0 yllcorner 0 cellsize 1 1 2 3",
                &["number of heights is 3; it must be ncols times nrows, 4"],
            ),
            (
                "ncols 2 nrows 2 xllcorner 0 yllcorner 0 cellsize 1 1 2 3 4 5",
                &["more than 4"],
            ),
            (
                "ncols 2 nrows 2 xllcorner 0 yllcorner 0 cellsize 1 1 -9999 3 x",
                &[
                    "row 1, column 2 (from the top left) is \"-9999\" (no data)",
                    "row 2, column 2 (from the top left) is \"x\"",
                ],
            ),
            (
                "ncols 2 nrows 2 xllcorner 0 yllcorner 0 cellsize 1 nodata_value 3 nan 2 3 4",
                &["row 1, column 1", "row 2, column 1"],
            ),
            (
                "ncols 2 nrows 2 dx 3",
                &["\"dx\" is not a known field; known are ncols, nrows"],
            ),
            (
                "ncols 9999999 nrows 9999999 xllcorner 0 yllcorner 0 cellsize 1",
                &["9999999 by 9999999", "16000000"],
            ),
            (
                "ncols 2 ncols 2 nrows 2 xllcorner 0 xllcenter 0 yllcorner 0 cellsize 1 1 2 3 4",
                &["ncols is told twice", "xllcenter is told"],
            ),
            ("{\"type\": 1}", &["not a known field"]),
        ] {
            let fault = read(text, Unit::Metres, &PLACE).unwrap_err().to_string();
            for word in words {
                assert!(fault.contains(word), "{text}\n{fault}");
            }
        }
    }
}
