//! A polygon with holes.
use super::{Crossing, Location, Point, Ring, RingFault};

/// Why some rings do not make a polygon.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PolygonFault {
    /// A ring is faulty (ring 0 is the exterior, then the holes in order).
    #[error("ring {ring}: {fault}")]
    Ring { ring: usize, fault: RingFault },
}

/// A region bounded by an exterior ring, less its holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Polygon {
    exterior: Ring,
    holes: Vec<Ring>,
}

impl Polygon {
    /// Makes a polygon from rings.
    pub fn new(exterior: Ring, holes: Vec<Ring>) -> Result<Self, Vec<PolygonFault>> {
        let _ = (&exterior, &holes);
        todo!()
    }
    /// Makes a polygon from lists of vertices, exterior first, all faults at once.
    pub fn from_points(rings: Vec<Vec<Point>>) -> Result<Self, Vec<PolygonFault>> {
        let _ = rings;
        todo!()
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
        todo!()
    }
    /// The centre of area.
    pub fn centroid(&self) -> Point {
        todo!()
    }
    /// The smallest and largest corner of the bounding box.
    pub fn bounds(&self) -> (Point, Point) {
        todo!()
    }
    /// Where `p` lies; a point on the edge of a hole is on the boundary.
    pub fn locate(&self, p: Point) -> Location {
        let _ = p;
        todo!()
    }
    /// True inside and on the boundary.
    pub fn contains(&self, p: Point) -> bool {
        self.locate(p) != Location::Outside
    }
    /// The first crossing of the edge on the way from `a` to `b`.
    pub fn first_crossing(&self, a: Point, b: Point) -> Option<Crossing> {
        let _ = (a, b);
        todo!()
    }
    /// The last crossing of the edge on the way from `a` to `b`.
    pub fn last_crossing(&self, a: Point, b: Point) -> Option<Crossing> {
        let _ = (a, b);
        todo!()
    }
    /// The point of the boundary nearest to `p`.
    pub fn nearest_edge_point(&self, p: Point) -> Point {
        let _ = p;
        todo!()
    }
}
