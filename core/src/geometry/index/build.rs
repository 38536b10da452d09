//! Preparing the index: edges into cells, layers that cover whole cells, distances between changes.

use std::cmp::Reverse;

use super::grid::Grid;
use super::{Cell, CellEdge, Code, Kind, LayerIndex, MixedCell, Run};
use crate::geometry::around::{Around, rectangles};
use crate::geometry::predicates::{on_segment, orient};
use crate::geometry::{Location, Point, Polygon};

/// About how many cells the grid has: a quarter of a mebibyte of words, which stays in a processor's
/// own cache, and cells of about three yards on a map of 500 by 600.
pub(super) const MOST_CELLS: usize = 1 << 15;

/// How many edges may be filed in cells, if fewer cells would make them fewer: about 3 MiB.
const MOST_ENTRIES: usize = 1 << 16;

/// An edge of a layer in a cell.
struct Entry {
    cell: usize,
    code: Code,
    edge: (Point, Point),
}

/// What is known of a cell with respect to one layer.
#[derive(Clone, Copy, PartialEq)]
enum Cover {
    Unknown,
    Edge,
    Inside,
    Outside,
}

pub(super) fn build(layers: &[Polygon]) -> LayerIndex {
    let edge_count: usize = layers.iter().map(|layer| layer.edges().count()).sum();
    // With one cell an edge is filed four times at most, so the loop ends.
    let bound = MOST_ENTRIES.max(4 * edge_count);
    let mut cells = MOST_CELLS;
    loop {
        let sheet = Sheet::over(Grid::over(layers, cells), layers, bound);
        if sheet.entries.len() <= bound || cells == 1 {
            return sheet.into_index(layers);
        }
        cells /= 4;
    }
}

/// The index on a grid that held more layers than these.
pub(super) fn build_on(grid: Grid, layers: &[Polygon]) -> LayerIndex {
    Sheet::over(grid, layers, usize::MAX).into_index(layers)
}

/// The places tried for a cell's reference point.
pub(super) fn reference_candidates(
    grid: &Grid,
    column: usize,
    row: usize,
) -> impl Iterator<Item = Point> + '_ {
    const SHARES: [(f64, f64); 8] = [
        (0.5, 0.5),
        (0.3125, 0.4375),
        (0.6875, 0.28125),
        (0.59375, 0.78125),
        (0.21875, 0.71875),
        (0.84375, 0.53125),
        (0.40625, 0.15625),
        (0.15625, 0.09375),
    ];
    SHARES.iter().map(move |s| grid.point_in(column, row, *s))
}

/// The index in the making.
struct Sheet {
    grid: Grid,
    /// The topmost layer that covers the whole of each cell.
    base: Vec<Code>,
    entries: Vec<Entry>,
}

impl Sheet {
    /// Files the layers from the bottom up; stops early once there are more entries than the bound.
    fn over(grid: Grid, layers: &[Polygon], bound: usize) -> Self {
        let cells = grid.len();
        let mut sheet = Self {
            grid,
            base: vec![0; cells],
            entries: Vec::new(),
        };
        let mut cover = vec![Cover::Unknown; cells];
        for (layer, code) in layers.iter().zip(1..) {
            sheet.file(layer, code, &mut cover, bound);
            if sheet.entries.len() > bound {
                break;
            }
        }
        sheet
    }

