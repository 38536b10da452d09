//! A simple closed ring of straight edges.

mod fault;

use fault::faults_of;

use super::predicates::{in_box, orient};
use super::{Location, Point, Vector, bounds_of};

pub use fault::RingFault;

/// A simple closed ring: at least three distinct vertices, no edge touching or crossing another,
/// counter-clockwise, the closing vertex not repeated.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    vertices: Vec<Point>,
    bounds: (Point, Point),
}

impl Ring {
    /// Makes a ring from its vertices in order, either way round, yards. A repeated closing vertex
    /// is dropped. The winding becomes counter-clockwise; the first vertex stays the first.
    ///
    /// # Errors
    /// Every fault at once. Where a vertex is not a finite number within [`REACH`](super::REACH), or fewer than
    /// three are distinct, edges are not looked at.
    pub fn new(mut vertices: Vec<Point>) -> Result<Self, Vec<RingFault>> {
        if vertices.len() > 1 && vertices.first() == vertices.last() {
            vertices.pop();
        }
        let faults = faults_of(&vertices);
        if !faults.is_empty() {
            return Err(faults);
        }
        if is_clockwise(&vertices) {
            vertices[1..].reverse();
        }
        let bounds = bounds_of(&vertices);
        Ok(Self { vertices, bounds })
    }

    /// The vertices, counter-clockwise, the first not repeated.
    pub fn vertices(&self) -> &[Point] {
        &self.vertices
    }

    /// The edges in order, the closing edge last.
    pub fn edges(&self) -> impl ExactSizeIterator<Item = (Point, Point)> + '_ {
        let n = self.vertices.len();
        (0..n).map(move |i| {
            (
                self.vertices[i],
                self.vertices[if i + 1 == n { 0 } else { i + 1 }],
            )
        })
    }

    /// The area, square yards (positive).
    pub fn area(&self) -> f64 {
        signed_area(&self.vertices)
    }

    /// The centre of area.
    pub fn centroid(&self) -> Point {
        let (area, moment) = self.moments(self.vertices[0]);
        self.vertices[0] + moment / area
    }

    /// The smallest and largest corner of the bounding box.
    pub fn bounds(&self) -> (Point, Point) {
        self.bounds
    }

    /// Where `p` lies, exactly. A point with a coordinate that is no finite number is outside.
    pub fn locate(&self, p: Point) -> Location {
        if !in_box(self.bounds.0, self.bounds.1, p) {
            return Location::Outside;
        }
        let mut inside = false;
        for (a, b) in self.edges() {
            // Half-open: a vertex belongs to the edge that goes up from it.
            let spans = (a.y <= p.y) != (b.y <= p.y);
            if !spans && a.y != p.y && b.y != p.y {
                continue;
            }
            let side = orient(a, b, p);
            if side == 0.0 && in_box(a, b, p) {
                return Location::Boundary;
            }
            if spans && (side > 0.0) == (b.y > a.y) {
                inside = !inside;
            }
        }
        if inside {
            Location::Inside
        } else {
            Location::Outside
        }
    }

    /// The area, and the first moment of area about `origin`.
    pub(super) fn moments(&self, origin: Point) -> (f64, Vector) {
        let mut twice_area = 0.0;
        let mut moment = Vector::zeros();
        for (a, b) in self.edges() {
            let (a, b) = (a - origin, b - origin);
            let cross = a.perp(&b);
            twice_area += cross;
            moment += (a + b) * cross;
        }
        (twice_area / 2.0, moment / 6.0)
    }
}

/// The area, negative for a clockwise ring; measured from the first vertex so that a map far from
/// the origin loses no digits.
fn signed_area(vertices: &[Point]) -> f64 {
    let Some(&origin) = vertices.first() else {
        return 0.0;
    };
    let fan = vertices
        .windows(2)
        .map(|w| (w[0] - origin).perp(&(w[1] - origin)));
    fan.sum::<f64>() / 2.0
}

/// True for a simple ring that runs clockwise, decided exactly at its leftmost vertex.
fn is_clockwise(vertices: &[Point]) -> bool {
    let n = vertices.len();
    let leftmost = (0..n).min_by(|i, j| {
        let (p, q) = (vertices[*i], vertices[*j]);
        p.x.total_cmp(&q.x).then(p.y.total_cmp(&q.y))
    });
    leftmost.is_some_and(|i| {
        orient(
            vertices[(i + n - 1) % n],
            vertices[i],
            vertices[(i + 1) % n],
        ) < 0.0
    })
}

