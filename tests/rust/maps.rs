//! Holes read from maps and documents: what is read, what is refused, and that nothing makes a reader fall over.
use proptest::prelude::*;
use serde_json::{Value, json};
use std::path::Path;
use wideberth::geometry::{LocalPlane, Point};
use wideberth::hole::{Hole, Surface};
use wideberth::io::geojson::{self, Choice, Options};
use wideberth::io::{hole_from_text, native, read_hole};

const ALDER_BEND: &str = include_str!(concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../python/wideberth/data/alder-bend.geojson"
));
const PLOVER_NECK: &str = include_str!(concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../python/wideberth/data/plover-neck.geojson"
));

fn read(map: &Value) -> Result<Hole, String> {
    geojson::read(&map.to_string(), &Options::default()).map_err(|faults| faults.to_string())
}

fn alder_bend() -> Value {
    serde_json::from_str(ALDER_BEND).expect("the demo map is JSON")
}

fn features(map: &mut Value) -> &mut Vec<Value> {
    map["features"].as_array_mut().expect("a list of features")
}

/// The first feature with this tag.
fn feature<'a>(map: &'a mut Value, key: &str, value: &str) -> &'a mut Value {
    features(map)
        .iter_mut()
        .find(|f| f["properties"][key] == value)
        .expect("such a feature")
}

fn drop_all(map: &mut Value, key: &str, value: &str) {
    features(map).retain(|f| f["properties"][key] != value);
}

/// A feature near the middle of Alder Bend's fairway, given in degrees from its tee.
fn add(map: &mut Value, properties: Value, kind: &str, coordinates: Value) {
    let geometry = json!({"type": kind, "coordinates": coordinates});
    features(map).push(json!({"type": "Feature", "properties": properties, "geometry": geometry}));
}

/// Where the line of play starts.
const TEE: [f64; 2] = [-24.35, -31.2];

/// A small square (about 20 yards) some degrees from the tee.
fn square(east: f64, north: f64) -> Value {
    let (x, y, d) = (TEE[0] + east, TEE[1] + north, 0.0001);
    json!([[
        [x - d, y - d],
        [x + d, y - d],
        [x + d, y + d],
        [x - d, y + d],
        [x - d, y - d]
    ]])
}

/// Alder Bend after a change.
fn changed(change: impl FnOnce(&mut Value)) -> Result<Hole, String> {
    let mut map = alder_bend();
    change(&mut map);
    read(&map)
}

fn refused(change: impl FnOnce(&mut Value), words: &[&str]) {
    let text = changed(change).map(|_| ()).expect_err("should be refused");
    for word in words {
        assert!(text.contains(word), "{text:?} does not name {word:?}");
    }
}

#[test]
fn a_map_with_golf_tags_becomes_a_hole() {
    let hole = read(&alder_bend()).unwrap();
    assert_eq!(
        (hole.name(), hole.par(), hole.number(), hole.stroke_index()),
        ("Alder Bend", 5, Some(12), Some(4))
    );
    assert!(hole.notes().is_empty(), "{:?}", hole.notes());
    // The length of the line of play on the ellipsoid, computed independently with GeographicLib: 515.125 yd.
    assert!((hole.length() - 515.125).abs() < 0.1, "{}", hole.length());
    let surface = |along: f64, right: f64| hole.surface_at(hole.line().at(along, right));
    assert_eq!(hole.tee(), Point::origin());
    assert_eq!(hole.surface_at(hole.pin()), Surface::Green);
    assert_eq!(
        [surface(0.0, 0.0), surface(180.0, 0.0), surface(380.0, 0.0)],
        [Surface::Tee, Surface::Fairway, Surface::Fairway]
    );
    assert_eq!(
        [surface(470.0, 20.0), surface(180.0, -50.0)],
        [Surface::PenaltyRed, Surface::Trees]
    );
    assert_eq!(
        [surface(250.0, 80.0), surface(250.0, 300.0)],
        [Surface::OutOfBounds; 2]
    );
    // Wood 14 m high is 45.93 ft.
    let alders = hole
        .features()
        .iter()
        .find(|f| f.name.as_deref() == Some("the alders"))
        .unwrap();
    assert!((alders.canopy.unwrap().height_ft - 45.931_76).abs() < 1e-4);
}

/// A wood over the line of play is told of, for its trees stand there; so is one that the hole is taken to be cut out of. A
/// wood with a clearing for the whole hole, and one beside it, are not.
#[test]
fn woods_over_the_hole_are_told_of() {
    let box_around = |west: f64, south: f64, east: f64, north: f64| {
        let (x, y) = (TEE[0], TEE[1]);
        json!([
            [x + west, y + south],
            [x + east, y + south],
            [x + east, y + north],
            [x + west, y + north],
            [x + west, y + south]
        ])
    };
    let notes = |rings: Value| {
        let hole = changed(|map| {
            let geometry = json!({"type": "Polygon", "coordinates": rings});
            let wood =
                json!({"type": "Feature", "properties": {"natural": "wood"}, "geometry": geometry});
            features(map).push(wood);
        })
        .unwrap();
        let trees = hole.standing_trees().count();
        let notes: Vec<String> = hole.notes().into_iter().map(|note| note.0).collect();
        (trees, notes)
    };
    let all = changed(|_| ()).unwrap().standing_trees().count();
    let (trees, told) = notes(json!([box_around(0.0008, -0.001, 0.0014, 0.002)]));
    assert_eq!(trees, all + 1);
    assert!(
        told.len() == 1 && told[0].contains("line of play runs under these trees"),
        "{told:?}"
    );
    let clearing = box_around(-0.0005, -0.0005, 0.0045, 0.0035);
    let (trees, told) = notes(json!([box_around(-0.001, -0.001, 0.005, 0.004), clearing]));
    assert_eq!((trees, told.len()), (all + 1, 0), "{told:?}");
    let (trees, told) = notes(json!([box_around(-0.001, -0.001, 0.001, 0.001)]));
    assert_eq!(trees, all);
    assert!(
        told.len() == 1 && told[0].contains("cover the tee"),
        "{told:?}"
    );
    let (trees, told) = notes(json!([box_around(0.0008, 0.001, 0.0014, 0.0015)]));
    assert_eq!((trees, told.len()), (all + 1, 0), "{told:?}");
}

