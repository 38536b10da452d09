//! A polygon with holes.

use std::collections::BTreeSet;
use std::ops::ControlFlow;

use super::predicates::{meeting_point, segments_meet};
use super::sweep::close_pairs;
use super::{Location, Point, Ring, RingFault, Vector, share_of};

/// The least area left between the exterior and its holes, as a share of the exterior: less is lost
/// in rounding.
const LEAST_AREA_SHARE: f64 = 1e-9;

/// Why some rings do not make a polygon.
///
/// Ring 0 is the exterior, then come the holes in order; edge `i` of a ring goes from its vertex `i`
/// to the next.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PolygonFault {
    /// No ring at all.
    #[error("the polygon has no rings; at least an exterior ring is needed")]
    NoRings,
    /// A ring is faulty (ring 0 is the exterior, then the holes in order).
    #[error("ring {ring}: {fault}")]
    Ring {
        /// The ring.
        ring: usize,
        /// What is wrong with it.
        fault: RingFault,
    },
    /// A hole lies outside the exterior.
    #[error("ring {ring} (a hole, from vertex ({x}, {y})) lies outside the exterior ring")]
    HoleOutside {
        /// The hole.
        ring: usize,
        /// The x of its first vertex, yards.
        x: f64,
        /// The y of its first vertex, yards.
        y: f64,
    },
    /// Two rings touch or cross.
    #[error("ring {first} and ring {second} touch or cross at ({x}, {y}); rings must keep apart")]
    RingsMeet {
        /// The earlier ring.
        first: usize,
        /// The later ring.
        second: usize,
        /// The x of one point where they meet, yards, rounded.
        x: f64,
        /// The y of that point, yards, rounded.
        y: f64,
    },
    /// A hole lies inside another hole.
    #[error("ring {ring} (a hole, from vertex ({x}, {y})) lies inside ring {outer}, another hole")]
    NestedHole {
        /// The inner hole.
        ring: usize,
        /// The hole around it.
        outer: usize,
        /// The x of the inner hole's first vertex, yards.
        x: f64,
        /// The y of that vertex, yards.
        y: f64,
    },
    /// The holes leave nothing of the exterior.
    #[error("the holes leave {area} square yards of the exterior's {exterior}")]
    NoArea {
        /// What is left, square yards.
        area: f64,
        /// The area of the exterior ring, square yards.
        exterior: f64,
    },
}

/// A region bounded by an exterior ring, less its holes. Its boundary belongs to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Polygon {
    exterior: Ring,
    holes: Vec<Ring>,
}

impl Polygon {
    /// Makes a polygon from rings.
    ///
    /// # Errors
    /// Every pair of rings that meet, every hole outside the exterior or inside another hole, all at
    /// once; each such pair of rings is named once, at one point.
    pub fn new(exterior: Ring, holes: Vec<Ring>) -> Result<Self, Vec<PolygonFault>> {
        let polygon = Self { exterior, holes };
        let faults = polygon.faults();
        if faults.is_empty() {
            Ok(polygon)
        } else {
            Err(faults)
        }
    }

