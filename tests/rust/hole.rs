//! Holes made of parts, drawn from yardages and written to documents.
use proptest::prelude::*;
use wideberth::geometry::{Line, Point, Polygon};
use wideberth::hole::{
    Along, Bounds, Canopy, CrossingWater, Dogleg, Draft, DraftBoundary, DraftFeature, Feature,
    Hazard, Hole, HoleFault, HoleParts, Side, Sketch, Surface,
};
use wideberth::io::{geojson::Options, hole_from_text, native};

fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

fn box_around(x: f64, y: f64, half: f64) -> Vec<Point> {
    vec![
        at(x - half, y - half),
        at(x + half, y - half),
        at(x + half, y + half),
        at(x - half, y + half),
    ]
}

fn feature(source: usize, surface: Surface, ring: Vec<Point>) -> DraftFeature {
    DraftFeature {
        source,
        surface,
        rings: vec![ring],
        name: None,
        canopy: None,
    }
}

/// A plain par 3 of 150 yards.
fn plain() -> Draft {
    Draft {
        name: Some("Plain".to_owned()),
        par: Some(3),
        tee: Some(at(0.0, 0.0)),
        pin: Some(at(0.0, 150.0)),
        line: Some(vec![at(0.0, 0.0), at(0.0, 150.0)]),
        features: vec![feature(0, Surface::Green, box_around(0.0, 150.0, 12.0))],
        green_speed: Some(9.0),
        ..Draft::default()
    }
}

/// The faults of the plain hole after a change, as text.
fn faults(change: impl FnOnce(&mut Draft)) -> String {
    let mut draft = plain();
    change(&mut draft);
    draft
        .build(vec![])
        .expect_err("should be refused")
        .to_string()
}

#[test]
fn a_plain_hole_is_accepted() {
    let hole = plain().build(vec![]).unwrap();
    assert_eq!(
        (hole.par(), hole.name(), hole.length()),
        (3, "Plain", 150.0)
    );
    assert_eq!(hole.surface_at(hole.pin()), Surface::Green);
    assert_eq!(hole.surface_at(at(0.0, 100.0)), Surface::Rough);
    assert_eq!(hole.green_place(5.0, 3.0), at(3.0, 155.0));
}

/// One fault, its change and what its message must name.
type Case = (fn(&mut Draft), &'static [&'static str]);