#[test]
fn a_map_with_plain_surface_names_becomes_a_hole() {
    let hole = geojson::read(
        PLOVER_NECK,
        &Options {
            green_speed_ft: 10.5,
            ..Options::default()
        },
    )
    .unwrap();
    assert_eq!(
        (hole.name(), hole.par(), hole.number(), hole.stroke_index()),
        ("Plover Neck", 4, Some(3), Some(9))
    );
    assert!(hole.notes().is_empty(), "{:?}", hole.notes());
    assert_eq!(hole.green_speed(), 10.5);
    let surface = |along: f64, right: f64| hole.surface_at(hole.line().at(along, right));
    assert_eq!(
        [surface(200.0, 0.0), surface(200.0, -45.0)],
        [Surface::Fairway, Surface::DeepRough]
    );
    for wanted in [
        Surface::FirstCut,
        Surface::Fringe,
        Surface::PenaltyYellow,
        Surface::Trees,
        Surface::OutOfBounds,
    ] {
        assert!(
            hole.features().iter().any(|f| f.surface == wanted),
            "{}",
            wanted.name()
        );
    }
    assert_eq!(native::read(&native::write(&hole)).unwrap(), hole);
}

#[test]
fn what_lies_on_top_does_not_depend_on_the_order_of_the_map() {
    let hole = read(&alder_bend()).unwrap();
    let back = changed(|map| features(map).reverse()).unwrap();
    let mut y = -60.0;
    while y < 600.0 {
        for x in [-200.0, -110.0, -60.0, -20.0, 0.0, 15.0, 80.0, 300.0, 400.0] {
            let place = hole.line().at(y, x);
            assert_eq!(hole.surface_at(place), back.surface_at(place));
        }
        y += 7.0;
    }
}

/// Bunkers lie in fairways, which are cut out of woods: however a map lists them.
#[test]
fn bunkers_lie_on_fairways_and_fairways_on_woods() {
    let (east, north) = (0.0004, 0.0012);
    let drawn = [
        json!({"golf": "bunker"}),
        json!({"golf": "fairway"}),
        json!({"natural": "wood"}),
    ];
    let surface = |kinds: &[usize]| {
        let hole = changed(|map| {
            for &kind in kinds {
                add(map, drawn[kind].clone(), "Polygon", square(east, north));
            }
        })
        .unwrap();
        let plane = LocalPlane::new(TEE[0], TEE[1]).unwrap();
        hole.surface_at(hole.tee() + plane.to_plane(TEE[0] + east, TEE[1] + north).coords)
    };
    assert_eq!(surface(&[]), Surface::Rough);
    assert_eq!(surface(&[2]), Surface::Trees);
    for kinds in [[1, 2], [2, 1]] {
        assert_eq!(surface(&kinds), Surface::Fairway);
    }
    for kinds in [[0, 1], [1, 0]] {
        assert_eq!(surface(&kinds), Surface::Bunker);
    }
}

/// Of two tees of one name the nearer to the line of play is the hole's, whichever comes first.
#[test]
fn of_two_tees_of_a_name_the_nearer_is_taken() {
    let (near, far) = (square(-0.0001, 0.0), square(-0.0003, 0.0));
    for order in [[&near, &far], [&far, &near]] {
        let hole = changed(|map| {
            for area in order {
                add(
                    map,
                    json!({"golf": "tee", "tee": "blue"}),
                    "Polygon",
                    area.clone(),
                );
            }
        })
        .unwrap();
        let blue = hole
            .about()
            .tees
            .iter()
            .find(|tee| tee.name == "blue")
            .unwrap();
        let plane = LocalPlane::new(TEE[0], TEE[1]).unwrap();
        let middle = hole.tee() + plane.to_plane(TEE[0] - 0.0001, TEE[1]).coords;
        assert!((blue.at - middle).norm() < 0.1, "{} from {middle}", blue.at);
    }
}

