//! Surveyed heights, and the ground and the day in documents.
use crate::common;

use common::straight;
use common::terrain::{at, faults, hilly, places, sketched, survey};
use proptest::prelude::*;
use wideberth::geometry::{HeightGrid, Point, Polygon, Vector};
use wideberth::hole::{Conditions, Contours, Firmness, Landform, Over, Patch, Step, Wind};
use wideberth::io::survey::{Place, Unit};
use wideberth::io::{asc, native};

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

/// A landform of random parts on the sketched hole; some are refused, and say so.
fn landform() -> impl Strategy<Value = Landform> {
    let patch = (
        0_usize..7,
        -6.0..6.0_f64,
        (-3.0..3.0_f64, -3.0..3.0_f64),
        0.9..90.0_f64,
        prop::option::of((-30.0..30.0_f64, 1.0..9.0_f64, -3.0..3.0_f64)),
        any::<(bool, bool)>(),
    );
    let patch = patch.prop_map(|(feature, raise_ft, rise, blend, step, (own, level))| {
        let ring = [(-30.0, 100.0), (17.3, 90.0), (25.0, 160.0), (3.0, 130.0)];
        let ring = ring.map(|(x, y)| at(x, y)).to_vec();
        let over = match Polygon::from_points(vec![ring]) {
            Ok(area) if own => Over::Area(area),
            _ => Over::Feature(feature),
        };
        Patch {
            level,
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
        any::<bool>(),
    )
        .prop_map(
            |(survey_ft, rise_ft, fall_right_percent, patches, ordinary_greens)| Landform {
                survey_ft,
                rise_ft,
                fall_right_percent,
                patches,
                ordinary_greens,
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
    #![proptest_config(ProptestConfig::with_cases(24))]

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
        let place = Place::Projected { unit: Unit::Feet, origin: (0.0, 0.0) };
        let start: String = text.chars().take(cut).collect();
        for text in [&text, &start, &noise] {
            if let Ok(grid) = asc::read(text, Unit::Feet, &place) {
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
    value["terrain"]["ordinary_greens"] = serde_json::json!("yes");
    value["terrain"]["patches"][0]["level"] = serde_json::json!(1);
    value["terrain"]["patches"][0]["outline"] = serde_json::json!([[0, 0], [1, 0], [1, 1]]);
    value["terrain"]["survey"] = serde_json::json!({"corner": [0, 0], "cell": [1, 1], "heights_ft": [[1, 2], [3, null], [4]]});
    value["conditions"] =
        serde_json::json!({"wind": {"mph": "strong"}, "firmness": "rock", "rain": true});
    let text = native::read(&value.to_string()).unwrap_err().to_string();
    for words in [
        "terrain.slope is not a known field",
        "terrain.ordinary_greens is \"yes\"; it must be true or false",
        "terrain.patches[0].level is 1; it must be true or false",
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
        "fall_right_percent (fairway_tilt_percent) is 99",
        "wind.mph is 300",
        "wind.from_deg is 999",
        "temperature_f is 200",
    ] {
        assert!(text.contains(words), "{words}\n--\n{text}");
    }
}