const CASES: [Case; 29] = [
    (|d| d.par = Some(2), &["par is 2", "3 to 6"]),
    (|d| d.par = Some(700), &["par is 700", "3 to 6"]),
    (|d| d.par = None, &["par is missing"]),
    (
        |d| d.name = Some("  ".into()),
        &["name is \"  \"", "not empty"],
    ),
    (|d| d.number = Some(0), &["number is 0", "1 to 99"]),
    (
        |d| d.stroke_index = Some(19),
        &["stroke_index is 19", "1 to 18"],
    ),
    (
        |d| d.green_speed = Some(f64::NAN),
        &["green_speed_ft is NaN", "4 to 16"],
    ),
    (|d| d.green_speed = Some(17.0), &["green_speed_ft is 17"]),
    (
        |d| d.tee = Some(at(f64::NAN, 0.0)),
        &["tee is at (NaN, 0)", "finite"],
    ),
    (
        |d| d.pin = Some(at(0.0, f64::INFINITY)),
        &["pin is at (0, inf)"],
    ),
    (
        |d| d.line = Some(vec![at(0.0, 0.0)]),
        &["line of play", "at least 2"],
    ),
    (
        |d| d.line = Some(vec![at(0.0, 0.0), at(1e200, 0.0)]),
        &["line of play, vertex 1"],
    ),
    (
        |d| d.line = Some(vec![at(0.0, 0.0), at(0.0, 2641.0)]),
        &["2641", "units", "swapped"],
    ),
    (
        |d| d.line = Some(vec![at(0.0, 140.0), at(0.0, 150.0)]),
        &["10.0 yards long", "30 to 2640"],
    ),
    (
        |d| d.line = Some(vec![at(31.0, 0.0), at(0.0, 150.0)]),
        &["starts 31 yards from the tee", "30"],
    ),
    (
        |d| d.line = Some(vec![at(0.0, 0.0), at(0.0, 107.0)]),
        &["ends 31 yards from the green"],
    ),
    (|d| d.features.clear(), &["no green"]),
    (
        |d| d.pin = Some(at(15.0, 150.0)),
        &[
            "pin (15.0, 150.0) must lie on the green",
            "3.0 yards from green (feature 0)",
        ],
    ),
    (
        |d| {
            d.features
                .push(feature(7, Surface::Bunker, box_around(0.0, 150.0, 2.0)))
        },
        &[
            "pin (0.0, 150.0) must lie on the green",
            "covered by bunker (feature 7)",
        ],
    ),
    (
        |d| {
            d.features.push(feature(
                4,
                Surface::PenaltyYellow,
                box_around(0.0, 0.0, 2.0),
            ))
        },
        &["tee (0.0, 0.0)", "penalty_yellow (feature 4)"],
    ),
    (
        |d| {
            d.features
                .push(feature(5, Surface::OutOfBounds, box_around(0.0, 0.0, 2.0)))
        },
        &["tee (0.0, 0.0)", "out_of_bounds (feature 5)"],
    ),
    (
        |d| d.features[0].rings[0].swap(1, 2),
        &["green (feature 0)", "ring 0", "crosses itself"],
    ),
    (
        |d| {
            d.features.push(DraftFeature {
                name: Some("church".into()),
                ..feature(2, Surface::Bunker, vec![at(0.0, 0.0)])
            })
        },
        &["bunker \"church\" (feature 2)", "at least 3"],
    ),
    (
        |d| d.features[0].rings[0][2].x = f64::NAN,
        &["green (feature 0): ring 0, vertex 2", "NaN", "finite"],
    ),
    (
        |d| d.features[0].canopy = Some(Canopy::default()),
        &["green (feature 0): has a canopy", "only trees"],
    ),
    (
        |d| {
            d.features.push(trees(Canopy {
                height_ft: 0.0,
                openness: 0.5,
            }))
        },
        &["trees (feature 9)", "height is 0 ft", "300"],
    ),
    (
        |d| {
            d.features.push(trees(Canopy {
                height_ft: f64::NAN,
                openness: 0.5,
            }))
        },
        &["trees (feature 9)", "height is NaN ft"],
    ),
    (
        |d| {
            d.features.push(trees(Canopy {
                height_ft: 40.0,
                openness: 1.01,
            }))
        },
        &["trees (feature 9)", "openness is 1.01", "0 to 1"],
    ),
    (
        |d| d.boundaries.push(boundary(Side::Right)),
        &[
            "tee (0.0, 0.0) must not be out of bounds",
            "covered by out_of_bounds (feature 3)",
        ],
    ),
];

fn trees(canopy: Canopy) -> DraftFeature {
    DraftFeature {
        canopy: Some(canopy),
        ..feature(9, Surface::Trees, box_around(60.0, 60.0, 9.0))
    }
}

/// A boundary along x = -40 in the direction of play.
fn boundary(out: Side) -> DraftBoundary {
    DraftBoundary {
        source: 3,
        name: None,
        line: vec![at(-40.0, 0.0), at(-40.0, 90.0)],
        out: Some(out),
    }
}

#[test]
fn each_fault_names_the_field_the_value_and_the_place() {
    for (i, (change, words)) in CASES.iter().enumerate() {
        let text = faults(change);
        for word in *words {
            assert!(
                text.contains(word),
                "case {i}: {text:?} does not name {word:?}"
            );
        }
    }
}

#[test]
fn all_faults_are_told_at_once_and_no_more() {
    let text = faults(|d| {
        d.par = Some(9);
        d.green_speed = Some(2.0);
        d.features[0].rings[0].swap(1, 2);
        d.features.push(trees(Canopy {
            height_ft: 900.0,
            openness: -1.0,
        }));
        d.line = Some(vec![at(90.0, 0.0), at(0.0, 150.0)]);
    });
    // The green that crosses itself hides neither pin nor line of play: those are not told to be off it.
    assert_eq!(text.lines().count(), 6, "{text}");
    let text = faults(|d| {
        d.features = (0..65_001)
            .map(|i| feature(i, Surface::Green, box_around(0.0, 150.0, 12.0)))
            .collect()
    });
    assert_eq!(text, "there are 65001 features; at most 65000 are allowed");
}

