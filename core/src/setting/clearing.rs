//! How far the nearest trees are from everywhere on a hole.
use crate::geometry::{Point, Polygon, Vector};

/// Side of a cell, yards; larger where the grid would have more than this many columns or rows.
const CELL: f64 = 4.0;
const MOST: f64 = 300.0;

/// A grid that tells how far a ball may go from anywhere before it can meet a tree.
///
/// A cell holds a lower bound, in margins: a ball that goes no farther than so many along either axis meets none. It
/// comes of the steps of a king on the board of cells to the nearest one that is less than a margin from trees.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Clearing {
    corner: Point,
    side: f64,
    columns: usize,
    rows: usize,
    /// A byte each, so that the whole map stays close to the processor.
    free: Vec<u8>,
}

/// The part of a straight way that is on the grid.
pub(super) struct Crossing<'a> {
    clearing: &'a Clearing,
    /// Where the way begins, and all of it, in cells.
    from: Vector,
    way: Vector,
    /// Shares of the way between which it is on the grid.
    pub(super) enter: f64,
    pub(super) leave: f64,
    /// The share of the way in which it goes a side of a cell along the axis it follows most.
    side: f64,
}

/// Where trees may be a way is looked at again after so much of a cell.
const LOOK: f64 = 0.5;
/// What is closer to trees than this share of a cell's side counts as trees.
const MARGIN: f64 = 0.5;
/// Edges of stands are followed in steps of this share of a cell's side.
const EDGE_STEP: f64 = 0.25;

impl Crossing<'_> {
    /// The share that a ball at a share of the way may go on without meeting trees; None where there may be some.
    #[inline]
    pub(super) fn clear(&self, at: f64) -> Option<f64> {
        // On the very border rounding may lead out of the grid: beyond it are no trees.
        let free = self
            .clearing
            .free_at(self.from + self.way * at)
            .unwrap_or(1);
        (free > 0).then(|| f64::from(free) * MARGIN * self.side)
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
            free: Vec::new(),
        };
        let mut steps = vec![u16::MAX; columns * rows];
        for stand in stands {
            clearing.mark(stand, &mut steps);
        }
        clearing.spread(&mut steps);
        // A cell next to a marked one is a margin from the trees; every step more adds a side, two margins.
        let free =
            |steps: u16| u8::try_from((2 * u32::from(steps)).saturating_sub(1)).unwrap_or(u8::MAX);
        clearing.free = steps.into_iter().map(free).collect();
        clearing
    }

    /// The part of a way from `from` that is on the grid; None where none of it is.
    #[inline]
    pub(super) fn crossing(&self, from: Point, way: Vector) -> Option<Crossing<'_>> {
        if self.free.is_empty() {
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
            enter,
            leave,
            side: 1.0 / way.amax(),
        })
    }

    /// Margins that a ball may go along both axes without meeting trees. None outside the grid.
    #[inline]
    fn free_at(&self, at: Vector) -> Option<u8> {
        let (column, row) = self.cell(at)?;
        Some(self.free[row * self.columns + column])
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

    /// The cell of a place.
    fn cell_of(&self, p: Point) -> Option<(usize, usize)> {
        self.cell((p - self.corner) / self.side)
    }

    /// Marks every cell that a stand meets or comes close to: those within a margin of its edges, and those whose middle it
    /// covers.
    fn mark(&self, stand: &Polygon, steps: &mut [u16]) {
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
                        steps[row * self.columns + low.0..=row * self.columns + high.0].fill(0);
                    }
                }
                part += 1.0;
            }
        }
        let (low, high) = stand.bounds();
        let (Some(first), Some(last)) = (self.cell_of(low), self.cell_of(high)) else {
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

    /// How far two squares are along the nearer axis is known; the bound must never exceed it, and be of some use.
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
            out(p.x, x).max(out(p.y, y))
        };
        let cells = |p: Point| (p - clearing.corner) / clearing.side;
        let mut useful = 0;
        for i in 0..110 {
            for j in 0..66 {
                let p = Point::new(f64::from(i) + 0.37, f64::from(j) + 0.61);
                let truth = away(p, 0.0, 0.0, 30.0).min(away(p, 100.0, 55.5, 11.3));
                let margins = f64::from(clearing.free_at(cells(p)).unwrap());
                let told = clearing.side * MARGIN * margins;
                assert!(told <= truth, "{p} {told} {truth}");
                useful += i32::from(told > 0.7 * truth && truth > 20.0);
            }
        }
        assert!(useful > 1000, "{useful}");
        assert_eq!(clearing.free_at(cells(Point::new(-50.0, 5.0))), None);
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
        assert!(crossing.clear(0.5).is_none());
        assert!((crossing.look() * 100.0 - 2.0).abs() < 1e-9);
        assert!(clearing.crossing(from, -way).is_none());
        assert!(clearing.crossing(from, Vector::new(0.0, 50.0)).is_none());
        assert!(Clearing::default().crossing(from, way).is_none());
    }
}
