//! What can be wrong with the vertices of a ring, all of it at once.

use std::ops::ControlFlow;

use super::signed_area;
use crate::geometry::predicates::{folds_back, meeting_point, orient, segments_meet};
use crate::geometry::sweep::close_pairs;
use crate::geometry::{Point, REACH, bounds_of, within_reach};

/// Meetings of edges listed for one ring; a hopeless ring of thousands of vertices has millions.
pub(super) const MOST_MEETINGS: usize = 100;

/// The least area of a ring as a share of the square on the diagonal of its bounding box: less is
/// lost in the rounding of the area itself.
const LEAST_AREA_SHARE: f64 = 1e-12;

/// Why some points do not make a ring.
///
/// Vertices are counted from 0 in the list as it was given; edge `i` goes from vertex `i` to the next.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RingFault {
    /// A coordinate is not a finite number.
    #[error("vertex {vertex} is ({x}, {y}); coordinates must be finite numbers")]
    NotFinite {
        /// The vertex.
        vertex: usize,
        /// Its x as given.
        x: f64,
        /// Its y as given.
        y: f64,
    },
    /// A coordinate is larger than [`REACH`].
    #[error("vertex {vertex} is ({x}, {y}); coordinates must lie within {REACH} yards of 0")]
    TooFar {
        /// The vertex.
        vertex: usize,
        /// Its x, yards.
        x: f64,
        /// Its y, yards.
        y: f64,
    },
    /// Fewer than three distinct vertices.
    #[error("the ring has {found} distinct vertices; at least 3 are needed")]
    TooFewVertices {
        /// How many distinct vertices there are.
        found: usize,
    },
    /// A vertex is the same as the one before it.
    #[error("vertex {vertex} at ({x}, {y}) repeats the vertex before it; leave it out")]
    RepeatedVertex {
        /// The second of the two.
        vertex: usize,
        /// Their x, yards.
        x: f64,
        /// Their y, yards.
        y: f64,
    },
    /// The ring encloses nothing.
    #[error(
        "the ring encloses no area: from vertex 0 at ({x}, {y}) round it measures {area} square yards"
    )]
    NoArea {
        /// The area that it measures, square yards.
        area: f64,
        /// The x of its first vertex, yards.
        x: f64,
        /// The y of its first vertex, yards.
        y: f64,
    },
    /// Two edges cross, touch or run over each other.
    #[error("the ring crosses itself: edge {first} and edge {second} meet at ({x}, {y})")]
    CrossesItself {
        /// The earlier edge.
        first: usize,
        /// The later edge.
        second: usize,
        /// The x of a point where they meet, yards, rounded.
        x: f64,
        /// The y of that point, yards, rounded.
        y: f64,
    },
    /// Two vertices that do not follow each other are at one place.
    #[error("the ring crosses itself: vertex {first} and vertex {second} are both at ({x}, {y})")]
    VisitsTwice {
        /// The earlier vertex.
        first: usize,
        /// The later vertex.
        second: usize,
        /// Their x, yards.
        x: f64,
        /// Their y, yards.
        y: f64,
    },
    /// The ring meets itself more often than is listed.
    #[error("the ring crosses itself in further places; the first {listed} found are listed")]
    CrossesItselfMore {
        /// How many meetings are listed.
        listed: usize,
    },
}

/// Every fault of an open list of vertices.
pub(super) fn faults_of(vertices: &[Point]) -> Vec<RingFault> {
    let mut faults: Vec<_> = vertices
        .iter()
        .enumerate()
        .filter_map(|(i, p)| coordinate_fault(i, *p))
        .collect();
    let unplaced = !faults.is_empty();
    let kept = without_repeats(vertices, &mut faults);
    if unplaced {
        return faults;
    }
    let found = distinct_count(vertices);
    if found < 3 {
        faults.push(RingFault::TooFewVertices { found });
        return faults;
    }
    let flat = is_flat(vertices);
    let meetings = if flat {
        Vec::new()
    } else {
        meetings(vertices, &kept)
    };
    let (low, high) = bounds_of(vertices);
    let area = signed_area(vertices).abs();
    // A ring that crosses itself may well measure nothing; the crossing is the fault to mend.
    let enough = area > LEAST_AREA_SHARE * (high - low).norm_squared();
    if flat || (meetings.is_empty() && !enough) {
        faults.push(RingFault::NoArea {
            area,
            x: vertices[0].x,
            y: vertices[0].y,
        });
    }
    faults.extend(meetings);
    faults
}