/// A comb so fine that every look at the ground in it would look at thousands of teeth is refused with its place; one of some
/// teeth a yard is a hole. So are more vertices than can be prepared.
#[test]
fn outlines_too_fine_to_be_looked_at_are_refused() {
    let comb = |teeth: u32| {
        let yards = 100.0 / f64::from(teeth);
        let tooth = move |i: u32| {
            let x = 30.0 + f64::from(i) * yards;
            [at(x, 20.0), at(x + 0.5 * yards, 130.0)]
        };
        let mut ring: Vec<Point> = (0..teeth).flat_map(tooth).collect();
        ring.extend([at(131.0, 10.0), at(29.0, 10.0)]);
        ring
    };
    let drawn = |ring: Vec<Point>| {
        let mut draft = plain();
        draft.features.insert(0, feature(1, Surface::Trees, ring));
        draft.build(vec![])
    };
    assert!(drawn(comb(300)).is_ok());
    let refused = drawn(comb(8_000)).unwrap_err();
    assert!(matches!(
        refused.0[..],
        [HoleFault::TooDense { count, corner, side, most: 1_000 }]
            if count > 1_000 && side < 60.0 && corner.x > 0.0 && corner.x < 131.0
    ));
    let text = refused.to_string();
    for word in [
        "edges in a square of",
        "at most 1000 are allowed",
        "fewer vertices",
    ] {
        assert!(text.contains(word), "{text}");
    }
    let many = faults(|d| {
        let rings = (0..2_000).map(|i| {
            let turn = |k: u32| std::f64::consts::TAU * f64::from(k) / 80.0;
            let (x, y) = (30.0 + 5.0 * f64::from(i % 40), 3.0 * f64::from(i / 40));
            let ring = (0..80)
                .map(|k| at(x + turn(k).cos(), y + turn(k).sin()))
                .collect();
            feature(1 + i as usize, Surface::Bunker, ring)
        });
        d.features.extend(rings);
    });
    assert_eq!(
        many,
        "the features have 160004 vertices in all; at most 150000 are allowed"
    );
}

#[test]
fn parts_are_checked_like_drafts() {
    let parts = HoleParts {
        name: String::new(),
        number: None,
        par: 7,
        stroke_index: None,
        tee: at(0.0, 0.0),
        pin: at(40.0, 150.0),
        line: Line::new(vec![at(0.0, 0.0), at(0.0, 150.0)]).unwrap(),
        features: vec![Feature {
            surface: Surface::Green,
            outline: Polygon::from_points(vec![box_around(0.0, 150.0, 12.0)]).unwrap(),
            name: None,
            canopy: None,
        }],
        green_speed: 9.0,
    };
    let faults = Hole::new(parts.clone(), vec![]).unwrap_err();
    assert_eq!(faults.0.len(), 3);
    assert!(matches!(faults.0[2], HoleFault::PinOffGreen { distance, .. } if distance == 28.0));
    let good = HoleParts {
        name: "P".into(),
        par: 3,
        pin: at(0.0, 150.0),
        ..parts
    };
    let hole = Hole::new(good, vec![]).unwrap();
    assert!(hole.with_pin(at(0.0, 200.0)).is_err() && hole.with_green_speed(f64::NAN).is_err());
    assert_eq!(hole.with_pin(at(5.0, 155.0)).unwrap().pin(), at(5.0, 155.0));
}

#[test]
fn a_boundary_lies_over_everything() {
    let mut draft = plain();
    draft.boundaries.push(boundary(Side::Left));
    draft
        .features
        .push(feature(1, Surface::Bunker, box_around(-40.0, 60.0, 5.0)));
    let hole = draft.build(vec![]).unwrap();
    assert_eq!(hole.surface_at(at(-38.0, 60.0)), Surface::Bunker);
    assert_eq!(hole.surface_at(at(-42.0, 60.0)), Surface::OutOfBounds);
    assert_eq!(hole.surface_at(at(-42.0, -300.0)), Surface::OutOfBounds);
}

