//! Laying the sum of a landform on grids: coarse cells over the hole, finer ones over greens and patches.
use super::super::{HoleFault, HoleFaults, HoleParts, Surface};
use super::sum::Sum;
use crate::geometry::heights::node;
use crate::geometry::{HeightGrid, Point, Vector};

/// Side of a coarse cell, yards.
const COARSE: f64 = 2.0;
/// Yards beyond the tee, the line of play and the greens that the coarse grid reaches.
const REACH: f64 = 150.0;
/// Yards beyond the line of play that it reaches at most, whatever lies there.
const FARTHEST: f64 = 500.0;
/// Finer cells in a coarse one.
const FINER: usize = 8;
/// Fine nodes at most; where the areas are larger than that allows, the cells are less fine.
const MOST_FINE: usize = 2_000_000;
/// Yards inside the edge of a fine grid over which it passes into the coarse one.
const SEAM: f64 = 4.0;

/// A box in coarse cells: first and last column, first and last row.
#[derive(Clone, Copy, PartialEq)]
struct Window {
    columns: (usize, usize),
    rows: (usize, usize),
}

/// The coarse grid and the finer ones.
pub(super) fn grids(
    sum: &Sum,
    parts: &HoleParts,
) -> Result<(HeightGrid, Vec<HeightGrid>), HoleFaults> {
    let (low, high) = extent(parts);
    let count = |span: f64| (span / COARSE).ceil() as usize + 1;
    let (columns, rows) = (count(high.x - low.x), count(high.y - low.y));
    let cell = Vector::new(COARSE, COARSE);
    let coarse = lay(low, cell, (rows, columns), |p| sum.height(p))?;
    let windows = apart(
        greens(parts)
            .chain(sum.patches())
            .filter_map(|area| window(area, &coarse))
            .collect(),
    );
    let cells: usize = windows.iter().map(Window::cells).sum();
    let mut finer = FINER;
    while finer > 1 && cells * finer * finer > MOST_FINE {
        finer /= 2;
    }
    let fine = windows
        .iter()
        .filter(|_| finer > 1)
        .map(|window| refine(window, finer, &coarse, sum))
        .collect::<Result<_, _>>()?;
    Ok((coarse, fine))
}

/// The box of the ground that matters to a hole: that of the coarse grid, and all that is mown or raked.
pub(in super::super) fn reach(parts: &HoleParts) -> (Point, Point) {
    let tended = parts.features.iter().filter(|f| f.surface.is_tended());
    tended.fold(extent(parts), |(low, high), feature| {
        let (l, h) = feature.outline.bounds();
        (low.inf(&l), high.sup(&h))
    })
}

/// The box of the coarse grid.
fn extent(parts: &HoleParts) -> (Point, Point) {
    let grow = |(low, high): (Point, Point), p: Point| (low.inf(&p), high.sup(&p));
    let line = parts.line.vertices().iter().copied();
    let line = line.fold((parts.tee, parts.tee), grow);
    let corners = greens(parts).flat_map(|(low, high)| [low, high]);
    let (low, high) = corners.fold(line, grow);
    let (near, far) = (Vector::new(REACH, REACH), Vector::new(FARTHEST, FARTHEST));
    (
        (low - near).sup(&(line.0 - far)),
        (high + near).inf(&(line.1 + far)),
    )
}

/// The boxes of the greens.
fn greens(parts: &HoleParts) -> impl Iterator<Item = (Point, Point)> + '_ {
    let greens = parts
        .features
        .iter()
        .filter(|feature| feature.surface == Surface::Green);
    greens.map(|green| green.outline.bounds())
}

/// A grid of the heights `height` tells.
fn lay(
    corner: Point,
    cell: Vector,
    (rows, columns): (usize, usize),
    height: impl Fn(Point) -> f64,
) -> Result<HeightGrid, HoleFaults> {
    let heights: Vec<f64> = (0..rows)
        .flat_map(|row| (0..columns).map(move |column| (row, column)))
        .map(|(row, column)| height(node(corner, cell, row, column)))
        .collect();
    HeightGrid::new(corner, cell, columns, &heights)
        .map_err(|faults| HoleFaults(faults.into_iter().map(HoleFault::Heights).collect()))
}

/// The coarse cells that hold an area and the seam around it, if the grid reaches it.
fn window((low, high): (Point, Point), coarse: &HeightGrid) -> Option<Window> {
    let cells = |low: f64, high: f64, corner: f64, last: usize| {
        let first = ((low - SEAM - corner) / COARSE).floor().max(0.0);
        let end = ((high + SEAM - corner) / COARSE).ceil().min(last as f64);
        (first < end).then_some((first as usize, end as usize))
    };
    let corner = coarse.corner();
    Some(Window {
        columns: cells(low.x, high.x, corner.x, coarse.columns() - 1)?,
        rows: cells(low.y, high.y, corner.y, coarse.rows() - 1)?,
    })
}

impl Window {
    fn cells(&self) -> usize {
        (self.columns.1 - self.columns.0) * (self.rows.1 - self.rows.0)
    }

    fn overlaps(&self, other: &Window) -> bool {
        let apart = |a: (usize, usize), b: (usize, usize)| a.1 < b.0 || b.1 < a.0;
        !apart(self.columns, other.columns) && !apart(self.rows, other.rows)
    }

    fn joined(&self, other: &Window) -> Window {
        let join = |a: (usize, usize), b: (usize, usize)| (a.0.min(b.0), a.1.max(b.1));
        Window {
            columns: join(self.columns, other.columns),
            rows: join(self.rows, other.rows),
        }
    }
}

/// Windows joined until no two overlap or touch.
fn apart(mut windows: Vec<Window>) -> Vec<Window> {
    let mut done: Vec<Window> = Vec::new();
    while let Some(window) = windows.pop() {
        match done.iter().position(|other| other.overlaps(&window)) {
            Some(i) => windows.push(done.swap_remove(i).joined(&window)),
            None => done.push(window),
        }
    }
    done
}

/// The fine grid of a window: the sum itself, and along its edge the coarse grid to the bit or nearly, so that the ground
/// has no step where the one ends.
fn refine(
    window: &Window,
    finer: usize,
    coarse: &HeightGrid,
    sum: &Sum,
) -> Result<HeightGrid, HoleFaults> {
    let low = coarse.node(window.rows.0, window.columns.0);
    let high = coarse.node(window.rows.1, window.columns.1);
    let count = |(first, end): (usize, usize)| (end - first) * finer + 1;
    let side = COARSE / finer as f64;
    let cell = Vector::new(side, side);
    lay(
        low,
        cell,
        (count(window.rows), count(window.columns)),
        |p| {
            let inside = (p.x - low.x)
                .min(high.x - p.x)
                .min(p.y - low.y)
                .min(high.y - p.y);
            let share = (inside / SEAM).clamp(0.0, 1.0);
            let plain = coarse.height(p);
            plain + share * share * (3.0 - 2.0 * share) * (sum.height(p) - plain)
        },
    )
}
