//! Boundary lines made into areas that are out of bounds.
use super::{BoundaryFault, Feature, HoleFault, Surface, draft};
use crate::geometry::{Line, Point, Polygon, PolygonFault, Vector};

/// How far the area reaches beyond everything on the map, yards: farther than any shot goes.
const BEYOND: f64 = 400.0;

/// A side of a line, seen in its direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// To the left of the direction of the line.
    Left,
    /// To the right of the direction of the line.
    Right,
}

/// A boundary as drawn: a line with out of bounds on one side of it.
///
/// The first and last segments are extended straight to the edge of the map. A line whose last vertex is its
/// first encloses an area instead: what it encloses is out of bounds, or what lies around it if it
/// encloses the tee and the pin.
#[derive(Clone, Debug, PartialEq)]
pub struct DraftBoundary {
    /// Its place in the list it came from, counted from 0; faults name it.
    pub source: usize,
    /// Its name, if it has one.
    pub name: Option<String>,
    /// The vertices of the line.
    pub line: Vec<Point>,
    /// The side that is out of bounds; `None` chooses the side with neither tee nor pin.
    pub out: Option<Side>,
}

/// The areas of all boundaries with where they came from; faulty ones are reported and left out.
pub(super) fn areas(
    boundaries: &[DraftBoundary],
    features: &[Feature],
    line: Option<&Line>,
    tee: Option<Point>,
    pin: Option<Point>,
    faults: &mut Vec<HoleFault>,
) -> Vec<(usize, Feature)> {
    let before = faults.len();
    for boundary in boundaries {
        for (i, &p) in boundary.line.iter().enumerate() {
            draft::check_point(
                &format!("out of bounds line ({}), vertex {i}", boundary.label()),
                p,
                faults,
            );
        }
    }
    if faults.len() > before {
        return Vec::new();
    }
    let corners = features
        .iter()
        .flat_map(|f| <[Point; 2]>::from(f.outline.bounds()));
    let places = tee
        .into_iter()
        .chain(pin)
        .chain(line.into_iter().flat_map(|l| l.vertices().iter().copied()));
    let drawn = boundaries.iter().flat_map(|b| b.line.iter().copied());
    let map = Frame::around(corners.chain(places).chain(drawn));
    let mut areas = Vec::new();
    for boundary in boundaries {
        match boundary.area(&map, tee, pin) {
            Ok(outline) => areas.push((boundary.source, boundary.feature(outline))),
            Err(list) => faults.extend(list.into_iter().map(|fault| HoleFault::Boundary {
                name: boundary.label(),
                fault,
            })),
        }
    }
    areas
}

/// The ground on one side of a line inside a frame well around two corners: on the side that is told, or on the one with
/// neither tee nor pin.
pub(crate) fn area_beside(
    line: &[Point],
    corners: (Point, Point),
    out: Option<Side>,
    tee: Option<Point>,
    pin: Option<Point>,
) -> Result<Polygon, Vec<BoundaryFault>> {
    let boundary = DraftBoundary {
        source: 0,
        name: None,
        line: line.to_vec(),
        out,
    };
    let places = [corners.0, corners.1].into_iter().chain(tee).chain(pin);
    let map = Frame::around(places.chain(line.iter().copied()));
    boundary.area(&map, tee, pin)
}

impl DraftBoundary {
    /// How faults call it.
    fn label(&self) -> String {
        let name = self
            .name
            .as_ref()
            .map(|n| format!("{n:?}, "))
            .unwrap_or_default();
        format!("{name}feature {}", self.source)
    }

    fn feature(&self, outline: Polygon) -> Feature {
        Feature {
            surface: Surface::OutOfBounds,
            outline,
            name: self.name.clone(),
            canopy: None,
        }
    }

    /// The area that is out of bounds.
    fn area(
        &self,
        map: &Frame,
        tee: Option<Point>,
        pin: Option<Point>,
    ) -> Result<Polygon, Vec<BoundaryFault>> {
        let line = Line::new(self.line.clone())
            .map_err(|list| -> Vec<_> { list.into_iter().map(BoundaryFault::Line).collect() })?;
        let vertices = line.vertices();
        let closed = vertices.len() > 3 && vertices.first() == vertices.last();
        let rings = |side| {
            if closed {
                map.around_ring(vertices, side)
            } else {
                map.beside(vertices, side)
            }
        };
        let polygon = |side| Polygon::from_points(rings(side)).map_err(wrap);
        if let Some(side) = self.out {
            return polygon(side);
        }
        let right = polygon(Side::Right)?;
        match [tee, pin].map(|p| p.map(|p| right.contains(p))) {
            [Some(a), Some(b)] if a != b => Err(vec![BoundaryFault::SidesDiffer]),
            [Some(true), _] | [_, Some(true)] => polygon(Side::Left),
            _ => Ok(right),
        }
    }
}

