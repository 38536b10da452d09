//! Where a path goes into a polygon and comes out of it.

use super::predicates::{boxes_meet, orient, same_side};
use super::{Crossing, MIN_SHARE, Point, Polygon, along, share_of, within_reach};

/// A crossing is where the path passes from outside to inside or the reverse.
///
/// - A touch at a vertex or along an edge that leads back to the side it came from is none.
/// - A path that runs along the edge between the two sides crosses once: where it first touches
///   when entering, where it last touches when leaving.
/// - The start and the end count as inside on the boundary, as in [`Polygon::contains`]: a path that
///   starts on the boundary and goes outside leaves at its start (or where it parts from the edge),
///   and one that comes from outside and ends on the boundary has entered there.
///
/// So the crossings alternate, and their number is odd where the polygon contains just one end.
/// A path of no length has none, nor has one with an end that is no finite number or out of
/// [`REACH`](super::REACH).
impl Polygon {
    /// Every crossing of the edge on the way from `a` to `b`, in order.
    pub fn crossings(&self, a: Point, b: Point) -> Vec<Crossing> {
        let placed = within_reach(a) && within_reach(b);
        if !placed || a == b || !boxes_meet((a, b), self.bounds()) {
            return Vec::new();
        }
        self.plain_crossings(a, b)
            .unwrap_or_else(|| self.careful_crossings(a, b))
    }

    /// The first crossing of the edge on the way from `a` to `b`.
    pub fn first_crossing(&self, a: Point, b: Point) -> Option<Crossing> {
        self.crossings(a, b).first().copied()
    }

    /// The last crossing of the edge on the way from `a` to `b`.
    pub fn last_crossing(&self, a: Point, b: Point) -> Option<Crossing> {
        self.crossings(a, b).last().copied()
    }

    /// The crossings of a path that meets no vertex and has no end on an edge, else None.
    fn plain_crossings(&self, a: Point, b: Point) -> Option<Vec<Crossing>> {
        let mut found = Vec::new();
        for (ring, edges) in self.rings().map(super::Ring::edges).enumerate() {
            for (u, v) in edges {
                if !boxes_meet((a, b), (u, v)) {
                    continue;
                }
                let (from, to) = match meet(a, b, u, v) {
                    Meeting::Apart => continue,
                    Meeting::Cross { from, to } => (from, to),
                    Meeting::Touch => return None,
                };
                let share = from / (from - to);
                // The region is to the left of the exterior and to the right of a hole's edge.
                let entering = (to > 0.0) == (ring == 0);
                found.push(Crossing {
                    share,
                    at: along(a, b, share),
                    entering,
                });
            }
        }
        found.sort_by(|c, d| c.share.total_cmp(&d.share));
        // Two crossings within a rounding of each other may sort the wrong way round.
        let alternate = found.windows(2).all(|w| w[0].entering != w[1].entering);
        alternate.then_some(found)
    }

    /// The crossings of any path: it is cut where it meets an edge, and each stretch that does not
    /// run along an edge is judged by its middle.
    fn careful_crossings(&self, a: Point, b: Point) -> Vec<Crossing> {
        let (cuts, runs) = self.cuts(a, b);
        let mut found = Vec::new();
        let mut cross = |share: f64, entering: bool| {
            found.push(Crossing {
                share,
                at: along(a, b, share),
                entering,
            });
        };
        let mut inside = self.contains(a);
        let mut touching_since = None;
        for w in cuts.windows(2) {
            let (from, to) = (w[0], w[1]);
            if runs.iter().any(|run| run.0 <= from && to <= run.1) {
                touching_since.get_or_insert(from);
                continue;
            }
            if to - from <= MIN_SHARE {
                continue;
            }
            let now = self.contains(along(a, b, f64::midpoint(from, to)));
            if now != inside {
                cross(
                    if now {
                        touching_since.unwrap_or(from)
                    } else {
                        from
                    },
                    now,
                );
                inside = now;
            }
            touching_since = None;
        }
        let end = self.contains(b);
        if end != inside {
            cross(
                if end {
                    touching_since.unwrap_or(1.0)
                } else {
                    1.0
                },
                end,
            );
        }
        found
    }

    /// The shares at which the path meets an edge, with 0 and 1, in order, and the stretches along edges.
    fn cuts(&self, a: Point, b: Point) -> (Vec<f64>, Vec<(f64, f64)>) {
        let (mut cuts, mut runs) = (vec![0.0, 1.0], Vec::new());
        for (u, v) in self.edges().filter(|e| boxes_meet((a, b), *e)) {
            let (su, sv) = (orient(a, b, u), orient(a, b, v));
            if su == 0.0 && sv == 0.0 {
                let (from, to) = (
                    share_of(a, b, u).clamp(0.0, 1.0),
                    share_of(a, b, v).clamp(0.0, 1.0),
                );
                runs.push((from.min(to), from.max(to)));
                cuts.extend([from, to]);
            } else if su == 0.0 || sv == 0.0 {
                let share = share_of(a, b, if su == 0.0 { u } else { v });
                cuts.extend((0.0..=1.0).contains(&share).then_some(share));
            } else if !same_side(su, sv) {
                let (from, to) = (orient(u, v, a), orient(u, v, b));
                if !same_side(from, to) {
                    cuts.push(from / (from - to));
                }
            }
        }
        cuts.sort_by(f64::total_cmp);
        cuts.dedup();
        (cuts, runs)
    }
}

/// How a path meets an edge whose box it shares.
enum Meeting {
    Apart,
    /// It passes through the inside of the edge: the signed areas of its ends with the edge.
    Cross {
        from: f64,
        to: f64,
    },
    /// A vertex lies on its line, or an end of it on the edge's line.
    Touch,
}

