//! The geometry of a feature: positions in longitude and latitude under the rules of RFC 7946.
use super::super::json::shown;
use serde_json::Value;

/// A place on the Earth, degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Position {
    pub(super) longitude: f64,
    pub(super) latitude: f64,
}

impl Position {
    /// The same for the same place, to the bit.
    pub(super) fn key(self) -> (u64, u64) {
        // Minus zero is zero.
        (
            (self.longitude + 0.0).to_bits(),
            (self.latitude + 0.0).to_bits(),
        )
    }
}

/// A geometry that could not be read: why, and what positions of it could.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Broken {
    pub(super) messages: Vec<String>,
    pub(super) positions: Vec<Position>,
}

/// A geometry: single and multiple ones alike.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Shape {
    /// Points.
    Points(Vec<Position>),
    /// Lines of two or more positions.
    Lines(Vec<Vec<Position>>),
    /// Areas: rings that are closed, the exterior first.
    Areas(Vec<Vec<Vec<Position>>>),
}

impl Shape {
    /// Every position.
    pub(super) fn positions(&self) -> Box<dyn Iterator<Item = Position> + '_> {
        match self {
            Shape::Points(points) => Box::new(points.iter().copied()),
            Shape::Lines(lines) => Box::new(lines.iter().flatten().copied()),
            Shape::Areas(areas) => Box::new(areas.iter().flatten().flatten().copied()),
        }
    }
}

/// Reads a geometry, or tells everything that is wrong with it.
pub(super) fn read(geometry: &Value) -> Result<Shape, Broken> {
    shape(geometry).map_err(|messages| {
        let mut positions = Vec::new();
        gather_all(geometry, &mut positions);
        Broken {
            messages,
            positions,
        }
    })
}

/// Every position of a geometry, or of a collection of some, that can be read.
fn gather_all(geometry: &Value, found: &mut Vec<Position>) {
    let coordinates = geometry.get("coordinates").unwrap_or(&Value::Null);
    gather(coordinates, 4, found);
    let inner = geometry.get("geometries").and_then(Value::as_array);
    for geometry in inner.into_iter().flatten() {
        gather_all(geometry, found);
    }
}

/// Every position that can be read, however the lists around them are nested.
fn gather(value: &Value, depth: u8, found: &mut Vec<Position>) {
    let Some(list) = value.as_array() else { return };
    if let Some(read) = position(value, "", &mut Vec::new()) {
        found.push(read);
    } else if depth > 0 {
        list.iter()
            .for_each(|inner| gather(inner, depth - 1, found));
    }
}

fn shape(geometry: &Value) -> Result<Shape, Vec<String>> {
    let kind = geometry.get("type").and_then(Value::as_str).unwrap_or("");
    let coordinates = geometry.get("coordinates").unwrap_or(&Value::Null);
    let mut faults = Vec::new();
    let f = &mut faults;
    let shape = match kind {
        "Point" => Shape::Points(
            position(coordinates, "the position", f)
                .into_iter()
                .collect(),
        ),
        "MultiPoint" => Shape::Points(points(coordinates, f)),
        "LineString" => Shape::Lines(vec![line(coordinates, "the line", f)]),
        "MultiLineString" => Shape::Lines(each(coordinates, "line", f, line)),
        "Polygon" => Shape::Areas(vec![each(coordinates, "ring", f, ring)]),
        "MultiPolygon" => {
            let area = |value: &Value, what: &str, f: &mut Vec<String>| {
                let mut own = Vec::new();
                let rings = each(value, "ring", &mut own, ring);
                f.extend(own.into_iter().map(|message| format!("{what}, {message}")));
                rings
            };
            Shape::Areas(each(coordinates, "polygon", f, area))
        }
        _ => {
            let allowed =
                "a Point, LineString, Polygon, MultiPoint, MultiLineString or MultiPolygon";
            return Err(vec![format!(
                "its geometry is {}; it must be {allowed}",
                shown(geometry)
            )]);
        }
    };
    if faults.is_empty() {
        Ok(shape)
    } else {
        Err(faults)
    }
}