#[test]
fn a_faulty_map_is_refused_with_the_place_of_the_fault() {
    refused(|m| drop_all(m, "golf", "hole"), &["golf=hole"]);
    refused(|m| drop_all(m, "golf", "green"), &["green"]);
    refused(
        |m| {
            let ring = feature(m, "golf", "green")["geometry"]["coordinates"][0]
                .as_array_mut()
                .unwrap();
            ring.swap(1, 12);
        },
        &["green (feature 5)", "crosses itself"],
    );
    refused(
        |m| {
            drop(
                feature(m, "golf", "green")["geometry"]["coordinates"][0]
                    .as_array_mut()
                    .unwrap()
                    .pop(),
            )
        },
        &["green (feature 5): ring 0 is not closed"],
    );
    refused(
        |m| feature(m, "golf", "hole")["properties"]["par"] = json!("banana"),
        &["par", "\"banana\"", "3 to 6"],
    );
    refused(
        |m| feature(m, "golf", "hole")["properties"]["par"] = json!(7),
        &["par is 7", "3 to 6"],
    );
    refused(
        |m| {
            drop(
                feature(m, "golf", "hole")["properties"]
                    .as_object_mut()
                    .unwrap()
                    .remove("par"),
            )
        },
        &["par is missing"],
    );
    refused(
        |m| feature(m, "golf", "hole")["geometry"]["type"] = json!("MultiPoint"),
        &["golf=hole (feature 0)", "LineString"],
    );
    refused(
        |m| m["crs"] = json!({"type": "name", "properties": {"name": "EPSG:27700"}}),
        &["crs", "EPSG:27700", "CRS84"],
    );
    refused(
        |m| m["type"] = json!("Feature"),
        &["type is \"Feature\"", "FeatureCollection"],
    );
    refused(|m| m["features"] = json!({}), &["features is {}", "list"]);
    refused(|m| features(m)[3] = json!(4), &["features[3] is 4"]);
    // On a map of one hole the tee and the pin are meant for it.
    refused(
        |m| feature(m, "golf", "tee")["geometry"]["coordinates"][0][1][1] = json!(154.0),
        &["tee (feature 1): ring 0, position 1", "154", "-90 to 90"],
    );
    refused(
        |m| feature(m, "golf", "tee")["geometry"]["coordinates"][0][1] = json!(["x", 1]),
        &["tee (feature 1)", "\"x\"", "longitude"],
    );
    refused(
        |m| feature(m, "golf", "pin")["geometry"]["coordinates"] = json!(TEE),
        &["pin (feature", "off the green"],
    );
}

/// The notes of Alder Bend after a change that it survives.
fn noted(change: impl FnOnce(&mut Value)) -> Vec<String> {
    let hole = changed(change).expect("can be read");
    hole.notes().into_iter().map(|note| note.0).collect()
}

/// Near the hole what cannot be read is left out or taken for something usual, with a note that names it, where nothing worse
/// than rough can hide there.
#[test]
fn what_is_faulty_and_harmless_is_told() {
    let told = |change: &dyn Fn(&mut Value), words: &[&str]| {
        let notes = noted(change);
        let named = |note: &String| words.iter().all(|word| note.contains(word));
        assert!(notes.iter().any(named), "{notes:?} do not name {words:?}");
    };
    fn bunker(m: &mut Value) -> &mut Value {
        &mut feature(m, "golf", "bunker")["geometry"]
    }
    fn wood(m: &mut Value) -> &mut Value {
        &mut feature(m, "natural", "wood")["properties"]["height"]
    }
    told(
        &|m| drop(bunker(m)["coordinates"][0].as_array_mut().unwrap().pop()),
        &["bunker (feature", "is not closed", "left out"],
    );
    told(
        &|m| {
            bunker(m)["coordinates"][0]
                .as_array_mut()
                .unwrap()
                .truncate(2)
        },
        &["has 2 positions", "at least 4"],
    );
    told(
        &|m| {
            bunker(m)["coordinates"][0]
                .as_array_mut()
                .unwrap()
                .swap(1, 12)
        },
        &[
            "bunker (feature",
            "crosses itself",
            "taken for the areas that it encloses",
        ],
    );
    told(
        &|m| {
            add(
                m,
                json!({"golf": "bunker"}),
                "LineString",
                json!([TEE, [TEE[0], -31.199]]),
            )
        },
        &["bunker (feature 21)", "open line", "left out"],
    );
    told(
        &|m| *wood(m) = json!("tall"),
        &[
            "trees \"the alders\" (feature",
            "height is \"tall\"",
            "not understood",
        ],
    );
    told(
        &|m| *wood(m) = json!(-3),
        &["height is \"-3\"", "not understood"],
    );
    told(&|m| *wood(m) = json!(200), &["height is \"200\"", "40 ft"]);
    told(
        &|m| *wood(m) = json!([12]),
        &["height is \"[12]\"", "not understood"],
    );
    told(
        &|m| *wood(m) = json!("~15"),
        &["height is \"~15\"", "16.4 yards"],
    );
}

/// A bow-tie keeps its two halves: half of the area of the box it was drawn in.
#[test]
fn water_that_crosses_itself_is_still_water() {
    let (x, y, d) = (TEE[0] + 0.0005, TEE[1], 0.0001);
    let tie = json!([[[x, y], [x + d, y + d], [x + d, y], [x, y + d], [x, y]]]);
    let area = |map: Value| {
        let hole = changed(|m| {
            add(
                m,
                json!({"natural": "water", "name": "tie"}),
                "Polygon",
                map,
            )
        })
        .unwrap();
        let tied = hole
            .features()
            .iter()
            .filter(|f| f.name.as_deref() == Some("tie"));
        tied.map(|f| f.outline.area()).sum::<f64>()
    };
    let box_of = json!([[[x, y], [x + d, y], [x + d, y + d], [x, y + d], [x, y]]]);
    let (half, whole) = (area(tie), area(box_of));
    assert!((half / whole - 0.5).abs() < 1e-6, "{half} of {whole}");
    // What cannot be made an area at all could hide anything: it is a fault.
    let flat = json!([[[x, y], [x + d, y + d], [x, y], [x + d, y + d]]]);
    refused(
        |m| add(m, json!({"natural": "water"}), "Polygon", flat),
        &["penalty_red (feature 21)"],
    );
}

