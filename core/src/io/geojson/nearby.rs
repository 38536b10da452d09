//! How far things lie from a line.
use crate::geometry::{Point, Vector, right_of};

/// The distance of a point from a polyline; infinite for no line.
pub(super) fn to_line(p: Point, line: &[Point]) -> f64 {
    let legs = line.windows(2).map(|leg| to_segment(p, leg[0], leg[1]));
    let single = line.first().map(|&a| (p - a).norm());
    legs.chain(single).fold(f64::INFINITY, f64::min)
}

/// True where the polyline `drawn` (one point or more) comes within `reach` of `line`.
pub(super) fn near(line: &[Point], drawn: &[Point], reach: f64) -> bool {
    let (low, high) = bounds(line.iter().copied());
    let margin = Vector::new(reach, reach);
    let (low, high) = (low - margin, high + margin);
    let out = |a: Point, b: Point| {
        let (l, h) = (a.inf(&b), a.sup(&b));
        h.x < low.x || l.x > high.x || h.y < low.y || l.y > high.y
    };
    segments(drawn)
        .any(|(a, b)| !out(a, b) && segments(line).any(|(c, d)| distance(a, b, c, d) <= reach))
}

/// The box around points.
pub(super) fn bounds(points: impl Iterator<Item = Point>) -> (Point, Point) {
    let mut low = Point::new(f64::INFINITY, f64::INFINITY);
    let mut high = -low;
    for p in points {
        (low, high) = (low.inf(&p), high.sup(&p));
    }
    (low, high)
}

/// The segments of a polyline; a single point is a segment of no length.
fn segments(points: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let single = points
        .first()
        .filter(|_| points.len() == 1)
        .map(|&p| (p, p));
    points.windows(2).map(|s| (s[0], s[1])).chain(single)
}

/// The distance between two segments.
fn distance(a: Point, b: Point, c: Point, d: Point) -> f64 {
    let side = |p: Point, q: Point, r: Point| (q - p).perp(&(r - p));
    let crossing = side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0;
    if crossing {
        return 0.0;
    }
    let ends = [
        to_segment(a, c, d),
        to_segment(b, c, d),
        to_segment(c, a, b),
        to_segment(d, a, b),
    ];
    ends.into_iter().fold(f64::INFINITY, f64::min)
}

/// The distance of a point from a segment.
fn to_segment(p: Point, a: Point, b: Point) -> f64 {
    (p - foot(p, a, b)).norm()
}

/// The point of a segment nearest to `p`.
fn foot(p: Point, a: Point, b: Point) -> Point {
    let along = b - a;
    let share = (p - a).dot(&along) / along.norm_squared().max(f64::MIN_POSITIVE);
    a + along * share.clamp(0.0, 1.0)
}

/// True where `p` is inside the ring (by the even-odd rule), which need not be valid.
pub(super) fn encloses(ring: &[Point], p: Point) -> bool {
    let crosses = |a: &Point, b: &Point| {
        (a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)
    };
    let closing = ring.last().zip(ring.first());
    let edges = ring.windows(2).map(|e| (&e[0], &e[1])).chain(closing);
    edges.filter(|(a, b)| crosses(a, b)).count() % 2 == 1
}

/// Where something comes nearest to a line of play.
#[derive(Clone, Copy, Debug)]
pub(super) struct Nearest {
    /// Yards from the line, 0 where it crosses it.
    pub(super) far: f64,
    /// Yards along the line.
    pub(super) along: f64,
    /// True on the right of the line.
    pub(super) right: bool,
}

/// Where a polyline comes nearest to a line of play.
pub(super) fn nearest(line: &[Point], drawn: &[Point]) -> Option<Nearest> {
    let mut best: Option<Nearest> = None;
    let mut station = 0.0;
    for leg in line.windows(2) {
        let (a, b) = (leg[0], leg[1]);
        let long = (b - a).norm();
        for (c, d) in segments(drawn) {
            let far = distance(a, b, c, d);
            if best.is_some_and(|best| best.far <= far) {
                continue;
            }
            let ends = [foot(a, c, d), foot(b, c, d), c, d];
            let at = ends
                .into_iter()
                .min_by(|p, q| to_segment(*p, a, b).total_cmp(&to_segment(*q, a, b)));
            let at = if far > 0.0 {
                at.unwrap_or(c)
            } else {
                crossing(a, b, c, d)
            };
            let along = station + (foot(at, a, b) - a).norm().min(long);
            let right = (at - a).dot(&right_of(b - a)) > 0.0;
            best = Some(Nearest { far, along, right });
        }
        station += long;
    }
    best
}

/// Where two segments that meet cross.
fn crossing(a: Point, b: Point, c: Point, d: Point) -> Point {
    let (u, v) = (b - a, d - c);
    let share = (c - a).perp(&v) / u.perp(&v);
    if share.is_finite() {
        a + u * share.clamp(0.0, 1.0)
    } else {
        a
    }
}