/// Reads the entries of a list that must not be empty.
fn each<T>(
    value: &Value,
    what: &str,
    faults: &mut Vec<String>,
    read: impl Fn(&Value, &str, &mut Vec<String>) -> T,
) -> Vec<T> {
    match value.as_array().filter(|list| !list.is_empty()) {
        Some(list) => list
            .iter()
            .enumerate()
            .map(|(i, value)| read(value, &format!("{what} {i}"), faults))
            .collect(),
        None => {
            faults.push(format!(
                "its coordinates are {}; they must be a list of one {what} or more",
                shown(value)
            ));
            Vec::new()
        }
    }
}

/// One position or more.
fn points(value: &Value, faults: &mut Vec<String>) -> Vec<Position> {
    let before = faults.len();
    let points = positions(value, "the points", faults);
    if faults.len() == before && points.is_empty() {
        faults.push("it has no points; it must have at least 1".to_owned());
    }
    points
}

/// Two positions or more.
fn line(value: &Value, what: &str, faults: &mut Vec<String>) -> Vec<Position> {
    let before = faults.len();
    let line = positions(value, what, faults);
    if faults.len() == before && line.len() < 2 {
        faults.push(format!(
            "{what} has {} positions; it must have at least 2",
            line.len()
        ));
    }
    line
}

/// Four positions or more, the last the same as the first.
fn ring(value: &Value, what: &str, faults: &mut Vec<String>) -> Vec<Position> {
    let before = faults.len();
    let ring = positions(value, what, faults);
    if faults.len() > before {
        return ring;
    }
    if ring.len() < 4 {
        faults.push(format!(
            "{what} has {} positions; it must have at least 4",
            ring.len()
        ));
    }
    if let (Some(a), Some(b)) = (ring.first(), ring.last())
        && a != b
    {
        let (first, last) = (
            format!("[{}, {}]", a.longitude, a.latitude),
            format!("[{}, {}]", b.longitude, b.latitude),
        );
        faults.push(format!(
            "{what} is not closed: its first position is {first}, its last {last}; they must be the same"
        ));
    }
    ring
}

/// A list of positions; of several faulty ones the first is reported, with their number.
fn positions(value: &Value, what: &str, faults: &mut Vec<String>) -> Vec<Position> {
    let Some(list) = value.as_array() else {
        faults.push(format!(
            "{what} is {}; it must be a list of positions",
            shown(value)
        ));
        return Vec::new();
    };
    let mut own = Vec::new();
    let read = list
        .iter()
        .enumerate()
        .filter_map(|(i, value)| position(value, &format!("{what}, position {i}"), &mut own))
        .collect();
    let more = own.len().saturating_sub(1);
    if let Some(first) = own.into_iter().next() {
        let more = if more > 0 {
            format!(" (and {more} more positions of it are faulty)")
        } else {
            String::new()
        };
        faults.push(first + &more);
    }
    read
}

/// Longitude and latitude; a third number, the height, is passed over.
fn position(value: &Value, what: &str, faults: &mut Vec<String>) -> Option<Position> {
    let pair = value
        .as_array()
        .and_then(|list| Some((list.first()?.as_f64()?, list.get(1)?.as_f64()?)));
    let Some((longitude, latitude)) = pair else {
        faults.push(format!(
            "{what} is {}; it must be [longitude, latitude], two numbers",
            shown(value)
        ));
        return None;
    };
    if !(-180.0..=180.0).contains(&longitude) {
        faults.push(format!(
            "{what} has longitude {longitude}; it must be -180 to 180"
        ));
        return None;
    }
    if !(-90.0..=90.0).contains(&latitude) {
        let hint = "(positions are [longitude, latitude], in this order)";
        faults.push(format!(
            "{what} has latitude {latitude}; it must be -90 to 90 {hint}"
        ));
        return None;
    }
    Some(Position {
        longitude,
        latitude,
    })
}
