//! An open polyline with stations along it.
use super::Point;

/// An open polyline of at least two distinct vertices.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    vertices: Vec<Point>,
}

/// A place told from a line: yards along it from its start and yards to the right of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    pub along: f64,
    pub right: f64,
}

impl Line {
    /// The vertices from start to end.
    pub fn vertices(&self) -> &[Point] {
        &self.vertices
    }
    /// The length, yards.
    pub fn length(&self) -> f64 {
        todo!()
    }
    /// The point `along` yards from the start and `right` yards to the right (past the ends the end
    /// segments are extended straight).
    pub fn at(&self, along: f64, right: f64) -> Point {
        let _ = (along, right);
        todo!()
    }
    /// The station of `p`: its nearest point on the line, and how far right of it.
    pub fn station(&self, p: Point) -> Station {
        let _ = p;
        todo!()
    }
    /// The unit direction of travel at `along`.
    pub fn direction(&self, along: f64) -> super::Vector {
        let _ = along;
        todo!()
    }
}
