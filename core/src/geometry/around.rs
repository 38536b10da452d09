//! Rectangles of like cells around every cell of a grid.

/// A rectangle of cells around one: how many columns to the left and right, and rows down and up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Around {
    pub(crate) columns: (u8, u8),
    pub(crate) rows: (u8, u8),
}

impl Around {
    /// True if it holds a cell that is so many columns to the right and rows up.
    #[inline]
    pub(crate) fn holds(self, columns: isize, rows: isize) -> bool {
        // One comparison tells both sides: what is too far before wraps round to a huge number.
        let within = |(before, after): (u8, u8), at: isize| {
            at.wrapping_add_unsigned(before.into()) as usize
                <= usize::from(before) + usize::from(after)
        };
        within(self.columns, columns) & within(self.rows, rows)
    }
}

/// For each cell a rectangle of cells like it: the largest square around it that keeps off the rim, drawn out up and down or
/// to both sides, whichever is farther. Balls go along edges more often than at them.
///
/// `alike` tells of a cell and one of its eight neighbours, or one in its column or row to which like cells lead.
pub(crate) fn rectangles(
    columns: usize,
    rows: usize,
    alike: impl Fn(usize, usize) -> bool,
) -> Vec<Around> {
    let radii = radii(columns, rows, &alike);
    let reaches = |step: isize, room: &dyn Fn(usize) -> usize| {
        let mut reaches = vec![0; columns * rows];
        let mut reach = |here: usize| {
            reaches[here] = reach(here, step, room(here), &radii, &reaches, &alike);
        };
        if step < 0 {
            (0..columns * rows).for_each(&mut reach);
        } else {
            (0..columns * rows).rev().for_each(&mut reach);
        }
        reaches
    };
    let upwards = columns as isize;
    let left = reaches(-1, &|here| here % columns);
    let right = reaches(1, &|here| columns - 1 - here % columns);
    let down = reaches(-upwards, &|here| here / columns);
    let up = reaches(upwards, &|here| rows - 1 - here / columns);
    let around = |here: usize| {
        let (sides, along) = ((left[here], right[here]), (down[here], up[here]));
        let square = (radii[here], radii[here]);
        let length = |(before, after): (u8, u8)| u16::from(before) + u16::from(after);
        let (columns, rows) = if length(sides) > length(along) {
            (sides, square)
        } else {
            (square, along)
        };
        Around { columns, rows }
    };
    (0..columns * rows).map(around).collect()
}

/// How many cells on the square around one reaches, drawn out that way and no farther than `room`: as squares of like cells
/// that are no smaller reach on from one another.
fn reach(
    here: usize,
    step: isize,
    room: usize,
    radii: &[u8],
    reaches: &[u8],
    alike: impl Fn(usize, usize) -> bool,
) -> u8 {
    let (radius, room) = (radii[here], room.min(usize::from(u8::MAX)));
    let mut reached = usize::from(radius);
    if room > 0 {
        let next = here.wrapping_add_signed(step);
        if radii[next] == radius && alike(here, next) {
            return reaches[next].saturating_add(1);
        }
    }
    while reached < room {
        let next = here.wrapping_add_signed(step * (reached as isize + 1));
        if radii[next] < radius || !alike(here, next) {
            break;
        }
        reached += 1 + usize::from(radii[next]);
    }
    reached.min(room) as u8
}

/// For each cell, how many rows and columns away every cell is like it: the chessboard distance to the nearest other cell
/// or the rim, less one, found in one pass each way (Rosenfeld and Pfaltz 1968, "Distance functions on digital
/// pictures").
fn radii(columns: usize, rows: usize, alike: impl Fn(usize, usize) -> bool) -> Vec<u8> {
    let mut radii = vec![0; columns * rows];
    let inner = || {
        let rows = 1..rows.saturating_sub(1);
        rows.flat_map(|row| {
            (1..columns.saturating_sub(1)).map(move |column| row * columns + column)
        })
    };
    for here in inner() {
        if beside(here, columns).iter().all(|&n| alike(here, n)) {
            radii[here] = u8::MAX;
        }
    }
    for here in inner() {
        relax(&mut radii, here, &beside(here, columns)[..4]);
    }
    for here in inner().rev() {
        relax(&mut radii, here, &beside(here, columns)[4..]);
    }
    radii
}

/// The eight neighbours of a cell, those before it first.
fn beside(here: usize, columns: usize) -> [usize; 8] {
    [
        here - columns - 1,
        here - columns,
        here - columns + 1,
        here - 1,
        here + 1,
        here + columns - 1,
        here + columns,
        here + columns + 1,
    ]
}

fn relax(radii: &mut [u8], here: usize, neighbours: &[usize]) {
    for n in neighbours {
        radii[here] = radii[here].min(radii[*n].saturating_add(1));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// On boards of chance: every cell of a rectangle is like the one it is around, and no side could be a cell farther out
    /// for a lone cell in the open.
    #[test]
    fn rectangles_hold_like_cells_alone() {
        let (columns, rows) = (23, 17);
        let mut word = 1u64;
        let mut held = 0;
        for _ in 0..50 {
            let board: Vec<bool> = (0..columns * rows)
                .map(|_| {
                    word = word.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                    word >> 60 == 0
                })
                .collect();
            let around = rectangles(columns, rows, |a, b| board[a] == board[b]);
            for here in 0..columns * rows {
                let (column, row) = (here % columns, here / columns);
                let Around {
                    columns: c,
                    rows: r,
                } = around[here];
                for y in row - usize::from(r.0)..=row + usize::from(r.1) {
                    for x in column - usize::from(c.0)..=column + usize::from(c.1) {
                        assert_eq!(board[y * columns + x], board[here]);
                        held += 1;
                    }
                }
            }
        }
        assert!(held > 50 * columns * rows * 4, "{held}");
    }
}