    /// Makes a polygon from lists of vertices, exterior first, either way round.
    ///
    /// # Errors
    /// Every fault of every ring; only where the rings are sound, those of [`Polygon::new`].
    pub fn from_points(rings: Vec<Vec<Point>>) -> Result<Self, Vec<PolygonFault>> {
        let mut sound = Vec::with_capacity(rings.len());
        let mut faults = Vec::new();
        for (ring, vertices) in rings.into_iter().enumerate() {
            match Ring::new(vertices) {
                Ok(r) => sound.push(r),
                Err(found) => {
                    faults.extend(
                        found
                            .into_iter()
                            .map(|fault| PolygonFault::Ring { ring, fault }),
                    );
                }
            }
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let mut sound = sound.into_iter();
        let exterior = sound.next().ok_or_else(|| vec![PolygonFault::NoRings])?;
        Self::new(exterior, sound.collect())
    }

    /// The outer ring.
    pub fn exterior(&self) -> &Ring {
        &self.exterior
    }

    /// The holes.
    pub fn holes(&self) -> &[Ring] {
        &self.holes
    }

    /// All rings, the exterior first.
    pub fn rings(&self) -> impl Iterator<Item = &Ring> {
        std::iter::once(&self.exterior).chain(&self.holes)
    }

    /// All edges of all rings.
    pub fn edges(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        self.rings().flat_map(Ring::edges)
    }

    /// The area less the holes, square yards.
    pub fn area(&self) -> f64 {
        self.exterior.area() - self.holes.iter().map(Ring::area).sum::<f64>()
    }

    /// The centre of area, which for a bent polygon may lie outside it.
    pub fn centroid(&self) -> Point {
        let origin = self.exterior.vertices()[0];
        let (mut area, mut moment): (f64, Vector) = self.exterior.moments(origin);
        for hole in &self.holes {
            let (a, m) = hole.moments(origin);
            area -= a;
            moment -= m;
        }
        origin + moment / area
    }

    /// The smallest and largest corner of the bounding box.
    pub fn bounds(&self) -> (Point, Point) {
        self.exterior.bounds()
    }

    /// Where `p` lies, exactly; a point on the edge of a hole is on the boundary. A point with a
    /// coordinate that is no finite number is outside.
    pub fn locate(&self, p: Point) -> Location {
        let outer = self.exterior.locate(p);
        if outer != Location::Inside {
            return outer;
        }
        for hole in &self.holes {
            match hole.locate(p) {
                Location::Outside => {}
                Location::Boundary => return Location::Boundary,
                Location::Inside => return Location::Outside,
            }
        }
        Location::Inside
    }

    /// True inside and on the boundary.
    pub fn contains(&self, p: Point) -> bool {
        self.locate(p) != Location::Outside
    }

    /// The point of the boundary nearest to `p` (finite), the first in order of several, rounded.
    pub fn nearest_edge_point(&self, p: Point) -> Point {
        let mut best = (f64::INFINITY, self.exterior.vertices()[0]);
        for (a, b) in self.edges() {
            let q = super::along(a, b, share_of(a, b, p).clamp(0.0, 1.0));
            let squared = (p - q).norm_squared();
            if squared < best.0 {
                best = (squared, q);
            }
        }
        best.1
    }

    fn faults(&self) -> Vec<PolygonFault> {
        let mut faults = Vec::new();
        if self.holes.is_empty() {
            return faults;
        }
        let meeting = self.meeting_rings(&mut faults);
        for (i, hole) in self.holes.iter().enumerate() {
            self.place_hole(i + 1, hole, &meeting, &mut faults);
        }
        let (area, exterior) = (self.area(), self.exterior.area());
        let enough = area > LEAST_AREA_SHARE * exterior;
        if faults.is_empty() && !enough {
            faults.push(PolygonFault::NoArea { area, exterior });
        }
        faults
    }

    /// The pairs of rings that meet, each also told as a fault.
    fn meeting_rings(&self, faults: &mut Vec<PolygonFault>) -> BTreeSet<(usize, usize)> {
        let numbered = self.rings().enumerate();
        let (owners, edges): (Vec<_>, Vec<_>) = numbered
            .flat_map(|(i, ring)| ring.edges().map(move |e| (i, e)))
            .unzip();
        let mut meeting = BTreeSet::new();
        close_pairs(&edges, |i, j| {
            let pair = (owners[i], owners[j]);
            let apart = pair.0 == pair.1 || meeting.contains(&pair);
            if !apart && segments_meet(edges[i], edges[j]) {
                meeting.insert(pair);
                let at = meeting_point(edges[i], edges[j]);
                let (first, second) = pair;
                faults.push(PolygonFault::RingsMeet {
                    first,
                    second,
                    x: at.x,
                    y: at.y,
                });
            }
            ControlFlow::Continue(())
        });
        meeting
    }

    /// Adds the faults of a hole's place. Rings that keep apart are inside or outside each other as
    /// a whole, so one vertex tells.
    fn place_hole(
        &self,
        ring: usize,
        hole: &Ring,
        meeting: &BTreeSet<(usize, usize)>,
        faults: &mut Vec<PolygonFault>,
    ) {
        let vertex = hole.vertices()[0];
        let (x, y) = (vertex.x, vertex.y);
        if !meeting.contains(&(0, ring)) && self.exterior.locate(vertex) == Location::Outside {
            faults.push(PolygonFault::HoleOutside { ring, x, y });
        }
        for (j, other) in self.holes.iter().enumerate() {
            let outer = j + 1;
            let apart = !meeting.contains(&(ring.min(outer), ring.max(outer)));
            if outer != ring && apart && other.locate(vertex) == Location::Inside {
                faults.push(PolygonFault::NestedHole { ring, outer, x, y });
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Vec<Point> {
        [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]
            .map(|(dx, dy)| Point::new(x + dx, y + dy))
            .to_vec()
    }

    /// A square of side 10 with a square hole of side 2 in its lower left.
    fn holed() -> Polygon {
        Polygon::from_points(vec![square(0.0, 0.0, 10.0), square(1.0, 1.0, 2.0)]).unwrap()
    }

    #[test]
    fn measures_of_a_holed_square() {
        let p = holed();
        assert_eq!(p.area(), 96.0);
        let expected = (100.0 * 5.0 - 4.0 * 2.0) / 96.0;
        assert!((p.centroid() - Point::new(expected, expected)).norm() < 1e-12);
        assert_eq!(p.bounds(), (Point::new(0.0, 0.0), Point::new(10.0, 10.0)));
        assert_eq!(p.edges().count(), 8);
    }

    #[test]
    fn places_in_a_holed_square() {
        let p = holed();
        for (x, y, expected) in [
            (5.0, 5.0, Location::Inside),
            (2.0, 2.0, Location::Outside),
            (1.0, 2.0, Location::Boundary),
            (3.0, 3.0, Location::Boundary),
            (10.0, 10.0, Location::Boundary),
            (10.5, 1.0, Location::Outside),
        ] {
            assert_eq!(p.locate(Point::new(x, y)), expected, "({x}, {y})");
        }
        assert!(p.contains(Point::new(1.0, 2.0)) && !p.contains(Point::new(2.0, 2.0)));
        assert_eq!(
            p.nearest_edge_point(Point::new(2.0, 1.5)),
            Point::new(2.0, 1.0)
        );
        assert_eq!(
            p.nearest_edge_point(Point::new(12.0, 13.0)),
            Point::new(10.0, 10.0)
        );
    }

    #[test]
    fn misplaced_holes_are_all_named() {
        let found = Polygon::from_points(vec![
            square(0.0, 0.0, 10.0),
            square(20.0, 0.0, 2.0),
            square(1.0, 1.0, 5.0),
            square(2.0, 2.0, 1.0),
            square(8.0, 8.0, 4.0),
            square(6.0, 2.0, 1.0),
        ])
        .unwrap_err();
        assert!(found.contains(&PolygonFault::HoleOutside {
            ring: 1,
            x: 20.0,
            y: 0.0
        }));
        assert!(found.contains(&PolygonFault::NestedHole {
            ring: 3,
            outer: 2,
            x: 2.0,
            y: 2.0
        }));
        let meet = |first, second| {
            found.iter().any(|f| matches!(f, PolygonFault::RingsMeet { first: i, second: j, .. } if (*i, *j) == (first, second)))
        };
        assert!(meet(0, 4) && meet(2, 5));
        assert_eq!(found.len(), 4, "{found:?}");
    }

    #[test]
    fn faults_of_rings_name_the_ring() {
        let bow = [(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)].map(|(x, y)| Point::new(x, y));
        let found = Polygon::from_points(vec![Vec::new(), bow.to_vec()]).unwrap_err();
        let texts: Vec<_> = found.iter().map(ToString::to_string).collect();
        assert_eq!(
            texts[0],
            "ring 0: the ring has 0 distinct vertices; at least 3 are needed"
        );
        assert!(texts[1].starts_with("ring 1: the ring crosses itself"));
        assert_eq!(
            Polygon::from_points(Vec::new()).unwrap_err(),
            [PolygonFault::NoRings]
        );
    }

    #[test]
    fn a_hole_that_leaves_nothing() {
        let rings = vec![square(0.0, 0.0, 1.0), square(1e-13, 1e-13, 1.0 - 2e-13)];
        let found = Polygon::from_points(rings).unwrap_err();
        assert!(matches!(found[..], [PolygonFault::NoArea { .. }]));
    }
}