fn wrap(list: Vec<PolygonFault>) -> Vec<BoundaryFault> {
    list.into_iter().map(BoundaryFault::Area).collect()
}

/// The rectangle at whose edge areas end.
struct Frame {
    low: Point,
    high: Point,
}

impl Frame {
    /// A frame well outside all of `points`.
    fn around(points: impl Iterator<Item = Point>) -> Self {
        let (mut low, mut high) = (
            Point::new(f64::MAX, f64::MAX),
            Point::new(f64::MIN, f64::MIN),
        );
        for p in points {
            low = low.inf(&p);
            high = high.sup(&p);
        }
        let margin = Vector::new(BEYOND, BEYOND);
        let farthest = Point::new(draft::FARTHEST, draft::FARTHEST);
        Frame {
            low: (low - margin).sup(&-farthest),
            high: (high + margin).inf(&farthest),
        }
    }

    /// The corners counter-clockwise from the lowest.
    fn corners(&self) -> [Point; 4] {
        let (low, high) = (self.low, self.high);
        [
            low,
            Point::new(high.x, low.y),
            high,
            Point::new(low.x, high.y),
        ]
    }

    /// The part of the frame on one side of an open line.
    fn beside(&self, line: &[Point], out: Side) -> Vec<Vec<Point>> {
        let n = line.len();
        let start = self.exit(line[0], line[0] - line[1]);
        let end = self.exit(line[n - 1], line[n - 1] - line[n - 2]);
        let mut ring = Vec::with_capacity(n + 6);
        ring.push(start);
        ring.extend_from_slice(line);
        ring.push(end);
        ring.extend(self.corners_between(end, start, out));
        ring.dedup();
        vec![ring]
    }

    /// What a closed line encloses, or the rest of the frame.
    fn around_ring(&self, line: &[Point], out: Side) -> Vec<Vec<Point>> {
        let doubled: f64 = line
            .windows(2)
            .map(|e| e[0].x * e[1].y - e[1].x * e[0].y)
            .sum();
        // The inside of a counter-clockwise line is on its left.
        let inside = if doubled > 0.0 {
            Side::Left
        } else {
            Side::Right
        };
        let ring = line[..line.len() - 1].to_vec();
        if out == inside {
            vec![ring]
        } else {
            vec![self.corners().to_vec(), ring]
        }
    }

    /// Where the ray from `p` inside the frame along `v` leaves it.
    fn exit(&self, p: Point, v: Vector) -> Point {
        let reach = |p: f64, v: f64, low: f64, high: f64| {
            let edge = if v > 0.0 { high } else { low };
            if v == 0.0 {
                f64::INFINITY
            } else {
                (edge - p) / v
            }
        };
        let across = reach(p.x, v.x, self.low.x, self.high.x);
        let up = reach(p.y, v.y, self.low.y, self.high.y);
        let q = p + v * across.min(up);
        // The coordinate that met its edge is put on it exactly.
        if across <= up {
            Point::new(if v.x > 0.0 { self.high.x } else { self.low.x }, q.y)
        } else {
            Point::new(q.x, if v.y > 0.0 { self.high.y } else { self.low.y })
        }
    }

    /// The corners passed on the way round from `from` to `to`, keeping the area on the `out` side.
    fn corners_between(&self, from: Point, to: Point, out: Side) -> Vec<Point> {
        let (a, b) = (self.share(from), self.share(to));
        let corners = self.corners();
        // Counter-clockwise keeps the area on the left, clockwise on the right.
        let step = |t: f64| {
            if out == Side::Left {
                (t - a).rem_euclid(4.0)
            } else {
                (a - t).rem_euclid(4.0)
            }
        };
        let mut passed: Vec<(f64, Point)> = (0_u8..4)
            .map(|i| (step(f64::from(i)), corners[usize::from(i)]))
            .filter(|&(s, _)| s > 0.0 && s < step(b))
            .collect();
        passed.sort_by(|x, y| x.0.total_cmp(&y.0));
        passed.into_iter().map(|(_, corner)| corner).collect()
    }

