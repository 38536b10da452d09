//! The tees of a hole: which belong to it, what they are called, and the one that is played from.
use super::classify::Kind;
use super::map::{Map, Mapped};
use super::nearby::to_line;
use super::plays::{normal, parts, references};
use super::shape::{Position, Shape};
use crate::geometry::{LocalPlane, Point, Polygon};
use crate::hole::{NamedTee, Surface};
use crate::io::ReadFault;

/// A tee without a number belongs to the hole whose line of play passes within so many yards of it,
const BESIDE: f64 = 45.0;
/// in the first part of its length: forward tees lie up to so far ahead.
const FIRST: f64 = 0.45;

/// The tees of a hole that have a name: of several with one name the nearest to the line of play.
pub(super) fn named(
    map: &Map,
    reference: Option<&String>,
    plane: &LocalPlane,
    line: &[Point],
) -> Vec<NamedTee> {
    let others = start_lines(map, plane);
    let start = first_part(line);
    let mut found: Vec<(NamedTee, f64)> = Vec::new();
    for feature in map.features.iter().filter(|m| is_tee(m)) {
        let names = names(feature);
        let Some(at) = middle(feature, plane).filter(|_| !names.is_empty()) else {
            continue;
        };
        let far = to_line(at, &start);
        let numbers: Vec<String> = match feature.tags.get("ref") {
            Some(text) => parts(text).into_iter().map(normal).collect(),
            None => Vec::new(),
        };
        // A tee whose ref is its colour tells nothing about the hole.
        let numbered = numbers.iter().any(|n| n.parse::<u16>().is_ok());
        let own = if numbered && reference.is_some() {
            reference.is_some_and(|r| numbers.contains(r)) && far < 3.0 * BESIDE
        } else {
            far < BESIDE && others.iter().all(|other| to_line(at, other) >= far - 1e-6)
        };
        if !own {
            continue;
        }
        for name in names {
            match found.iter_mut().find(|(tee, _)| tee.name == name) {
                Some((tee, best)) if far < *best => (tee.at, *best) = (at, far),
                Some(_) => {}
                None => found.push((NamedTee { name, at }, far)),
            }
        }
    }
    found.into_iter().map(|(tee, _)| tee).collect()
}

/// The tee of a name.
///
/// # Errors
/// No tee of the hole has that name.
pub(super) fn of_name(tees: &[NamedTee], name: &str) -> Result<Point, ReadFault> {
    let wanted = name.trim().to_lowercase();
    if let Some(tee) = tees.iter().find(|tee| tee.name.to_lowercase() == wanted) {
        return Ok(tee.at);
    }
    let names: Vec<&str> = tees.iter().map(|tee| tee.name.as_str()).collect();
    Err(ReadFault::Field {
        field: "tee".to_owned(),
        value: format!("{name:?}"),
        allowed: if names.is_empty() {
            "left out, or a longitude and latitude: no tee of the hole has a name".to_owned()
        } else {
            format!(
                "the name of a tee ({}), or a longitude and latitude",
                names.join(", ")
            )
        },
    })
}

fn is_tee(feature: &Mapped) -> bool {
    feature.class.kind == Kind::Surface(Surface::Tee)
}

/// What a tee is called: the colours of its markers, or else its name.
fn names(feature: &Mapped) -> Vec<String> {
    let told = ["tee", "colour", "color", "tee:colour", "name", "ref"];
    let Some(text) = feature.tags.first(&told) else {
        return Vec::new();
    };
    let words = parts(text).into_iter().map(str::to_owned);
    // A number is that of the hole.
    words.filter(|name| name.parse::<f64>().is_err()).collect()
}

/// The middle of a tee.
fn middle(feature: &Mapped, plane: &LocalPlane) -> Option<Point> {
    let on_plane = |list: &[Position]| super::on_plane(plane, list);
    match feature.shape.as_ref().ok()? {
        Shape::Points(points) => on_plane(points).first().copied(),
        Shape::Lines(lines) => {
            let line = on_plane(lines.first()?);
            let ends = line.first()?.coords + line.last()?.coords;
            Polygon::from_points(vec![line.clone()])
                .map(|area| area.centroid())
                .ok()
                .or_else(|| Some(Point::from(ends * 0.5)))
        }
        Shape::Areas(areas) => {
            let ring = on_plane(areas.first()?.first()?);
            let area = Polygon::from_points(vec![ring]).ok()?;
            Some(area.centroid())
        }
    }
}

/// The first parts of all lines of play, to which tees without a number may belong.
fn start_lines(map: &Map, plane: &LocalPlane) -> Vec<Vec<Point>> {
    let plays = map.features.iter().filter(|m| m.class.kind == Kind::Play);
    plays
        .map(|play| {
            let places: Vec<Position> = play.positions().collect();
            first_part(&super::on_plane(plane, &places))
        })
        .collect()
}

/// A line up to where forward tees may lie.
fn first_part(line: &[Point]) -> Vec<Point> {
    let long: f64 = line.windows(2).map(|leg| (leg[1] - leg[0]).norm()).sum();
    let mut left = FIRST * long;
    let mut part: Vec<Point> = line.first().copied().into_iter().collect();
    for leg in line.windows(2) {
        let (way, far) = (leg[1] - leg[0], (leg[1] - leg[0]).norm());
        if far >= left {
            part.push(leg[0] + way * (left / far.max(f64::MIN_POSITIVE)));
            break;
        }
        left -= far;
        part.push(leg[1]);
    }
    part
}

/// True where a feature has a number, but not that of a hole that has one.
pub(super) fn is_of_another(feature: &Mapped, reference: Option<&String>) -> bool {
    let is_number = |own: &String| own.parse::<u16>().is_ok();
    let numbered = references(feature).iter().any(is_number);
    reference.is_some() && numbered && !has_reference(feature, reference)
}

/// True where a feature has the number of a hole.
pub(super) fn has_reference(feature: &Mapped, reference: Option<&String>) -> bool {
    reference.is_some_and(|wanted| references(feature).contains(wanted))
}
