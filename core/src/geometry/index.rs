//! The prepared index over layers of polygons.

mod build;
mod grid;
mod pieces;
mod walk;

use grid::Grid;

use super::around::Around;
use super::predicates::{in_box, orient};
use super::{Point, Polygon, Vector};

pub use pieces::Piece;

/// Layers of polygons, later ones on top, prepared for many questions.
///
/// A uniform grid over the layers. A cell that no edge of a visible layer meets knows its answer,
/// and how far around it the answer is the same. Any other cell has a reference point and, for each
/// layer with an edge in the cell, whether that point is inside and the edges in the cell: a place in
/// the cell is inside where the way from the reference point to it crosses an even number of those
/// edges (or odd, if the point is outside). Every sign is exact, so the answer is that of
/// [`Polygon::contains`] asked from the topmost layer down.
///
/// The number of cells follows from the extent and hardly from the number of edges, so detail costs
/// next to nothing where nothing is near.
#[derive(Clone, Debug)]
pub struct LayerIndex {
    grid: Grid,
    cells: Vec<Cell>,
    mixed: Vec<MixedCell>,
    runs: Vec<Run>,
    edges: Vec<CellEdge>,
    /// Bounds the rounding of an edge's quick orientation ([`CellEdge::side`]) in the grid.
    slack: f64,
    layers: Vec<Polygon>,
}

/// A layer, or none: 0 for none, else the layer plus one.
type Code = u16;

/// What a cell knows, in one word: the code of its only layer in the low half and above it for how many cells to
/// either side, down and up the same holds; or the mark and the place of a mixed cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Cell(u64);

impl Cell {
    const MIXED: u64 = 1 << 63;

    fn uniform(code: Code, around: Around) -> Self {
        let Around { columns, rows } = around;
        let sides = [columns.0, columns.1, rows.0, rows.1];
        let sides = sides
            .iter()
            .fold(0, |word, side| word << 8 | u64::from(*side));
        Self(sides << 16 | u64::from(code))
    }

    fn mixed(place: u32) -> Self {
        Self(Self::MIXED | u64::from(place))
    }

    #[inline]
    fn kind(self) -> Kind {
        if self.0 & Self::MIXED == 0 {
            let side = |shift: u32| (self.0 >> shift) as u8;
            Kind::Uniform {
                code: self.0 as Code,
                around: Around {
                    columns: (side(40), side(32)),
                    rows: (side(24), side(16)),
                },
            }
        } else {
            Kind::Mixed(self.0 as u32 as usize)
        }
    }
}

/// A cell's word taken apart.
enum Kind {
    /// One answer here and in the cells around.
    Uniform { code: Code, around: Around },
    /// The place among the mixed cells.
    Mixed(usize),
}

/// A cell that edges of visible layers meet.
#[derive(Clone, Debug)]
struct MixedCell {
    /// A point of the cell on no edge.
    reference: Point,
    /// The runs of this cell, topmost layer first.
    runs: (u32, u32),
    /// The edges of all its runs.
    edges: (u32, u32),
    /// The topmost layer that covers the whole cell and lies below all the runs.
    base: Code,
    /// Set where no reference point was found: the layers are asked one by one.
    hard: bool,
}

/// One layer's edges in one cell.
#[derive(Clone, Debug)]
struct Run {
    edges: (u32, u32),
    code: Code,
    /// True where the reference point is inside the layer.
    reference_inside: bool,
}

/// An edge in a cell, turned so that the reference point is to its left (or on its line).
#[derive(Clone, Debug)]
struct CellEdge {
    from: Point,
    to: Point,
    /// The line through both: `normal . p + offset` is the orientation of p, but for rounding.
    normal: Vector,
    offset: f64,
}

impl CellEdge {
    fn new(from: Point, to: Point) -> Self {
        Self {
            from,
            to,
            normal: Vector::new(from.y - to.y, to.x - from.x),
            offset: from.x * to.y - from.y * to.x,
        }
    }

    /// On which side of the edge `p` lies, but for rounding.
    #[inline]
    fn quick_side(&self, p: Point) -> f64 {
        self.normal.x * p.x + self.normal.y * p.y + self.offset
    }

    /// On which side of the edge `p` lies: positive to the left, with the exact sign. `slack` bounds the
    /// rounding of the quick form for points of the grid.
    #[inline]
    fn side(&self, p: Point, slack: f64) -> f64 {
        let side = self.quick_side(p);
        if side.abs() > slack {
            side
        } else {
            orient(self.from, self.to, p)
        }
    }
}

#[inline]
fn layer_of(code: Code) -> Option<u16> {
    code.checked_sub(1)
}

