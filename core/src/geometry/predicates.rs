//! On which side of a line a point lies, decided exactly.
//!
//! The method is that of J. R. Shewchuk, "Adaptive Precision Floating-Point Arithmetic and Fast
//! Robust Geometric Predicates", Discrete & Computational Geometry 18 (1997): a determinant in
//! ordinary arithmetic with a bound on its error, and where the bound cannot settle the sign the
//! same determinant as an exact sum of floating-point terms. Written from the paper's theorems.

use super::Point;

/// Error bound of the plain determinant relative to its two products: (3 + 16e)e with e = 2^-53
/// (Shewchuk 1997, section 4, bound A).
const FILTER: f64 = 3.330_669_073_875_471_6e-16;

/// Below this size products may have lost bits to underflow, which the bound does not cover.
const TINY: f64 = 1e-290;

/// Twice the signed area of the triangle a, b, c: positive where `c` lies to the left of the way
/// from `a` to `b`, negative to the right, zero exactly where the three are on one line.
///
/// The sign is exact for finite coordinates whose sizes span less than about 300 decimal orders;
/// the size is rounded.
#[inline]
pub(super) fn orient(a: Point, b: Point, c: Point) -> f64 {
    let left = (a.x - c.x) * (b.y - c.y);
    let right = (a.y - c.y) * (b.x - c.x);
    let det = left - right;
    if det.abs() > FILTER * (left.abs() + right.abs()) + TINY && det.is_finite() {
        det
    } else {
        orient_exactly(a, b, c)
    }
}

/// The determinant as an exact sum of twelve terms, rounded once at the end.
#[cold]
#[inline(never)]
fn orient_exactly(a: Point, b: Point, c: Point) -> f64 {
    if a == b || b == c || a == c {
        return 0.0;
    }
    let scale = scale_for(&[a, b, c]);
    let (a, b, c) = (a * scale, b * scale, c * scale);
    let products = [
        (a.x, b.y),
        (-a.y, b.x),
        (b.x, c.y),
        (-b.y, c.x),
        (c.x, a.y),
        (-c.y, a.x),
    ];
    let mut sum = Expansion::default();
    for (x, y) in products {
        let (high, low) = two_product(x, y);
        sum.add(low);
        sum.add(high);
    }
    let det = sum.value();
    let unscaled = det / scale / scale;
    // The sign must outlive underflow.
    if unscaled == 0.0 && det != 0.0 {
        f64::MIN_POSITIVE.copysign(det)
    } else {
        unscaled
    }
}

/// A power of two that brings the largest coordinate near 2^500, where neither the products nor
/// their rounding errors overflow or underflow.
fn scale_for(points: &[Point]) -> f64 {
    let largest = points
        .iter()
        .fold(0.0_f64, |m, p| m.max(p.x.abs()).max(p.y.abs()));
    let exponent = ((largest.to_bits() >> 52) & 0x7ff) as i32 - 1023;
    libm::ldexp(1.0, (500 - exponent).min(1000))
}

/// A number held as the exact sum of terms that do not overlap, smallest first.
#[derive(Default)]
struct Expansion {
    terms: [f64; 12],
    count: usize,
}

impl Expansion {
    /// Adds one number exactly (Grow-Expansion, Shewchuk 1997, theorem 10). Twelve fit.
    fn add(&mut self, x: f64) {
        let mut carry = x;
        for term in &mut self.terms[..self.count] {
            let (sum, error) = two_sum(carry, *term);
            carry = sum;
            *term = error;
        }
        self.terms[self.count] = carry;
        self.count += 1;
    }

    /// The sum rounded, with the sign of the exact sum, which is that of the largest term.
    fn value(&self) -> f64 {
        let terms = &self.terms[..self.count];
        let leading = terms
            .iter()
            .rev()
            .copied()
            .find(|t| *t != 0.0)
            .unwrap_or(0.0);
        let rounded: f64 = terms.iter().sum();
        if rounded * leading > 0.0 {
            rounded
        } else {
            leading
        }
    }
}

/// The rounded sum and its rounding error (Knuth; Shewchuk 1997, theorem 7).
fn two_sum(a: f64, b: f64) -> (f64, f64) {
    let sum = a + b;
    let virtual_b = sum - a;
    let virtual_a = sum - virtual_b;
    (sum, (a - virtual_a) + (b - virtual_b))
}

/// The rounded product and its rounding error (Dekker; Shewchuk 1997, theorem 18).
fn two_product(a: f64, b: f64) -> (f64, f64) {
    let product = a * b;
    let (a_high, a_low) = split(a);
    let (b_high, b_low) = split(b);
    let error = ((product - a_high * b_high) - a_low * b_high) - a_high * b_low;
    (product, a_low * b_low - error)
}