/// The sketch a coach would write for the hole 360 yards long with water on the right.
fn coach() -> Sketch {
    Sketch {
        fairway_width: Some(30.0),
        green_depth: 28.0,
        green_width: 24.0,
        water: vec![Hazard::new(215.0, 22.0)],
        out_of_bounds: Some(Bounds::Left),
        ..Sketch::new(4, 360.0)
    }
}

#[test]
fn a_sketch_is_what_it_says() {
    let hole = Hole::sketch(&coach()).unwrap();
    let surface = |along: f64, right: f64| hole.surface_at(hole.line().at(along, right));
    assert_eq!(
        (hole.length(), hole.par(), hole.pin()),
        (360.0, 4, at(0.0, 360.0))
    );
    assert_eq!(surface(0.0, 0.0), Surface::Tee);
    assert_eq!(surface(60.0, 0.0), Surface::Rough);
    for right in [-14.9, 0.0, 14.9] {
        assert_eq!(surface(200.0, right), Surface::Fairway);
    }
    assert_eq!(
        [surface(200.0, -15.1), surface(200.0, 18.9)],
        [Surface::FirstCut; 2]
    );
    assert_eq!(surface(200.0, -19.1), Surface::Rough);
    // The near edge of the water is 22 yards right; it is 40 long and 25 wide.
    assert_eq!(
        [surface(215.0, 21.9), surface(215.0, 22.1)],
        [Surface::Rough, Surface::PenaltyRed]
    );
    assert_eq!(
        [surface(215.0, 46.9), surface(215.0, 47.1)],
        [Surface::PenaltyRed, Surface::Rough]
    );
    assert_eq!(
        [surface(234.9, 34.5), surface(235.1, 34.5)],
        [Surface::PenaltyRed, Surface::Rough]
    );
    assert_eq!(
        [surface(215.0, -34.9), surface(215.0, -35.1)],
        [Surface::Rough, Surface::OutOfBounds]
    );
    assert_eq!(
        [surface(346.1, 0.0), surface(373.9, 0.0)],
        [Surface::Green; 2]
    );
    assert_eq!(
        [surface(345.9, 0.0), surface(375.4, 0.0)],
        [Surface::Fringe; 2]
    );
    assert_eq!(
        [surface(360.0, 11.9), surface(360.0, 12.1)],
        [Surface::Green, Surface::Fringe]
    );
    assert_eq!(surface(344.0, 0.0), Surface::Fairway);
}

#[test]
fn every_kind_of_sketched_hazard_lies_where_it_is_put() {
    let sketch = Sketch {
        dogleg: Some(Dogleg {
            at: 240.0,
            turn_deg: 40.0,
        }),
        bunkers: vec![
            Hazard::new(220.0, -16.0).sized(14.0, 8.0),
            Hazard::new(395.0, 0.0),
        ],
        crossings: vec![CrossingWater {
            at: 330.0,
            width: 12.0,
            name: Some("burn".into()),
        }],
        trees: vec![Hazard {
            canopy: Some(Canopy {
                height_ft: 60.0,
                openness: 0.3,
            }),
            ..Hazard::new(240.0, 30.0).sized(120.0, 25.0)
        }],
        out_of_bounds: Some(Bounds::Both),
        out_of_bounds_offset: Some(70.0),
        ..Sketch::new(4, 420.0)
    };
    let hole = Hole::sketch(&sketch).unwrap();
    let surface = |along: f64, right: f64| hole.surface_at(hole.line().at(along, right));
    assert_eq!(
        [surface(220.0, -16.1), surface(220.0, -23.9)],
        [Surface::Bunker; 2]
    );
    assert_eq!(
        [surface(395.0, 3.4), surface(395.0, -3.4)],
        [Surface::Bunker; 2]
    );
    assert_eq!(
        [surface(324.1, 50.0), surface(335.9, -50.0)],
        [Surface::PenaltyYellow; 2]
    );
    assert_eq!(
        [surface(200.0, 31.0), surface(290.0, 54.0)],
        [Surface::Trees; 2]
    );
    assert_eq!(
        [surface(100.0, 71.0), surface(400.0, -71.0)],
        [Surface::OutOfBounds; 2]
    );
    assert_eq!(surface(240.0, 0.0), Surface::Fairway);
    // The bend is 40 degrees to the right: the last leg runs along (sin 40, cos 40).
    let leg = hole.pin() - at(0.0, 240.0);
    assert!((leg.x / leg.norm() - 0.642_787_609_686_539_3).abs() < 1e-12);
    assert!((hole.length() - 420.0).abs() < 1e-9);
}

