//! An open polyline with stations along it.

use super::predicates::orient;
use super::{Point, REACH, Vector, right_of, share_of, within_reach};

/// Why some points do not make a line.
///
/// Vertices are counted from 0.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LineFault {
    /// A coordinate is not a finite number.
    #[error("vertex {vertex} is ({x}, {y}); coordinates must be finite numbers")]
    NotFinite {
        /// The vertex.
        vertex: usize,
        /// Its x as given.
        x: f64,
        /// Its y as given.
        y: f64,
    },
    /// A coordinate is larger than [`REACH`].
    #[error("vertex {vertex} is ({x}, {y}); coordinates must lie within {REACH} yards of 0")]
    TooFar {
        /// The vertex.
        vertex: usize,
        /// Its x, yards.
        x: f64,
        /// Its y, yards.
        y: f64,
    },
    /// Fewer than two vertices.
    #[error("the line has {found} vertices; at least 2 are needed")]
    TooFewVertices {
        /// How many vertices there are.
        found: usize,
    },
    /// A vertex is at the place of the one before it, or too near it to tell a direction.
    #[error("vertex {vertex} at ({x}, {y}) repeats the vertex before it; leave it out")]
    RepeatedVertex {
        /// The second of the two.
        vertex: usize,
        /// Its x, yards.
        x: f64,
        /// Its y, yards.
        y: f64,
    },
}

/// The least length of a segment, yards: shorter ones have no dependable direction.
const LEAST_SEGMENT: f64 = 1e-9;

/// An open polyline of at least two vertices, each different from the one before. It may cross itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    vertices: Vec<Point>,
    /// Yards from the start to each vertex.
    reached: Vec<f64>,
}

/// A place told from a line: yards along it from its start and yards to the right of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Yards from the start; negative before it and more than the length past the end.
    pub along: f64,
    /// Yards to the right of the direction of travel; negative to the left.
    pub right: f64,
}

impl Line {
    /// Makes a line from its vertices, start to end, yards.
    ///
    /// # Errors
    /// Every fault at once.
    pub fn new(vertices: Vec<Point>) -> Result<Self, Vec<LineFault>> {
        let faults = faults_of(&vertices);
        if !faults.is_empty() {
            return Err(faults);
        }
        let mut reached = vec![0.0];
        let mut total = 0.0;
        for w in vertices.windows(2) {
            total += (w[1] - w[0]).norm();
            reached.push(total);
        }
        Ok(Self { vertices, reached })
    }

    /// The vertices from start to end.
    pub fn vertices(&self) -> &[Point] {
        &self.vertices
    }

    /// The smallest and largest corner of the box around it.
    #[must_use]
    pub fn bounds(&self) -> (Point, Point) {
        super::bounds_of(&self.vertices)
    }

    /// The length, yards.
    pub fn length(&self) -> f64 {
        self.reached[self.reached.len() - 1]
    }

    /// The point `along` yards from the start and `right` yards to the right (past the ends the end
    /// segments are extended straight). Both must be finite; if not, neither is the point.
    pub fn at(&self, along: f64, right: f64) -> Point {
        let segment = self.segment_at(along);
        let forward = self.forward(segment);
        self.vertices[segment]
            + forward * (along - self.reached[segment])
            + right_of(forward) * right
    }

    /// The station of `p` (finite): its nearest point on the line, the earliest of several, and how
    /// far right of it. Where that nearest point is an end of the line, `p` is told from the end
    /// segment extended straight past the end.
    ///
    /// [`Line::at`] takes the station back to `p`, except in the wedge outside a bend, where the
    /// nearest point is the vertex and `right` is the distance from it.
    pub fn station(&self, p: Point) -> Station {
        let mut best = (f64::INFINITY, 0, 0.0);
        for (i, w) in self.vertices.windows(2).enumerate() {
            let share = share_of(w[0], w[1], p).clamp(0.0, 1.0);
            let distance = (p - super::along(w[0], w[1], share)).norm_squared();
            if distance < best.0 {
                best = (distance, i, share);
            }
        }
        let (squared, segment, share) = best;
        if share == 1.0 && segment + 2 < self.vertices.len() {
            return self.station_at_bend(segment + 1, p, squared.sqrt());
        }
        let forward = self.forward(segment);
        let offset = p - self.vertices[segment];
        Station {
            along: self.reached[segment] + offset.dot(&forward),
            right: -forward.perp(&offset),
        }
    }

    /// The unit direction of travel at `along`; at a bend, that of the segment that begins there.
    pub fn direction(&self, along: f64) -> Vector {
        self.forward(self.segment_at(along))
    }

    /// The station of a point whose nearest point is the vertex at a bend.
    fn station_at_bend(&self, vertex: usize, p: Point, distance: f64) -> Station {
        // The side with respect to the mean direction is right for every bend; with respect to
        // either segment alone it would be wrong for bends sharper than a right angle.
        let mean = self.forward(vertex - 1) + self.forward(vertex);
        let bend = self.vertices[vertex];
        let on_left = orient(bend, bend + mean, p) > 0.0;
        Station {
            along: self.reached[vertex],
            right: if on_left { -distance } else { distance },
        }
    }