/// Whatever is wrong with a feature, far from the hole it changes nothing and is not told.
#[test]
fn nothing_far_away_matters() {
    let (x, y) = (TEE[0] + 0.1, TEE[1] + 0.1);
    let plain = changed(|_| ()).unwrap();
    for (tags, kind, coordinates) in [
        (
            json!({"golf": "green"}),
            "Polygon",
            json!([[[x, y], [x, y + 1e-3], [x + 1e-3, y]]]),
        ),
        (
            json!({"golf": "green"}),
            "Polygon",
            json!([[[x, y], ["x", y], [x, y]]]),
        ),
        (
            json!({"golf": "bunker"}),
            "LineString",
            json!([[x, y], [x, y + 0.001]]),
        ),
        (
            json!({"golf": "out_of_bounds"}),
            "LineString",
            json!([[x, y]]),
        ),
        (json!({"natural": "water"}), "Sphere", json!([x, y])),
        (
            json!({"natural": "tree", "height": "very"}),
            "Point",
            json!([x, y]),
        ),
        (
            json!({"waterway": "river", "width": "-7"}),
            "LineString",
            json!([[x, y], [x, y + 0.001]]),
        ),
        (
            json!({"golf": "hole", "ref": "12;9"}),
            "LineString",
            json!([[x, y]]),
        ),
    ] {
        let chosen = Options {
            hole: Some(Choice::Place(TEE[0], TEE[1])),
            ..Options::default()
        };
        let mut map = alder_bend();
        add(&mut map, tags.clone(), kind, coordinates.clone());
        let hole = geojson::read(&map.to_string(), &chosen);
        assert_eq!(hole.as_ref(), Ok(&plain), "{tags} {kind} {coordinates}");
        assert_eq!(hole.unwrap().notes(), plain.notes());
    }
}

/// A wood as large as a county is cut to the surroundings of the hole, and is the same there.
#[test]
fn what_reaches_far_is_cut_to_the_surroundings() {
    let (x, y) = (TEE[0] + 0.0055, TEE[1]);
    let wood = |far: f64| {
        let ring = json!([[
            [x, y - far],
            [x + far, y - far],
            [x + far, y + far],
            [x, y + far],
            [x, y - far]
        ]]);
        changed(|m| add(m, json!({"natural": "wood"}), "Polygon", ring)).unwrap()
    };
    let (near, county) = (wood(0.003), wood(1.0));
    let spread = |hole: &Hole| {
        let boxes = hole.features().iter().map(|f| f.outline.bounds());
        boxes
            .map(|(low, high)| (high - low).amax())
            .fold(0.0, f64::max)
    };
    assert!(spread(&county) < 2_500.0, "{}", spread(&county));
    for along in [0.0, 120.0, 250.0, 400.0] {
        for right in [0.0, 60.0, 110.0, 140.0] {
            let place = near.line().at(along, right);
            assert_eq!(near.surface_at(place), county.surface_at(place));
        }
    }
}

#[test]
fn the_reference_system_may_be_named_if_it_is_the_right_one() {
    let name = "urn:ogc:def:crs:OGC:1.3:CRS84";
    let hole = changed(|m| m["crs"] = json!({"type": "name", "properties": {"name": name}}));
    assert!(hole.is_ok());
}

#[test]
fn every_fault_of_a_map_is_told_at_once() {
    let text = changed(|m| {
        feature(m, "golf", "hole")["properties"]["par"] = json!("five");
        let green = feature(m, "golf", "green")["geometry"]["coordinates"][0].as_array_mut();
        green.unwrap().swap(1, 12);
        add(
            m,
            json!({"golf": "water_hazard"}),
            "LineString",
            json!([TEE]),
        );
        add(
            m,
            json!({"golf": "out_of_bounds"}),
            "Polygon",
            json!([[TEE, ["x", 1], TEE]]),
        );
    })
    .unwrap_err();
    for word in [
        "par is \"five\"",
        "crosses itself",
        "has 1 positions",
        "\"x\"",
    ] {
        assert!(text.lines().any(|line| line.contains(word)), "{text}");
    }
}

#[test]
fn text_that_is_no_map_is_refused() {
    let text = |text: &str| {
        hole_from_text(text, &Options::default())
            .map(|_| ())
            .unwrap_err()
            .to_string()
    };
    assert!(text("{").contains("JSON at line 1, column 1"));
    assert!(text("{\n  \"type\": oops}").contains("JSON at line 2, column 11"));
    assert!(text("<osm/>").contains("XML"));
    assert!(text("").contains("JSON"));
    for other in ["[]", "{}", "3", "null"] {
        assert!(text(other).contains("FeatureCollection"), "{other}");
    }
    assert!(text("{\"format\": \"other\"}").contains("format is \"other\""));
    let missing = read_hole(Path::new("no-such-file.geojson"), &Options::default()).unwrap_err();
    assert!(missing.to_string().contains("no-such-file.geojson"));
    let data =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../python/wideberth/data/alder-bend.geojson");
    assert_eq!(
        read_hole(&data, &Options::default()).unwrap(),
        read(&alder_bend()).unwrap()
    );
}

#[test]
fn winding_repeated_positions_and_heights_do_not_matter() {
    let hole = read(&alder_bend()).unwrap();
    let other = changed(|m| {
        for f in features(m)
            .iter_mut()
            .filter(|f| f["geometry"]["type"] == "Polygon")
        {
            let ring = f["geometry"]["coordinates"][0].as_array_mut().unwrap();
            ring.reverse();
            let again = ring[2].clone();
            ring.insert(2, again);
            ring.iter_mut()
                .for_each(|p| p.as_array_mut().unwrap().push(json!(12.5)));
        }
    })
    .unwrap();
    for (a, b) in hole.features().iter().zip(other.features()) {
        assert_eq!(
            a.outline.exterior().vertices().len(),
            b.outline.exterior().vertices().len()
        );
        assert!((a.outline.area() - b.outline.area()).abs() < 1e-6);
    }
}

