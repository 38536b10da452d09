//! What lies around a hole of a survey that is larger than it and may have gaps.
use super::super::ReadFault;
use super::super::fault::wrong;
use super::{Frame, Place, Survey, Unit, height_grid};
use crate::geometry::{HeightGrid, Point, Vector};
use crate::hole::{Hole, Warning};
use crate::io::ReadFaults;
use std::ops::RangeInclusive;

/// Heights farther apart than this, yards, are those of surveys of whole continents: from one to the next they are off by
/// metres, which would be false slopes of a tenth and more (30 m apart and good to 2 to 4 m against each other: Copernicus and
/// SRTM elevation models, from memory). They tell the fall of a hole, not that from one height to the next.
const COARSE: f64 = 15.0;
/// So such heights are smoothed over so many cells: independent errors with an sd of a metre, 30 yards apart, are then false
/// slopes with an sd of 0.3 % (computed: that of a bell curve of width s is 1 / (s² √(8π)) of the error over a cell).
const SMOOTHED: f64 = 1.5;
/// Faults of single gaps listed one by one; the others are counted.
const LISTED: usize = 8;

/// Heights around a hole, and what should be known of them.
#[derive(Clone, Debug)]
pub struct Around {
    /// Heights in feet, sides in yards of the plan.
    pub grid: HeightGrid,
    /// That gaps were filled, and that coarse heights were smoothed, where that was so.
    pub notes: Vec<Warning>,
}

impl Survey<'_> {
    /// The survey around a hole laid on its plan. A height that is NaN is a gap: where nothing is mown or raked it takes the
    /// nearest height there is.
    ///
    /// # Errors
    /// As [`Survey::on_plan`]; a survey that does not reach over the hole; and gaps on mown or raked ground.
    pub fn around(&self, heights: Unit, place: &Place, hole: &Hole) -> Result<Around, ReadFaults> {
        let mut faults = Vec::new();
        let size = (self.rows(), self.columns);
        let around = Frame::of(self, place, &mut faults).and_then(|frame| {
            let crop = Crop::of(frame, size, hole, &mut faults)?;
            let rows = self.values.chunks(self.columns.max(1)).enumerate();
            let kept = rows.flat_map(|(row, values)| {
                let up = size.0 - 1 - row;
                values
                    .iter()
                    .enumerate()
                    .filter(move |&(column, _)| crop.holds(up, column))
                    .map(|(_, &value)| value)
            });
            let values: Vec<f64> = kept.collect();
            crop.around(&values, heights, hole, &mut faults)
        });
        around
            .filter(|_| faults.is_empty())
            .ok_or(ReadFaults(faults))
    }
}

/// The rows and columns of a grid that lie around a hole.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct Crop {
    frame: Frame,
    size: (usize, usize),
    /// First and last row, counted from the bottom.
    rows: (usize, usize),
    columns: (usize, usize),
}

impl Crop {
    /// What of a grid of so many rows and columns lies around a hole; None after reporting that nothing does.
    pub(in super::super) fn of(
        frame: Frame,
        size: (usize, usize),
        hole: &Hole,
        faults: &mut Vec<ReadFault>,
    ) -> Option<Self> {
        let (low, high) = hole.ground_reach();
        let (corner, cell) = (frame.corner, frame.cell);
        let far = corner
            + Vector::new(
                cell.x * (size.1 as f64 - 1.0),
                cell.y * (size.0 as f64 - 1.0),
            );
        let within = |low: f64, high: f64, corner: f64, cell: f64, count: usize| {
            let first = ((low - corner) / cell).floor().max(0.0);
            let last = ((high - corner) / cell).ceil().min(count as f64 - 1.0);
            // Two heights at least make a slope.
            (first < last).then_some((first as usize, last as usize))
        };
        let columns = within(low.x, high.x, corner.x, cell.x, size.1);
        let rows = within(low.y, high.y, corner.y, cell.y, size.0);
        if let (Some(rows), Some(columns)) = (rows, columns) {
            return Some(Crop {
                frame,
                size,
                rows,
                columns,
            });
        }
        let whole = |p: Point| format!("({:.0}, {:.0})", p.x, p.y);
        faults.push(wrong(
            "the survey's extent on the plan",
            &format!("{} to {} yards", whole(corner), whole(far)),
            &format!("around the hole, {} to {}", whole(low), whole(high)),
        ));
        None
    }

