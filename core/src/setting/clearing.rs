//! How far the nearest trees are from everywhere on a hole.
use crate::geometry::around::{Around, rectangles};
use crate::geometry::{Point, Polygon, Vector};

/// Side of a cell, yards; larger where the grid would have more than this many columns or rows.
const CELL: f64 = 4.0;
const MOST: f64 = 300.0;

/// A grid that tells how far a ball may go from anywhere before it can meet a tree.
///
/// In a cell that is no less than a margin from trees a ball meets none. Around every cell there is a rectangle of cells
/// like it in this.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Clearing {
    corner: Point,
    side: f64,
    columns: usize,
    rows: usize,
    cells: Vec<Cell>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Cell {
    /// True where no trees are.
    clear: bool,
    around: Around,
}

/// The part of a straight way that is on the grid.
pub(super) struct Crossing<'a> {
    clearing: &'a Clearing,
    /// Where the way begins, and all of it, in cells.
    from: Vector,
    way: Vector,
    /// One over it; infinite along an axis that it does not follow.
    per_way: Vector,
    /// Shares of the way between which it is on the grid.
    pub(super) enter: f64,
    pub(super) leave: f64,
    /// The share of the way in which it goes a side of a cell along the axis it follows most.
    side: f64,
}

/// Where trees may be a way is looked at again after so much of a cell.
const LOOK: f64 = 0.5;
/// From border to border it goes on by no less than this share of a side, whatever the rounding: far less than a margin.
const ONWARD: f64 = 0.01;
/// What is closer to trees than this share of a cell's side counts as trees.
const MARGIN: f64 = 0.5;
/// Edges of stands are followed in steps of this share of a cell's side.
const EDGE_STEP: f64 = 0.25;