#[test]
fn unmarked_water_is_red_and_told() {
    let brook = json!([
        [TEE[0] + 0.0010, TEE[1] + 0.0002],
        [TEE[0] + 0.0014, TEE[1] + 0.0004],
        [TEE[0] + 0.0020, TEE[1] + 0.0004]
    ]);
    let hole = changed(|m| {
        add(
            m,
            json!({"natural": "water", "name": "Pond"}),
            "Polygon",
            square(0.0005, 0.0),
        );
        add(
            m,
            json!({"waterway": "stream"}),
            "LineString",
            brook.clone(),
        );
        add(
            m,
            json!({"waterway": "ditch", "width": "1.8288"}),
            "LineString",
            brook.clone(),
        );
        add(
            m,
            json!({"waterway": "drain", "tunnel": "culvert"}),
            "LineString",
            brook.clone(),
        );
        add(
            m,
            json!({"golf": "penalty_area"}),
            "MultiPolygon",
            json!([square(0.0007, -0.0004), square(0.0010, -0.0004)]),
        );
    })
    .unwrap();
    let said: Vec<&str> = hole.warnings().iter().map(|w| w.0.as_str()).collect();
    assert_eq!(
        said.iter().filter(|w| w.contains("no golf tag")).count(),
        3,
        "{said:?}"
    );
    assert!(
        said.iter()
            .any(|w| w.contains("\"Pond\"") && w.contains("natural=water"))
    );
    assert!(said.iter().any(|w| w.contains("4 yards wide")));
    assert!(
        said.iter()
            .any(|w| w.contains("penalty_area") && w.contains("colour"))
    );
    let red: Vec<f64> = hole
        .features()
        .iter()
        .filter(|f| f.surface == Surface::PenaltyRed)
        .map(|f| f.outline.area())
        .collect();
    // Pond, two-part area and the mere; a stream 4 yards wide and a ditch of 1.8288 m, which is 2 yards.
    assert_eq!(red.len(), 6);
    let (stream, ditch) = (red[2], red[3]);
    assert!((stream / ditch - 2.0).abs() < 0.02, "{stream} {ditch}");
}

#[test]
fn what_is_not_used_is_told_and_what_is_no_golf_is_not() {
    let hole = changed(|m| {
        add(
            m,
            json!({"golf": "cartpath"}),
            "LineString",
            json!([TEE, [TEE[0], -31.199]]),
        );
        add(
            m,
            json!({"highway": "service", "surface": "asphalt"}),
            "LineString",
            json!("nonsense"),
        );
        add(
            m,
            json!({"leisure": "golf_course"}),
            "Polygon",
            square(0.0, 0.0),
        );
        add(m, json!({"golf": "green"}), "Polygon", square(0.01, 0.01));
        add(m, json!({"golf": "bunker"}), "Point", json!(TEE));
        add(
            m,
            json!({"golf": "fairway"}),
            "LineString",
            square(0.0003, 0.0001)[0].clone(),
        );
        features(m).push(json!({"type": "Feature", "properties": null, "geometry": null}));
    })
    .unwrap();
    let said: Vec<&str> = hole.warnings().iter().map(|w| w.0.as_str()).collect();
    assert_eq!(said.len(), 3, "{said:?}");
    assert!(said[0].contains("golf=cartpath (feature 21) is not used"));
    assert!(said[1].contains("point") && said[2].contains("closed line"));
}

/// `surface` says what something is where nothing else does; on a road or a pitch it says what that is made of.
#[test]
fn a_surface_that_is_not_known_is_told_where_nothing_else_says_what_it_is() {
    let unknown = ["penalty-red", "farway", "Fairway", "asphalt"];
    for (key, value) in unknown
        .map(|value| ("surface", json!(value)))
        .into_iter()
        .chain([
            ("golf", json!(["bunker"])),
            ("surface", json!({"is": "bunker"})),
        ])
    {
        let tags = json!({key: value, "name": "the mere", "fill": "#00f"});
        let notes = noted(|m| add(m, tags, "Polygon", square(0.0005, 0.001)));
        let text = value.as_str().map_or(value.to_string(), str::to_owned);
        assert_eq!(notes, [format!("{key}={text} (feature 21) is not used")]);
    }
    for (key, value) in [
        ("highway", "services"),
        ("area:highway", "service"),
        ("sport", "soccer"),
        ("disused:railway", "rail"),
        ("landuse", "grass"),
        ("man_made", "bridge"),
        ("public_transport", "platform"),
    ] {
        let tags = json!({key: value, "surface": "grass"});
        let notes = noted(|m| add(m, tags, "Polygon", square(0.0005, 0.001)));
        assert_eq!(notes, [""; 0], "{key}={value}");
    }
    let far = json!({"surface": "farway"});
    assert_eq!(noted(|m| add(m, far, "Polygon", square(0.5, 0.5))), [""; 0]);
}

/// Shapes that are nowhere: they may be near, so they are told as if they were.
fn placeless() -> Vec<Value> {
    vec![
        Value::Null,
        json!({}),
        json!({"type": "Polygon", "coordinates": []}),
        json!({"type": "Polygon", "coordinates": [[]]}),
        json!({"type": "MultiPolygon", "coordinates": []}),
        json!({"type": "MultiPoint", "coordinates": []}),
        json!({"type": "MultiLineString", "coordinates": []}),
        json!({"type": "GeometryCollection", "geometries": []}),
    ]
}