/// The green of a hole of 420 yards, 28 deep, begins at 406: 66 yards short of it is 340, around the bend or not.
#[test]
fn a_hazard_short_of_the_green_lies_where_that_many_yards_from_the_tee_do() {
    for dogleg in [
        None,
        Some(Dogleg {
            at: 240.0,
            turn_deg: 40.0,
        }),
    ] {
        let with = |along: Along| {
            let hazard = Hazard {
                along,
                ..Hazard::new(0.0, 12.0)
            };
            Hole::sketch(&Sketch {
                dogleg,
                bunkers: vec![hazard.clone()],
                trees: vec![Hazard {
                    right: -30.0,
                    ..hazard
                }],
                ..Sketch::new(4, 420.0)
            })
        };
        let told = with(Along::ShortOfGreen(66.0)).unwrap();
        assert_eq!(told, with(Along::FromTee(340.0)).unwrap());
        let bunker = told.line().at(340.0, 14.0);
        assert_eq!(told.surface_at(bunker), Surface::Bunker);
        let refused = |yards| with(Along::ShortOfGreen(yards)).unwrap_err().to_string();
        let said = refused(507.0);
        assert!(
            said.contains("bunkers[0].short_of_green is 507; it must be -164 to 506"),
            "{said}"
        );
        assert!(refused(f64::NAN).contains("trees[0].short_of_green is NaN"));
    }
}

#[test]
fn a_par_three_has_an_apron_and_no_fairway_from_the_tee() {
    let hole = Hole::sketch(&Sketch {
        first_cut_width: 0.0,
        ..Sketch::new(3, 165.0)
    })
    .unwrap();
    assert_eq!(hole.surface_at(at(0.0, 120.0)), Surface::Rough);
    assert_eq!(hole.surface_at(at(0.0, 140.0)), Surface::Fairway);
}

/// A faulty sketch and what its message must name.
type SketchCase = (fn(&mut Sketch), &'static [&'static str]);

const SKETCHES: [SketchCase; 15] = [
    (|s| s.par = 9, &["par is 9", "3 to 6"]),
    (
        |s| s.length = 20.0,
        &["length of a par 4 is 20", "150 to 700"],
    ),
    (|s| s.length = f64::NAN, &["length", "NaN"]),
    (
        |s| s.fairway_width = Some(-3.0),
        &["fairway_width is -3", "5 to 150"],
    ),
    (|s| s.green_depth = 0.0, &["green_depth is 0"]),
    (
        |s| s.green_speed = 40.0,
        &["green_speed_ft is 40", "4 to 16"],
    ),
    (|s| s.water[0].width = Some(0.0), &["water[0].width is 0"]),
    (
        |s| s.water[0].along = Along::FromTee(f64::INFINITY),
        &["water[0].along is inf"],
    ),
    (
        |s| s.water[0] = Hazard::new(360.0, 0.0),
        &["water[0] covers the pin"],
    ),
    (
        |s| s.bunkers = vec![Hazard::new(0.0, 0.0)],
        &["bunkers[0] covers the tee"],
    ),
    (
        |s| {
            s.bunkers = vec![Hazard {
                canopy: Some(Canopy::default()),
                ..Hazard::new(90.0, 9.0)
            }]
        },
        &["bunkers[0].canopy", "trees"],
    ),
    (
        |s| {
            s.dogleg = Some(Dogleg {
                at: 200.0,
                turn_deg: 170.0,
            })
        },
        &["dogleg.turn_deg is 170", "-100 to 100"],
    ),
    (
        |s| {
            s.dogleg = Some(Dogleg {
                at: 95.0,
                turn_deg: 40.0,
            })
        },
        &["dogleg.at is 95", "fairway"],
    ),
    (|s| s.fairway_to = Some(80.0), &["fairway_to is 80"]),
    (
        |s| (s.pin_back, s.pin_right) = (13.0, 11.0),
        &["pin", "must lie on the green"],
    ),
];

