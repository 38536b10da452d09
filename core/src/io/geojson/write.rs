//! A hole written as a map: GeoJSON (RFC 7946) in longitude and latitude.
use crate::geometry::{LocalPlane, Point, Ring};
use crate::hole::{Feature, Hole, Surface};
use serde_json::{Map, Value, json};

/// The hole as a `FeatureCollection`, or None where it is not known where on the earth it lies. Positions are rounded to
/// seven decimals, about a centimetre; exteriors run counter-clockwise.
///
/// Reading it gives the same hole within the rounding. What no map tells is not written: the shape of the ground, the day, the
/// speed of the greens.
#[must_use]
pub fn write(hole: &Hole) -> Option<Value> {
    let plane = hole.about().place?;
    let mut features = vec![play(hole, &plane)];
    features.push(point(&plane, hole.tee(), json!({"role": "tee"})));
    features.push(point(&plane, hole.pin(), pin(hole)));
    for tee in &hole.about().tees {
        let mut tags = json!({"golf": "tee", "tee": tee.name});
        number(hole, &mut tags);
        features.push(point(&plane, tee.at, tags));
    }
    features.extend(hole.features().iter().map(|feature| area(&plane, feature)));
    let mut map = json!({"type": "FeatureCollection", "features": features});
    if let Some(attribution) = &hole.about().attribution {
        map["attribution"] = json!(attribution);
    }
    Some(map)
}

fn feature(properties: Value, kind: &str, coordinates: Value) -> Value {
    let geometry = json!({"type": kind, "coordinates": coordinates});
    json!({"type": "Feature", "properties": properties, "geometry": geometry})
}

fn number(hole: &Hole, tags: &mut Value) {
    if let Some(number) = hole.number() {
        tags["ref"] = json!(number.to_string());
    }
}

fn play(hole: &Hole, plane: &LocalPlane) -> Value {
    let mut tags = json!({"golf": "hole", "par": hole.par().to_string(), "name": hole.name()});
    number(hole, &mut tags);
    if let Some(index) = hole.stroke_index() {
        tags["handicap"] = json!(index.to_string());
    }
    let line = hole.line().vertices().iter().map(|&p| position(plane, p));
    feature(tags, "LineString", line.collect())
}

fn pin(hole: &Hole) -> Value {
    let mut tags = json!({"golf": "pin"});
    number(hole, &mut tags);
    tags
}

fn point(plane: &LocalPlane, at: Point, tags: Value) -> Value {
    feature(tags, "Point", position(plane, at))
}

/// An area under the name of its surface, with the golf tag where there is one.
fn area(plane: &LocalPlane, feature_of: &Feature) -> Value {
    let mut tags = Map::new();
    let surface = feature_of.surface;
    let (key, value) = match surface {
        Surface::Tee | Surface::Fairway | Surface::Rough | Surface::Green | Surface::Bunker => {
            ("golf", surface.name())
        }
        Surface::OutOfBounds => ("golf", "out_of_bounds"),
        Surface::PenaltyYellow => ("golf", "water_hazard"),
        Surface::PenaltyRed => ("golf", "lateral_water_hazard"),
        Surface::Trees => ("natural", "wood"),
        Surface::FirstCut | Surface::DeepRough | Surface::Fringe => ("surface", surface.name()),
    };
    tags.insert(key.to_owned(), json!(value));
    if let Some(name) = &feature_of.name {
        tags.insert("name".to_owned(), json!(name));
    }
    if let Some(canopy) = feature_of.canopy {
        tags.insert("height_ft".to_owned(), json!(canopy.height_ft));
        tags.insert("openness".to_owned(), json!(canopy.openness));
    }
    let outline = &feature_of.outline;
    let exterior = ring(plane, outline.exterior(), true);
    let holes = outline.holes().iter().map(|hole| ring(plane, hole, false));
    let rings: Vec<Value> = std::iter::once(exterior).chain(holes).collect();
    feature(Value::Object(tags), "Polygon", json!(rings))
}

/// A closed ring, counter-clockwise or clockwise.
fn ring(plane: &LocalPlane, ring: &Ring, counter_clockwise: bool) -> Value {
    let mut points = ring.vertices().to_vec();
    let next = points.iter().cycle().skip(1);
    let doubled: f64 = points
        .iter()
        .zip(next)
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum();
    if (doubled > 0.0) != counter_clockwise {
        points.reverse();
    }
    points.extend(points.first().copied());
    points.into_iter().map(|p| position(plane, p)).collect()
}

fn position(plane: &LocalPlane, p: Point) -> Value {
    let round = |degrees: f64| (degrees * 1e7).round() / 1e7;
    let (longitude, latitude) = plane.to_longitude_latitude(p);
    json!([round(longitude), round(latitude)])
}