    fn file(&mut self, layer: &Polygon, code: Code, cover: &mut [Cover], bound: usize) {
        let (low, high) = layer.bounds();
        let ((left, right), (bottom, top)) = self.grid.cells_of_box(low, high);
        for row in bottom..=top {
            cover[row * self.grid.columns..][left..=right].fill(Cover::Unknown);
        }
        for edge in layer.edges() {
            self.grid.cells_of_edge(edge.0, edge.1, |cell| {
                cover[cell] = Cover::Edge;
                self.entries.push(Entry { cell, code, edge });
            });
            if self.entries.len() > bound {
                return;
            }
        }
        for row in bottom..=top {
            for column in left..=right {
                let cell = row * self.grid.columns + column;
                if cover[cell] == Cover::Unknown {
                    // Neighbours that no edge meets are on the same side.
                    let beside = (column > left).then(|| cover[cell - 1]);
                    let below = (row > bottom).then(|| cover[cell - self.grid.columns]);
                    let known = [beside, below]
                        .into_iter()
                        .flatten()
                        .find(|c| *c != Cover::Edge);
                    cover[cell] = known.unwrap_or_else(|| self.look(layer, column, row));
                }
                if cover[cell] == Cover::Inside {
                    self.base[cell] = code;
                }
            }
        }
    }

    fn look(&self, layer: &Polygon, column: usize, row: usize) -> Cover {
        let inside = layer.contains(self.grid.point_in(column, row, (0.5, 0.5)));
        if inside {
            Cover::Inside
        } else {
            Cover::Outside
        }
    }

    fn into_index(mut self, layers: &[Polygon]) -> LayerIndex {
        let base = &self.base;
        // An edge under a layer that covers the cell is never seen.
        self.entries.retain(|e| e.code > base[e.cell]);
        self.entries.sort_by_key(|e| (e.cell, Reverse(e.code)));
        let mut index = LayerIndex {
            cells: self
                .base
                .iter()
                .map(|code| Cell::uniform(*code, Around::default()))
                .collect(),
            mixed: Vec::new(),
            runs: Vec::new(),
            edges: Vec::with_capacity(self.entries.len()),
            slack: self.grid.slack(),
            layers: layers.to_vec(),
            grid: self.grid,
        };
        for entries in self.entries.chunk_by(|e, f| e.cell == f.cell) {
            let cell = entries[0].cell;
            index.cells[cell] = Cell::mixed(index.mixed.len() as u32);
            index.add_mixed(cell, self.base[cell], entries);
        }
        let alike = |a: usize, b: usize| index.cells[a] == index.cells[b];
        let around = rectangles(index.grid.columns, index.grid.rows, alike);
        for (cell, around) in index.cells.iter_mut().zip(around) {
            if let Kind::Uniform { code, .. } = cell.kind() {
                *cell = Cell::uniform(code, around);
            }
        }
        index
    }
}

impl LayerIndex {
    /// Adds the mixed cell that holds these entries, topmost layer first.
    fn add_mixed(&mut self, cell: usize, base: Code, entries: &[Entry]) {
        let (column, row) = (cell % self.grid.columns, cell / self.grid.columns);
        let free = |r: &Point| entries.iter().all(|e| !on_segment(e.edge.0, e.edge.1, *r));
        let found = reference_candidates(&self.grid, column, row).find(free);
        let reference = found.unwrap_or_else(Point::origin);
        let first = self.runs.len() as u32;
        let first_edge = self.edges.len() as u32;
        for run in entries.chunk_by(|e, f| e.code == f.code) {
            let code = run[0].code;
            let start = self.edges.len() as u32;
            self.edges
                .extend(run.iter().map(|e| turned(e.edge, reference)));
            let layer = &self.layers[usize::from(code) - 1];
            self.runs.push(Run {
                edges: (start, self.edges.len() as u32),
                code,
                reference_inside: layer.locate(reference) == Location::Inside,
            });
        }
        let runs = (first, self.runs.len() as u32);
        self.mixed.push(MixedCell {
            reference,
            runs,
            edges: (first_edge, self.edges.len() as u32),
            base,
            hard: found.is_none(),
        });
    }
}

/// The edge with the reference point to its left.
fn turned((a, b): (Point, Point), reference: Point) -> CellEdge {
    if orient(a, b, reference) >= 0.0 {
        CellEdge::new(a, b)
    } else {
        CellEdge::new(b, a)
    }
}
