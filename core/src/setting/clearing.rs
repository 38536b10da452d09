//! How far the nearest trees are from everywhere on a hole.
use crate::geometry::{Point, Polygon, Vector};

/// Side of a cell, yards; larger where the grid would have more than this many columns or rows.
const CELL: f64 = 4.0;
const MOST: f64 = 300.0;

/// A grid that tells how far a ball may go from anywhere before it can meet a tree.
///
/// A cell holds a lower bound: the steps of a king on the board of cells to the nearest cell with trees, less one, make
/// at least as many sides of a cell.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Clearing {
    corner: Point,
    side: f64,
    columns: usize,
    rows: usize,
    yards: Vec<f32>,
}

impl Clearing {
    /// Lays the grid around some stands with a margin, which shots from outside begin in.
    pub(super) fn around<'a>(stands: impl Iterator<Item = &'a Polygon> + Clone) -> Self {
        let boxes = stands.clone().map(Polygon::bounds);
        let Some((low, high)) = boxes.reduce(|a, b| (a.0.inf(&b.0), a.1.sup(&b.1))) else {
            return Self::default();
        };
        // One cell more on every side: the cells on the border have no trees, and none lie beyond.
        let side = CELL.max((high - low).amax() / MOST);
        let low = low - Vector::new(side, side);
        let cells = (high - low) / side;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a hole is small"
        )]
        let (columns, rows) = (cells.x as usize + 2, cells.y as usize + 2);
        let mut clearing = Clearing {
            corner: low,
            side,
            columns,
            rows,
            yards: Vec::new(),
        };
        let mut steps = vec![u16::MAX; columns * rows];
        for stand in stands {
            clearing.mark(stand, &mut steps);
        }
        clearing.spread(&mut steps);
        #[expect(clippy::cast_possible_truncation, reason = "a small multiple")]
        let yards = |steps: u16| (f64::from(steps.saturating_sub(1)) * side) as f32;
        clearing.yards = steps.into_iter().map(yards).collect();
        clearing
    }

    /// Yards that a ball at `p` may go in any direction without meeting trees, and 0 where there may be some.
    /// None outside the grid.
    #[inline]
    pub(super) fn at(&self, p: Point) -> Option<f64> {
        let (column, row) = self.cell(p)?;
        Some(f64::from(self.yards[row * self.columns + column]))
    }

    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked against the grid"
    )]
    fn cell(&self, p: Point) -> Option<(usize, usize)> {
        let at = (p - self.corner) / self.side;
        if !(at.x >= 0.0 && at.y >= 0.0) {
            return None;
        }
        let (column, row) = (at.x as usize, at.y as usize);
        (column < self.columns && row < self.rows).then_some((column, row))
    }

    /// The box of the grid, and the side of a cell.
    pub(super) fn bounds(&self) -> (Point, Point, f64) {
        #[expect(clippy::cast_precision_loss, reason = "a small grid")]
        let size = Vector::new(self.columns as f64, self.rows as f64) * self.side;
        (self.corner, self.corner + size, self.side)
    }

    /// Marks every cell that a stand meets: those its edges run through, with their neighbours to be sure, and those
    /// whose middle it covers.
    fn mark(&self, stand: &Polygon, steps: &mut [u16]) {
        for (from, to) in stand.edges() {
            let parts = ((to - from).norm() / (0.5 * self.side)).ceil().max(1.0);
            let mut part = 0.0;
            while part <= parts {
                if let Some((column, row)) = self.cell(from + (to - from) * (part / parts)) {
                    for row in row.saturating_sub(1)..(row + 2).min(self.rows) {
                        for column in column.saturating_sub(1)..(column + 2).min(self.columns) {
                            steps[row * self.columns + column] = 0;
                        }
                    }
                }
                part += 1.0;
            }
        }
        let (low, high) = stand.bounds();
        let (Some(first), Some(last)) = (self.cell(low), self.cell(high)) else {
            return;
        };
        for row in first.1..=last.1 {
            for column in first.0..=last.0 {
                #[expect(clippy::cast_precision_loss, reason = "a small grid")]
                let place = Vector::new(column as f64 + 0.5, row as f64 + 0.5);
                let step = &mut steps[row * self.columns + column];
                if *step > 0 && stand.contains(self.corner + place * self.side) {
                    *step = 0;
                }
            }
        }
    }

    /// Counts the steps from the marked cells outward: once down the grid and once up.
    fn spread(&self, steps: &mut [u16]) {
        let (columns, rows) = (self.columns, self.rows);
        let nearest = |steps: &[u16], column: usize, row: usize| {
            let mut least = u16::MAX;
            for row in row.saturating_sub(1)..(row + 2).min(rows) {
                for column in column.saturating_sub(1)..(column + 2).min(columns) {
                    least = least.min(steps[row * columns + column]);
                }
            }
            least.saturating_add(1)
        };
        let order = || (0..rows).flat_map(|row| (0..columns).map(move |column| (column, row)));
        for (column, row) in order() {
            let i = row * columns + column;
            steps[i] = steps[i].min(nearest(steps, column, row));
        }
        for (column, row) in order().collect::<Vec<_>>().into_iter().rev() {
            let i = row * columns + column;
            steps[i] = steps[i].min(nearest(steps, column, row));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The distance to two squares is known; the bound must never exceed it, and be of some use.
    #[test]
    fn no_tree_is_nearer_than_told() {
        let square = |x: f64, y: f64, side: f64| {
            let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)];
            let ring = corners.map(|(dx, dy)| Point::new(x + dx, y + dy));
            Polygon::from_points(vec![ring.to_vec()]).unwrap()
        };
        let stands = [square(0.0, 0.0, 30.0), square(100.0, 55.5, 11.3)];
        let clearing = Clearing::around(stands.iter());
        let away = |p: Point, x: f64, y: f64, side: f64| {
            let out = |at: f64, low: f64| (low - at).max(at - low - side).max(0.0);
            out(p.x, x).hypot(out(p.y, y))
        };
        let mut useful = 0;
        for i in 0..110 {
            for j in 0..66 {
                let p = Point::new(f64::from(i) + 0.37, f64::from(j) + 0.61);
                let truth = away(p, 0.0, 0.0, 30.0).min(away(p, 100.0, 55.5, 11.3));
                let told = clearing.at(p).unwrap();
                assert!(told <= truth, "{p} {told} {truth}");
                useful += i32::from(told > 0.4 * truth && truth > 20.0);
            }
        }
        assert!(useful > 1000, "{useful}");
        assert_eq!(clearing.at(Point::new(-50.0, 5.0)), None);
    }
}
