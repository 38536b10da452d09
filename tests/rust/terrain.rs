//! The shape of the ground and the conditions of the day.
mod common;

use common::{rectangle, straight};
use proptest::prelude::*;
use wideberth::geometry::{HeightGrid, Point, Polygon, Vector};
use wideberth::hole::{
    Conditions, Contours, Dogleg, Firmness, Hole, HoleFault, Landform, Over, Patch, Sketch, Step,
    Surface, Terrain, TwoTier, Wind,
};
use wideberth::io::{asc, native};

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// A par 4 of 400 yards up the plan with a fairway and, 28 deep and 26 wide, a green.
fn sketched(contours: Contours) -> Hole {
    Hole::sketch(&Sketch {
        contours,
        ..Sketch::new(4, 400.0)
    })
    .expect("a valid sketch")
}

fn hilly() -> Contours {
    Contours {
        uphill_ft: 25.0,
        fairway_tilt_percent: 4.0,
        green_tilt_percent: (1.0, 2.0),
        two_tier_green: Some(TwoTier {
            step_ft: 2.0,
            ramp: 4.0,
            back: 3.0,
        }),
        survey_ft: None,
    }
}

/// Places all over a hole and beyond it, from a low-discrepancy sequence (the golden ratio and its square).
fn places(hole: &Hole, count: u32) -> impl Iterator<Item = Point> {
    let far = hole.length() + 300.0;
    (0..count).map(move |i| {
        let (u, v) = (f64::from(i) * 0.754_877_666, f64::from(i) * 0.569_840_291);
        at(300.0 * (u.fract() - 0.5), far * v.fract() - 150.0)
    })
}

/// Places within forty yards of the middle of the green, to each side.
fn near_green(hole: &Hole, count: u32) -> impl Iterator<Item = Point> {
    let middle = hole.middle_of_green();
    (0..count).map(move |i| {
        let (u, v) = (f64::from(i) * 0.754_877_666, f64::from(i) * 0.569_840_291);
        middle + Vector::new(u.fract() - 0.5, v.fract() - 0.5) * 80.0
    })
}

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

/// 25 ft over 400 yards and 4 % across: one plane, told in closed form.
#[test]
fn planes_are_reproduced() {
    let hole = sketched(Contours {
        green_tilt_percent: (0.0, 0.0),
        two_tier_green: None,
        ..hilly()
    });
    let terrain = hole.terrain();
    for p in places(&hole, 2000) {
        let height = 25.0 / 3.0 * p.y / 400.0 - 0.04 * p.x;
        assert!((terrain.height(p) - height).abs() < 1e-11, "{p}");
        assert!((terrain.exact_height(p) - height).abs() < 1e-12, "{p}");
        let slope = Vector::new(-0.04, 25.0 / 1200.0);
        assert!((terrain.slope(p) - slope).norm() < 1e-11, "{p}");
    }
    assert!(terrain.height(hole.tee()).abs() < 1e-12);
}