impl Crossing<'_> {
    /// Whether a ball at a share of the way meets no trees there, and the share on which that is so.
    #[inline]
    pub(super) fn clear(&self, at: f64) -> (bool, f64) {
        let place = self.from + self.way * at;
        // On the very border rounding may lead out of the grid: beyond it are no trees.
        let Some((column, row)) = self.clearing.cell(place) else {
            return (true, self.side);
        };
        let Cell { clear, around } = self.clearing.cells[row * self.clearing.columns + column];
        let to_border = |axis: usize, cell: usize, (before, after): (u8, u8)| {
            let border = if self.way[axis] > 0.0 {
                cell as f64 + f64::from(after) + 1.0
            } else if self.way[axis] < 0.0 {
                cell as f64 - f64::from(before)
            } else {
                return f64::INFINITY;
            };
            (border - place[axis]) * self.per_way[axis]
        };
        let columns = to_border(0, column, around.columns);
        let rows = to_border(1, row, around.rows);
        (clear, columns.min(rows).max(ONWARD * self.side))
    }

    /// The share to the next look where trees may be.
    #[inline]
    pub(super) fn look(&self) -> f64 {
        LOOK * self.side
    }
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
            cells: Vec::new(),
        };
        let mut trees = vec![false; columns * rows];
        for stand in stands {
            clearing.mark_edges(stand, &mut trees);
            clearing.mark_inside(stand, &mut trees);
        }
        let around = rectangles(columns, rows, |a, b| trees[a] == trees[b]);
        let cell = |(trees, around): (bool, Around)| Cell {
            clear: !trees,
            around,
        };
        clearing.cells = trees.into_iter().zip(around).map(cell).collect();
        clearing
    }

    /// The part of a way from `from` that is on the grid; None where none of it is.
    #[inline]
    pub(super) fn crossing(&self, from: Point, way: Vector) -> Option<Crossing<'_>> {
        if self.cells.is_empty() {
            return None;
        }
        let scale = 1.0 / self.side;
        let (from, way) = ((from - self.corner) * scale, way * scale);
        #[expect(clippy::cast_precision_loss, reason = "a small grid")]
        let size = Vector::new(self.columns as f64, self.rows as f64);
        let (enter, leave) = clip(size, from, way)?;
        Some(Crossing {
            clearing: self,
            from,
            way,
            per_way: Vector::new(1.0, 1.0).component_div(&way),
            enter,
            leave,
            side: 1.0 / way.amax(),
        })
    }

    /// The cell of a place that is told in cells from the corner.
    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked against the grid"
    )]
    fn cell(&self, at: Vector) -> Option<(usize, usize)> {
        if !(at.x >= 0.0 && at.y >= 0.0) {
            return None;
        }
        // By way of 32 bits: the processor has no instruction for the whole range of 64.
        let (column, row) = (at.x as u32 as usize, at.y as u32 as usize);
        (column < self.columns && row < self.rows).then_some((column, row))
    }

    /// Marks every cell within a margin of the edges of a stand.
    fn mark_edges(&self, stand: &Polygon, trees: &mut [bool]) {
        // Half a step farther than told, so that nothing between two of them is missed.
        let near = MARGIN + 0.5 * EDGE_STEP;
        let near = Vector::new(near, near);
        #[expect(clippy::cast_precision_loss, reason = "a small grid")]
        let last = Vector::new(self.columns as f64 - 0.5, self.rows as f64 - 0.5);
        for (from, to) in stand.edges() {
            let parts = ((to - from).norm() / (EDGE_STEP * self.side))
                .ceil()
                .max(1.0);
            let mut part = 0.0;
            while part <= parts {
                let at = (from + (to - from) * (part / parts) - self.corner) / self.side;
                let (low, high) = (
                    self.cell((at - near).sup(&Vector::zeros())),
                    self.cell((at + near).inf(&last)),
                );
                if let (Some(low), Some(high)) = (low, high) {
                    for row in low.1..=high.1 {
                        trees[row * self.columns + low.0..=row * self.columns + high.0].fill(true);
                    }
                }
                part += 1.0;
            }
        }
    }

    /// Marks every cell whose middle a stand covers: in each row those between an edge and the next. Rounding is no matter, for
    /// what is that close to an edge is marked.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "clamped to a small grid"
    )]
    fn mark_inside(&self, stand: &Polygon, trees: &mut [bool]) {
        let cells = |p: Point| (p - self.corner) / self.side;
        let first = |at: f64, last: usize| (at - 0.5).ceil().clamp(0.0, last as f64) as usize;
        let mut crossed: Vec<(usize, f64)> = Vec::new();
        for (from, to) in stand.edges() {
            let (from, to) = (cells(from), cells(to));
            let (low, high) = (from.y.min(to.y), from.y.max(to.y));
            for row in first(low, self.rows)..first(high, self.rows) {
                let share = (row as f64 + 0.5 - from.y) / (to.y - from.y);
                crossed.push((row, from.x + share * (to.x - from.x)));
            }
        }
        crossed.sort_unstable_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        for pair in crossed.chunks_exact(2) {
            let ((row, enter), (_, leave)) = (pair[0], pair[1]);
            let columns = first(enter, self.columns)..first(leave, self.columns);
            trees[row * self.columns..][columns].fill(true);
        }
    }
}

