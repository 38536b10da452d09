//! Invariants of the plane geometry on random shapes, each told in two independent ways.
use std::f64::consts::TAU;
use std::ops::ControlFlow;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::TestCaseResult;
use wideberth::geometry::{LayerIndex, Line, Location, Piece, Point, Polygon, Ring, Vector};

/// A star-shaped outline: a radius at each of evenly spread directions.
fn star(centre: Point, radii: &[f64]) -> Vec<Point> {
    let step = TAU / radii.len() as f64;
    let place = |(i, r): (usize, &f64)| {
        let t = i as f64 * step;
        centre + Vector::new(t.cos(), t.sin()) * *r
    };
    radii.iter().enumerate().map(place).collect()
}

/// A star-shaped polygon with or without a hole of the same shape, off any lattice.
fn smooth_polygon() -> impl Strategy<Value = Polygon> {
    (
        -40.0..40.0,
        -40.0..40.0,
        vec(4.0..40.0, 3..30),
        any::<bool>(),
    )
        .prop_map(|(x, y, radii, holed)| {
            let centre = Point::new(x, y);
            let mut rings = vec![star(centre, &radii)];
            if holed {
                let inner: Vec<_> = radii.iter().map(|r| r * 0.6).collect();
                rings.push(star(centre, &inner));
            }
            Polygon::from_points(rings).unwrap()
        })
}

/// A polygon on the lattice of even whole numbers, so that midpoints of edges are exact.
fn lattice_polygon() -> impl Strategy<Value = Polygon> {
    let parts = (-10i32..10, -10i32..10, vec(1.0..12.0, 3..14));
    parts.prop_filter_map("rounding made it cross itself", |(x, y, radii)| {
        let snapped = star(Point::origin(), &radii).into_iter().map(|p| {
            Point::new(
                2.0 * (p.x.round() + f64::from(x)),
                2.0 * (p.y.round() + f64::from(y)),
            )
        });
        Polygon::from_points(vec![snapped.collect()]).ok()
    })
}

fn layers() -> impl Strategy<Value = Vec<Polygon>> {
    prop_oneof![vec(smooth_polygon(), 1..8), vec(lattice_polygon(), 1..8)]
}

/// Points anywhere, on the whole-number lattice and on the half-lattice.
fn points() -> impl Strategy<Value = Vec<Point>> {
    let free = (-90.0..90.0, -90.0..90.0).prop_map(|(x, y)| Point::new(x, y));
    let lattice =
        (-60i32..60, -60i32..60).prop_map(|(x, y)| Point::new(f64::from(x), f64::from(y)));
    vec(prop_oneof![free, lattice], 1..60)
}

/// A number of any kind, most of them awkward.
fn awkward() -> impl Strategy<Value = f64> {
    prop_oneof![
        any::<f64>(),
        (-3i32..3).prop_map(f64::from),
        prop_oneof![
            Just(f64::NAN),
            Just(f64::INFINITY),
            Just(-0.0),
            Just(1e-310),
            Just(1e9),
            Just(1e308)
        ],
    ]
}

fn awkward_points() -> impl Strategy<Value = Vec<Point>> {
    vec(
        (awkward(), awkward()).prop_map(|(x, y)| Point::new(x, y)),
        0..9,
    )
}

/// The topmost layer, asking each from the top.
fn linear_top(layers: &[Polygon], p: Point) -> Option<u16> {
    layers
        .iter()
        .rposition(|layer| layer.contains(p))
        .map(|i| u16::try_from(i).unwrap())
}

fn pieces(index: &LayerIndex, from: Point, to: Point) -> Vec<Piece> {
    let mut found = Vec::new();
    let flow = index.walk(from, to, |piece| {
        found.push(piece);
        ControlFlow::<()>::Continue(())
    });
    assert!(flow.is_continue());
    found
}

