//! Which layers a straight path runs over, cell by cell.

use std::collections::BTreeSet;
use std::ops::ControlFlow;

use super::pieces::{Cuts, Piece, Pieces};
use super::{Kind, LayerIndex, MixedCell, code_of};
use crate::geometry::predicates::{orient, same_side};
use crate::geometry::{MIN_SHARE, Point, along, share_of, within_reach};

impl LayerIndex {
    /// Visits the pieces of the path from `from` to `to` in order until told to stop.
    ///
    /// The pieces cover the path from 0 to 1, and neighbours differ in layer. What the path only
    /// touches, and what it runs over for less than 1e-12 of its length, is no piece. A path of no
    /// length is one piece. A path with an end that is no finite number or out of
    /// [`REACH`](crate::geometry::REACH) is one piece over nothing.
    pub fn walk<B>(
        &self,
        from: Point,
        to: Point,
        mut visit: impl FnMut(Piece) -> ControlFlow<B>,
    ) -> ControlFlow<B> {
        if let Some(layer) = self.uniform(from, to) {
            return visit(Piece {
                from: 0.0,
                to: 1.0,
                layer,
            });
        }
        if from == to {
            return visit(Piece {
                from: 0.0,
                to: 1.0,
                layer: self.top(from),
            });
        }
        self.walk_far(from, to, visit)
    }

    /// The same for a path that is known to begin over `start`, which saves the question.
    pub fn walk_on<B>(
        &self,
        start: Option<u16>,
        from: Point,
        to: Point,
        visit: impl FnMut(Piece) -> ControlFlow<B>,
    ) -> ControlFlow<B> {
        if !(self.grid.holds(from) && self.grid.holds(to)) || from == to {
            return self.walk(from, to, visit);
        }
        let mut pieces = Pieces::over(visit, code_of(start));
        self.trace(from, to, &mut pieces)?;
        pieces.close()
    }

    /// The walk of a path that does not stay in one uniform neighbourhood.
    fn walk_far<B>(
        &self,
        from: Point,
        to: Point,
        visit: impl FnMut(Piece) -> ControlFlow<B>,
    ) -> ControlFlow<B> {
        let mut pieces = Pieces::new(visit);
        if self.grid.holds(from) && self.grid.holds(to) {
            self.trace(from, to, &mut pieces)?;
        } else if let Some((enter, leave)) = self.shares_in_grid(from, to) {
            self.trace_part(from, to, (enter, leave), &mut pieces)?;
        } else {
            pieces.step(0.0, 0)?;
        }
        pieces.close()
    }

    /// Walks the part of a path that is in the grid, and what is outside over nothing.
    fn trace_part<B, F>(
        &self,
        from: Point,
        to: Point,
        (enter, leave): (f64, f64),
        pieces: &mut Pieces<F>,
    ) -> ControlFlow<B>
    where
        F: FnMut(Piece) -> ControlFlow<B>,
    {
        if enter > 0.0 {
            pieces.step(0.0, 0)?;
        }
        pieces.part(enter, leave);
        self.trace(along(from, to, enter), along(from, to, leave), pieces)?;
        pieces.part(0.0, 1.0);
        if leave < 1.0 {
            pieces.step(leave, 0)?;
        }
        ControlFlow::Continue(())
    }

    /// The shares between which the path is in the grid, if it meets the grid for any length.
    fn shares_in_grid(&self, from: Point, to: Point) -> Option<(f64, f64)> {
        if !(within_reach(from) && within_reach(to)) {
            return None;
        }
        let (low, high) = self.grid.corners();
        let d = to - from;
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        for axis in 0..2 {
            let (start, step) = (from[axis], d[axis]);
            if step == 0.0 {
                if !(low[axis] <= start && start <= high[axis]) {
                    return None;
                }
                continue;
            }
            let (s, t) = ((low[axis] - start) / step, (high[axis] - start) / step);
            enter = enter.max(s.min(t));
            leave = leave.min(s.max(t));
        }
        (leave - enter > MIN_SHARE).then_some((enter, leave))
    }