#[inline]
fn code_of(layer: Option<u16>) -> Code {
    layer.map_or(0, |layer| layer + 1)
}

impl LayerIndex {
    /// The most layers that are indexed. Callers refuse more; layers past this number are never found.
    pub const MAX_LAYERS: usize = u16::MAX as usize;

    /// Prepares the index. The layers are in drawing order: later ones lie on top.
    pub fn new(layers: &[Polygon]) -> Self {
        build::build(&layers[..layers.len().min(Self::MAX_LAYERS)])
    }

    /// An index of some of these layers, in any order, on the same grid: a path is cut by an edge at the same share in
    /// both, to the bit.
    pub fn of_some(&self, layers: &[Polygon]) -> Self {
        build::build_on(self.grid.clone(), layers)
    }

    /// The topmost layer at `p` (a boundary counts as inside), exactly. None where no layer covers
    /// `p`, and for a coordinate that is no finite number.
    #[inline]
    pub fn top(&self, p: Point) -> Option<u16> {
        match self.cell(self.grid.cell_near(p)).kind() {
            Kind::Uniform { code, .. } => layer_of(code),
            Kind::Mixed(place) => layer_of(self.top_near_edges(place, p)),
        }
    }

    /// The one layer all along the way from `from` to `to`, where the grid can tell without walking;
    /// None where it cannot, which says nothing about the way.
    #[inline]
    pub fn uniform(&self, from: Point, to: Point) -> Option<Option<u16>> {
        let (first, last) = (self.grid.cell_near(from), self.grid.cell_near(to));
        let middle = ((first.0 + last.0) / 2, (first.1 + last.1) / 2);
        // Neighbourhoods are not alike: one of them may see both ends where others do not.
        for cell in [first, middle, last] {
            let Kind::Uniform { code, around } = self.cell(cell).kind() else {
                return None;
            };
            let holds = |other: (usize, usize)| {
                let apart = |from: usize, to: usize| to.wrapping_sub(from) as isize;
                around.holds(apart(cell.0, other.0), apart(cell.1, other.1))
            };
            if holds(first) && holds(last) {
                return Some(layer_of(code));
            }
        }
        self.grid.passes_by(from, to).then_some(None)
    }

    /// The most edges in one square of the index, a corner of that square and its side; None where no edge is.
    ///
    /// What is asked there takes a time that grows with them.
    pub fn densest(&self) -> Option<(usize, Point, f64)> {
        let mixed = self
            .cells
            .iter()
            .enumerate()
            .filter_map(|(cell, known)| match known.kind() {
                Kind::Mixed(place) => Some((self.mixed[place].edges, cell)),
                Kind::Uniform { .. } => None,
            });
        let ((first, last), cell) = mixed.max_by_key(|((first, last), _)| last - first)?;
        let (column, row) = (cell % self.grid.columns, cell / self.grid.columns);
        let corner = self.grid.point_in(column, row, (0.0, 0.0));
        Some(((last - first) as usize, corner, self.grid.size))
    }

    #[inline]
    fn cell(&self, (column, row): (usize, usize)) -> Cell {
        self.cells[row * self.grid.columns + column]
    }

    /// The same in a mixed cell: kept apart, so that the usual look is short enough to stand wherever one is taken.
    #[inline(never)]
    fn top_near_edges(&self, place: usize, p: Point) -> Code {
        self.top_in(&self.mixed[place], p)
    }

    /// The topmost layer at a point of a mixed cell.
    #[inline]
    fn top_in(&self, cell: &MixedCell, p: Point) -> Code {
        if cell.hard {
            return self.top_of_all(p);
        }
        let runs = &self.runs[cell.runs.0 as usize..cell.runs.1 as usize];
        let covers = |run: &&Run| self.run_covers(run, cell.reference, p);
        runs.iter().find(covers).map_or(cell.base, |run| run.code)
    }

    /// Whether a layer with edges in the cell covers `p`.
    ///
    /// An edge is crossed on the way from the reference point r to p where r and p lie on different
    /// sides of it and its ends on different sides of the way. An end exactly on the line of the way
    /// counts as left of it, for both edges that share it, so a way through a vertex counts it once
    /// or twice as it should. A side of 0 means that p is on the edge, or else beyond it on its
    /// line, which crosses nothing.
    #[inline]
    fn run_covers(&self, run: &Run, reference: Point, p: Point) -> bool {
        let mut inside = run.reference_inside;
        for edge in &self.edges[run.edges.0 as usize..run.edges.1 as usize] {
            let side = edge.side(p, self.slack);
            if side > 0.0 {
                continue;
            }
            if side == 0.0 {
                if in_box(edge.from, edge.to, p) {
                    return true;
                }
                continue;
            }
            let from_left = orient(reference, p, edge.from) >= 0.0;
            let to_left = orient(reference, p, edge.to) >= 0.0;
            inside ^= from_left != to_left;
        }
        inside
    }

