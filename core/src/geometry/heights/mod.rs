//! A regular grid of heights: how high the ground is at (x, y), and how it slopes there.

mod fault;

pub use fault::HeightFault;

use super::{Point, Vector};
use fault::faults_of;

/// The most nodes of a grid: sixteen million take 400 megabytes.
pub const MOST_NODES: usize = 16_000_000;

/// What is known at a node.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Node {
    height: f64,
    /// Rise over run towards +x and +y.
    rise: Vector,
}

/// Heights at the nodes of a regular grid, without gaps.
///
/// The height between nodes is bilinear: exact where the ground is a plane, and off by at most
/// (a² |h_xx| + b² |h_yy|) / 8 in a cell of sides a, b otherwise. The slope at a node is that of the plane fitted by
/// least squares to the node and its eight neighbours (fewer on the border), and bilinear between nodes: it has no
/// jumps, is exact on planes and, away from the border, on any quadratic surface, and it averages measuring errors: an
/// error of sd s in each height gives one of s / (a √6) in the slope along x.
///
/// Beyond the border the ground goes on level from the nearest border point.
///
/// The vertical unit is that of the heights given; where it is not the yard, slopes come out in that unit over yards.
#[derive(Clone, Debug, PartialEq)]
pub struct HeightGrid {
    corner: Point,
    cell: Vector,
    /// The node with the largest x and y.
    far: Point,
    /// One over the sides of a cell.
    inverse: Vector,
    rows: usize,
    columns: usize,
    /// The last column and row of cells.
    last: (u32, u32),
    /// The far corner, counted in cells.
    end: Vector,
    nodes: Vec<Node>,
}

/// The cell a point is in and how far into it.
#[derive(Clone, Copy)]
struct Place {
    first: usize,
    /// Shares of the cell's sides, 0 to 1.
    u: f64,
    v: f64,
    /// True where the point is within the grid along x, and along y.
    inside: (bool, bool),
}

impl HeightGrid {
    /// Heights row by row: the first is at `corner`, the next `cell.x` yards to its right, the next row `cell.y` yards
    /// further up.
    ///
    /// # Errors
    /// Every fault at once: fewer than 2 rows or columns or more than [`MOST_NODES`] nodes, a cell side outside 0.01 to
    /// 1000 yards, a height that is no finite number.
    pub fn new(
        corner: Point,
        cell: Vector,
        columns: usize,
        heights: &[f64],
    ) -> Result<Self, Vec<HeightFault>> {
        let rows = heights.len().checked_div(columns).unwrap_or(0);
        let faults = faults_of(corner, cell, rows, columns, heights);
        if !faults.is_empty() {
            return Err(faults);
        }
        let nodes = (0..rows * columns)
            .map(|i| Node {
                height: heights[i],
                rise: fitted(heights, (rows, columns), (i / columns, i % columns), cell),
            })
            .collect();
        Ok(HeightGrid {
            corner,
            cell,
            far: node(corner, cell, rows - 1, columns - 1),
            inverse: Vector::new(1.0 / cell.x, 1.0 / cell.y),
            rows,
            columns,
            last: (count(columns - 2), count(rows - 2)),
            end: Vector::new((columns - 1) as f64, (rows - 1) as f64),
            nodes,
        })
    }

    /// The least difference between two neighbours in a row or column whose heights differ; None where all are alike. Of
    /// heights that were rounded it is the unit they were rounded to, or a few of it.
    #[must_use]
    pub fn least_step(&self) -> Option<f64> {
        let height = |i: usize| self.nodes[i].height;
        let steps = (0..self.nodes.len()).flat_map(|i| {
            let right = ((i + 1) % self.columns > 0).then(|| height(i + 1) - height(i));
            let up =
                (i + self.columns < self.nodes.len()).then(|| height(i + self.columns) - height(i));
            [right, up]
        });
        let apart = steps.flatten().map(f64::abs).filter(|step| *step > 0.0);
        apart.reduce(f64::min)
    }

    /// The height at `p`.
    #[must_use]
    #[inline]
    pub fn height(&self, p: Point) -> f64 {
        let place = self.place(p);
        self.height_in(&place)
    }

    /// The slope at `p`: rise over run towards +x and +y.
    #[must_use]
    #[inline]
    pub fn slope(&self, p: Point) -> Vector {
        let place = self.place(p);
        self.slope_in(&place)
    }

    /// Height and slope at `p` in one look.
    #[must_use]
    #[inline]
    pub fn height_and_slope(&self, p: Point) -> (f64, Vector) {
        let place = self.place(p);
        (self.height_in(&place), self.slope_in(&place))
    }

