//! Plane geometry: points, valid rings and polygons, and the prepared index that answers "what is at
//! (x, y)" exactly and fast.
//!
//! Plan view: x to the right, y up, yards. A polygon that exists is valid: its rings are simple,
//! have area, and its holes lie inside. Nothing here knows golf.
//!
//! Which side of a line a point lies on is decided exactly, so two questions about one place never
//! get two answers. Lengths, areas and shares of a path are ordinary rounded numbers.

pub(crate) mod around;
mod crossing;
pub(crate) mod heights;
mod index;
mod line;
mod local_plane;
mod polygon;
mod predicates;
mod ring;
mod sweep;

pub use heights::{HeightFault, HeightGrid, MOST_NODES};
pub use index::{LayerIndex, Piece};
pub use line::{Line, LineFault, Station};
pub use local_plane::LocalPlane;
pub use polygon::{Polygon, PolygonFault};
pub use ring::{Ring, RingFault};

/// A point of the plan: x to the right, y up, yards.
pub type Point = nalgebra::Point2<f64>;

/// A displacement in the plan, yards.
pub type Vector = nalgebra::Vector2<f64>;

/// The largest coordinate, in size, that a vertex may have, yards. It keeps every area and moment
/// far from overflow and is larger than any map.
pub const REACH: f64 = 1e9;

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

/// Stretches of a path shorter than this share of it are below the rounding of the shares
/// themselves, so no piece or crossing is told from them.
const MIN_SHARE: f64 = 1e-12;

/// True where both coordinates are numbers within [`REACH`].
fn within_reach(p: Point) -> bool {
    p.x.abs() <= REACH && p.y.abs() <= REACH
}

/// The point at a share of the way from `a` to `b`.
#[inline]
pub(crate) fn along(a: Point, b: Point, share: f64) -> Point {
    a + (b - a) * share
}

/// The direction to the right of `ahead`, of the same length.
#[inline]
pub(crate) fn right_of(ahead: Vector) -> Vector {
    Vector::new(ahead.y, -ahead.x)
}

/// The unit vector along `v`; up the plan for a vector of next to no length.
#[inline]
pub(crate) fn unit_or_up(v: Vector) -> Vector {
    unit_of(v, v.norm())
}

/// The same for a vector whose length is known.
#[inline]
pub(crate) fn unit_of(v: Vector, length: f64) -> Vector {
    if length > 1e-9 {
        v / length
    } else {
        Vector::y()
    }
}

/// The share of the way from `a` to `b` (distinct) at which the point nearest to `p` on their line lies.
#[inline]
pub(crate) fn share_of(a: Point, b: Point, p: Point) -> f64 {
    let d = b - a;
    (p - a).dot(&d) / d.norm_squared()
}

/// The smallest and largest corner of the box around a list of points.
fn bounds_of(points: &[Point]) -> (Point, Point) {
    let worst = Point::new(f64::INFINITY, f64::INFINITY);
    points
        .iter()
        .fold((worst, -worst), |(low, high), p| (low.inf(p), high.sup(p)))
}