    /// Walks the cells from one point of the grid to another. From a uniform cell it goes on at once
    /// to where its uniform neighbourhood ends.
    fn trace<B, F>(&self, from: Point, to: Point, pieces: &mut Pieces<F>) -> ControlFlow<B>
    where
        F: FnMut(Piece) -> ControlFlow<B>,
    {
        let grid = &self.grid;
        let d = to - from;
        let mut column = Going::new(
            (from.x, d.x),
            grid.column_near(from.x),
            grid.column_near(to.x),
        );
        let mut row = Going::new((from.y, d.y), grid.row_near(from.y), grid.row_near(to.y));
        let mut share = 0.0;
        loop {
            let kind = self.cell((column.here(), row.here())).kind();
            let (columns, rows) = match kind {
                Kind::Uniform { around, .. } => {
                    (column.ahead_of(around.columns), row.ahead_of(around.rows))
                }
                Kind::Mixed(_) => (0, 0),
            };
            let column_share = column.share(columns, |c| grid.column_start(c));
            let row_share = row.share(rows, |r| grid.row_start(r));
            let next = if column_share < row_share {
                column_share
            } else {
                row_share
            };
            let next = if next < 1.0 { next } else { 1.0 };
            let leave = if next > share { next } else { share };
            match kind {
                Kind::Uniform { code, .. } => {
                    if leave - share > pieces.least {
                        pieces.step(share, code)?;
                    }
                }
                Kind::Mixed(place) => {
                    self.cross(&self.mixed[place], (from, to), (share, leave), pieces)?;
                }
            }
            if column.ends(columns) && row.ends(rows) {
                return ControlFlow::Continue(());
            }
            // The index that leaves the neighbourhood is counted, so the walk always gets on; the
            // other is computed and kept within it.
            if column_share <= row_share {
                column.leave(columns);
                if rows > 0 {
                    row.follow(rows, grid.row_near(from.y + d.y * leave));
                }
            } else {
                row.leave(rows);
                if columns > 0 {
                    column.follow(columns, grid.column_near(from.x + d.x * leave));
                }
            }
            share = leave;
        }
    }

    /// The pieces of a path between the shares at which it is in a mixed cell: cut where it meets an
    /// edge, judged at the middle between cuts. Up to the first, what was beneath it before still is.
    fn cross<B, F>(
        &self,
        cell: &MixedCell,
        (from, to): (Point, Point),
        (mut begun, end): (f64, f64),
        pieces: &mut Pieces<F>,
    ) -> ControlFlow<B>
    where
        F: FnMut(Piece) -> ControlFlow<B>,
    {
        let judge = |begun: f64, end: f64| {
            let middle = along(from, to, f64::midpoint(begun, end));
            (begun, self.top_in(cell, middle))
        };
        let mut known = pieces.has_begun();
        // Most cells of an edge are passed beside it.
        if known && self.misses(cell, (from, to), (begun, end)) {
            return ControlFlow::Continue(());
        }
        let mut cuts = Cuts::in_span(begun, end);
        self.each_cut(cell, (from, to), |cut| cuts.add(cut.share));
        if cuts.more {
            return self.cross_many(cell, (from, to), (begun, end), pieces);
        }
        if cuts.get().is_empty() && known {
            return ControlFlow::Continue(());
        }
        for &cut in cuts.get() {
            if !std::mem::take(&mut known) && cut - begun > pieces.least {
                let (share, code) = judge(begun, cut);
                pieces.step(share, code)?;
            }
            begun = cut;
        }
        if end - begun > pieces.least {
            let (share, code) = judge(begun, end);
            pieces.step(share, code)?;
        }
        ControlFlow::Continue(())
    }

    /// The same where the path meets many edges of the cell, in a time that grows with them and not with their square:
    /// what lies beneath it is judged once, and each edge that it crosses takes it into a layer or out of it. After a corner,
    /// and at the end of the cell, it is judged anew.
    #[cold]
    fn cross_many<B, F>(
        &self,
        cell: &MixedCell,
        (from, to): (Point, Point),
        (mut begun, end): (f64, f64),
        pieces: &mut Pieces<F>,
    ) -> ControlFlow<B>
    where
        F: FnMut(Piece) -> ControlFlow<B>,
    {
        let mut cuts = Vec::new();
        self.each_cut(cell, (from, to), |cut| {
            // Half open: a cut on the border of two cells belongs to the second.
            if begun <= cut.share && cut.share < end {
                cuts.push(cut);
            }
        });
        cuts.sort_unstable_by(|a, b| a.share.total_cmp(&b.share));
        let runs = &self.runs[cell.runs.0 as usize..cell.runs.1 as usize];
        let covering = |middle: Point| -> BTreeSet<usize> {
            let covers = |&i: &usize| self.run_covers(&runs[i], cell.reference, middle);
            (0..runs.len()).filter(covers).collect()
        };
        let mut known = pieces.has_begun();
        let mut beneath: Option<BTreeSet<usize>> = None;
        for cut in &cuts {
            if !std::mem::take(&mut known) && cut.share - begun > pieces.least {
                let middle = along(from, to, f64::midpoint(begun, cut.share));
                let code = if cell.hard {
                    self.top_of_all(middle)
                } else {
                    let beneath = beneath.get_or_insert_with(|| covering(middle));
                    beneath.first().map_or(cell.base, |&run| runs[run].code)
                };
                pieces.step(begun, code)?;
            }
            begun = cut.share;
            if cut.corner {
                beneath = None;
            } else if let Some(beneath) = &mut beneath {
                let run = runs.partition_point(|run| run.edges.1 <= cut.edge);
                if !beneath.remove(&run) {
                    beneath.insert(run);
                }
            }
        }
        if end - begun > pieces.least {
            let middle = along(from, to, f64::midpoint(begun, end));
            pieces.step(begun, self.top_in(cell, middle))?;
        }
        ControlFlow::Continue(())
    }