    /// True for a height of the crop, by row from the bottom and column.
    pub(in super::super) fn holds(&self, row: usize, column: usize) -> bool {
        let within = |(first, last): (usize, usize)| -> RangeInclusive<usize> { first..=last };
        within(self.rows).contains(&row) && within(self.columns).contains(&column)
    }

    fn counts(&self) -> (usize, usize) {
        (
            self.rows.1 - self.rows.0 + 1,
            self.columns.1 - self.columns.0 + 1,
        )
    }

    /// The grid of the crop's heights, which are told row by row from the top.
    pub(in super::super) fn around(
        &self,
        values: &[f64],
        heights: Unit,
        hole: &Hole,
        faults: &mut Vec<ReadFault>,
    ) -> Option<Around> {
        let (rows, columns) = self.counts();
        if values.len() != rows * columns {
            return None;
        }
        let upwards = values.chunks(columns).rev().flatten();
        let mut feet: Vec<f64> = upwards.map(|&h| heights.feet(h)).collect();
        let (x, y) = (self.columns.0 as f64, self.rows.0 as f64);
        let cell = self.frame.cell;
        let frame = Frame {
            corner: self.frame.corner + Vector::new(cell.x * x, cell.y * y),
            cell,
        };
        let gaps = feet.iter().filter(|h| h.is_nan()).count();
        if gaps == feet.len() {
            faults.push(wrong(
                "the survey around the hole",
                "nothing but gaps",
                "heights",
            ));
            return None;
        }
        if gaps > 0 {
            self.report_gaps(&frame, &feet, hole, faults);
            fill(&mut feet, columns);
        }
        let mut notes = Vec::new();
        if gaps > 0 {
            let share = 100.0 * gaps as f64 / feet.len() as f64;
            notes.push(Warning(format!(
                "the survey has {gaps} gaps around the hole ({share:.1} %), none on mown or raked ground: they take the \
                 nearest heights"
            )));
        }
        if cell.amax() > COARSE {
            smooth(&mut feet, columns);
            notes.push(Warning(format!(
                "the heights of the survey are {:.0} yards apart: they tell the fall of the hole, and were smoothed over \
                 {SMOOTHED} cells, for from one to the next they are too uncertain to tell slopes",
                cell.amax()
            )));
        }
        let grid = height_grid(&frame, columns, &feet, faults)?;
        Some(Around { grid, notes })
    }

    /// Reports gaps where heights are needed: on mown or raked ground, at the tee and at the pin.
    fn report_gaps(&self, frame: &Frame, feet: &[f64], hole: &Hole, faults: &mut Vec<ReadFault>) {
        let (_, columns) = self.counts();
        let place = |i: usize| {
            let (row, column) = ((i / columns) as f64, (i % columns) as f64);
            frame.corner + Vector::new(frame.cell.x * column, frame.cell.y * row)
        };
        let at_ends = [hole.tee(), hole.pin()].map(|p| nearest(frame, p, columns, feet.len()));
        let gaps = (0..feet.len()).filter(|&i| feet[i].is_nan());
        let needed = |&i: &usize| at_ends.contains(&i) || hole.surface_at(place(i)).is_tended();
        let mut bad = 0;
        for i in gaps.filter(needed) {
            bad += 1;
            if bad <= LISTED {
                let row = self.size.0 - (self.rows.0 + i / columns);
                let column = self.columns.0 + i % columns + 1;
                let field = format!("the height in row {row}, column {column} (from the top left)");
                let surface = hole.surface_at(place(i)).name().replace('_', " ");
                let allowed =
                    format!("a finite number, for it is on the {surface}: fill gaps first");
                faults.push(wrong(&field, "a gap (no data)", &allowed));
            }
        }
        if bad > LISTED {
            let more = (bad - LISTED).to_string();
            faults.push(wrong("number of further gaps on the hole", &more, "0"));
        }
    }
}