/// Two halves of 26 bits whose sum is `a` (Veltkamp; Shewchuk 1997, theorem 17).
fn split(a: f64) -> (f64, f64) {
    let c = 134_217_729.0 * a;
    let high = c - (c - a);
    (high, a - high)
}

/// True where `p` lies in the box spanned by `a` and `b`, edges included.
#[inline]
pub(super) fn in_box(a: Point, b: Point, p: Point) -> bool {
    a.x.min(b.x) <= p.x && p.x <= a.x.max(b.x) && a.y.min(b.y) <= p.y && p.y <= a.y.max(b.y)
}

/// True where `p` lies on the segment from `a` to `b`, ends included.
pub(super) fn on_segment(a: Point, b: Point, p: Point) -> bool {
    in_box(a, b, p) && orient(a, b, p) == 0.0
}

/// True where the boxes of two segments share a point.
#[inline]
pub(super) fn boxes_meet((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    a.x.min(b.x) <= c.x.max(d.x)
        && c.x.min(d.x) <= a.x.max(b.x)
        && a.y.min(b.y) <= c.y.max(d.y)
        && c.y.min(d.y) <= a.y.max(b.y)
}

/// True where two segments of some length share a point, ends included.
pub(super) fn segments_meet(first: (Point, Point), second: (Point, Point)) -> bool {
    let ((a, b), (c, d)) = (first, second);
    // On one line the boxes settle it; off it neither may lie strictly to one side of the other.
    boxes_meet(first, second)
        && !same_side(orient(a, b, c), orient(a, b, d))
        && !same_side(orient(c, d, a), orient(c, d, b))
}

/// True where two signed areas are both positive or both negative.
#[inline]
pub(super) fn same_side(s: f64, t: f64) -> bool {
    (s > 0.0 && t > 0.0) || (s < 0.0 && t < 0.0)
}

/// True where two segments that start at one point run over each other.
pub(super) fn folds_back(start: Point, u: Point, v: Point) -> bool {
    let heads_alike = |a: f64, b: f64, from: f64| a.partial_cmp(&from) == b.partial_cmp(&from);
    orient(start, u, v) == 0.0 && heads_alike(u.x, v.x, start.x) && heads_alike(u.y, v.y, start.y)
}

/// About where two segments that meet do so: an end of one that lies on the other, or else the
/// rounded point of crossing.
pub(super) fn meeting_point((a, b): (Point, Point), (c, d): (Point, Point)) -> Point {
    let touching = [(c, d, a), (c, d, b), (a, b, c), (a, b, d)];
    if let Some((_, _, end)) = touching
        .into_iter()
        .find(|(u, v, end)| on_segment(*u, *v, *end))
    {
        return end;
    }
    let (from, to) = (orient(c, d, a), orient(c, d, b));
    super::along(a, b, from / (from - to))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The sign in whole numbers, exact by construction.
    fn whole_sign(p: [(i64, i64); 3]) -> i128 {
        let [(ax, ay), (bx, by), (cx, cy)] = p.map(|(x, y)| (i128::from(x), i128::from(y)));
        ((ax - cx) * (by - cy) - (ay - cy) * (bx - cx)).signum()
    }

    fn sign(x: f64) -> i128 {
        if x > 0.0 {
            1
        } else if x < 0.0 {
            -1
        } else {
            0
        }
    }

    fn at((x, y): (i64, i64), unit: f64) -> Point {
        Point::new(x as f64 * unit, y as f64 * unit)
    }

    proptest! {
        #[test]
        fn sign_agrees_with_whole_numbers(
            a in (-(1i64 << 30)..(1 << 30), -(1i64 << 30)..(1 << 30)),
            step in (-(1i64 << 20)..(1 << 20), -(1i64 << 20)..(1 << 20)),
            (m, n) in (0i64..1 << 22, 0i64..1 << 22),
            nudge in (-1i64..=1, -1i64..=1),
            power in -900i32..900,
        ) {
            // Three points on one line, the last one nudged by one unit or not at all.
            let b = (a.0 + step.0 * m, a.1 + step.1 * m);
            let c = (a.0 + step.0 * n + nudge.0, a.1 + step.1 * n + nudge.1);
            let unit = libm::ldexp(1.0, power);
            let got = orient(at(a, unit), at(b, unit), at(c, unit));
            prop_assert_eq!(sign(got), whole_sign([a, b, c]));
        }

        #[test]
        fn sign_survives_differences_that_round(
            m in (-(1i64 << 46)..(1 << 46), -(1i64 << 46)..(1 << 46)),
            (i, j) in (0i64..64, 0i64..64),
            nudge in ((-1i64..=1, -1i64..=1), (-1i64..=1, -1i64..=1)),
        ) {
            // Two points beside the line from the origin to a third so far off that the
            // differences lose bits: there plain arithmetic gets signs wrong, not only zero.
            let a = (m.0 * i + nudge.0.0, m.1 * i + nudge.0.1);
            let b = (m.0 * j + nudge.1.0, m.1 * j + nudge.1.1);
            let c = (m.0 << 12, m.1 << 12);
            let expected = whole_sign([a, b, c]);
            let [pa, pb, pc] = [a, b, c].map(|v| at(v, 1.0));
            prop_assert_eq!(sign(orient(pa, pb, pc)), expected);
            prop_assert_eq!(sign(orient(pb, pc, pa)), expected);
            prop_assert_eq!(sign(orient(pa, pc, pb)), -expected);
        }

        #[test]
        fn the_smallest_of_areas_keeps_its_sign(
            quotients in proptest::collection::vec(1i64..5, 20..80),
            at in (-(1i64 << 49)..(1 << 49), -(1i64 << 49)..(1 << 49)),
        ) {
            // Convergents p/q of a continued fraction in turn span parallelograms of area 1, however
            // long they are (Hardy and Wright, theorem 150); their products have up to 100 bits.
            let (mut last, mut this) = ((1i64, 0i64), (quotients[0], 1i64));
            for q in &quotients[1..] {
                let next = (q * this.0 + last.0, q * this.1 + last.1);
                if next.0 > 1 << 50 {
                    break;
                }
                (last, this) = (this, next);
            }
            let moved = |v: (i64, i64)| (at.0 + v.0, at.1 + v.1);
            let corners = [moved(last), moved(this), at];
            let [a, b, c] = corners.map(|v| super::tests::at(v, 1.0));
            prop_assert_eq!(whole_sign(corners).abs(), 1);
            prop_assert_eq!(sign(orient(a, b, c)), whole_sign(corners));
            prop_assert_eq!(sign(orient(b, c, a)), whole_sign(corners));
            prop_assert_eq!(sign(orient(b, a, c)), -whole_sign(corners));
        }
    }

    #[test]
    fn plain_arithmetic_would_fail_where_this_does_not() {
        // The points near (0.5, 0.5) against the line y = x, as in figure 1 of Kettner et al.,
        // "Classroom examples of robustness problems" (2008): plain signs come out wrong there.
        let (b, c) = (Point::new(12.0, 12.0), Point::new(24.0, 24.0));
        let mut plain_failures = 0;
        for i in 0..64 {
            for j in 0..64 {
                let step = f64::EPSILON / 2.0;
                let a = Point::new(0.5 + f64::from(i) * step, 0.5 + f64::from(j) * step);
                let expected = sign(a.y - a.x);
                assert_eq!(sign(orient(a, b, c)), expected);
                let plain = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
                plain_failures += usize::from(sign(plain) != expected);
            }
        }
        assert!(plain_failures > 0);
    }

    #[test]
    fn huge_and_tiny_points_have_sides() {
        let huge = orient(
            Point::new(-1e308, 0.0),
            Point::new(1e308, 0.0),
            Point::new(0.0, 1e308),
        );
        assert!(huge > 0.0);
        let tiny = orient(
            Point::new(0.0, 0.0),
            Point::new(1e-200, 0.0),
            Point::new(0.0, 1e-200),
        );
        assert!(tiny > 0.0);
    }

    #[test]
    fn segments_meet_at_ends_and_on_one_line() {
        let s = |a: f64, b: f64, c: f64, d: f64| (Point::new(a, b), Point::new(c, d));
        assert!(segments_meet(s(0.0, 0.0, 2.0, 2.0), s(0.0, 2.0, 2.0, 0.0)));
        assert!(segments_meet(s(0.0, 0.0, 2.0, 0.0), s(1.0, 0.0, 1.0, 5.0)));
        assert!(segments_meet(s(0.0, 0.0, 2.0, 0.0), s(2.0, 0.0, 3.0, 0.0)));
        assert!(!segments_meet(s(0.0, 0.0, 2.0, 0.0), s(2.5, 0.0, 3.0, 0.0)));
        assert!(!segments_meet(s(0.0, 0.0, 2.0, 2.0), s(1.0, 0.0, 3.0, 2.0)));
        assert!(!segments_meet(s(0.0, 0.0, 2.0, 2.0), s(2.0, 0.0, 1.5, 1.0)));
    }
}