    /// True where it is plain that a path meets no edge of the cell between two shares of it: it meets none of their lines.
    #[inline]
    fn misses(&self, cell: &MixedCell, (from, to): (Point, Point), span: (f64, f64)) -> bool {
        let edges = &self.edges[cell.edges.0 as usize..cell.edges.1 as usize];
        edges.iter().all(|edge| {
            let (start, stop) = (edge.quick_side(from), edge.quick_side(to));
            let at = |share: f64| start + (stop - start) * share;
            let (first, last, slack) = (at(span.0), at(span.1), 2.0 * self.slack);
            (first > slack && last > slack) || (first < -slack && last < -slack)
        })
    }

    /// Every share at which the path meets an edge of the cell, in no order.
    #[inline]
    fn each_cut(&self, cell: &MixedCell, (from, to): (Point, Point), mut found: impl FnMut(Cut)) {
        let edges = &self.edges[cell.edges.0 as usize..cell.edges.1 as usize];
        for (edge, at) in edges.iter().zip(cell.edges.0..) {
            let (start, stop) = (edge.side(from, self.slack), edge.side(to, self.slack));
            if same_side(start, stop) {
                continue;
            }
            let (s, t) = (orient(from, to, edge.from), orient(from, to, edge.to));
            if same_side(s, t) {
                continue;
            }
            let mut cut = |share: f64, corner: bool| {
                found(Cut {
                    share,
                    edge: at,
                    corner,
                });
            };
            if s != 0.0 && t != 0.0 {
                cut(start / (start - stop), start == 0.0 || stop == 0.0);
            }
            if s == 0.0 {
                cut(share_of(from, to, edge.from), true);
            }
            if t == 0.0 {
                cut(share_of(from, to, edge.to), true);
            }
        }
    }
}

/// Where a path meets an edge.
struct Cut {
    share: f64,
    /// The place of the edge in the index.
    edge: u32,
    /// True where it does not simply cross it: at an end of the edge or of the path.
    corner: bool,
}

/// How far a path has got through the columns (or the rows).
struct Going {
    /// The column it ends in, and how many columns before that it is.
    last: i32,
    ahead: i32,
    /// 1 or -1.
    sign: i32,
    /// The coordinate it begins at, and one over the whole change of it.
    from: f64,
    per: f64,
}

impl Going {
    #[inline]
    fn new((from, d): (f64, f64), first: usize, last: usize) -> Self {
        // The grid is small.
        let (first, last) = (first as i32, last as i32);
        let sign = if last < first { -1 } else { 1 };
        Self {
            last,
            ahead: sign * (last - first),
            sign,
            from,
            per: 1.0 / d,
        }
    }

    /// The column it is in.
    #[inline]
    fn here(&self) -> usize {
        (self.last - self.sign * self.ahead) as usize
    }

    /// Of so many columns before and after it, those that it goes to.
    #[inline]
    fn ahead_of(&self, (before, after): (u8, u8)) -> i32 {
        i32::from(if self.sign > 0 { after } else { before })
    }

    /// True where it ends no more than `radius` columns away.
    #[inline]
    fn ends(&self, radius: i32) -> bool {
        self.ahead <= radius
    }

