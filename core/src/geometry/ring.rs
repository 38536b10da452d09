//! A simple closed ring of straight edges.
use super::{Location, Point};

/// Why some points do not make a ring.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RingFault {
    /// A coordinate is not a finite number.
    #[error("vertex {vertex} is ({x}, {y}); coordinates must be finite numbers")]
    NotFinite { vertex: usize, x: f64, y: f64 },
}

/// A simple closed ring: at least three distinct vertices, no edge touching or crossing another,
/// counter-clockwise, the closing vertex not repeated.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    vertices: Vec<Point>,
}

impl Ring {
    /// Makes a ring; winding is normalised; a repeated closing vertex is dropped.
    pub fn new(vertices: Vec<Point>) -> Result<Self, Vec<RingFault>> {
        let _ = &vertices;
        todo!()
    }
    /// The vertices, counter-clockwise, the first not repeated.
    pub fn vertices(&self) -> &[Point] {
        &self.vertices
    }
    /// The edges in order, the closing edge last.
    pub fn edges(&self) -> impl ExactSizeIterator<Item = (Point, Point)> + '_ {
        let n = self.vertices.len();
        (0..n).map(move |i| (self.vertices[i], self.vertices[(i + 1) % n]))
    }
    /// The area, square yards (positive).
    pub fn area(&self) -> f64 {
        todo!()
    }
    /// Where `p` lies.
    pub fn locate(&self, p: Point) -> Location {
        let _ = p;
        todo!()
    }
}
