//! Outlines drawn from a few numbers: ellipses, rectangles, and bands along a bent line.
use crate::geometry::{Point, Polygon, Vector, right_of};
use std::f64::consts::{PI, TAU};

/// Vertices of an ellipse: its area is then 0.6 % below the true one.
const ELLIPSE: u32 = 32;
/// Yards between the stations of a band.
const STEP: f64 = 10.0;
/// Round joins turn by at most this much at a vertex.
const TURN: f64 = PI / 12.0;

/// An ellipse with one axis along the unit vector `ahead`.
pub(crate) fn ellipse(
    center: Point,
    ahead: Vector,
    half_length: f64,
    half_width: f64,
) -> Vec<Point> {
    (0..ELLIPSE)
        .map(|i| {
            let angle = TAU * f64::from(i) / f64::from(ELLIPSE);
            center
                + ahead * (half_length * libm::cos(angle))
                + right_of(ahead) * (half_width * libm::sin(angle))
        })
        .collect()
}

/// A rectangle with one side along the unit vector `ahead`.
pub(crate) fn rectangle(
    center: Point,
    ahead: Vector,
    half_length: f64,
    half_width: f64,
) -> Vec<Point> {
    let (a, r) = (ahead * half_length, right_of(ahead) * half_width);
    vec![
        center - a - r,
        center - a + r,
        center + a + r,
        center + a - r,
    ]
}

/// All within `radius` of the segment from `a` to `b`.
fn capsule(a: Point, b: Point, radius: f64) -> Vec<Point> {
    let ahead = (b - a) / (b - a).norm();
    let cap = |center: Point, ahead: Vector| {
        (0_u8..=8).map(move |i| {
            let angle = PI * (f64::from(i) / 8.0 - 0.5);
            center + ahead * (radius * libm::cos(angle))
                - right_of(ahead) * (radius * libm::sin(angle))
        })
    };
    cap(b, ahead).chain(cap(a, -ahead)).collect()
}

/// A line that is `width` yards wide: one polygon where it can be one, else a polygon a segment.
///
/// Vertices closer together than a hundredth of a yard count as one.
pub(crate) fn ribbon(line: &[Point], width: f64) -> Vec<Vec<Point>> {
    let mut line = line.to_vec();
    line.dedup_by(|b, a| (*b - *a).norm() < 0.01);
    if line.len() < 2 {
        return Vec::new();
    }
    let spine = Spine::new(&line);
    if spine.bends_gently(width / 2.0) {
        let band = spine.band(&[0.0, spine.length()], |_| width / 2.0);
        if Polygon::from_points(vec![band.clone()]).is_ok() {
            return vec![band];
        }
    }
    line.windows(2)
        .map(|s| capsule(s[0], s[1], width / 2.0))
        .collect()
}

/// A polyline to draw bands along.
pub(crate) struct Spine<'a> {
    vertices: &'a [Point],
    /// The station of each vertex, yards from the start.
    stations: Vec<f64>,
}

impl<'a> Spine<'a> {
    /// A spine along `vertices`: two or more, neighbours distinct.
    pub(crate) fn new(vertices: &'a [Point]) -> Self {
        let mut stations = vec![0.0];
        let mut length = 0.0;
        for s in vertices.windows(2) {
            length += (s[1] - s[0]).norm();
            stations.push(length);
        }
        Spine { vertices, stations }
    }

    /// The length, yards.
    pub(crate) fn length(&self) -> f64 {
        self.stations[self.stations.len() - 1]
    }

    /// The direction of segment `i`.
    fn ahead(&self, i: usize) -> Vector {
        (self.vertices[i + 1] - self.vertices[i]).normalize()
    }

    /// How far the line turns to the right at vertex `i` (an inner one), radians.
    fn turn(&self, i: usize) -> f64 {
        let (a, b) = (self.ahead(i - 1), self.ahead(i));
        libm::atan2(a.y * b.x - a.x * b.y, a.dot(&b))
    }

    /// True where the inner side of every bend fits on the segments beside it.
    fn bends_gently(&self, offset: f64) -> bool {
        (1..self.vertices.len() - 1).all(|i| {
            let room = (self.stations[i] - self.stations[i - 1])
                .min(self.stations[i + 1] - self.stations[i]);
            self.turn(i).abs() < 2.6 && inner_cut(offset, self.turn(i)) < room / 2.0
        })
    }

    /// Stations from `from` to `to`, finer over the first and last `round` yards, where the ends are rounded.
    pub(crate) fn stations(&self, from: f64, to: f64, round: f64) -> Vec<f64> {
        let end = |i: u8| round * (1.0 - libm::cos(PI / 12.0 * f64::from(i)));
        let mut list: Vec<f64> = (0..6).map(end).map(|s| from + s).collect();
        let mut s = from + round;
        while s < to - round - STEP / 2.0 {
            list.push(s);
            s += STEP;
        }
        list.extend((0..=6).rev().map(end).map(|s| to - s));
        list.dedup();
        list
    }

    /// The outline with the half-width `half` at each station: along the right and back along the left.
    pub(crate) fn band(&self, stations: &[f64], half: impl Fn(f64) -> f64) -> Vec<Point> {
        let mut ring = self.side(stations, &half);
        let left = self.side(stations, |s| -half(s));
        ring.extend(left.into_iter().rev());
        // A rounded end is one point, reached from both sides.
        ring.dedup();
        if ring.len() > 1 && ring.first() == ring.last() {
            ring.pop();
        }
        ring
    }