fn meet(a: Point, b: Point, u: Point, v: Point) -> Meeting {
    let (su, sv) = (orient(a, b, u), orient(a, b, v));
    if same_side(su, sv) {
        return Meeting::Apart;
    }
    let (from, to) = (orient(u, v, a), orient(u, v, b));
    if same_side(from, to) {
        return Meeting::Apart;
    }
    let touches = su == 0.0 || sv == 0.0 || from == 0.0 || to == 0.0;
    if touches {
        Meeting::Touch
    } else {
        Meeting::Cross { from, to }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn polygon(rings: &[&[(f64, f64)]]) -> Polygon {
        let points = |ring: &&[(f64, f64)]| ring.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        Polygon::from_points(rings.iter().map(points).collect()).unwrap()
    }

    /// (share, entering) of every crossing.
    fn told(p: &Polygon, a: (f64, f64), b: (f64, f64)) -> Vec<(f64, bool)> {
        let found = p.crossings(Point::new(a.0, a.1), Point::new(b.0, b.1));
        found.iter().map(|c| (c.share, c.entering)).collect()
    }

    const SQUARE: &[(f64, f64)] = &[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)];

    #[test]
    fn through_a_square_and_its_hole() {
        let p = polygon(&[SQUARE, &[(1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0)]]);
        let expected = [(0.25, true), (0.375, false), (0.625, true), (0.75, false)];
        assert_eq!(told(&p, (-2.0, 2.0), (6.0, 2.0)), expected);
        let first = p
            .first_crossing(Point::new(-2.0, 2.0), Point::new(6.0, 2.0))
            .unwrap();
        assert_eq!(first.at, Point::new(0.0, 2.0));
        let last = p
            .last_crossing(Point::new(-2.0, 2.0), Point::new(6.0, 2.0))
            .unwrap();
        assert_eq!(last.at, Point::new(4.0, 2.0));
        assert_eq!(told(&p, (0.5, 0.5), (0.5, 3.5)), []);
        assert_eq!(told(&p, (9.0, 0.5), (8.0, 3.5)), []);
    }

    #[test]
    fn grazes_are_no_crossings() {
        let diamond = polygon(&[&[(2.0, 0.0), (4.0, 2.0), (2.0, 4.0), (0.0, 2.0)]]);
        assert_eq!(told(&diamond, (-1.0, 4.0), (5.0, 4.0)), []);
        assert_eq!(
            told(&diamond, (-2.0, 2.0), (6.0, 2.0)),
            [(0.25, true), (0.75, false)]
        );
        let square = polygon(&[SQUARE]);
        assert_eq!(told(&square, (-1.0, 4.0), (5.0, 4.0)), []);
        // A notch seen from inside: the path touches its tip and stays inside.
        let notched = polygon(&[&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 2.0), (0.0, 4.0)]]);
        assert_eq!(told(&notched, (1.0, 2.0), (3.0, 2.0)), []);
    }

    #[test]
    fn along_an_edge_between_the_sides() {
        // A step: along y = 2 from x = 2 to 4 the path runs on the edge.
        let step = polygon(&[&[
            (0.0, 0.0),
            (4.0, 0.0),
            (4.0, 2.0),
            (2.0, 2.0),
            (2.0, 4.0),
            (0.0, 4.0),
        ]]);
        assert_eq!(told(&step, (-4.0, 2.0), (4.0, 2.0)), [(0.5, true)]);
        assert_eq!(
            told(&step, (-2.0, 2.0), (6.0, 2.0)),
            [(0.25, true), (0.75, false)]
        );
        assert_eq!(
            told(&step, (6.0, 2.0), (-2.0, 2.0)),
            [(0.25, true), (0.75, false)]
        );
        assert_eq!(told(&step, (6.0, 2.0), (2.0, 2.0)), [(0.5, true)]);
    }

    #[test]
    fn starts_and_ends_on_the_boundary() {
        let square = polygon(&[SQUARE]);
        // Out from an edge, in from an edge.
        assert_eq!(told(&square, (4.0, 2.0), (6.0, 2.0)), [(0.0, false)]);
        assert_eq!(told(&square, (4.0, 2.0), (2.0, 2.0)), []);
        // Across, from edge to edge.
        assert_eq!(told(&square, (4.0, 2.0), (0.0, 2.0)), []);
        // Ends on the edge from outside and from inside.
        assert_eq!(told(&square, (6.0, 2.0), (4.0, 2.0)), [(1.0, true)]);
        assert_eq!(told(&square, (2.0, 2.0), (4.0, 2.0)), []);
        // Along an edge all the way, and on past the corner.
        assert_eq!(told(&square, (1.0, 4.0), (3.0, 4.0)), []);
        assert_eq!(told(&square, (2.0, 4.0), (6.0, 4.0)), [(0.5, false)]);
        // From a corner outwards, and no path at all.
        assert_eq!(told(&square, (4.0, 4.0), (6.0, 6.0)), [(0.0, false)]);
        assert_eq!(told(&square, (4.0, 4.0), (4.0, 4.0)), []);
        assert_eq!(told(&square, (f64::NAN, 4.0), (4.0, 4.0)), []);
    }

    #[test]
    fn paths_from_far_away_cross() {
        let square = polygon(&[SQUARE]);
        assert_eq!(told(&square, (-1e9, 2.0), (1e9, 2.0)).len(), 2);
        assert_eq!(told(&square, (-1e300, 2.0), (1e300, 2.0)), []);
    }
}
