//! Plane geometry: points, valid rings and polygons, and the prepared index that answers "what is at
//! (x, y)" exactly and fast.
//!
//! Plan view: x to the right, y up, yards. A polygon that exists is valid: its rings are simple,
//! have area, and its holes lie inside. Nothing here knows golf.

mod index;
mod line;
mod polygon;
mod ring;

pub use index::{LayerIndex, Piece};
pub use line::{Line, Station};
pub use polygon::{Polygon, PolygonFault};
pub use ring::{Ring, RingFault};

/// A point of the plan: x to the right, y up, yards.
pub type Point = nalgebra::Point2<f64>;

/// A displacement in the plan, yards.
pub type Vector = nalgebra::Vector2<f64>;

/// Where a point lies with respect to a closed region.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Location {
    /// In the interior.
    Inside,
    /// On an edge or a vertex.
    Boundary,
    /// In the exterior.
    Outside,
}

/// Where a path from `a` to `b` crosses the edge of a region.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// The share of the path covered at the crossing, 0 at its start and 1 at its end.
    pub share: f64,
    /// The point of crossing.
    pub at: Point,
    /// True where the path goes into the region, false where it leaves.
    pub entering: bool,
}