    /// The strip between two distances to the right of the line.
    pub(crate) fn strip(&self, stations: &[f64], near: f64, far: f64) -> Vec<Point> {
        let mut ring = self.side(stations, |_| near);
        ring.extend(self.side(stations, |_| far).into_iter().rev());
        ring
    }

    /// The curve `right(station)` yards to the right of the line: bends are cut on their inner side and rounded
    /// on their outer side.
    pub(crate) fn side(&self, stations: &[f64], right: impl Fn(f64) -> f64) -> Vec<Point> {
        let (Some(&from), Some(&to)) = (stations.first(), stations.last()) else {
            return Vec::new();
        };
        let last = self.vertices.len() - 2;
        let mut curve = Vec::new();
        for i in 0..=last {
            let low = if i == 0 {
                f64::NEG_INFINITY
            } else {
                self.stations[i] + self.cut(i, &right)
            };
            let high = if i == last {
                f64::INFINITY
            } else {
                self.stations[i + 1] - self.cut(i + 1, &right)
            };
            for &s in stations.iter().filter(|&&s| s > low && s < high) {
                let along = self.ahead(i) * (s - self.stations[i]);
                curve.push(self.vertices[i] + along + right_of(self.ahead(i)) * right(s));
            }
            let bend = self.stations[i + 1];
            if i < last && bend > from && bend < to {
                curve.extend(self.join(i + 1, right(bend)));
            }
        }
        curve
    }

    /// How much of the curve the bend at vertex `i` takes away on each side of it.
    fn cut(&self, i: usize, right: impl Fn(f64) -> f64) -> f64 {
        let (offset, turn) = (right(self.stations[i]), self.turn(i));
        if offset * turn > 0.0 {
            inner_cut(offset, turn)
        } else {
            0.0
        }
    }

    /// The points of the curve at the bend at vertex `i`.
    fn join(&self, i: usize, right: f64) -> Vec<Point> {
        let turn = self.turn(i);
        let (corner, first) = (self.vertices[i], right_of(self.ahead(i - 1)));
        if right * turn > 0.0 {
            let middle = (first + right_of(self.ahead(i))).normalize();
            return vec![corner + middle * (right / libm::cos(turn / 2.0))];
        }
        let steps = (turn.abs() / TURN).ceil().max(1.0);
        let mut points = Vec::new();
        let mut k = 0.0;
        while k <= steps {
            points.push(corner + rotated(first, turn * k / steps) * right);
            k += 1.0;
        }
        points
    }
}

/// `v` turned clockwise by `angle` radians.
fn rotated(v: Vector, angle: f64) -> Vector {
    let (sin, cos) = (libm::sin(angle), libm::cos(angle));
    Vector::new(v.x * cos + v.y * sin, v.y * cos - v.x * sin)
}

/// How far before a bend of `turn` radians the inner curve at `offset` turns.
fn inner_cut(offset: f64, turn: f64) -> f64 {
    offset.abs() * libm::tan(turn.abs() / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(ring: Vec<Point>) -> f64 {
        Polygon::from_points(vec![ring]).unwrap().area()
    }

    #[test]
    fn areas_are_those_of_the_closed_forms() {
        let ahead = Vector::new(0.6, 0.8);
        let center = Point::new(3.0, -2.0);
        assert!((area(rectangle(center, ahead, 10.0, 3.0)) - 120.0).abs() < 1e-9);
        // A polygon of n vertices on an ellipse has the share sin(2 pi/n) / (2 pi/n) of its area.
        let share = (TAU / 32.0).sin() / (TAU / 32.0);
        assert!((area(ellipse(center, ahead, 10.0, 5.0)) - PI * 50.0 * share).abs() < 1e-9);
        // A rectangle of 10 x 4 and two half polygons of 16 vertices on the circle of radius 2.
        let disc = PI * 4.0 * (TAU / 16.0).sin() / (TAU / 16.0);
        assert!(
            (area(capsule(Point::origin(), Point::new(6.0, 8.0), 2.0)) - 40.0 - disc).abs() < 1e-9
        );
    }

    #[test]
    fn a_bent_band_is_its_two_legs_and_a_round_join() {
        for turn in [-1.2_f64, -0.4, 0.3, 1.0] {
            let corner = Point::new(0.0, 200.0);
            let line = [
                Point::origin(),
                corner,
                corner + Vector::new(turn.sin(), turn.cos()) * 150.0,
            ];
            let spine = Spine::new(&line);
            let ring = spine.band(&spine.stations(50.0, 320.0, 0.0), |_| 16.0);
            // The legs overlap in a kite of 16² tan(turn/2) yd² and leave a fan of 16² turn/2.
            let exact = 32.0 * 270.0 - 256.0 * (turn.abs() / 2.0).tan() + 128.0 * turn.abs();
            assert!((area(ring) - exact).abs() < 2.0, "turn {turn}");
        }
    }

    #[test]
    fn a_ribbon_too_sharp_for_one_polygon_becomes_one_a_segment() {
        let gentle = [
            Point::origin(),
            Point::new(0.0, 50.0),
            Point::new(20.0, 100.0),
        ];
        assert_eq!(ribbon(&gentle, 4.0).len(), 1);
        let hairpin = [Point::origin(), Point::new(0.0, 50.0), Point::new(1.0, 0.0)];
        assert_eq!(ribbon(&hairpin, 4.0).len(), 2);
        assert!(ribbon(&[Point::origin(), Point::origin()], 4.0).is_empty());
        for ring in ribbon(&hairpin, 4.0) {
            assert!(Polygon::from_points(vec![ring]).is_ok());
        }
    }
}