#[cfg(test)]
mod tests {
    use super::fault::MOST_MEETINGS;
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|(x, y)| Point::new(*x, *y)).collect()
    }

    fn ring(list: &[(f64, f64)]) -> Ring {
        Ring::new(points(list)).unwrap()
    }

    fn faults(list: &[(f64, f64)]) -> Vec<RingFault> {
        Ring::new(points(list)).unwrap_err()
    }

    #[test]
    fn winding_and_closing_vertex_are_normalised() {
        let square = ring(&[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]);
        assert_eq!(
            square,
            ring(&[(0.0, 0.0), (0.0, 2.0), (2.0, 2.0), (2.0, 0.0), (0.0, 0.0)])
        );
        assert_eq!(square.area(), 4.0);
        assert_eq!(square.centroid(), Point::new(1.0, 1.0));
        assert_eq!(
            square.bounds(),
            (Point::new(0.0, 0.0), Point::new(2.0, 2.0))
        );
        assert_eq!(square.edges().len(), 4);
    }

    #[test]
    fn concave_ring_locates_exactly() {
        // An L with a vertex at (1, 1).
        let l = ring(&[
            (0.0, 0.0),
            (3.0, 0.0),
            (3.0, 1.0),
            (1.0, 1.0),
            (1.0, 3.0),
            (0.0, 3.0),
        ]);
        assert_eq!(l.area(), 5.0);
        for (x, y, expected) in [
            (0.5, 2.0, Location::Inside),
            (2.0, 0.5, Location::Inside),
            (2.0, 2.0, Location::Outside),
            (1.0, 1.0, Location::Boundary),
            (2.0, 1.0, Location::Boundary),
            (0.5, 1.0, Location::Inside),
            (4.0, 1.0, Location::Outside),
            (-1.0, 0.0, Location::Outside),
            (1.0, 3.0, Location::Boundary),
            (1.0_f64.next_up(), 2.0, Location::Outside),
            (1.0_f64.next_down(), 2.0, Location::Inside),
            (f64::NAN, 1.0, Location::Outside),
            (f64::INFINITY, 1.0, Location::Outside),
        ] {
            assert_eq!(l.locate(Point::new(x, y)), expected, "({x}, {y})");
        }
    }

    #[test]
    fn every_bad_coordinate_is_named() {
        let found = faults(&[
            (0.0, f64::NAN),
            (1.0, 0.0),
            (1.0, 0.0),
            (f64::INFINITY, 1.0),
            (2e9, 3.0),
        ]);
        assert_eq!(found.len(), 4);
        assert!(matches!(found[0], RingFault::NotFinite { vertex: 0, .. }));
        assert!(matches!(found[1], RingFault::NotFinite { vertex: 3, .. }));
        assert_eq!(
            found[2],
            RingFault::TooFar {
                vertex: 4,
                x: 2e9,
                y: 3.0
            }
        );
        assert_eq!(
            found[3],
            RingFault::RepeatedVertex {
                vertex: 2,
                x: 1.0,
                y: 0.0
            }
        );
        assert!(
            found[2].to_string().contains("within 1000000000 yards"),
            "{}",
            found[2]
        );
    }

    #[test]
    fn too_few_vertices() {
        assert_eq!(faults(&[]), [RingFault::TooFewVertices { found: 0 }]);
        assert_eq!(
            faults(&[(1.0, 1.0)]),
            [RingFault::TooFewVertices { found: 1 }]
        );
        let found = faults(&[
            (0.0, 0.0),
            (1.0, 1.0),
            (0.0, 0.0),
            (1.0, 1.0),
            (1.0, 1.0),
            (0.0, 0.0),
        ]);
        assert!(found.contains(&RingFault::TooFewVertices { found: 2 }));
        assert!(found.contains(&RingFault::RepeatedVertex {
            vertex: 4,
            x: 1.0,
            y: 1.0
        }));
    }

    #[test]
    fn repeated_vertices_and_crossings_come_together() {
        let found = faults(&[(0.0, 0.0), (2.0, 2.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)]);
        let expected = [
            RingFault::RepeatedVertex {
                vertex: 2,
                x: 2.0,
                y: 2.0,
            },
            RingFault::CrossesItself {
                first: 0,
                second: 3,
                x: 1.0,
                y: 1.0,
            },
        ];
        assert_eq!(found, expected);
        assert_eq!(
            found[1].to_string(),
            "the ring crosses itself: edge 0 and edge 3 meet at (1, 1)"
        );
        let closed_thrice = faults(&[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 0.0), (0.0, 0.0)]);
        assert_eq!(
            closed_thrice,
            [RingFault::RepeatedVertex {
                vertex: 3,
                x: 0.0,
                y: 0.0
            }]
        );
    }

    #[test]
    fn touching_is_crossing() {
        // A vertex on another edge.
        let found = faults(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 0.0), (0.0, 4.0)]);
        let at = |first, second| RingFault::CrossesItself {
            first,
            second,
            x: 2.0,
            y: 0.0,
        };
        assert_eq!(found, [at(0, 2), at(0, 3)]);
        // Two loops that share a vertex.
        let found = faults(&[
            (0.0, 0.0),
            (1.0, 1.0),
            (2.0, 0.0),
            (2.0, 2.0),
            (1.0, 1.0),
            (0.0, 2.0),
        ]);
        assert_eq!(
            found,
            [RingFault::VisitsTwice {
                first: 1,
                second: 4,
                x: 1.0,
                y: 1.0
            }]
        );
        assert!(
            found[0]
                .to_string()
                .contains("crosses itself: vertex 1 and vertex 4")
        );
        // A spike that goes out and back over one edge.
        let found = faults(&[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (2.0, 1.0), (0.0, 1.0)]);
        let pairs = |f: &RingFault| match f {
            RingFault::CrossesItself { first, second, .. } => (*first, *second),
            other => panic!("{other}"),
        };
        assert_eq!(
            found.iter().map(pairs).collect::<Vec<_>>(),
            [(1, 2), (1, 3)]
        );
    }

    #[test]
    fn flat_rings_have_no_area() {
        let found = faults(&[(0.0, 0.0), (0.1, 0.1), (0.3, 0.3), (0.2, 0.2)]);
        assert_eq!(
            found,
            [RingFault::NoArea {
                area: 0.0,
                x: 0.0,
                y: 0.0
            }]
        );
        let sliver = faults(&[(0.0, 0.0), (1e3, 0.0), (1e3, 1e-12)]);
        assert!(matches!(sliver[..], [RingFault::NoArea { .. }]));
        let speck = faults(&[(0.0, 0.0), (1e-170, 0.0), (0.0, 1e-170)]);
        assert!(matches!(speck[..], [RingFault::NoArea { .. }]));
    }

    #[test]
    fn a_hopeless_ring_lists_a_bounded_number_of_faults() {
        // Steps of 389 through 1,000 places on a circle cross nearly everywhere.
        let star: Vec<_> = (0..1000)
            .map(|i| f64::from(i * 389 % 1000) * std::f64::consts::TAU / 1000.0)
            .map(|t| Point::new(t.cos(), t.sin()))
            .collect();
        let found = Ring::new(star).unwrap_err();
        assert_eq!(found.len(), MOST_MEETINGS + 1);
        assert_eq!(
            found.last(),
            Some(&RingFault::CrossesItselfMore {
                listed: MOST_MEETINGS
            })
        );
    }

    #[test]
    fn five_thousand_vertices() {
        // A flower r = 200 + 40 cos(9 t) sampled finely; its area is pi (200^2 + 40^2 / 2).
        let n = 5000;
        let flower: Vec<_> = (0..n)
            .map(|i| f64::from(i) * std::f64::consts::TAU / f64::from(n))
            .map(|t| Point::new(t.cos(), t.sin()) * (200.0 + 40.0 * (9.0 * t).cos()))
            .collect();
        let ring = Ring::new(flower.clone()).unwrap();
        let exact = std::f64::consts::PI * (200.0 * 200.0 + 800.0);
        assert!((ring.area() / exact - 1.0).abs() < 1e-4);
        assert_eq!(ring.locate(flower[1234]), Location::Boundary);
        let mut tangled = flower;
        tangled.swap(4000, 4001);
        let found = Ring::new(tangled).unwrap_err();
        assert!(
            matches!(
                found[..],
                [RingFault::CrossesItself {
                    first: 3999,
                    second: 4001,
                    ..
                }]
            ),
            "{found:?}"
        );
    }
}