#[test]
fn what_has_no_shape_is_told() {
    for shape in placeless() {
        let with = |tags: Value| {
            let shape = shape.clone();
            move |m: &mut Value| {
                features(m).push(json!({"type": "Feature", "properties": tags, "geometry": shape}));
            }
        };
        for (tags, called) in [
            (json!({"golf": "bunker"}), "bunker (feature 21): "),
            (json!({"golf": "pin"}), "pin (feature 21): "),
            // The hole has its green; this one cannot be it.
            (json!({"golf": "green"}), "green (feature 21): "),
            (json!({"natural": "water"}), "penalty_red (feature 21): "),
            (json!({"natural": "tree"}), "trees (feature 21): "),
            (
                json!({"leisure": "golf_course"}),
                "leisure=golf_course (feature 21): ",
            ),
        ] {
            let notes = noted(with(tags));
            let told = |note: &String| note.starts_with(called) && note.ends_with("left out");
            assert!(notes.iter().any(told), "{shape} {called} {notes:?}");
        }
        let notes = noted(with(json!({"surface": "farway"})));
        assert_eq!(notes, ["surface=farway (feature 21) is not used"]);
        for (tags, called) in [
            (
                json!({"golf": "out_of_bounds"}),
                "out_of_bounds (feature 21): ",
            ),
            (
                json!({"golf": "water_hazard"}),
                "penalty_yellow (feature 21): ",
            ),
            (
                json!({"surface": "penalty_red"}),
                "penalty_red (feature 21): ",
            ),
            (json!({"golf": "tee"}), "tee (feature 21): "),
            // Alder Bend is the twelfth.
            (
                json!({"surface": "penalty_red", "ref": 12}),
                "penalty_red (feature 21): ",
            ),
        ] {
            refused(with(tags), &[called]);
        }
        let of_another = json!({"surface": "penalty_red", "ref": 13});
        assert_eq!(noted(with(of_another)), [""; 0]);
    }
}

#[test]
fn a_green_without_a_shape_is_not_told_to_be_missing() {
    let point = json!({"type": "Point", "coordinates": [0.0, 0.0]});
    for shape in placeless().into_iter().chain([point]) {
        let text = changed(|m| {
            let line = feature(m, "golf", "hole")["geometry"]["coordinates"].clone();
            let end = line.as_array().unwrap().last().unwrap().clone();
            let geometry = &mut feature(m, "golf", "green")["geometry"];
            *geometry = shape.clone();
            if geometry["type"] == "Point" {
                geometry["coordinates"] = end;
            }
        })
        .unwrap_err();
        assert!(
            text.contains("green (feature ") && text.contains("must "),
            "{text}"
        );
        assert!(!text.contains("none is mapped"), "{text}");
    }
}

/// A collection is no shape of a feature, but it tells where the feature is.
#[test]
fn a_collection_far_away_does_not_matter() {
    let collection = |east: f64| {
        let area = json!({"type": "Polygon", "coordinates": square(east, 0.001)});
        let shape = json!({"type": "GeometryCollection", "geometries": [area]});
        json!({"type": "Feature", "properties": {"golf": "water_hazard"}, "geometry": shape})
    };
    refused(
        |m| features(m).push(collection(0.0005)),
        &["penalty_yellow (feature 21): its geometry is", "Polygon"],
    );
    assert_eq!(noted(|m| features(m).push(collection(0.5))), [""; 0]);
}

#[test]
fn of_several_holes_one_is_chosen_by_its_ref() {
    let mut map = alder_bend();
    let (x, y) = (TEE[0] + 0.02, TEE[1] + 0.02);
    let d = 0.0001;
    add(
        &mut map,
        json!({"golf": "hole", "ref": "13", "par": 3}),
        "LineString",
        json!([[x, y], [x, y + 0.0012]]),
    );
    add(
        &mut map,
        json!({"golf": "green"}),
        "Polygon",
        json!([[
            [x - d, y + 0.0011],
            [x + d, y + 0.0011],
            [x + d, y + 0.0013],
            [x - d, y + 0.0013],
            [x - d, y + 0.0011]
        ]]),
    );
    let choose = |hole: Option<&str>| {
        let options = Options {
            hole: hole.map(|hole| Choice::Ref(hole.to_owned())),
            ..Options::default()
        };
        geojson::read(&map.to_string(), &options).map_err(|faults| faults.to_string())
    };
    let text = choose(None).unwrap_err();
    assert!(
        text.contains("12, 13") && text.contains("2 features golf=hole"),
        "{text}"
    );
    assert!(choose(Some("14")).unwrap_err().contains("\"14\""));
    assert_eq!(choose(Some("12")).unwrap().name(), "Alder Bend");
    let other = choose(Some("13")).unwrap();
    assert_eq!(
        (other.name(), other.par(), other.features().len()),
        ("Hole 13", 3, 1)
    );
    // The pin of hole 12 is not taken for that of hole 13; the end of the line of play is.
    assert_eq!(other.pin(), *other.line().vertices().last().unwrap());
    assert!(other.warnings().iter().any(|w| w.0.contains("no pin")));
}

#[test]
fn without_a_pin_the_line_of_play_must_end_on_the_green() {
    let hole = changed(|m| drop_all(m, "golf", "pin")).unwrap();
    assert!(hole.warnings()[0].0.contains("no pin"));
    refused(
        |m| {
            drop_all(m, "golf", "pin");
            let line = feature(m, "golf", "hole")["geometry"]["coordinates"]
                .as_array_mut()
                .unwrap();
            line.last_mut().unwrap()[1] = json!(-31.1995);
        },
        &["line of play ends", "from the green"],
    );
}