/// A green tilted 1 % to the right and 2 % from back to front on level ground: the plane holds all over the green.
#[test]
fn a_tilted_green_is_a_plane_on_the_green() {
    let hole = sketched(Contours {
        green_tilt_percent: (1.0, 2.0),
        ..Contours::default()
    });
    let green = &hole.green().outline;
    let mut asked = 0;
    for p in near_green(&hole, 20_000).filter(|&p| green.contains(p)) {
        let exact = -0.01 * p.x + 0.02 * (p.y - 400.0);
        assert!(
            (hole.terrain().exact_height(p) - exact).abs() < 1e-12,
            "{p}"
        );
        // A cell on the edge, and the fits of its slopes, see a little of the rim.
        let high = (hole.terrain().height(p) - exact).abs();
        let off = (hole.terrain().slope(p) - Vector::new(-0.01, 0.02)).norm();
        let inside = (green.nearest_edge_point(p) - p).norm() > 0.75;
        let most = if inside {
            (1e-11, 1e-11)
        } else {
            (3e-4, 0.004)
        };
        assert!(high < most.0 && off < most.1, "{p}: {high}, {off}");
        asked += 1;
    }
    assert!(asked > 1000);
    assert_eq!(hole.terrain().height(at(0.0, 300.0)), 0.0);
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
        if (p.y - 403.0).abs() < 1.0 {
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

fn survey(
    corner: Point,
    cell: f64,
    (rows, columns): (usize, usize),
    height_ft: impl Fn(Point) -> f64,
) -> HeightGrid {
    let cell = Vector::new(cell, cell);
    let heights: Vec<f64> = (0..rows)
        .flat_map(|r| (0..columns).map(move |c| (r, c)))
        .map(|(r, c)| height_ft(corner + Vector::new(cell.x * c as f64, cell.y * r as f64)))
        .collect();
    HeightGrid::new(corner, cell, columns, &heights).expect("a valid grid")
}

/// A surveyed dome: feet in, yards out, near the closed form.
#[test]
fn a_survey_is_followed() {
    let dome = |p: Point| 120.0 - 0.0004 * (p - at(10.0, 200.0)).norm_squared();
    let hole = straight(4, 400.0, vec![])
        .with_contours(&Contours {
            survey_ft: Some(survey(at(-160.0, -160.0), 1.0, (800, 330), dome)),
            ..Contours::default()
        })
        .unwrap();
    for p in places(&hole, 3000) {
        let exact = dome(p) / 3.0;
        assert!(
            (hole.terrain().height(p) - exact).abs() < 4.0 * 0.0008 / 3.0,
            "{p}"
        );
        let slope = (p - at(10.0, 200.0)) * (-0.0008 / 3.0);
        assert!((hole.terrain().slope(p) - slope).norm() < 3e-4, "{p}");
    }
}

/// The words of every fault of a landform on a straight par 4 of 400 yards with a bunker.
fn faults(landform: Landform) -> String {
    let bunker = rectangle(Surface::Bunker, (40.0, 60.0), (200.0, 220.0));
    let hole = straight(4, 400.0, vec![bunker]);
    hole.with_terrain(landform)
        .expect_err("should be refused")
        .to_string()
}

#[test]
fn a_survey_must_cover_the_hole() {
    let text = faults(Landform {
        survey_ft: Some(survey(at(-30.0, 10.0), 10.0, (41, 7), |_| 0.0)),
        ..Landform::default()
    });
    for words in [
        "the heights do not cover the tee: they end 10.0 yards short of it",
        "the heights do not cover the line of play: they end 10.0 yards",
        "the heights do not cover the bunker (feature 0): they end 30.0 yards",
        "the heights do not cover the green (feature 1): they end 5.0 yards",
    ] {
        assert!(text.contains(words), "{text}");
    }
    assert!(!text.contains("cover the pin"), "{text}");
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
        "rise_ft is NaN; it must be -720 to 720 feet (60 % from tee to green)",
        "fall_right_percent is 75; it must be -60 to 60 percent",
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

#[test]
fn a_ball_must_be_able_to_rest_at_the_pin() {
    let hole = sketched(Contours::default());
    let tiers = Contours {
        two_tier_green: Some(TwoTier {
            step_ft: 2.0,
            ramp: 4.0,
            back: 6.0,
        }),
        ..Contours::default()
    };
    let tiers = hole.with_contours(&tiers).unwrap();
    let fault = tiers.with_pin_at(6.0, 0.0).unwrap_err();
    assert!(
        matches!(fault.0[..], [HoleFault::SteepAtPin { percent, .. }] if (percent - 25.0).abs() < 1.0),
        "{fault}"
    );
    let back = tiers.with_pin_at(10.0, 2.0).unwrap();
    assert!((back.pin() - at(2.0, 410.0)).norm() < 1e-9);
    assert_eq!(back.terrain(), tiers.terrain());
    assert!((back.terrain().height(back.pin()) - 1.0 / 3.0).abs() < 1e-6);
}

#[test]
fn the_day_changes_and_the_map_stays() {
    let hole = sketched(hilly());
    let day = Conditions {
        wind: Wind::new(18.0, 0.0).unwrap(),
        firmness: Firmness::FIRM,
        green_speed: Some(11.0),
        ..Conditions::default()
    };
    let windy = hole.under(day).unwrap();
    assert_eq!((hole.green_speed(), windy.green_speed()), (9.0, 11.0));
    assert_eq!(windy.parts(), hole.parts());
    assert_ne!(windy, hole);
    assert_eq!(windy.under(Conditions::default()).unwrap(), hole);
    let other = windy.with_green_speed(7.0).unwrap();
    assert_eq!(
        (other.green_speed(), other.conditions().wind.mph()),
        (7.0, 18.0)
    );
    assert_eq!(other.terrain(), hole.terrain());
    let text = hole
        .under(Conditions {
            temperature_f: 300.0,
            ..day
        })
        .unwrap_err()
        .to_string();
    assert_eq!(
        text,
        "temperature_f is 300; it must be -40 to 130 degrees F"
    );
}

#[test]
fn a_hole_tells_its_ground_and_its_day() {
    let text = sketched(hilly())
        .under(Conditions {
            wind: Wind::new(18.0, -90.0).unwrap(),
            firmness: Firmness::LINKS_FIRM,
            ..Conditions::default()
        })
        .unwrap()
        .to_string();
    assert!(
        text.contains("ground: 25 ft uphill, falls 4.0 % to the right, 1 patch"),
        "{text}"
    );
    assert!(
        text.contains("day: wind 18 mph from 270 degrees, links-firm ground"),
        "{text}"
    );
}

/// A landform of random parts on the sketched hole; some are refused, and say so.
fn landform() -> impl Strategy<Value = Landform> {
    let patch = (
        0_usize..7,
        -6.0..6.0_f64,
        (-3.0..3.0_f64, -3.0..3.0_f64),
        0.9..90.0_f64,
        prop::option::of((-30.0..30.0_f64, 1.0..9.0_f64, -3.0..3.0_f64)),
        any::<bool>(),
    );
    let patch = patch.prop_map(|(feature, raise_ft, rise, blend, step, own)| {
        let ring = [(-30.0, 100.0), (17.3, 90.0), (25.0, 160.0), (3.0, 130.0)];
        let ring = ring.map(|(x, y)| at(x, y)).to_vec();
        let over = match Polygon::from_points(vec![ring]) {
            Ok(area) if own => Over::Area(area),
            _ => Over::Feature(feature),
        };
        Patch {
            raise_ft,
            rise_percent: Vector::new(rise.0, rise.1),
            blend,
            steps: step
                .map(|(x, ramp, height_ft)| Step {
                    foot: at(x, 395.0),
                    top: at(x + 0.3, 395.0 + ramp),
                    height_ft,
                })
                .into_iter()
                .collect(),
            ..Patch::over(over)
        }
    });
    let survey = (
        prop::collection::vec(-90.0..90.0_f64, 6 * 3),
        150.0..160.0_f64,
    )
        .prop_map(|(heights, cell)| {
            let cell = Vector::new(cell, cell / 1.1);
            HeightGrid::new(at(-170.0, -170.0), cell, 3, &heights).expect("a valid grid")
        });
    (
        prop::option::of(survey),
        -60.0..60.0_f64,
        -9.0..9.0_f64,
        prop::collection::vec(patch, 0..4),
    )
        .prop_map(
            |(survey_ft, rise_ft, fall_right_percent, patches)| Landform {
                survey_ft,
                rise_ft,
                fall_right_percent,
                patches,
            },
        )
}

fn conditions() -> impl Strategy<Value = Conditions> {
    (
        0.0..60.0_f64,
        -360.0..720.0_f64,
        0.5..2.0_f64,
        prop::option::of(4.0..16.0_f64),
        -40.0..130.0_f64,
        -1500.0..20_000.0_f64,
        prop_oneof![Just(4.25), 2.0..36.0_f64],
    )
        .prop_map(
            |(mph, from_deg, firmness, green_speed, temperature_f, altitude_ft, hole)| Conditions {
                wind: Wind::new(mph, from_deg).unwrap_or_default(),
                firmness: Firmness::new(firmness).unwrap_or_default(),
                green_speed,
                temperature_f,
                altitude_ft,
                hole_diameter_in: hole,
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// A hole comes back from its document as it was, its ground to the bit; and its ground is finite everywhere.
    #[test]
    fn documents_round_trip(landform in landform(), day in conditions()) {
        let plain = sketched(Contours::default());
        match plain.with_terrain(landform) {
            Ok(hole) => {
                let hole = hole.under(day).unwrap();
                let text = native::write(&hole);
                let back = native::read(&text).unwrap();
                prop_assert_eq!(&back, &hole);
                prop_assert_eq!(native::write(&back), text);
                for p in places(&hole, 200) {
                    let height = hole.terrain().height(p);
                    prop_assert!(height.is_finite());
                    prop_assert_eq!(back.terrain().height(p).to_bits(), height.to_bits());
                    prop_assert_eq!(back.terrain().slope(p), hole.terrain().slope(p));
                }
            }
            Err(faults) => prop_assert!(!faults.0.is_empty()),
        }
    }

    /// No text makes the reader of grids panic, and what it accepts has the heights it says.
    #[test]
    fn random_grids_never_panic(
        (columns, rows) in (0_usize..5, 0_usize..5),
        cell in prop_oneof![Just("1"), Just("0"), Just("-1"), Just("1e300"), Just("nan"), Just("0.5")],
        words in prop::collection::vec(prop_oneof![
            6 => (-100_i32..100).prop_map(|n| n.to_string()),
            1 => "[a-z0-9.+-]{1,6}",
            1 => Just("-9999".to_owned()),
            1 => Just("1e400".to_owned()),
        ], 0..20),
        noise in "\\PC{0,30}",
        cut in 0_usize..200,
    ) {
        let text = format!(
            "ncols {columns}\nNROWS {rows}\nxllcorner 0\nyllcorner 0\ncellsize {cell}\n{} {noise}",
            words.join(" ")
        );
        let place = asc::Place::Projected { unit: asc::Unit::Feet, origin: (0.0, 0.0) };
        let start: String = text.chars().take(cut).collect();
        for text in [&text, &start, &noise] {
            if let Ok(grid) = asc::read(text, asc::Unit::Feet, &place) {
                prop_assert_eq!((grid.rows(), grid.columns()), (rows, columns));
                prop_assert!(grid.heights().all(f64::is_finite));
            }
        }
    }
}

/// A hole with all there is to tell comes back as it was.
#[test]
fn a_rich_document_round_trips() {
    let hills = |p: Point| 30.0 + 0.1 * p.y + 3.0 * (p.x * 0.03).sin();
    let hole = sketched(Contours {
        survey_ft: Some(survey(at(-170.0, -170.1), 7.3, (110, 50), hills)),
        ..hilly()
    });
    let mut landform = hole.terrain().landform().unwrap().clone();
    let ring = |half: f64| [(-half, -half), (half, -half), (half, half), (-half, half)];
    let rings = [20.0, 5.1].map(|half| ring(half).map(|(x, y)| at(x, y + 200.0)).to_vec());
    landform.patches.push(Patch {
        raise_ft: 3.3,
        ..Patch::over(Over::Area(Polygon::from_points(rings.to_vec()).unwrap()))
    });
    let hole = hole.with_terrain(landform).unwrap();
    let hole = hole
        .under(Conditions {
            firmness: Firmness::SOFT,
            green_speed: Some(10.1),
            altitude_ft: 5280.0,
            ..Conditions::default()
        })
        .unwrap();
    let back = native::read(&native::write(&hole)).unwrap();
    assert_eq!(back, hole);
    assert_eq!(back.conditions(), hole.conditions());
    assert_ne!(back, sketched(hilly()));
}

/// One document with every kind of fault in its ground and its day.
#[test]
fn faults_of_a_document_name_the_way_to_them() {
    let good = native::write(&sketched(hilly()));
    let mut value: serde_json::Value = serde_json::from_str(&good).unwrap();
    value["terrain"]["slope"] = serde_json::json!(3);
    value["terrain"]["patches"][0]["outline"] = serde_json::json!([[0, 0], [1, 0], [1, 1]]);
    value["terrain"]["survey"] = serde_json::json!({"corner": [0, 0], "cell": [1, 1], "heights_ft": [[1, 2], [3, null], [4]]});
    value["conditions"] =
        serde_json::json!({"wind": {"mph": "strong"}, "firmness": "rock", "rain": true});
    let text = native::read(&value.to_string()).unwrap_err().to_string();
    for words in [
        "terrain.slope is not a known field",
        "terrain.patches[0] is",
        "terrain.survey.heights_ft[1] is [3,null]",
        "terrain.survey.heights_ft[2] is [4]",
        "conditions.wind.mph is \"strong\"",
        "conditions.wind.from_deg is missing",
        "conditions.firmness is \"rock\"",
        "conditions.rain is not a known field",
    ] {
        assert!(text.contains(words), "{words}\n--\n{text}");
    }
    let mut value: serde_json::Value = serde_json::from_str(&good).unwrap();
    value["terrain"]["fall_right_percent"] = serde_json::json!(99);
    value["conditions"] = serde_json::json!({
        "wind": {"mph": 300, "from_deg": 999}, "temperature_f": 200
    });
    let text = native::read(&value.to_string()).unwrap_err().to_string();
    for words in [
        "fall_right_percent is 99",
        "wind.mph is 300",
        "wind.from_deg is 999",
        "temperature_f is 200",
    ] {
        assert!(text.contains(words), "{words}\n--\n{text}");
    }
}