    /// The segment that holds `along`, the later one at a vertex.
    fn segment_at(&self, along: f64) -> usize {
        let begun = self.reached.partition_point(|r| *r <= along);
        begun.saturating_sub(1).min(self.vertices.len() - 2)
    }

    /// The unit direction of a segment.
    fn forward(&self, segment: usize) -> Vector {
        (self.vertices[segment + 1] - self.vertices[segment]).normalize()
    }
}

fn faults_of(vertices: &[Point]) -> Vec<LineFault> {
    let mut faults = Vec::new();
    if vertices.len() < 2 {
        faults.push(LineFault::TooFewVertices {
            found: vertices.len(),
        });
    }
    for (vertex, p) in vertices.iter().enumerate() {
        let (x, y) = (p.x, p.y);
        if !(x.is_finite() && y.is_finite()) {
            faults.push(LineFault::NotFinite { vertex, x, y });
        } else if !within_reach(*p) {
            faults.push(LineFault::TooFar { vertex, x, y });
        } else if vertex > 0 && (p - vertices[vertex - 1]).norm() <= LEAST_SEGMENT {
            faults.push(LineFault::RepeatedVertex { vertex, x, y });
        }
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(list: &[(f64, f64)]) -> Line {
        Line::new(list.iter().map(|(x, y)| Point::new(*x, *y)).collect()).unwrap()
    }

    fn assert_station(line: &Line, (x, y): (f64, f64), along: f64, right: f64) {
        let s = line.station(Point::new(x, y));
        assert!(
            (s.along - along).abs() < 1e-12 && (s.right - right).abs() < 1e-12,
            "({x}, {y}): {s:?}"
        );
    }

    fn dogleg() -> Line {
        // 100 up, then 50 to the right.
        line(&[(0.0, 0.0), (0.0, 100.0), (50.0, 100.0)])
    }

    #[test]
    fn stations_along_a_dogleg() {
        let line = dogleg();
        assert_eq!(line.length(), 150.0);
        assert_station(&line, (10.0, 30.0), 30.0, 10.0);
        assert_station(&line, (-10.0, 30.0), 30.0, -10.0);
        assert_station(&line, (20.0, 95.0), 120.0, 5.0);
        // Past the ends the segments go straight on.
        assert_station(&line, (3.0, -20.0), -20.0, 3.0);
        assert_station(&line, (70.0, 104.0), 170.0, -4.0);
        // Outside the bend the vertex is nearest.
        assert_station(&line, (-3.0, 104.0), 100.0, -5.0);
    }

    #[test]
    fn a_hairpin_keeps_its_sides() {
        // Turns left by 135 degrees: outside the bend is to the right whichever way p leans.
        let line = line(&[(0.0, 0.0), (0.0, 100.0), (-50.0, 50.0)]);
        for p in [(3.0, 104.0), (-1.0, 105.0), (-3.0, 104.0)] {
            assert!(line.station(Point::new(p.0, p.1)).right > 0.0, "{p:?}");
        }
        // Straight back: no side is better than the other; the distance is told as right.
        let back = super::tests::line(&[(0.0, 0.0), (0.0, 10.0), (0.0, 5.0)]);
        assert_station(&back, (0.0, 12.0), 10.0, 2.0);
    }

    #[test]
    fn at_and_direction() {
        let line = dogleg();
        let near = |p: Point, x: f64, y: f64| (p - Point::new(x, y)).norm() < 1e-12;
        assert!(near(line.at(30.0, 10.0), 10.0, 30.0));
        assert!(near(line.at(-20.0, 3.0), 3.0, -20.0));
        assert!(near(line.at(170.0, -4.0), 70.0, 104.0));
        assert_eq!(line.direction(-5.0), Vector::new(0.0, 1.0));
        assert_eq!(line.direction(99.0), Vector::new(0.0, 1.0));
        assert_eq!(line.direction(100.0), Vector::new(1.0, 0.0));
        assert_eq!(line.direction(1e6), Vector::new(1.0, 0.0));
    }

    #[test]
    fn every_fault_is_named() {
        let none = Line::new(Vec::new()).unwrap_err();
        assert_eq!(none, [LineFault::TooFewVertices { found: 0 }]);
        let p = |x, y| Point::new(x, y);
        let found = Line::new(vec![
            p(0.0, 0.0),
            p(0.0, 0.0),
            p(f64::NAN, 1.0),
            p(0.0, -3e9),
        ])
        .unwrap_err();
        assert_eq!(
            found[0],
            LineFault::RepeatedVertex {
                vertex: 1,
                x: 0.0,
                y: 0.0
            }
        );
        assert!(matches!(found[1], LineFault::NotFinite { vertex: 2, .. }));
        assert_eq!(
            found[2],
            LineFault::TooFar {
                vertex: 3,
                x: 0.0,
                y: -3e9
            }
        );
        assert_eq!(found.len(), 3);
    }
}
