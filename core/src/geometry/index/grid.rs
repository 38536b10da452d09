//! The uniform grid under the index: which cell a point is in, which cells an edge may meet.

use super::{Point, Polygon, Vector};

/// Square cells over the layers, and a rim of cells around them that no layer comes near: what lies outside is as in the
/// rim, so that a point is looked up without asking whether it is in the grid.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    origin: Point,
    /// The corner farthest from the origin.
    end: Point,
    /// The side of a cell, yards.
    pub(super) size: f64,
    per_yard: f64,
    pub(super) columns: usize,
    pub(super) rows: usize,
    /// By how much every cell is taken larger than it is when edges are sorted into it, yards: far
    /// more than the rounding in finding a point's cell, far less than a cell.
    pad: f64,
}

impl Grid {
    /// A grid of about `most_cells` cells over the layers; of one cell for no layers.
    pub(super) fn over(layers: &[Polygon], most_cells: usize) -> Self {
        let boxes = layers.iter().map(Polygon::bounds);
        let Some((low, high)) = boxes.reduce(|a, b| (a.0.inf(&b.0), a.1.sup(&b.1))) else {
            return Self::empty();
        };
        let (w, h, n) = (high.x - low.x, high.y - low.y, most_cells as f64);
        let farthest = [low.x, low.y, high.x, high.y]
            .iter()
            .fold(0.0_f64, |m, c| m.max(c.abs()));
        // The last bound keeps the cells far larger than the rounding of the coordinates.
        let size = (w * h / n)
            .sqrt()
            .max(w / n)
            .max(h / n)
            .max(1e-10 * farthest);
        let origin = low - Vector::repeat(1.5 * size);
        let (columns, rows) = ((w / size).ceil() + 3.0, (h / size).ceil() + 3.0);
        Self {
            origin,
            end: origin + Vector::new(columns, rows) * size,
            size,
            per_yard: 1.0 / size,
            columns: columns as usize,
            rows: rows as usize,
            pad: 1e-6 * size + 16.0 * f64::EPSILON * farthest,
        }
    }

    fn empty() -> Self {
        Self {
            origin: Point::origin(),
            end: Point::new(1.0, 1.0),
            size: 1.0,
            per_yard: 1.0,
            columns: 1,
            rows: 1,
            pad: 0.0,
        }
    }

    /// How many cells there are.
    pub(super) fn len(&self) -> usize {
        self.columns * self.rows
    }

    /// True of a point of the grid; false outside and for a coordinate that is no number.
    #[inline]
    pub(super) fn holds(&self, p: Point) -> bool {
        let (low, high) = self.corners();
        low.x <= p.x && p.x < high.x && low.y <= p.y && p.y < high.y
    }

    /// The column and row of a point; of one outside those of the rim nearest to it, and some of the rim for a coordinate
    /// that is no number.
    #[inline]
    pub(super) fn cell_near(&self, p: Point) -> (usize, usize) {
        (self.column_near(p.x), self.row_near(p.y))
    }

    /// True of a way that is plain to see beside the grid: all of it beyond one of its sides.
    #[inline]
    pub(super) fn passes_by(&self, from: Point, to: Point) -> bool {
        let (low, high) = self.corners();
        let below = |a: f64, b: f64, side: f64| a < side && b < side;
        below(from.x, to.x, low.x)
            || below(-from.x, -to.x, -high.x)
            || below(from.y, to.y, low.y)
            || below(-from.y, -to.y, -high.y)
    }

    /// The column that holds x, the first or last one for x outside. By way of 32 bits: the processor has no instruction for
    /// the whole range of 64.
    #[inline]
    pub(super) fn column_near(&self, x: f64) -> usize {
        (((x - self.origin.x) * self.per_yard) as u32 as usize).min(self.columns - 1)
    }

    /// The row that holds y, the first or last one for y outside.
    #[inline]
    pub(super) fn row_near(&self, y: f64) -> usize {
        (((y - self.origin.y) * self.per_yard) as u32 as usize).min(self.rows - 1)
    }

    /// The x at which a column begins.
    #[inline]
    pub(super) fn column_start(&self, column: usize) -> f64 {
        self.origin.x + column as f64 * self.size
    }

    /// The y at which a row begins.
    #[inline]
    pub(super) fn row_start(&self, row: usize) -> f64 {
        self.origin.y + row as f64 * self.size
    }

    /// The lower left and upper right corner of the grid.
    pub(super) fn corners(&self) -> (Point, Point) {
        (self.origin, self.end)
    }

    /// More than the rounding of `x1 * y2 - y1 * x2` plus two like products of coordinates of the grid: eight
    /// roundings at most, each of half an epsilon of at most six such products.
    pub(super) fn slack(&self) -> f64 {
        let (low, high) = self.corners();
        let coordinates = [low.x, low.y, high.x, high.y];
        let farthest = coordinates.iter().fold(0.0_f64, |m, c| m.max(c.abs()));
        32.0 * f64::EPSILON * farthest * farthest
    }

    /// The point at these shares of a cell's width and height.
    pub(super) fn point_in(&self, column: usize, row: usize, shares: (f64, f64)) -> Point {
        Point::new(
            self.column_start(column) + shares.0 * self.size,
            self.row_start(row) + shares.1 * self.size,
        )
    }

    /// The first and last column and row of the cells that a box may meet.
    pub(super) fn cells_of_box(&self, low: Point, high: Point) -> ((usize, usize), (usize, usize)) {
        (
            (
                self.column_near(low.x - self.pad),
                self.column_near(high.x + self.pad),
            ),
            (
                self.row_near(low.y - self.pad),
                self.row_near(high.y + self.pad),
            ),
        )
    }

    /// Visits every cell that the edge may meet, none of them twice.
    pub(super) fn cells_of_edge(&self, a: Point, b: Point, mut visit: impl FnMut(usize)) {
        let (_, (first_row, last_row)) = self.cells_of_box(a.inf(&b), a.sup(&b));
        let d = b - a;
        for row in first_row..=last_row {
            // The part of the edge in the row, told as shares of the edge; all of it if it is level.
            let low = self.row_start(row) - self.pad - a.y;
            let high = self.row_start(row + 1) + self.pad - a.y;
            let (s, t) = if d.y == 0.0 {
                (0.0, 1.0)
            } else {
                (low / d.y, high / d.y)
            };
            let (s, t) = (s.min(t).clamp(0.0, 1.0), s.max(t).clamp(0.0, 1.0));
            let (from, to) = (a.x + d.x * s, a.x + d.x * t);
            let first = self.column_near(from.min(to) - self.pad);
            let last = self.column_near(from.max(to) + self.pad);
            for column in first..=last {
                visit(row * self.columns + column);
            }
        }
    }
}