#[test]
fn swapped_or_projected_coordinates_are_suspected() {
    let mut map = alder_bend();
    feature(&mut map, "golf", "hole")["properties"]["dist"] = json!("471");
    assert!(read(&map).unwrap().warnings().is_empty());
    feature(&mut map, "golf", "hole")["properties"]["dist"] = json!("300");
    assert!(read(&map).unwrap().warnings()[0].0.contains("dist is 300"));
    refused(
        |m| feature(m, "golf", "hole")["geometry"]["coordinates"][2] = json!([-31.2, -24.35]),
        &["line of play, vertex 2", "swapped"],
    );
}

/// Origin (latitude, longitude), azimuth and the place 500 m along the geodesic (latitude, longitude), computed
/// independently with GeographicLib (its Python package, version 2, WGS 84, problem Direct).
const GEODESICS: [(f64, f64, f64, f64, f64); 25] = [
    (54.2, 2.900, 0.0, 54.2044920091, 2.9000000000),
    (54.2, 2.900, 30.0, 54.2038901333, 2.9038311290),
    (54.2, 2.900, 90.0, 54.1999997564, 2.9076615383),
    (54.2, 2.900, 210.0, 54.1961097424, 2.8961695906),
    (54.2, 2.900, 300.0, 54.2022458223, 2.8933645533),
    (0.0, -30.000, 0.0, 0.0045218474, -30.0000000000),
    (0.0, -30.000, 30.0, 0.0039160347, -29.9977542118),
    (0.0, -30.000, 90.0, 0.0000000000, -29.9955084236),
    (0.0, -30.000, 210.0, -0.0039160347, -30.0022457882),
    (0.0, -30.000, 300.0, 0.0022609237, -30.0038898193),
    (35.0, 20.000, 0.0, 35.0045069157, 20.0000000000),
    (35.0, 20.000, 30.0, 35.0039030728, 20.0027387105),
    (35.0, 20.000, 90.0, 34.9999998764, 20.0054771610),
    (35.0, 20.000, 210.0, 34.9960968629, 19.9972615495),
    (35.0, 20.000, 300.0, 35.0022533656, 19.9952565094),
    (-56.0, -120.000, 0.0, -55.9955093230, -120.0000000000),
    (-56.0, -120.000, 30.0, -55.9961108948, -119.9959935279),
    (-56.0, -120.000, 90.0, -55.9999997396, -119.9919862512),
    (-56.0, -120.000, 210.0, -56.0038889726, -120.0040072768),
    (-56.0, -120.000, 300.0, -55.9977544667, -120.0069397077),
    (65.0, 179.999, 0.0, 65.0044846008, 179.9990000000),
    (65.0, 179.999, 30.0, 65.0038836844, -179.9956998731),
    (65.0, 179.999, 90.0, 64.9999996241, -179.9904012853),
    (65.0, 179.999, 210.0, 64.9961161256, 179.9937014119),
    (65.0, 179.999, 300.0, 65.0022420188, 179.9898204743),
];

#[test]
fn the_plane_agrees_with_geodesics() {
    for (latitude, longitude, azimuth, to_latitude, to_longitude) in GEODESICS {
        let plane = LocalPlane::new(longitude, latitude).unwrap();
        let p = plane.to_plane(to_longitude, to_latitude);
        let (sin, cos) = f64::to_radians(azimuth).sin_cos();
        let exact = Point::new(500.0 * sin, 500.0 * cos) / 0.9144;
        let error_m = (p - exact).norm() * 0.9144;
        assert!(
            error_m < 0.05,
            "{error_m} m at latitude {latitude}, azimuth {azimuth}"
        );
        let (back_longitude, back_latitude) = plane.to_longitude_latitude(p);
        let turn = (back_longitude - to_longitude).abs();
        assert!(turn < 1e-12 || (turn - 360.0).abs() < 1e-12);
        assert!((back_latitude - to_latitude).abs() < 1e-12);
    }
    assert!(LocalPlane::new(0.0, 89.5).is_none() && LocalPlane::new(f64::NAN, 0.0).is_none());
}

#[test]
fn a_document_names_every_wrong_field() {
    let good = native::write(&read(&alder_bend()).unwrap());
    let wrong = |change: fn(&mut Value)| {
        let mut value: Value = serde_json::from_str(&good).unwrap();
        change(&mut value);
        native::read(&value.to_string())
            .map(|_| ())
            .unwrap_err()
            .to_string()
    };
    /// A change to the map, and words that the refusal must hold.
    type Case = (fn(&mut Value), &'static [&'static str]);
    let cases: [Case; 12] = [
        (
            |v| v["par"] = json!("banana"),
            &["par is \"banana\"", "3 to 6"],
        ),
        (|v| v["par"] = json!(4.5), &["par is 4.5", "whole number"]),
        (|v| v["par"] = Value::Null, &["par is missing"]),
        (
            |v| v["colour"] = json!(1),
            &["colour is not a known field", "green_speed_ft"],
        ),
        (|v| v["version"] = json!(2), &["version is 2", "1"]),
        (|v| v["tee"] = json!([1]), &["tee is [1]", "point"]),
        (
            |v| v["features"][3]["surface"] = json!("lawn"),
            &["features[3].surface is \"lawn\"", "fairway"],
        ),
        (
            |v| v["features"][3]["depth"] = json!(1),
            &["features[3].depth is not a known field"],
        ),
        (
            |v| v["features"][0]["canopy"] = json!({"height_ft": "x"}),
            &["features[0].canopy.height_ft is \"x\""],
        ),
        (
            |v| v["features"][0]["outline"][2] = json!(["a", 1]),
            &["features[0].outline", "list of points"],
        ),
        (
            |v| v["boundaries"] = json!([{"line": [[0, 0], [0, 9]], "out": "up"}]),
            &["boundaries[0].out is \"up\"", "left"],
        ),
        (
            |v| (v["par"], v["name"]) = (json!([]), json!(3)),
            &["par is []", "name is 3"],
        ),
    ];
    for (change, words) in cases {
        let text = wrong(change);
        assert!(
            words.iter().all(|w| text.contains(w)),
            "{text:?} does not name {words:?}"
        );
        assert!(text.lines().count() <= 2, "{text}");
    }
}

