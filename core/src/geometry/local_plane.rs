//! Longitude and latitude to a local plane in yards and back.
use super::{Point, Vector};
use crate::units::{metres_from_yards, yards_from_metres};

/// Semi-major axis of the WGS 84 ellipsoid, metres.
const A: f64 = 6_378_137.0;
/// Its first eccentricity squared.
const E2: f64 = 0.006_694_379_990_14;

/// The plane that touches the WGS 84 ellipsoid at an origin: x to the east, y to the north, yards.
///
/// With the radii of curvature M (along the meridian) and N (across it) at the origin, a degree of latitude is
/// M, a degree of longitude N cos(latitude). At 500 m the error is at most 0.05 m up to latitude 65.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LocalPlane {
    longitude: f64,
    latitude: f64,
    /// Metres in a degree of longitude at the origin.
    east: f64,
    /// Metres in a degree of latitude at the origin.
    north: f64,
}

impl LocalPlane {
    /// The plane at an origin, degrees: latitude within -89 to 89, where a degree of longitude still has a length.
    #[must_use]
    pub fn new(longitude: f64, latitude: f64) -> Option<Self> {
        if !(longitude.abs() <= 180.0 && latitude.abs() <= 89.0) {
            return None;
        }
        let phi = latitude.to_radians();
        let w = 1.0 - E2 * libm::sin(phi) * libm::sin(phi);
        let (n, m) = (A / w.sqrt(), A * (1.0 - E2) / (w * w.sqrt()));
        Some(LocalPlane {
            longitude,
            latitude,
            east: (n * libm::cos(phi)).to_radians(),
            north: m.to_radians(),
        })
    }

    /// The longitude and latitude at which the plane touches the ellipsoid, degrees: its point (0, 0).
    #[must_use]
    pub fn origin(&self) -> (f64, f64) {
        (self.longitude, self.latitude)
    }

    /// The point of the plane for a longitude and latitude, degrees. Across the antimeridian the shorter way is taken.
    #[must_use]
    pub fn to_plane(&self, longitude: f64, latitude: f64) -> Point {
        let turn = longitude - self.longitude;
        let turn = if turn > 180.0 {
            turn - 360.0
        } else if turn < -180.0 {
            turn + 360.0
        } else {
            turn
        };
        Point::new(
            yards_from_metres(self.east * turn),
            yards_from_metres(self.north * (latitude - self.latitude)),
        )
    }

    /// Yards in a degree of longitude and in one of latitude.
    #[must_use]
    pub fn degree(&self) -> Vector {
        Vector::new(yards_from_metres(self.east), yards_from_metres(self.north))
    }

    /// The longitude and latitude of a point of the plane, degrees.
    #[must_use]
    pub fn to_longitude_latitude(&self, p: Point) -> (f64, f64) {
        let longitude = self.longitude + metres_from_yards(p.x) / self.east;
        let wrapped = if longitude > 180.0 {
            longitude - 360.0
        } else if longitude < -180.0 {
            longitude + 360.0
        } else {
            longitude
        };
        (wrapped, self.latitude + metres_from_yards(p.y) / self.north)
    }
}
