//! The shape of the ground: planes, patches and grids against closed forms and the exact sum.
use crate::common;

use common::terrain::{at, faults, hilly, near_green, places, sketched, survey};
use common::{rectangle, straight};
use wideberth::geometry::{Point, Polygon, Vector};
use wideberth::hole::{
    Contours, Dogleg, Hole, Landform, Over, Patch, Sketch, Step, Surface, Terrain,
};

/// The gradient of the exact sum by central differences.
fn exact_slope(terrain: &Terrain, p: Point) -> Vector {
    let h = 1e-4;
    let along = |d: Vector| (terrain.exact_height(p + d) - terrain.exact_height(p - d)) / (2.0 * h);
    Vector::new(along(Vector::new(h, 0.0)), along(Vector::new(0.0, h)))
}

#[test]
fn flat_ground_is_flat() {
    let hole = sketched(Contours::default());
    assert!(hole.terrain().is_flat());
    for p in places(&hole, 100) {
        assert_eq!(hole.terrain().height(p), 0.0);
        assert_eq!(hole.terrain().slope(p), Vector::zeros());
    }
}

/// True where the rim of a green of usual size, eight yards, may reach: it ends for good two rims outside the box.
fn near_its_green(hole: &Hole, p: Point) -> bool {
    let (low, high) = hole.green().outline.bounds();
    let outside = (low - p).sup(&(p - high));
    // And a coarse cell, whose slope is fitted to its neighbours.
    outside.max() < 16.0 + 4.0
}

/// 25 ft over 400 yards and 4 % across: one plane, told in closed form, all but the green and its rim.
#[test]
fn planes_are_reproduced() {
    let hole = sketched(Contours {
        green_tilt_percent: None,
        two_tier_green: None,
        ..hilly()
    });
    let terrain = hole.terrain();
    for p in places(&hole, 2000).filter(|&p| !near_its_green(&hole, p)) {
        let height = 25.0 / 3.0 * p.y / 400.0 - 0.04 * p.x;
        assert!((terrain.height(p) - height).abs() < 1e-11, "{p}");
        assert!((terrain.exact_height(p) - height).abs() < 1e-12, "{p}");
        let slope = Vector::new(-0.04, 25.0 / 1200.0);
        assert!((terrain.slope(p) - slope).norm() < 1e-11, "{p}");
    }
    assert!(terrain.height(hole.tee()).abs() < 1e-12);
}

/// Where level patches overlap the planes are taken out once.
#[test]
fn planes_are_taken_out_once() {
    let area = |y: (f64, f64)| rectangle(Surface::Fairway, (-20.0, 20.0), y).outline;
    let level = |y| Patch {
        level: true,
        blend: 20.0,
        ..Patch::over(Over::Area(area(y)))
    };
    let hole = straight(4, 400.0, vec![]).with_terrain(Landform {
        fall_right_percent: 10.0,
        patches: vec![level((180.0, 220.0)), level((200.0, 240.0))],
        ..Landform::default()
    });
    let hole = hole.unwrap();
    for (y, tilt) in [(190.0, 0.0), (210.0, 0.0), (230.0, 0.0), (300.0, -0.1)] {
        let slope = hole.terrain().slope(at(3.0, y));
        assert!(
            (slope - Vector::new(tilt, 0.0)).norm() < 1e-9,
            "{y}: {slope}"
        );
    }
}

/// The errors that [`Terrain`] states, measured against the exact sum.
#[test]
fn grids_are_as_near_the_sum_as_stated() {
    let hole = sketched(hilly());
    let terrain = hole.terrain();
    let green = &hole.green().outline;
    let (mut height, mut slope, mut count) = (0.0_f64, 0.0_f64, 0);
    let (mut on_ramp, mut around) = (0.0_f64, 0.0_f64);
    for p in near_green(&hole, 20_000) {
        let off = (terrain.height(p) - terrain.exact_height(p)).abs();
        let tilt = (terrain.slope(p) - exact_slope(terrain, p)).norm();
        if !green.contains(p) {
            around = around.max(off);
            continue;
        }
        count += 1;
        height = height.max(off);
        slope = slope.max(tilt);
        // Cells on the edge, and the fits of their slopes, see a little of the rim.
        let inside = (green.nearest_edge_point(p) - p).norm() > 0.75;
        if inside && (p.y - 403.0).abs() < 1.0 {
            on_ramp = on_ramp.max(tilt);
        }
    }
    println!(
        "{count} places: {height:.5} yd, {slope:.5}; on the ramp {on_ramp:.5}; around {around:.5} yd"
    );
    assert!(count > 1500 && height < 0.0025 && slope < 0.02 && on_ramp < 0.004 && around < 0.005);
}

/// No jump of height or slope along lines across the rims, the seams of the grids and the bend.
#[test]
fn the_ground_has_no_cliffs() {
    let hole = Hole::sketch(&Sketch {
        dogleg: Some(Dogleg {
            at: 220.0,
            turn_deg: 60.0,
        }),
        contours: hilly(),
        ..Sketch::new(4, 400.0)
    })
    .unwrap();
    let terrain = hole.terrain();
    let middle = hole.middle_of_green();
    let step = 1e-3;
    for turn in 0..16 {
        let (sin, cos) = (f64::from(turn) * 0.39 + 0.1).sin_cos();
        let ahead = Vector::new(sin, cos);
        for start in [middle, hole.line().at(220.0, 0.0)] {
            let mut p = start;
            for _ in 0..60_000 {
                let q = p + ahead * step;
                let rise = (terrain.height(q) - terrain.height(p)).abs();
                assert!(rise < 0.6 * step, "a cliff of {rise} at {p}");
                let sum = (terrain.exact_height(q) - terrain.exact_height(p)).abs();
                assert!(sum < 0.6 * step, "a cliff of {sum} in the sum at {p}");
                p = q;
            }
        }
    }
}

