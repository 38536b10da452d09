//! How close together places are laid, and which lies occur near each.
use super::grid::{Grid, Strip, aside};
use crate::geometry::{Point, Vector};
use crate::hole::Hole;
use crate::player::Lie;
use rayon::prelude::*;

/// How close together places have shots and values of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::solve) enum Spacing {
    /// At every node.
    Even,
    /// At every node near the pin; farther off, where values change slowly, every few yards, and well aside, where few balls
    /// end, half as often.
    Graded,
}

/// Yards between places far from the pin, where the cells are finer.
const WIDEST: f64 = 4.0;
/// Places are no farther apart than this share of their distance from the pin, once the cells allow.
const GRADE: f64 = 1.0 / 12.0;
/// Well aside is by more than this share of the width of the strip, and no nearer the pin than so many yards.
const ASIDE: f64 = 0.45;
const FAR: f64 = 40.0;
/// Cells wider than this, yards, are no farther apart there: what lies between them would be missed.
const WIDE: f64 = 7.0;

impl Spacing {
    /// Cells between the places farthest apart: a power of two.
    pub(in crate::solve) fn widest(self, cell: f64) -> usize {
        match self {
            Spacing::Even => 1,
            Spacing::Graded => usize::from(stride(2.0 * WIDEST.max(cell), cell)),
        }
    }

    /// The spacing around every node, in cells.
    pub(in crate::solve) fn strides(self, grid: &Grid, hole: &Hole, strip: Strip) -> Vec<u8> {
        let apart = |at: Point| {
            let far = (at - hole.pin()).norm();
            let apart = (GRADE * far).min(WIDEST).max(grid.cell);
            let aside = || far > FAR && aside(hole, at) > ASIDE * strip.width;
            if grid.cell <= WIDE && aside() {
                2.0 * apart
            } else {
                apart
            }
        };
        (0..grid.len())
            .map(|node| match self {
                Spacing::Even => 1,
                Spacing::Graded => stride(apart(grid.point(node)), grid.cell),
            })
            .collect()
    }
}

/// The most cells, as a power of two, that come to no more than so many yards.
fn stride(yards: f64, cell: f64) -> u8 {
    let mut stride = 1_u8;
    while f64::from(2 * stride) * cell <= yards {
        stride *= 2;
    }
    stride
}

/// A square of cells whose corners have states of their own.
#[derive(Clone, Copy, Debug)]
pub(super) struct Square {
    /// Its lower left node.
    node: usize,
    /// Its side, in cells.
    pub(super) side: usize,
    columns: usize,
}

impl Square {
    /// The square that holds the cell with this lower left node, and the column and row of the cell in it. Hot path.
    #[inline]
    pub(super) fn of(cell: usize, grid: &Grid, strides: &[u8]) -> (Self, [usize; 2]) {
        let (side, columns) = (usize::from(strides[cell].max(1)), grid.columns);
        let (x, y) = (cell % columns % side, cell / columns % side);
        let node = cell - y * columns - x;
        let square = Square {
            node,
            side,
            columns,
        };
        (square, [x, y])
    }

    /// Its corners: lower left, lower right, upper left and upper right.
    #[inline]
    pub(super) fn corners(self) -> [usize; 4] {
        let (low, high) = (self.node, self.node + self.side * self.columns);
        [low, low + self.side, high, high + self.side]
    }
}

/// For every node of the grid the lies that occur in the squares of which it is a corner, as a set of bits.
pub(in crate::solve) fn lies_near(
    hole: &Hole,
    strip: Strip,
    grid: &Grid,
    strides: &[u8],
) -> Vec<u16> {
    let cells: Vec<u16> = (0..grid.len())
        .into_par_iter()
        .map(|cell| lies_in(hole, strip, grid, cell))
        .collect();
    let mut near = vec![0; grid.len()];
    for (cell, lies) in cells.into_iter().enumerate() {
        // The last column and the last row are nodes alone.
        if cell % grid.columns + 1 < grid.columns && cell / grid.columns + 1 < grid.rows {
            for corner in Square::of(cell, grid, strides).0.corners() {
                near[corner] |= lies;
            }
        }
    }
    near
}

/// The lies that occur in a cell, as a set of bits.
fn lies_in(hole: &Hole, strip: Strip, grid: &Grid, cell: usize) -> u16 {
    /// Yards between looks.
    const LOOK: f64 = 0.7;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a small count"
    )]
    let looks = (grid.cell / LOOK).ceil().max(1.0) as u32;
    let corner = grid.point(cell);
    let mut lies = 0_u16;
    for i in 0..looks * looks {
        let share = |k: u32| (f64::from(k) + 0.5) / f64::from(looks) * grid.cell;
        let p: Point = corner + Vector::new(share(i % looks), share(i / looks));
        // Whether it is in the strip is asked but once for each lie that occurs there: it takes longer.
        if let Some(lie) = Lie::on(hole.surface_at(p))
            && lies >> lie as u16 & 1 == 0
            && strip.holds(hole, p)
        {
            lies |= 1 << lie as u16;
        }
    }
    lies
}
