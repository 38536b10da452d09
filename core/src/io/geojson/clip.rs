//! Areas and lines cut to the surroundings of a hole, and outlines that cross themselves taken apart.
//!
//! A wood of thirty kilometres or a coast of a hundred says no more about a hole than its part around it, and would make
//! every grid over the map as large as itself.
use super::nearby::bounds;
use crate::geometry::{Point, Vector};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::overlay::{FloatOverlay, OverlayOptions};

/// Rings, the exterior first.
pub(super) type Rings = Vec<Vec<Point>>;

/// Smaller pieces than this are no areas, square yards.
const LEAST: f64 = 0.05;

/// The box around a hole beyond which nothing is drawn.
#[derive(Clone, Copy, Debug)]
pub(super) struct Window {
    pub(super) low: Point,
    pub(super) high: Point,
}

impl Window {
    /// The box so many yards around a line.
    pub(super) fn around(line: &[Point], margin: f64) -> Self {
        let (low, high) = bounds(line.iter().copied());
        let margin = Vector::new(margin, margin);
        Window {
            low: low - margin,
            high: high + margin,
        }
    }

    fn holds(&self, p: Point) -> bool {
        p.x >= self.low.x && p.x <= self.high.x && p.y >= self.low.y && p.y <= self.high.y
    }

    /// True where all of it lies inside.
    pub(super) fn holds_all(&self, points: &[Point]) -> bool {
        points.iter().all(|&p| self.holds(p))
    }

    fn ring(&self) -> Vec<Point> {
        let (low, high) = (self.low, self.high);
        vec![
            low,
            Point::new(high.x, low.y),
            high,
            Point::new(low.x, high.y),
        ]
    }

    /// The parts of an area inside.
    pub(super) fn area(&self, rings: &[Vec<Point>]) -> Vec<Rings> {
        overlay(rings, &[self.ring()], OverlayRule::Intersect)
    }

    /// What is inside and in none of some areas, which are told by all their rings.
    pub(super) fn without(&self, rings: &[Vec<Point>]) -> Vec<Rings> {
        overlay(&[self.ring()], rings, OverlayRule::Difference)
    }

    /// The parts of a line inside.
    pub(super) fn line(&self, line: &[Point]) -> Vec<Vec<Point>> {
        let mut parts: Vec<Vec<Point>> = Vec::new();
        for leg in line.windows(2) {
            let Some((a, b)) = self.segment(leg[0], leg[1]) else {
                continue;
            };
            match parts.last_mut() {
                Some(part) if part.last() == Some(&a) => part.push(b),
                _ => parts.push(vec![a, b]),
            }
        }
        parts
    }

    /// The line from where it first comes inside to where it last leaves, or None where it stays outside.
    pub(super) fn stretch(&self, line: &[Point]) -> Option<Vec<Point>> {
        let cut: Vec<Option<(Point, Point)>> = line
            .windows(2)
            .map(|leg| self.segment(leg[0], leg[1]))
            .collect();
        let first = cut.iter().position(Option::is_some)?;
        let last = cut.iter().rposition(Option::is_some)?;
        let mut stretch = vec![cut[first]?.0];
        stretch.extend_from_slice(&line[first + 1..=last]);
        stretch.push(cut[last]?.1);
        stretch.dedup();
        Some(stretch)
    }

    /// The part of a segment inside (after Liang and Barsky, "A new concept and method for line clipping", 1984).
    fn segment(&self, a: Point, b: Point) -> Option<(Point, Point)> {
        let way = b - a;
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        let sides = [
            (-way.x, a.x - self.low.x),
            (way.x, self.high.x - a.x),
            (-way.y, a.y - self.low.y),
            (way.y, self.high.y - a.y),
        ];
        for (towards, room) in sides {
            if towards == 0.0 {
                if room < 0.0 {
                    return None;
                }
            } else if towards < 0.0 {
                from = from.max(room / towards);
            } else {
                to = to.min(room / towards);
            }
        }
        let at =
            |share: f64, end: Point, whole: f64| if share == whole { end } else { a + way * share };
        (from < to).then(|| (at(from, a, 0.0), at(to, b, 1.0)))
    }
}

