//! Places on the green: rings about the pin, close together near it.
use super::grid::Spot;
use crate::geometry::{Point, Vector};

/// Rings, and spokes in each; one more spoke closes the ring.
const RINGS: usize = 60;
const SPOKES: usize = 24;

/// Yards between the first rings, and how much farther apart they get per yard.
const FIRST: f64 = 0.12;
const GROWTH: f64 = 0.075;

/// Nodes on rings about a pin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::solve) struct Polar {
    pub(in crate::solve) pin: Point,
}

impl Polar {
    /// Nodes in a row: those of one ring.
    pub(in crate::solve) const STRIDE: usize = SPOKES + 1;
    /// Number of nodes.
    pub(in crate::solve) const LEN: usize = RINGS * Self::STRIDE;

    /// The place of a node.
    #[expect(clippy::cast_precision_loss, reason = "a small count")]
    pub(in crate::solve) fn point(self, node: usize) -> Point {
        let (ring, spoke) = (node / Self::STRIDE, node % Self::STRIDE % SPOKES);
        let radius = FIRST / GROWTH * libm::expm1(GROWTH * ring as f64);
        let (sin, cos) = libm::sincos(spoke as f64 * std::f64::consts::TAU / SPOKES as f64);
        self.pin + Vector::new(sin, cos) * radius
    }

    /// True for the spoke that closes a ring: the same place as the first.
    pub(in crate::solve) fn is_copy(node: usize) -> bool {
        node % Self::STRIDE == SPOKES
    }

    /// Where a place lies between the nodes; beyond the last ring, on it. Hot path.
    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "clamped to the rings"
    )]
    pub(in crate::solve) fn spot(self, p: Point) -> Spot {
        let way = p - self.pin;
        let ring = libm::log1p(way.norm() * (GROWTH / FIRST)) / GROWTH;
        let ring = ring.min((RINGS - 1) as f64);
        let below = (ring as u32 as usize).min(RINGS - 2);
        let turn = libm::atan2(way.x, way.y) / std::f64::consts::TAU;
        let spoke = (if turn < 0.0 { turn + 1.0 } else { turn }) * SPOKES as f64;
        let before = (spoke as u32 as usize).min(SPOKES - 1);
        Spot {
            node: below * Self::STRIDE + before,
            right: spoke - before as f64,
            up: ring - below as f64,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_node_is_found_where_it_is() {
        let polar = Polar {
            pin: Point::new(31.0, 402.0),
        };
        for node in (0..Polar::LEN).filter(|&n| !Polar::is_copy(n)) {
            let spot = polar.spot(polar.point(node));
            let (right, up) = (spot.right.round(), spot.up.round());
            assert!((spot.right - right).abs() < 1e-9 && (spot.up - up).abs() < 1e-9);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "0 or 1"
            )]
            let (right, up) = (right as usize, up as usize);
            let found = spot.node + right + up * Polar::STRIDE;
            // The pin is one place with many nodes.
            if node >= Polar::STRIDE {
                let same = |n: usize| (n / Polar::STRIDE, n % Polar::STRIDE % SPOKES);
                assert_eq!(same(found), same(node));
            }
        }
        let farthest = (polar.point(Polar::LEN - 2) - polar.pin).norm();
        assert!(farthest > 60.0, "{farthest}");
    }
}