    /// How far round the frame `p` is: 0 to 4, one a side, counter-clockwise from the lowest corner.
    fn share(&self, p: Point) -> f64 {
        let (low, high) = (self.low, self.high);
        let (x, y) = (
            (p.x - low.x) / (high.x - low.x),
            (p.y - low.y) / (high.y - low.y),
        );
        if p.y == low.y {
            x
        } else if p.x == high.x {
            1.0 + y
        } else if p.y == high.y {
            3.0 - x
        } else {
            4.0 - y
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn boundary(line: &[(f64, f64)], out: Option<Side>) -> DraftBoundary {
        let line = line.iter().map(|&(x, y)| Point::new(x, y)).collect();
        DraftBoundary {
            source: 3,
            name: None,
            line,
            out,
        }
    }

    fn area(
        line: &[(f64, f64)],
        out: Option<Side>,
        tee: Point,
        pin: Point,
    ) -> Result<Polygon, Vec<HoleFault>> {
        let mut faults = Vec::new();
        let mut list = areas(
            &[boundary(line, out)],
            &[],
            None,
            Some(tee),
            Some(pin),
            &mut faults,
        );
        list.pop().map(|(_, feature)| feature.outline).ok_or(faults)
    }

    const TEE: Point = Point::new(0.0, 0.0);
    const PIN: Point = Point::new(0.0, 300.0);

    #[test]
    fn each_side_of_a_line_is_one_part_of_the_frame() {
        // The frame is the bounding box grown by 400 yards: x -420..400, y -400..700. The line x = -20 parts it.
        let left = area(&[(-20.0, 0.0), (-20.0, 100.0)], Some(Side::Left), TEE, PIN).unwrap();
        let right = area(&[(-20.0, 0.0), (-20.0, 100.0)], Some(Side::Right), TEE, PIN).unwrap();
        assert!((left.area() - 400.0 * 1100.0).abs() < 1e-6);
        assert!((right.area() - 420.0 * 1100.0).abs() < 1e-6);
        assert!(left.contains(Point::new(-50.0, 650.0)) && !left.contains(PIN));
    }

    #[test]
    fn the_side_away_from_play_is_chosen_whatever_the_direction() {
        let bent = [(-30.0, -10.0), (-25.0, 150.0), (-40.0, 320.0)];
        let mut back = bent;
        back.reverse();
        let (one, two) = (
            area(&bent, None, TEE, PIN).unwrap(),
            area(&back, None, TEE, PIN).unwrap(),
        );
        assert!((one.area() - two.area()).abs() < 1e-6);
        assert!(one.contains(Point::new(-60.0, 100.0)) && !one.contains(TEE) && !one.contains(PIN));
    }

    #[test]
    fn a_closed_line_bounds_what_it_encloses_or_what_is_around() {
        let garden = [
            (40.0, 40.0),
            (80.0, 40.0),
            (80.0, 90.0),
            (40.0, 90.0),
            (40.0, 40.0),
        ];
        assert!((area(&garden, None, TEE, PIN).unwrap().area() - 2000.0).abs() < 1e-6);
        let course = [
            (-90.0, -40.0),
            (90.0, -40.0),
            (90.0, 400.0),
            (-90.0, 400.0),
            (-90.0, -40.0),
        ];
        let around = area(&course, None, TEE, PIN).unwrap();
        assert!(
            !around.contains(TEE)
                && !around.contains(PIN)
                && around.contains(Point::new(95.0, 10.0))
        );
    }

    #[test]
    fn a_line_between_tee_and_pin_or_across_itself_is_refused() {
        let text = |line: &[(f64, f64)]| area(line, None, TEE, PIN).unwrap_err()[0].to_string();
        assert!(text(&[(-50.0, 150.0), (50.0, 150.0)]).contains("different sides"));
        // The first segment, extended backwards, runs into the last.
        let crossing = text(&[
            (30.0, 50.0),
            (30.0, 100.0),
            (60.0, 100.0),
            (60.0, 20.0),
            (20.0, 20.0),
        ]);
        assert!(
            crossing.contains("extended") && crossing.contains("feature 3"),
            "{crossing}"
        );
        assert!(text(&[(1.0, 1.0)]).contains("out of bounds line"));
    }
}