    #[inline]
    fn height_in(&self, place: &Place) -> f64 {
        let (south, north) = self.around(place.first);
        let low = mix(south[0].height, south[1].height, place.u);
        let high = mix(north[0].height, north[1].height, place.u);
        mix(low, high, place.v)
    }

    #[inline]
    fn slope_in(&self, place: &Place) -> Vector {
        let (south, north) = self.around(place.first);
        let low = south[0].rise + (south[1].rise - south[0].rise) * place.u;
        let high = north[0].rise + (north[1].rise - north[0].rise) * place.u;
        let slope = low + (high - low) * place.v;
        let within = |inside: bool, slope: f64| if inside { slope } else { 0.0 };
        Vector::new(
            within(place.inside.0, slope.x),
            within(place.inside.1, slope.y),
        )
    }

    #[inline]
    fn place(&self, p: Point) -> Place {
        let at = (p - self.corner).component_mul(&self.inverse);
        let (column, u, inside_x) = step(at.x, self.end.x, self.last.0);
        let (row, v, inside_y) = step(at.y, self.end.y, self.last.1);
        Place {
            first: row * self.columns + column,
            u,
            v,
            inside: (inside_x, inside_y),
        }
    }

    /// The four nodes of a cell: its lower and its upper pair.
    #[inline]
    fn around(&self, first: usize) -> (&[Node], &[Node]) {
        let next = first + self.columns;
        (&self.nodes[first..first + 2], &self.nodes[next..next + 2])
    }

    /// Where the first height is: the node with the smallest x and y.
    #[must_use]
    pub fn corner(&self) -> Point {
        self.corner
    }

    /// The node with the largest x and y.
    #[must_use]
    pub fn far_corner(&self) -> Point {
        self.far
    }

    /// Yards between columns and between rows.
    #[must_use]
    pub fn cell(&self) -> Vector {
        self.cell
    }

    /// Number of rows.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.rows
    }

    /// Number of columns.
    #[must_use]
    pub fn columns(&self) -> usize {
        self.columns
    }

    /// The place of a node.
    #[must_use]
    pub fn node(&self, row: usize, column: usize) -> Point {
        node(self.corner, self.cell, row, column)
    }

    /// The heights row by row, from the smallest y up.
    pub fn heights(&self) -> impl ExactSizeIterator<Item = f64> + '_ {
        self.nodes.iter().map(|node| node.height)
    }

    /// True where `p` lies within the grid or on its border.
    #[must_use]
    #[inline]
    pub fn covers(&self, p: Point) -> bool {
        p.x >= self.corner.x && p.y >= self.corner.y && p.x <= self.far.x && p.y <= self.far.y
    }

    /// How far `p` lies outside the grid, yards; 0 within it.
    #[must_use]
    pub fn short_of(&self, p: Point) -> f64 {
        let out = |low: f64, x: f64, high: f64| (low - x).max(x - high).max(0.0);
        Vector::new(
            out(self.corner.x, p.x, self.far.x),
            out(self.corner.y, p.y, self.far.y),
        )
        .norm()
    }
}

/// The place of a node of a grid.
pub(crate) fn node(corner: Point, cell: Vector, row: usize, column: usize) -> Point {
    corner + Vector::new(cell.x * column as f64, cell.y * row as f64)
}

/// The cell a coordinate counted in cells falls in, how far into it, and whether it is inside the grid.
#[inline]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held within the cells"
)]
fn step(t: f64, end: f64, last: u32) -> (usize, f64, bool) {
    // The order makes 0 of a NaN, so no place can lead outside the nodes.
    let held = t.max(0.0).min(end);
    let cell = (held as u32).min(last);
    (cell as usize, held - f64::from(cell), held == t)
}

/// A count of rows or columns; there are at most [`MOST_NODES`].
fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

/// Between two values; at either end, that value to the bit.
#[inline]
fn mix(a: f64, b: f64, share: f64) -> f64 {
    a * (1.0 - share) + b * share
}

/// The slope of the plane fitted by least squares to a node and its neighbours, towards +x and +y.
///
/// The neighbours form a rectangle of nodes, so both components separate: along x it is the sum of (x - mean x) h over
/// the sum of (x - mean x)².
fn fitted(
    heights: &[f64],
    (rows, columns): (usize, usize),
    (row, column): (usize, usize),
    cell: Vector,
) -> Vector {
    let near = |i: usize, count: usize| i.saturating_sub(1)..(i + 2).min(count);
    let (r, c) = (near(row, rows), near(column, columns));
    let mean = |of: &std::ops::Range<usize>| 0.5 * (of.start + of.end - 1) as f64;
    let (r_mean, c_mean) = (mean(&r), mean(&c));
    // Heights are taken from the node's own, so that a high plain loses no digits.
    let own = heights[row * columns + column];
    let (mut along_x, mut along_y, mut weight_x, mut weight_y) = (0.0, 0.0, 0.0, 0.0);
    for i in r {
        for j in c.clone() {
            let h = heights[i * columns + j] - own;
            let (x, y) = (j as f64 - c_mean, i as f64 - r_mean);
            along_x += x * h;
            along_y += y * h;
            weight_x += x * x;
            weight_y += y * y;
        }
    }
    Vector::new(along_x / (weight_x * cell.x), along_y / (weight_y * cell.y))
}

