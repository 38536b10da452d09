//! Pairs of edges close enough to meet, found by a sweep.

use std::ops::ControlFlow;

use super::Point;

/// The extent of an edge along the sweep and across it.
struct Span {
    along: (f64, f64),
    across: (f64, f64),
    edge: usize,
}

/// Visits every pair of edges whose boxes share a point, until told to stop.
///
/// The sweep goes along the axis on which the edges are shorter, so the usual outline of thousands
/// of vertices costs little more than the sort.
pub(super) fn close_pairs(
    edges: &[(Point, Point)],
    mut visit: impl FnMut(usize, usize) -> ControlFlow<()>,
) {
    let mut spans = spans(edges);
    spans.sort_by(|s, t| s.along.0.total_cmp(&t.along.0));
    for (i, s) in spans.iter().enumerate() {
        let reachable = spans[i + 1..].iter().take_while(|t| t.along.0 <= s.along.1);
        for t in reachable {
            let apart = t.across.0 > s.across.1 || s.across.0 > t.across.1;
            if !apart && visit(s.edge.min(t.edge), s.edge.max(t.edge)).is_break() {
                return;
            }
        }
    }
}

/// The spans of the edges with respect to the better axis.
fn spans(edges: &[(Point, Point)]) -> Vec<Span> {
    let extent = |range: fn(&(Point, Point)) -> (f64, f64)| {
        let whole = edges
            .iter()
            .map(range)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |w, r| {
                (w.0.min(r.0), w.1.max(r.1))
            });
        let sum: f64 = edges.iter().map(range).map(|r| r.1 - r.0).sum();
        sum / (whole.1 - whole.0)
    };
    let along_x = extent(x_range) <= extent(y_range);
    let span = |(edge, e): (usize, &(Point, Point))| {
        let (x, y) = (x_range(e), y_range(e));
        let (along, across) = if along_x { (x, y) } else { (y, x) };
        Span {
            along,
            across,
            edge,
        }
    };
    edges.iter().enumerate().map(span).collect()
}

fn x_range(e: &(Point, Point)) -> (f64, f64) {
    (e.0.x.min(e.1.x), e.0.x.max(e.1.x))
}

fn y_range(e: &(Point, Point)) -> (f64, f64) {
    (e.0.y.min(e.1.y), e.0.y.max(e.1.y))
}