#[test]
fn the_example_in_the_documentation_is_a_hole() {
    let hole = native::read(
        r#"{"format": "wideberth-hole", "version": 1, "name": "Sixth", "number": 6, "par": 3, "stroke_index": 15,
            "tee": [0, 0], "pin": [0, 150], "line_of_play": [[0, 0], [0, 150]],
            "features": [{"surface": "green", "outline": [[-12, 138], [12, 138], [12, 162], [-12, 162]]},
                         {"surface": "trees", "outline": [[30, 0], [50, 0], [50, 90]], "canopy": {"height_ft": 50}}],
            "boundaries": [{"line": [[-40, 0], [-40, 160]], "out": "left"}]}"#,
    )
    .unwrap();
    assert_eq!(
        (hole.green_speed(), hole.surface_at(Point::new(-41.0, 80.0))),
        (9.0, Surface::OutOfBounds)
    );
    assert_eq!(native::read(&native::write(&hole)).unwrap(), hole);
}

/// Any JSON, with our own words among the names and texts.
fn any_json() -> impl Strategy<Value = Value> {
    let word = prop_oneof![
        prop::sample::select(vec![
            "type",
            "FeatureCollection",
            "features",
            "Feature",
            "properties",
            "geometry",
            "coordinates",
            "Polygon",
            "LineString",
            "golf",
            "hole",
            "green",
            "pin",
            "par",
            "format",
            "wideberth-hole",
            "version",
            "tee",
            "outline",
            "line_of_play",
            "surface",
            "name",
            "5",
        ])
        .prop_map(str::to_owned),
        ".{0,6}",
    ];
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        (-200.0..200.0).prop_map(Value::from),
        Just(json!(1e308)),
        word.clone().prop_map(Value::from),
    ];
    leaf.prop_recursive(5, 60, 6, move |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
            prop::collection::vec((word.clone(), inner), 0..6)
                .prop_map(|members| Value::Object(members.into_iter().collect())),
        ]
    })
}

/// Replaces the value at the end of a way through the document, each step chosen by a number.
fn replace(value: &mut Value, way: &[usize], by: Value) {
    let Some((&step, rest)) = way.split_first() else {
        return *value = by;
    };
    match value {
        Value::Array(list) if !list.is_empty() => {
            let n = list.len();
            replace(&mut list[step % n], rest, by);
        }
        Value::Object(members) if !members.is_empty() => {
            let n = members.len();
            if let Some(member) = members.values_mut().nth(step % n) {
                replace(member, rest, by);
            }
        }
        _ => *value = by,
    }
}

/// A reader gives a hole or says why not.
fn answers(text: &str) -> Result<(), TestCaseError> {
    match hole_from_text(text, &Options::default()) {
        Ok(hole) => prop_assert_eq!(
            native::read(&native::write(&hole)).map_err(|e| e.to_string()),
            Ok(hole)
        ),
        Err(faults) => prop_assert!(!faults.0.is_empty() && !faults.to_string().trim().is_empty()),
    }
    Ok(())
}

proptest! {
    #[test]
    fn any_json_gets_an_answer(value in any_json()) {
        answers(&value.to_string())?;
        answers(&json!({"type": "FeatureCollection", "features": [value]}).to_string())?;
    }

    #[test]
    fn a_mutated_map_gets_an_answer(way in prop::collection::vec(0_usize..60, 1..8), by in any_json(), plain: bool) {
        let mut map: Value = serde_json::from_str(if plain { PLOVER_NECK } else { ALDER_BEND }).unwrap();
        replace(&mut map, &way, by);
        answers(&map.to_string())?;
    }

    #[test]
    fn a_mutated_document_gets_an_answer(way in prop::collection::vec(0_usize..60, 1..6), by in any_json()) {
        let mut document: Value = serde_json::from_str(&native::write(&read(&alder_bend()).unwrap())).unwrap();
        replace(&mut document, &way, by);
        answers(&document.to_string())?;
    }

    #[test]
    fn a_moved_position_gets_an_answer(feature in 0_usize..21, vertex in 0_usize..60, east in -0.02..0.02_f64, north in -0.02..0.02_f64) {
        let mut map = alder_bend();
        replace(&mut map["features"][feature]["geometry"]["coordinates"], &[0, vertex], json!([TEE[0] + east, TEE[1] + north]));
        answers(&map.to_string())?;
    }

    #[test]
    fn broken_text_gets_an_answer(at in 0_usize..10_000, byte in 32_u8..127, cut: bool) {
        let mut bytes = ALDER_BEND.as_bytes().to_vec();
        let at = at % bytes.len();
        if cut { bytes.truncate(at) } else { bytes[at] = byte }
        answers(&String::from_utf8_lossy(&bytes))?;
    }
}