    /// The share of the path at which it leaves the next `radius` columns; never where it ends in them.
    #[inline]
    fn share(&self, radius: i32, start_of: impl FnOnce(usize) -> f64) -> f64 {
        if self.ends(radius) {
            return f64::INFINITY;
        }
        let border = self.last - self.sign * (self.ahead - radius) + i32::from(self.sign > 0);
        (start_of(border as usize) - self.from) * self.per
    }

    /// Goes on to the next column beyond those.
    #[inline]
    fn leave(&mut self, radius: i32) {
        self.ahead -= radius + 1;
    }

    /// Goes on to the column where it is found to be, by at most `radius` and not beyond the last.
    #[inline]
    fn follow(&mut self, radius: i32, found: usize) {
        let ahead = self.sign * (self.last - found as i32);
        let least = (self.ahead - radius).max(0);
        self.ahead = ahead.max(least).min(self.ahead);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Polygon;

    fn rectangle(x: f64, y: f64, w: f64, h: f64) -> Polygon {
        let corners = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)];
        let points = corners.map(|(dx, dy)| Point::new(x + dx, y + dy)).to_vec();
        Polygon::from_points(vec![points]).unwrap()
    }

    fn pieces(index: &LayerIndex, a: (f64, f64), b: (f64, f64)) -> Vec<(f64, f64, Option<u16>)> {
        let mut found = Vec::new();
        let flow = index.walk(Point::new(a.0, a.1), Point::new(b.0, b.1), |p| {
            found.push((p.from, p.to, p.layer));
            ControlFlow::<()>::Continue(())
        });
        assert!(flow.is_continue());
        found
    }

    fn close(found: &[(f64, f64, Option<u16>)], expected: &[(f64, f64, Option<u16>)]) {
        let near = |f: &(f64, f64, Option<u16>), e: &(f64, f64, Option<u16>)| {
            f.2 == e.2 && (f.0 - e.0).abs() < 1e-9 && (f.1 - e.1).abs() < 1e-9
        };
        let alike = found.len() == expected.len();
        assert!(
            alike && found.iter().zip(expected).all(|(f, e)| near(f, e)),
            "{found:?}"
        );
    }

    fn stack() -> LayerIndex {
        LayerIndex::new(&[
            rectangle(0.0, 0.0, 100.0, 100.0),
            rectangle(40.0, 40.0, 20.0, 20.0),
            rectangle(55.0, 45.0, 10.0, 10.0),
        ])
    }

    #[test]
    fn across_a_stack() {
        let index = stack();
        let expected = [
            (0.0, 0.4, Some(0)),
            (0.4, 0.55, Some(1)),
            (0.55, 0.65, Some(2)),
            (0.65, 1.0, Some(0)),
        ];
        close(&pieces(&index, (0.0, 50.0), (100.0, 50.0)), &expected);
        let back: Vec<_> = expected
            .iter()
            .rev()
            .map(|p| (1.0 - p.1, 1.0 - p.0, p.2))
            .collect();
        close(&pieces(&index, (100.0, 50.0), (0.0, 50.0)), &back);
        close(
            &pieces(&index, (50.0, 90.0), (50.0, 50.0)),
            &[(0.0, 0.75, Some(0)), (0.75, 1.0, Some(1))],
        );
    }

    #[test]
    fn from_outside_the_grid_and_past_it() {
        let index = stack();
        let through = [
            (0.0, 1.0 / 3.0, None),
            (1.0 / 3.0, 2.0 / 3.0, Some(0)),
            (2.0 / 3.0, 1.0, None),
        ];
        close(&pieces(&index, (-100.0, 20.0), (200.0, 20.0)), &through);
        close(&pieces(&index, (20.0, -100.0), (20.0, 200.0)), &through);
        close(
            &pieces(&index, (-100.0, 20.0), (-50.0, 20.0)),
            &[(0.0, 1.0, None)],
        );
        close(
            &pieces(&index, (-100.0, 200.0), (300.0, 200.0)),
            &[(0.0, 1.0, None)],
        );
        for bad in [f64::NAN, f64::INFINITY, 1e300] {
            close(
                &pieces(&index, (10.0, 10.0), (bad, 10.0)),
                &[(0.0, 1.0, None)],
            );
            close(
                &pieces(&index, (bad, 10.0), (10.0, 10.0)),
                &[(0.0, 1.0, None)],
            );
        }
        close(
            &pieces(&LayerIndex::new(&[]), (0.0, 0.0), (1.0, 1.0)),
            &[(0.0, 1.0, None)],
        );
        let far = pieces(&index, (-1e9, 20.0), (1e9, 20.0));
        assert_eq!(far.len(), 3);
        assert!((far[1].1 - far[1].0 - 100.0 / 2e9).abs() < 1e-12);
    }

    #[test]
    fn touches_are_no_pieces_and_edges_belong_to_the_layer() {
        let index = stack();
        // Through the corner (40, 60) of the middle layer.
        close(
            &pieces(&index, (30.0, 50.0), (50.0, 70.0)),
            &[(0.0, 1.0, Some(0))],
        );
        // Along its upper edge.
        let along = [
            (0.0, 0.4, Some(0)),
            (0.4, 0.6, Some(1)),
            (0.6, 1.0, Some(0)),
        ];
        close(&pieces(&index, (0.0, 60.0), (100.0, 60.0)), &along);
        // No length.
        close(
            &pieces(&index, (60.0, 60.0), (60.0, 60.0)),
            &[(0.0, 1.0, Some(1))],
        );
    }

    #[test]
    fn more_edges_in_a_cell_than_the_buffer_holds() {
        // Strips a thousandth of a yard wide on a square of 200: a hundred edges in one cell.
        let mut layers = vec![rectangle(0.0, 0.0, 200.0, 200.0)];
        layers.extend((0..50).map(|i| rectangle(100.0 + f64::from(i) * 2e-3, 50.0, 1e-3, 100.0)));
        let index = LayerIndex::new(&layers);
        let found = pieces(&index, (99.0, 100.0), (101.0, 100.0));
        assert_eq!(found.len(), 101);
        for (i, piece) in found.iter().enumerate() {
            let layer = if i % 2 == 0 { 0 } else { i.div_ceil(2) as u16 };
            assert_eq!(piece.2, Some(layer));
        }
        assert!((found[1].0 - 0.5).abs() < 1e-12 && (found[1].1 - 0.5005).abs() < 1e-12);
    }

    /// Combs over one another, with teeth much thinner than a cell: every piece is of the layer that lies there, and the layer
    /// changes between pieces.
    #[test]
    fn thousands_of_edges_in_a_cell() {
        let comb = |y: f64, thick: f64, high: f64| {
            let tooth = |i: u32| {
                let x = f64::from(i) * thick;
                let (left, right) = (
                    Point::new(x, y + high),
                    Point::new(x + 0.7 * thick, y + 1.0),
                );
                [left, right]
            };
            let teeth = (0..1_500).flat_map(tooth);
            let foot = [
                Point::new(1_500.0 * thick, y),
                Point::new(-1.0, y),
                Point::new(-1.0, y + 1.0),
            ];
            Polygon::from_points(vec![teeth.chain(foot).collect()]).unwrap()
        };
        let layers = vec![
            comb(0.0, 0.05, 40.0),
            comb(10.0, 0.037, 25.0),
            rectangle(20.0, 5.0, 10.0, 20.0),
            comb(-5.0, 0.061, 33.0),
        ];
        let index = LayerIndex::new(&layers);
        let (mut turn, mut cut) = (1.0_f64, 0);
        for _ in 0..60 {
            let mut next = || {
                turn = (turn * 1_103.515_245 + 12.345) % 97.0;
                turn
            };
            let (a, b) = ((next(), 0.4 * next()), (next(), 0.4 * next()));
            let found = pieces(&index, a, b);
            assert!(
                found
                    .windows(2)
                    .all(|w| w[0].1 == w[1].0 && w[0].2 != w[1].2)
            );
            let (from, to) = (Point::new(a.0, a.1), Point::new(b.0, b.1));
            for (start, end, layer) in &found {
                let middle = along(from, to, f64::midpoint(*start, *end));
                let top = layers.iter().rposition(|layer| layer.contains(middle));
                assert_eq!(top.map(|i| i as u16), *layer, "{a:?} {b:?} {start} {end}");
            }
            cut += found.len();
        }
        assert!(cut > 20_000, "{cut}");
    }

    #[test]
    fn a_visit_can_stop_the_walk() {
        let index = stack();
        let mut seen = 0;
        let flow = index.walk(Point::new(0.0, 50.0), Point::new(100.0, 50.0), |p| {
            seen += 1;
            if p.layer == Some(1) {
                ControlFlow::Break(p.from)
            } else {
                ControlFlow::Continue(())
            }
        });
        assert!(matches!(flow, ControlFlow::Break(share) if (share - 0.4).abs() < 1e-12));
        assert_eq!(seen, 2);
    }
}