/// The areas that an outline encloses, by the even-odd rule, where it crosses or touches itself.
pub(super) fn untangled(rings: &[Vec<Point>]) -> Vec<Rings> {
    overlay(rings, &[], OverlayRule::Subject)
}

fn overlay(subject: &[Vec<Point>], clip: &[Vec<Point>], rule: OverlayRule) -> Vec<Rings> {
    let raw = |rings: &[Vec<Point>]| -> Vec<Vec<[f64; 2]>> {
        let ring = |ring: &Vec<Point>| ring.iter().map(|p| [p.x, p.y]).collect();
        rings.iter().map(ring).collect()
    };
    let mut options = OverlayOptions::ogc();
    options.min_output_area = LEAST;
    let (subject, clip) = (raw(subject), raw(clip));
    let solver = Default::default();
    let mut engine =
        FloatOverlay::<[f64; 2], i64>::from_subj_and_clip_custom(&subject, &clip, options, solver);
    let shapes = engine.overlay(rule, FillRule::EvenOdd);
    let ring = |ring: Vec<[f64; 2]>| ring.into_iter().map(|[x, y]| Point::new(x, y)).collect();
    shapes
        .into_iter()
        .map(|rings| rings.into_iter().map(ring).collect())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Polygon;

    fn p(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    fn area(pieces: &[Rings]) -> f64 {
        let one = |rings: &Rings| Polygon::from_points(rings.clone()).unwrap().area();
        pieces.iter().map(one).sum()
    }

    #[test]
    fn a_bow_tie_is_its_two_triangles() {
        let tie = vec![p(0.0, 0.0), p(10.0, 10.0), p(10.0, 0.0), p(0.0, 10.0)];
        let pieces = untangled(&[tie]);
        assert_eq!(pieces.len(), 2);
        assert!((area(&pieces) - 50.0).abs() < 1e-6);
    }

    #[test]
    fn an_area_of_a_county_is_cut_to_the_window() {
        let window = Window::around(&[p(0.0, 0.0), p(0.0, 400.0)], 300.0);
        let half = vec![p(0.0, -1e5), p(1e5, -1e5), p(1e5, 1e5), p(0.0, 1e5)];
        let hole = vec![p(10.0, 10.0), p(20.0, 10.0), p(20.0, 20.0)];
        let pieces = window.area(&[half, hole]);
        assert!((area(&pieces) - (300.0 * 1000.0 - 50.0)).abs() < 1e-3);
        let rest = window.without(&[vec![p(-100.0, -100.0), p(100.0, -100.0), p(0.0, 300.0)]]);
        assert!((area(&rest) - (600.0 * 1000.0 - 40_000.0)).abs() < 1e-3);
    }

    #[test]
    fn lines_are_cut_where_they_leave() {
        let window = Window::around(&[p(0.0, 0.0)], 10.0);
        let line = [
            p(-30.0, 0.0),
            p(0.0, 0.0),
            p(0.0, 40.0),
            p(5.0, 40.0),
            p(5.0, -40.0),
        ];
        let parts = window.line(&line);
        assert_eq!(parts.len(), 2);
        assert_eq!(parts[0], [p(-10.0, 0.0), p(0.0, 0.0), p(0.0, 10.0)]);
        assert_eq!(parts[1], [p(5.0, 10.0), p(5.0, -10.0)]);
        let stretch = window.stretch(&line).unwrap();
        assert_eq!(
            (stretch[0], *stretch.last().unwrap()),
            (p(-10.0, 0.0), p(5.0, -10.0))
        );
        assert_eq!(window.stretch(&[p(20.0, 0.0), p(20.0, 50.0)]), None);
    }
}