/// Patches are C1: the gradient of the exact sum is continuous across the outline, the end of the rim, inner corners and the
/// places where the nearest edge changes. Differences of the gradient over ever smaller steps shrink with the step.
#[test]
fn patches_blend_with_a_continuous_slope() {
    let ring = [
        (-20.0, 180.0),
        (20.0, 180.0),
        (20.0, 220.0),
        (4.0, 220.0),
        (4.0, 195.0),
        (-6.0, 195.0),
        (-6.0, 220.0),
        (-20.0, 220.0),
    ];
    let area = Polygon::from_points(vec![ring.map(|(x, y)| at(x, y)).to_vec()]).unwrap();
    let patch = Patch {
        raise_ft: 4.0,
        rise_percent: Vector::new(3.0, -2.0),
        blend: 12.0,
        ..Patch::over(Over::Area(area))
    };
    let hole = straight(4, 400.0, vec![]).with_terrain(Landform {
        patches: vec![patch],
        ..Landform::default()
    });
    let hole = hole.unwrap();
    let gradient = |p: Point, h: f64| {
        let d = |v: Vector| {
            (hole.terrain().exact_height(p + v) - hole.terrain().exact_height(p - v)) / (2.0 * h)
        };
        Vector::new(d(Vector::new(h, 0.0)), d(Vector::new(0.0, h)))
    };
    let mut worst = 0.0_f64;
    for i in 0..240 {
        for j in 0..240 {
            let p = at(-40.0 + f64::from(i) / 3.0, 160.0 + f64::from(j) / 3.0);
            let jump = |h: f64| (gradient(p + Vector::new(h, h) * 3.0, h) - gradient(p, h)).norm();
            // A kink of the height would leave the same jump at every step.
            assert!(jump(1e-3) < 0.01, "{p}: {}", jump(1e-3));
            worst = worst.max(jump(1e-3));
        }
    }
    assert!(worst > 1e-5, "nothing was crossed");
    assert_eq!(hole.terrain().height(at(0.0, 100.0)), 0.0);
    assert!((hole.terrain().exact_height(at(-13.0, 200.0)) - 4.0 / 3.0).abs() < 0.6);
}

/// Each leg of a dogleg falls to its own right by the given percent, and the line itself keeps level.
#[test]
fn the_fairway_falls_across_each_leg() {
    let hole = Hole::sketch(&Sketch {
        dogleg: Some(Dogleg {
            at: 220.0,
            turn_deg: -70.0,
        }),
        contours: Contours {
            fairway_tilt_percent: 5.0,
            ..Contours::default()
        },
        ..Sketch::new(4, 420.0)
    })
    .unwrap();
    for along in [20.0, 100.0, 180.0, 260.0, 400.0] {
        let p = hole.line().at(along, 0.0);
        assert!(hole.terrain().exact_height(p).abs() < 1e-9, "{along}");
        for right in [-15.0, 15.0] {
            let q = hole.line().at(along, right);
            let exact = -0.05 * right;
            assert!(
                (hole.terrain().exact_height(q) - exact).abs() < 1e-9,
                "{along}, {right}"
            );
            assert!(
                (hole.terrain().height(q) - exact).abs() < 1e-9,
                "{along}, {right}"
            );
        }
    }
}

#[test]
fn absurd_ground_is_refused_all_at_once() {
    let over = |feature: usize| Patch::over(Over::Feature(feature));
    let text = faults(Landform {
        survey_ft: Some(survey(at(-160.0, -160.0), 10.0, (90, 40), |p| {
            if p.x > 0.0 { 100.0 } else { -9999.0 }
        })),
        rise_ft: f64::NAN,
        fall_right_percent: 75.0,
        ordinary_greens: false,
        patches: vec![
            Patch {
                rise_percent: Vector::new(12.0, 12.0),
                ..over(1)
            },
            over(7),
            Patch {
                raise_ft: 30.0,
                ..over(0)
            },
            Patch {
                blend: 0.0,
                steps: vec![Step {
                    foot: at(50.0, 208.0),
                    top: at(50.0, 212.0),
                    height_ft: 9.0,
                }],
                ..over(0)
            },
        ],
    });
    for words in [
        "rise_ft (uphill_ft) is NaN; it must be -720 to 720 feet (60 % from tee to green)",
        "fall_right_percent (fairway_tilt_percent) is 75; it must be -60 to 60 percent",
        "patches[0].rise_percent is (12, 12); it must be at most 15 percent steep, for a green",
        "patches[1].feature is 7; it must be the place of a feature in the list, 0 to 1",
        "patches[2].blend is 8 yards: its rim of 30.0 ft would be 188 % steep; it must be at least 25 yards",
        "patches[3].blend is 0; it must be 1 to 100 yards",
        "patches[3].steps[0].height_ft is 9; it must be -4.8 to 4.8 feet over a ramp of 4.0 yards",
        "height at row 0, column 0 is -9999; it must be -2000 to 20000 feet",
        "difference of the highest and lowest height is 10099 feet; it must be at most 3000 feet",
    ] {
        assert!(text.contains(words), "{words}\n--\n{text}");
    }
}