fn check_pieces(layers: &[Polygon], found: &[Piece], a: Point, b: Point) -> TestCaseResult {
    prop_assert_eq!(found[0].from, 0.0);
    prop_assert_eq!(found[found.len() - 1].to, 1.0);
    for w in found.windows(2) {
        prop_assert_eq!(w[0].to, w[1].from);
        prop_assert_ne!(w[0].layer, w[1].layer);
    }
    for piece in found {
        prop_assert!(piece.from < piece.to, "{piece:?}");
        // Several places in each piece, none of them within rounding of its ends, nor at a tip that the path just touches.
        for part in [0.010_1, 0.231_3, 0.498_7, 0.712_9, 0.989_3] {
            let p = a + (b - a) * (piece.from + part * (piece.to - piece.from));
            if piece.to - piece.from > 1e-9 {
                prop_assert_eq!(linear_top(layers, p), piece.layer, "{:?} at {}", piece, p);
            }
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn index_agrees_with_asking_every_layer(layers in layers(), points in points()) {
        let index = LayerIndex::new(&layers);
        let edges: Vec<_> = layers.iter().flat_map(Polygon::edges).collect();
        let on_edges = edges.iter().map(|(a, b)| a + (b - a) * 0.5);
        let beside = edges.iter().flat_map(|(a, _)| {
            [Point::new(a.x.next_up(), a.y), Point::new(a.x, a.y.next_down())]
        });
        let vertices = edges.iter().map(|e| e.0);
        for p in points.into_iter().chain(on_edges).chain(beside).chain(vertices) {
            prop_assert_eq!(index.top(p), linear_top(&layers, p), "at {}", p);
        }
    }

    #[test]
    fn pieces_cover_the_path_and_say_what_is_there(layers in layers(), points in points()) {
        let index = LayerIndex::new(&layers);
        for w in points.windows(2) {
            // Paths between lattice points run through vertices; slanted ones may run along an
            // edge, where a rounded point is on neither side for certain, so those are moved off.
            let (a, mut b) = (w[0], w[1]);
            if a.x != b.x && a.y != b.y {
                b += Vector::new(0.012_345_6, 0.000_789_1);
            }
            if a != b {
                check_pieces(&layers, &pieces(&index, a, b), a, b)?;
            }
        }
    }

    #[test]
    fn uniform_agrees_with_the_walk(layers in layers(), points in points()) {
        let index = LayerIndex::new(&layers);
        for p in points {
            for step in [Vector::new(0.5, 0.25), Vector::new(-2.0, 1.0), Vector::new(0.0, -7.0)] {
                if let Some(layer) = index.uniform(p, p + step) {
                    for i in 0..=8 {
                        let q = p + step * (f64::from(i) / 8.0);
                        prop_assert_eq!(linear_top(&layers, q), layer);
                    }
                }
            }
        }
    }

    #[test]
    fn crossings_alternate_and_fit_the_ends(
        polygon in prop_oneof![smooth_polygon(), lattice_polygon()],
        points in points(),
    ) {
        for w in points.windows(2) {
            let (a, b) = (w[0], w[1]);
            let found = polygon.crossings(a, b);
            let mut inside = polygon.contains(a);
            let mut share = 0.0;
            for crossing in &found {
                prop_assert_eq!(crossing.entering, !inside);
                prop_assert!(share <= crossing.share && crossing.share <= 1.0);
                let near = polygon.nearest_edge_point(crossing.at);
                prop_assert!((near - crossing.at).norm() < 1e-9);
                (inside, share) = (crossing.entering, crossing.share);
            }
            prop_assert_eq!(inside, a != b && polygon.contains(b) || a == b && polygon.contains(a));
            prop_assert_eq!(polygon.first_crossing(a, b), found.first().copied());
            prop_assert_eq!(polygon.last_crossing(a, b), found.last().copied());
        }
    }

    #[test]
    fn crossings_are_where_the_pieces_change(polygon in smooth_polygon(), points in points()) {
        let index = LayerIndex::new(std::slice::from_ref(&polygon));
        for w in points.windows(2).filter(|w| w[0] != w[1]) {
            let changes: Vec<f64> = pieces(&index, w[0], w[1]).iter().skip(1).map(|p| p.from).collect();
            let shares: Vec<f64> = polygon.crossings(w[0], w[1]).iter().map(|c| c.share).collect();
            prop_assert_eq!(changes.len(), shares.len());
            prop_assert!(changes.iter().zip(&shares).all(|(c, s)| (c - s).abs() < 1e-9));
        }
    }

    #[test]
    fn nearest_edge_point_is_the_nearest(polygon in smooth_polygon(), points in points()) {
        for p in points {
            let nearest = polygon.nearest_edge_point(p);
            let distance = (nearest - p).norm();
            let mut sampled = f64::INFINITY;
            let mut gap = 0.0_f64;
            for (a, b) in polygon.edges() {
                gap = gap.max((b - a).norm() / 100.0);
                for i in 0..=100 {
                    sampled = sampled.min((a + (b - a) * (f64::from(i) / 100.0) - p).norm());
                }
            }
            prop_assert!(distance <= sampled + 1e-9 && sampled <= distance + gap);
        }
    }

    #[test]
    fn moving_a_polygon_moves_its_centre_and_keeps_its_area(
        polygon in smooth_polygon(),
        (x, y) in (-1e5..1e5, -1e5..1e5),
    ) {
        let by = Vector::new(x, y);
        let rings = polygon.rings().map(|r| r.vertices().iter().map(|p| p + by).collect());
        let moved = Polygon::from_points(rings.collect()).unwrap();
        prop_assert!((moved.area() / polygon.area() - 1.0).abs() < 1e-8);
        prop_assert!((moved.centroid() - polygon.centroid() - by).norm() < 1e-6);
    }

    #[test]
    fn area_and_centre_agree_with_sampling(polygon in smooth_polygon()) {
        // A lattice of 200 by 200 over the box: the error is about a cell per edge cell.
        let (low, high) = polygon.bounds();
        let cell = (high - low) / 200.0;
        let (mut count, mut sum) = (0.0, Vector::zeros());
        for i in 0..200 {
            for j in 0..200 {
                let p = low + Vector::new((f64::from(i) + 0.5) * cell.x, (f64::from(j) + 0.5) * cell.y);
                if polygon.contains(p) {
                    count += 1.0;
                    sum += p.coords;
                }
            }
        }
        let length: f64 = polygon.edges().map(|(a, b)| (b - a).norm()).sum();
        let bound = length * cell.norm();
        prop_assert!((count * cell.x * cell.y - polygon.area()).abs() < bound);
        let size = (high - low).norm();
        prop_assert!((sum / count - polygon.centroid().coords).norm() < 2.0 * size * bound / polygon.area());
    }

    #[test]
    fn winding_and_closing_make_no_difference(radii in vec(4.0..40.0, 3..30)) {
        let open = star(Point::new(3.0, 4.0), &radii);
        let ring = Ring::new(open.clone()).unwrap();
        let closed: Vec<_> = open.iter().chain(&open[..1]).copied().collect();
        prop_assert_eq!(&Ring::new(closed.clone()).unwrap(), &ring);
        prop_assert_eq!(&Ring::new(closed.into_iter().rev().collect()).unwrap(), &ring);
        prop_assert_eq!(ring.vertices(), &open[..]);
        prop_assert!(ring.area() > 0.0);
    }

    #[test]
    fn faults_are_those_of_a_slow_check(points in vec((0i32..6, 0i32..6), 3..8)) {
        // A ring on a small lattice is sound exactly where no two edges share a point that is not
        // the vertex between them; here told in whole numbers, pair by pair.
        let sound = sound_in_whole_numbers(&points);
        let ring = points.iter().map(|(x, y)| Point::new(f64::from(*x), f64::from(*y))).collect();
        let made = Ring::new(ring);
        prop_assert_eq!(made.is_ok(), sound, "{:?}", made);
    }

    #[test]
    fn garbage_is_refused_without_panic(
        rings in vec(awkward_points(), 0..4),
        paths in awkward_points(),
    ) {
        for ring in &rings {
            if let Err(faults) = Ring::new(ring.clone()) {
                prop_assert!(!faults.is_empty());
            }
            if let Ok(line) = Line::new(ring.clone()) {
                prop_assert!(line.length().is_finite());
            }
        }
        if let Ok(polygon) = Polygon::from_points(rings) {
            prop_assert!(polygon.area() > 0.0 && polygon.area().is_finite());
            prop_assert!(polygon.centroid().coords.iter().all(|c| c.is_finite()));
            let index = LayerIndex::new(std::slice::from_ref(&polygon));
            for w in paths.windows(2) {
                prop_assert_eq!(index.top(w[0]).is_some(), polygon.contains(w[0]));
                prop_assert!(!pieces(&index, w[0], w[1]).is_empty());
                let crossings = polygon.crossings(w[0], w[1]);
                prop_assert!(crossings.iter().all(|c| (0.0..=1.0).contains(&c.share)));
            }
        }
    }

    #[test]
    fn stations_lead_back(radii in vec(20.0..60.0, 2..6), (along, right) in (-30.0..400.0, -3.0..3.0)) {
        // A gently bending line, and places near it.
        let mut at = Point::origin();
        let mut vertices = vec![at];
        for (i, r) in radii.iter().enumerate() {
            let t = 0.05 * i as f64;
            at += Vector::new(t.sin(), t.cos()) * *r;
            vertices.push(at);
        }
        let line = Line::new(vertices).unwrap();
        let p = line.at(along, right);
        let station = line.station(p);
        let distance = (line.at(station.along, 0.0) - p).norm();
        prop_assert!((distance - station.right.abs()).abs() < 1e-9);
        // Nearer to the line than the way it was told, or just so.
        prop_assert!(station.right.abs() <= right.abs() + 1e-9);
        let bend = line.vertices()[1..line.vertices().len() - 1]
            .iter()
            .any(|v| (v - p).norm() < right.abs() + 1.0);
        if !bend {
            prop_assert!((station.along - along).abs() < 1e-9 && (station.right - right).abs() < 1e-9);
        }
    }
}

/// Whether a closed list of lattice points is a simple ring with area, in whole numbers.
fn sound_in_whole_numbers(points: &[(i32, i32)]) -> bool {
    let mut p = points.to_vec();
    if p.len() > 1 && p.first() == p.last() {
        p.pop();
    }
    let n = p.len();
    let turn = |a: (i32, i32), b: (i32, i32), c: (i32, i32)| {
        ((b.0 - a.0) * (c.1 - a.1) - (b.1 - a.1) * (c.0 - a.0)).signum()
    };
    let on = |a: (i32, i32), b: (i32, i32), q: (i32, i32)| {
        turn(a, b, q) == 0
            && (a.0.min(b.0)..=a.0.max(b.0)).contains(&q.0)
            && (a.1.min(b.1)..=a.1.max(b.1)).contains(&q.1)
    };
    for i in 0..n {
        for j in 0..i {
            if p[i] == p[j] {
                return false;
            }
        }
    }
    for i in 0..n {
        let (a, b) = (p[i], p[(i + 1) % n]);
        for (k, q) in p.iter().enumerate() {
            if k != i && k != (i + 1) % n && on(a, b, *q) {
                return false;
            }
        }
        for j in 0..i {
            let (c, d) = (p[j], p[(j + 1) % n]);
            let proper = turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
            if proper {
                return false;
            }
        }
    }
    n >= 3
}

/// A flower of 5,000 vertices and a hole like it.
fn flower() -> Polygon {
    let radii: Vec<f64> = (0..5000)
        .map(|i| 200.0 + 40.0 * (9.0 * TAU * f64::from(i) / 5000.0).cos())
        .collect();
    let inner: Vec<f64> = radii.iter().map(|r| r - 60.0).collect();
    let centre = Point::new(250.0, 300.0);
    Polygon::from_points(vec![star(centre, &radii), star(centre, &inner)]).unwrap()
}

#[test]
fn a_ring_of_five_thousand_vertices() {
    let flower = flower();
    // r = R + 40 cos(9 t) encloses pi (R^2 + 40^2 / 2); the polygon is inscribed.
    let exact = std::f64::consts::PI * (200.0 * 200.0 - 140.0 * 140.0);
    assert!((flower.area() / exact - 1.0).abs() < 1e-4);
    let layers = [flower];
    let index = LayerIndex::new(&layers);
    let mut walked = 0;
    for i in 0..2000 {
        // Places that fill the box evenly: multiples of the golden ratio and of the root of 2.
        let i = f64::from(i);
        let p = Point::new(
            500.0 * (i * 0.618_034).fract(),
            600.0 * (i * 0.414_214).fract(),
        );
        assert_eq!(index.top(p), linear_top(&layers, p));
        let q = Point::new(600.0 - p.y, p.x);
        if i < 200.0 {
            let found = pieces(&index, p, q);
            check_pieces(&layers, &found, p, q).unwrap();
            walked += found.len();
        }
    }
    assert!(walked > 600, "{walked}");
    for v in layers[0].exterior().vertices() {
        assert_eq!(layers[0].locate(*v), Location::Boundary);
        assert_eq!(index.top(*v), Some(0));
    }
}

#[test]
fn a_map_far_from_the_origin_answers_the_same() {
    let radii: Vec<f64> = (0..40).map(|i| 30.0 + f64::from(i * 7 % 11)).collect();
    let layers = [
        Polygon::from_points(vec![star(Point::new(4e8, -7e8), &radii)]).unwrap(),
        Polygon::from_points(vec![star(Point::new(4e8 + 20.0, -7e8), &radii)]).unwrap(),
    ];
    let index = LayerIndex::new(&layers);
    let mut seen = [0; 3];
    for i in 0..60 {
        for j in 0..50 {
            let p = Point::new(
                4e8 - 45.0 + 2.0 * f64::from(i),
                -7e8 - 45.0 + 2.0 * f64::from(j),
            );
            let top = linear_top(&layers, p);
            assert_eq!(index.top(p), top);
            seen[top.map_or(2, usize::from)] += 1;
        }
    }
    assert!(seen.iter().all(|n| *n > 100), "{seen:?}");
}