    /// The topmost layer at `p`, asking each in turn.
    #[cold]
    fn top_of_all(&self, p: Point) -> Code {
        let found = self.layers.iter().rposition(|layer| layer.contains(p));
        found.map_or(0, |i| i as Code + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Polygon {
        let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)];
        let points = corners.map(|(dx, dy)| Point::new(x + dx, y + dy)).to_vec();
        Polygon::from_points(vec![points]).unwrap()
    }

    /// A square of side 100, one of side 20 on it, and one of side 10 on both.
    fn stack() -> LayerIndex {
        LayerIndex::new(&[
            square(0.0, 0.0, 100.0),
            square(40.0, 40.0, 20.0),
            square(55.0, 45.0, 10.0),
        ])
    }

    #[test]
    fn top_of_a_stack() {
        let index = stack();
        for (x, y, expected) in [
            (10.0, 10.0, Some(0)),
            (50.0, 50.0, Some(1)),
            (62.0, 50.0, Some(2)),
            (60.0, 41.0, Some(1)),
            (60.0_f64.next_up(), 41.0, Some(0)),
            (55.0, 50.0, Some(2)),
            (55.0_f64.next_down(), 50.0, Some(1)),
            (0.0, 0.0, Some(0)),
            (100.0, 100.0, Some(0)),
            (100.0, 55.0, Some(0)),
            (100.0_f64.next_up(), 55.0, None),
            (-5.0, 5.0, None),
            (f64::NAN, 5.0, None),
            (f64::INFINITY, 5.0, None),
            (1e300, -1e300, None),
        ] {
            assert_eq!(index.top(Point::new(x, y)), expected, "({x}, {y})");
        }
    }

    #[test]
    fn no_layers_no_answer() {
        let index = LayerIndex::new(&[]);
        assert_eq!(index.top(Point::origin()), None);
        let far = Point::new(5.0, -7.0);
        assert_eq!(index.uniform(Point::origin(), far), Some(None));
    }

    #[test]
    fn uniform_answers_only_where_it_can() {
        let index = stack();
        let told = |a: (f64, f64), b: (f64, f64)| {
            index.uniform(Point::new(a.0, a.1), Point::new(b.0, b.1))
        };
        assert_eq!(told((20.0, 20.0), (21.0, 22.0)), Some(Some(0)));
        assert_eq!(told((20.0, 20.0), (50.0, 50.0)), None);
        assert_eq!(told((20.0, 20.0), (20.0, 80.0)), Some(Some(0)));
        assert_eq!(told((20.0, 20.0), (80.0, 80.0)), None);
        assert_eq!(told((120.0, 20.0), (200.0, 80.0)), Some(None));
        assert_eq!(told((20.0, 120.0), (-80.0, -20.0)), None);
        assert_eq!(told((20.0, 20.0), (200.0, 20.0)), None);
    }

    #[test]
    fn a_cell_without_a_reference_point_asks_the_layers() {
        // A triangle with a vertex at each point that would be tried in one cell.
        let base = square(0.0, 0.0, 100.0);
        let grid = Grid::over(std::slice::from_ref(&base), build::MOST_CELLS);
        let (column, row) = grid.cell_near(Point::new(50.0, 50.0));
        let mut layers = vec![base];
        for p in build::reference_candidates(&grid, column, row) {
            let (dx, dy) = (0.01 * grid.size, 0.02 * grid.size);
            let corners = vec![
                p,
                Point::new(p.x + dx, p.y + dy),
                Point::new(p.x - dx, p.y + dy),
            ];
            layers.push(Polygon::from_points(vec![corners]).unwrap());
        }
        let index = LayerIndex::new(&layers);
        assert!(index.mixed.iter().any(|m| m.hard));
        for (i, layer) in layers.iter().enumerate().skip(1) {
            assert_eq!(index.top(layer.exterior().vertices()[0]), Some(i as u16));
            assert_eq!(index.top(layer.centroid()), Some(i as u16));
        }
    }

    #[test]
    fn memory_stays_bounded() {
        // Many overlapping squares: every one has edges in hundreds of cells.
        let layers: Vec<_> = (0..3000)
            .map(|i| square(f64::from(i) * 0.01, 0.0, 200.0))
            .collect();
        let index = LayerIndex::new(&layers);
        let bytes = index.edges.len() * size_of::<CellEdge>() + index.cells.len() * 8;
        assert!(bytes < 6 << 20, "{bytes}");
        assert_eq!(index.top(Point::new(15.005, 100.0)), Some(1500));
    }
}