#[test]
fn a_faulty_sketch_names_the_field() {
    for (i, (change, words)) in SKETCHES.iter().enumerate() {
        let mut sketch = coach();
        change(&mut sketch);
        let text = Hole::sketch(&sketch)
            .expect_err("should be refused")
            .to_string();
        for word in *words {
            assert!(
                text.contains(word),
                "case {i}: {text:?} does not name {word:?}"
            );
        }
    }
    let mut sketch = coach();
    (sketch.par, sketch.green_depth, sketch.fairway_width) = (0, -1.0, Some(f64::NAN));
    assert_eq!(Hole::sketch(&sketch).unwrap_err().0.len(), 3);
}

prop_compose! {
    fn hazard()(along in 100.0..300.0_f64, right in 24.0..60.0_f64, left: bool, length in 5.0..60.0_f64, width in 3.0..30.0_f64) -> Hazard {
        Hazard::new(along, if left { -right } else { right }).sized(length, width)
    }
}

prop_compose! {
    /// Sketches a coach could mean: each of them must be accepted.
    fn sketch()(
        length in 340.0..480.0_f64,
        at in 160.0..260.0_f64,
        turn_deg in -75.0..75.0_f64,
        bent: bool,
        fairway_width in 15.0..45.0_f64,
        green_depth in 15.0..45.0_f64,
        green_width in 15.0..45.0_f64,
        cut in 0.0..8.0_f64,
        fringe in 0.0..4.0_f64,
        bunkers in prop::collection::vec(hazard(), 0..4),
        water in prop::collection::vec(hazard(), 0..3),
        trees in prop::collection::vec(hazard(), 0..3),
        bounds in prop::option::of(prop_oneof![Just(Bounds::Left), Just(Bounds::Right), Just(Bounds::Both)]),
        offset in 25.0..80.0_f64,
    ) -> Sketch {
        Sketch {
            dogleg: bent.then_some(Dogleg { at, turn_deg }),
            fairway_width: Some(fairway_width),
            green_depth,
            green_width,
            first_cut_width: cut,
            fringe_width: fringe,
            bunkers,
            water,
            trees,
            out_of_bounds: bounds,
            out_of_bounds_offset: bounds.map(|_| offset),
            number: Some(4),
            ..Sketch::new(4, length)
        }
    }
}

/// The same hole seen in a mirror.
fn mirrored(sketch: &Sketch) -> Sketch {
    let flip = |list: &[Hazard]| -> Vec<Hazard> {
        list.iter()
            .map(|h| Hazard {
                length: h.length,
                width: h.width,
                along: h.along,
                right: -h.right,
                ..Hazard::new(0.0, 0.0)
            })
            .collect()
    };
    Sketch {
        dogleg: sketch.dogleg.map(|d| Dogleg {
            turn_deg: -d.turn_deg,
            ..d
        }),
        bunkers: flip(&sketch.bunkers),
        water: flip(&sketch.water),
        trees: flip(&sketch.trees),
        out_of_bounds: sketch.out_of_bounds.map(|b| match b {
            Bounds::Left => Bounds::Right,
            Bounds::Right => Bounds::Left,
            Bounds::Both => Bounds::Both,
        }),
        ..sketch.clone()
    }
}

proptest! {
    #[test]
    fn a_document_gives_the_same_hole(sketch in sketch()) {
        let hole = Hole::sketch(&sketch);
        prop_assert!(hole.is_ok(), "{}", hole.unwrap_err());
        let hole = hole.unwrap();
        let text = native::write(&hole);
        prop_assert_eq!(&native::read(&text).unwrap(), &hole);
        prop_assert_eq!(&hole_from_text(&text, &Options::default()).unwrap(), &hole);
    }

    #[test]
    fn a_mirrored_sketch_is_the_mirrored_hole(sketch in sketch(), places in prop::collection::vec((-90.0..90.0_f64, -50.0..500.0_f64), 40)) {
        let (one, two) = (Hole::sketch(&sketch).unwrap(), Hole::sketch(&mirrored(&sketch)).unwrap());
        for (x, y) in places {
            // Rounding may differ within a billionth of a yard of an edge; no random place comes so close.
            prop_assert_eq!(one.surface_at(at(x, y)), two.surface_at(at(-x, y)), "at ({}, {})", x, y);
        }
    }
}