/// The place in the list of the height nearest to a point.
fn nearest(frame: &Frame, p: Point, columns: usize, count: usize) -> usize {
    let rows = count / columns;
    let index = |offset: f64, cell: f64, most: usize| {
        (offset / cell).round().clamp(0.0, most as f64 - 1.0) as usize
    };
    let column = index(p.x - frame.corner.x, frame.cell.x, columns);
    index(p.y - frame.corner.y, frame.cell.y, rows) * columns + column
}

/// Gives every gap the nearest height there is, counted in steps along rows and columns.
fn fill(feet: &mut [f64], columns: usize) {
    let mut edge: Vec<usize> = (0..feet.len()).filter(|&i| !feet[i].is_nan()).collect();
    while !edge.is_empty() {
        let mut next = Vec::new();
        for i in edge {
            let column = i % columns;
            let beside = [
                (column > 0).then(|| i - 1),
                (column + 1 < columns).then_some(i + 1),
                i.checked_sub(columns),
                Some(i + columns).filter(|&j| j < feet.len()),
            ];
            for j in beside.into_iter().flatten() {
                if feet[j].is_nan() {
                    feet[j] = feet[i];
                    next.push(j);
                }
            }
        }
        edge = next;
    }
}

/// Gives every height the mean of those around it, by a bell curve of [`SMOOTHED`] cells along rows and columns. Planes stay as
/// they are, at the border too: beyond it the ground is turned about the last height.
fn smooth(feet: &mut [f64], columns: usize) {
    let rows = feet.len() / columns;
    for row in 0..rows {
        smooth_line(feet, row * columns, 1, columns);
    }
    for column in 0..columns {
        smooth_line(feet, column, columns, rows);
    }
}

/// Smooths `count` heights, each `step` after the one before it.
fn smooth_line(feet: &mut [f64], first: usize, step: usize, count: usize) {
    /// Cells to either side that count: three widths.
    const REACH: i64 = 5;
    let line: Vec<f64> = (0..count).map(|i| feet[first + i * step]).collect();
    let last = count as i64 - 1;
    let at = |i: i64| -> f64 {
        let inside = |i: i64| line[i.clamp(0, last) as usize];
        if i < 0 {
            2.0 * line[0] - inside(-i)
        } else if i > last {
            2.0 * line[last as usize] - inside(2 * last - i)
        } else {
            line[i as usize]
        }
    };
    let weight = |k: i64| libm::exp(-0.5 * (k as f64 / SMOOTHED) * (k as f64 / SMOOTHED));
    let total: f64 = (-REACH..=REACH).map(weight).sum();
    for i in 0..count {
        let sum: f64 = (-REACH..=REACH).map(|k| weight(k) * at(i as i64 + k)).sum();
        feet[first + i * step] = sum / total;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn smoothing_keeps_planes_and_takes_the_edge_off_noise() {
        let columns = 20;
        let plane = |i: usize| 3.0 * (i % columns) as f64 - 2.0 * (i / columns) as f64;
        let mut feet: Vec<f64> = (0..400).map(plane).collect();
        smooth(&mut feet, columns);
        assert!((0..400).all(|i| (feet[i] - plane(i)).abs() < 1e-9));
        // One height a foot too high: its share is the square of 1 / (s √(2π)), as of a continuous bell curve.
        feet[210] += 1.0;
        smooth(&mut feet, columns);
        let share = 1.0 / (SMOOTHED * SMOOTHED * 2.0 * std::f64::consts::PI);
        assert!((feet[210] - plane(210) - share).abs() < 0.002);
    }

    #[test]
    fn gaps_take_the_nearest_height() {
        let gap = f64::NAN;
        let mut feet = vec![1.0, gap, gap, 4.0, gap, gap, gap, gap];
        fill(&mut feet, 4);
        assert_eq!(feet, [1.0, 1.0, 4.0, 4.0, 1.0, 1.0, 4.0, 4.0]);
    }
}