#[cfg(test)]
mod tests {
    use super::fault::LISTED;
    use super::*;

    fn grid(h: impl Fn(f64, f64) -> f64) -> HeightGrid {
        let (corner, cell) = (Point::new(-3.0, 5.0), Vector::new(0.5, 2.0));
        let heights: Vec<f64> = (0..12)
            .flat_map(|r| (0..9).map(move |c| node(corner, cell, r, c)))
            .map(|p| h(p.x, p.y))
            .collect();
        HeightGrid::new(corner, cell, 9, &heights).unwrap()
    }

    #[test]
    fn planes_are_exact_to_rounding() {
        let g = grid(|x, y| 800.0 + 0.03 * x - 0.2 * y);
        for p in [(-3.0, 5.0), (1.0, 27.0), (-2.9, 26.3), (0.37, 11.1)] {
            let p = Point::new(p.0, p.1);
            assert!((g.height(p) - (800.0 + 0.03 * p.x - 0.2 * p.y)).abs() < 1e-12);
            assert!((g.slope(p) - Vector::new(0.03, -0.2)).norm() < 1e-12);
        }
    }

    /// A quadratic's gradient is linear: the fitted planes have it at inner nodes and bilinear mixing keeps it. The height
    /// is off by (a² h_xx + b² h_yy) / 8 in the middle of a cell.
    #[test]
    fn quadratics_have_exact_slopes_and_the_stated_error_of_height() {
        let g = grid(|x, y| 0.01 * x * x - 0.02 * x * y + 0.005 * y * y);
        let p = Point::new(-1.25, 12.0);
        let exact = Vector::new(0.02 * p.x - 0.02 * p.y, -0.02 * p.x + 0.01 * p.y);
        assert!((g.slope(p) - exact).norm() < 1e-12);
        let off = g.height(p) - (0.01 * p.x * p.x - 0.02 * p.x * p.y + 0.005 * p.y * p.y);
        assert!((off - (0.25 * 0.02 + 4.0 * 0.01) / 8.0).abs() < 1e-12);
    }

    #[test]
    fn beyond_the_border_the_ground_goes_on_level() {
        let g = grid(|x, y| x + y);
        let out = Point::new(100.0, 11.0);
        assert!((g.height(out) - (1.0 + 11.0)).abs() < 1e-12);
        assert!((g.slope(out) - Vector::new(0.0, 1.0)).norm() < 1e-12);
        assert!((g.short_of(Point::new(4.0, 31.0)) - 5.0).abs() < 1e-12);
        assert!(g.height(Point::new(f64::NAN, f64::NAN)).is_finite());
        assert!(g.covers(g.far_corner()) && !g.covers(out));
    }

    #[test]
    fn every_fault_is_told() {
        let all = HeightGrid::new(
            Point::new(f64::NAN, 0.0),
            Vector::new(0.0, 1.0),
            3,
            &[0.0, 1.0, f64::NAN, 0.0, f64::INFINITY, 0.0, 2.0],
        );
        let text: Vec<String> = all.unwrap_err().iter().map(ToString::to_string).collect();
        for (fault, words) in text.iter().zip([
            "corner is (NaN, 0)",
            "cell is 0 by 1",
            "7 heights",
            "row 0, column 2 is NaN",
            "row 1, column 1 is inf",
        ]) {
            assert!(fault.contains(words), "{fault}");
        }
        assert_eq!(text.len(), 5);
        for (columns, count) in [(0, 0), (0, 5), (1, 5), (5, 5)] {
            let fault = HeightGrid::new(
                Point::origin(),
                Vector::new(1.0, 1.0),
                columns,
                &vec![0.0; count],
            );
            assert!(matches!(
                fault.unwrap_err()[..],
                [HeightFault::TooSmall { .. }]
            ));
        }
        let gaps = HeightGrid::new(Point::origin(), Vector::new(1.0, 1.0), 10, &[f64::NAN; 100]);
        assert_eq!(gaps.unwrap_err().len(), LISTED + 1);
    }
}