/// The shares of a way that lie in a box from the origin.
#[inline]
fn clip(size: Vector, from: Vector, way: Vector) -> Option<(f64, f64)> {
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let (low, high) = (-from[axis], size[axis] - from[axis]);
        if way[axis] == 0.0 {
            if low > 0.0 || high < 0.0 {
                return None;
            }
            continue;
        }
        let over = 1.0 / way[axis];
        let (a, b) = (low * over, high * over);
        enter = enter.max(a.min(b));
        leave = leave.min(a.max(b));
    }
    (leave > enter).then_some((enter, leave))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rectangles are told to be clear that no square of trees comes closer to than almost a margin, and of some use.
    #[test]
    fn no_tree_is_where_it_is_told_to_be_clear() {
        let square = |x: f64, y: f64, side: f64| {
            let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)];
            let ring = corners.map(|(dx, dy)| Point::new(x + dx, y + dy));
            Polygon::from_points(vec![ring.to_vec()]).unwrap()
        };
        let squares = [(0.0, 0.0, 30.0), (100.0, 55.5, 11.3)];
        let stands = squares.map(|(x, y, side)| square(x, y, side));
        let clearing = Clearing::around(stands.iter());
        let mut useful = 0;
        for row in 0..clearing.rows {
            for column in 0..clearing.columns {
                let Cell { clear, around } = clearing.cells[row * clearing.columns + column];
                if !clear {
                    continue;
                }
                let Around { columns, rows } = around;
                let place = |column: usize, row: usize| {
                    clearing.corner + Vector::new(column as f64, row as f64) * clearing.side
                };
                let low = place(column - usize::from(columns.0), row - usize::from(rows.0));
                let high = place(
                    column + usize::from(columns.1) + 1,
                    row + usize::from(rows.1) + 1,
                );
                for (x, y, side) in squares {
                    let away = |low: f64, high: f64, at: f64| (at - high).max(low - at - side);
                    let away = away(low.x, high.x, x).max(away(low.y, high.y, y));
                    assert!(away > 0.4 * clearing.side, "{low} {high}");
                }
                useful += usize::from(high.x - low.x > 60.0 || high.y - low.y > 40.0);
            }
        }
        assert!(useful > 200, "{useful}");
    }

    /// The cells whose middles a polygon with a hole covers are those that its own question says, and those near its edges.
    #[test]
    fn cells_are_of_trees_where_the_stand_is() {
        let ring = |radius: f64, wild: f64| -> Vec<Point> {
            let corner = |k: i32| {
                let turn = std::f64::consts::TAU * f64::from(k) / 37.0;
                let reach = radius * (1.0 + wild * (7.0 * turn).sin());
                Point::new(reach * turn.cos(), 20.0 + reach * turn.sin())
            };
            (0..37).map(corner).collect()
        };
        let stand = Polygon::from_points(vec![ring(150.0, 0.3), ring(60.0, 0.2)]).unwrap();
        let clearing = Clearing::around([&stand].into_iter());
        let (mut inside, mut outside) = (0, 0);
        for row in 0..clearing.rows {
            for column in 0..clearing.columns {
                let middle = Vector::new(column as f64 + 0.5, row as f64 + 0.5) * clearing.side;
                let place = clearing.corner + middle;
                let clear = clearing.cells[row * clearing.columns + column].clear;
                let is_near =
                    (stand.nearest_edge_point(place) - place).norm() < 4.0 * clearing.side;
                if stand.contains(place) {
                    assert!(!clear, "{place}");
                    inside += u32::from(!is_near);
                } else if !is_near {
                    assert!(clear, "{place}");
                    outside += 1;
                }
            }
        }
        assert!(inside > 500 && outside > 500, "{inside} {outside}");
    }

    /// Worked out by hand: where a way enters and leaves the grid, that it may leap in clearings and not in trees.
    #[test]
    fn a_way_crosses_the_grid() {
        let ring = [(0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (0.0, 30.0)];
        let ring = ring.map(|(x, y)| Point::new(x, y)).to_vec();
        let square = Polygon::from_points(vec![ring]).unwrap();
        let clearing = Clearing::around([&square].into_iter());
        let (from, way) = (Point::new(-40.0, 15.0), Vector::new(100.0, 10.0));
        let crossing = clearing.crossing(from, way).unwrap();
        // The grid begins a cell before the square and ends within two after it.
        let enters = (from + way * crossing.enter).x;
        let leaves = (from + way * crossing.leave).x;
        assert!((enters + 4.0).abs() < 1e-9, "{enters}");
        assert!((34.0..=38.0).contains(&leaves), "{leaves}");
        assert!(!crossing.clear(0.5).0);
        assert!((crossing.look() * 100.0 - 2.0).abs() < 1e-9);
        assert!(clearing.crossing(from, -way).is_none());
        assert!(clearing.crossing(from, Vector::new(0.0, 50.0)).is_none());
        assert!(Clearing::default().crossing(from, way).is_none());
    }
}