fn coordinate_fault(vertex: usize, p: Point) -> Option<RingFault> {
    let (x, y) = (p.x, p.y);
    if !(x.is_finite() && y.is_finite()) {
        Some(RingFault::NotFinite { vertex, x, y })
    } else if !within_reach(p) {
        Some(RingFault::TooFar { vertex, x, y })
    } else {
        None
    }
}

/// The indices of the vertices that differ from the one before; the others are faults.
fn without_repeats(vertices: &[Point], faults: &mut Vec<RingFault>) -> Vec<usize> {
    let mut kept: Vec<usize> = Vec::with_capacity(vertices.len());
    for (i, p) in vertices.iter().enumerate() {
        let closes_again = i + 1 == vertices.len() && i > 0 && *p == vertices[0];
        if closes_again || (i > 0 && *p == vertices[i - 1]) {
            faults.push(RingFault::RepeatedVertex {
                vertex: i,
                x: p.x,
                y: p.y,
            });
        } else {
            kept.push(i);
        }
    }
    // Several vertices at the end may repeat the first.
    while kept.len() > 1 && kept.last().is_some_and(|i| vertices[*i] == vertices[0]) {
        kept.pop();
    }
    kept
}

/// Indices in the order of the points, equal points side by side in the order given.
fn sorted_by_place(vertices: &[Point], mut order: Vec<usize>) -> Vec<usize> {
    // Adding zero makes -0 and 0 one number.
    let key = |i: &usize| (vertices[*i].x + 0.0, vertices[*i].y + 0.0);
    order.sort_by(|i, j| {
        let (p, q) = (key(i), key(j));
        p.0.total_cmp(&q.0).then(p.1.total_cmp(&q.1))
    });
    order
}

fn distinct_count(vertices: &[Point]) -> usize {
    let order = sorted_by_place(vertices, (0..vertices.len()).collect());
    let steps = order
        .windows(2)
        .filter(|w| vertices[w[0]] != vertices[w[1]])
        .count();
    steps + usize::from(!order.is_empty())
}

/// True where all vertices lie on one line.
fn is_flat(vertices: &[Point]) -> bool {
    let first = vertices[0];
    let other = vertices
        .iter()
        .copied()
        .find(|p| *p != first)
        .unwrap_or(first);
    vertices.iter().all(|p| orient(first, other, *p) == 0.0)
}

/// Where the ring through the kept vertices meets itself.
fn meetings(vertices: &[Point], kept: &[usize]) -> Vec<RingFault> {
    let order = sorted_by_place(vertices, kept.to_vec());
    let twice = order
        .windows(2)
        .filter(|w| vertices[w[0]] == vertices[w[1]])
        .map(|w| {
            let Point { coords } = vertices[w[0]];
            RingFault::VisitsTwice {
                first: w[0],
                second: w[1],
                x: coords.x,
                y: coords.y,
            }
        });
    let mut found: Vec<_> = twice.take(MOST_MEETINGS + 1).collect();
    let edge = |i: usize| (vertices[kept[i]], vertices[kept[(i + 1) % kept.len()]]);
    let edges: Vec<_> = (0..kept.len()).map(edge).collect();
    let mut crossings = Vec::new();
    close_pairs(&edges, |i, j| {
        if found.len() + crossings.len() > MOST_MEETINGS {
            return ControlFlow::Break(());
        }
        if clash(edges[i], edges[j]) {
            crossings.push((kept[i], kept[j], meeting_point(edges[i], edges[j])));
        }
        ControlFlow::Continue(())
    });
    crossings.sort_by_key(|(first, second, _)| (*first, *second));
    found.extend(
        crossings
            .into_iter()
            .map(|(first, second, at)| RingFault::CrossesItself {
                first,
                second,
                x: at.x,
                y: at.y,
            }),
    );
    if found.len() > MOST_MEETINGS {
        found.truncate(MOST_MEETINGS);
        found.push(RingFault::CrossesItselfMore {
            listed: MOST_MEETINGS,
        });
    }
    found
}

/// True where two edges of one ring meet other than at an end that both have.
fn clash(e: (Point, Point), f: (Point, Point)) -> bool {
    let ((a, b), (c, d)) = (e, f);
    let shared = [(b, a, c, d), (a, b, d, c), (a, b, c, d), (b, a, d, c)];
    match shared
        .into_iter()
        .find(|(end, _, other_end, _)| end == other_end)
    {
        Some((end, u, _, v)) => folds_back(end, u, v),
        None => segments_meet(e, f),
    }
}
