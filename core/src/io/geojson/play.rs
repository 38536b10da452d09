//! The hole of a map: which one, its card, its tee and its pin.
use super::super::ReadFault;
use super::super::projection::LocalPlane;
use super::classify::{Kind, tag};
use super::shape::Shape;
use super::{Mapped, Notes, Options, surfaces};
use crate::geometry::Point;
use crate::units::yards_from_metres;

/// The hole to read, or None after reporting why there is none.
pub(super) fn choose<'m, 'a>(
    mapped: &'m [Mapped<'a>],
    options: &Options,
    faults: &mut Vec<ReadFault>,
) -> Option<&'m Mapped<'a>> {
    let holes: Vec<&Mapped<'_>> = mapped
        .iter()
        .filter(|m| m.class.kind == Kind::Play)
        .collect();
    let refs = holes
        .iter()
        .map(|h| reference(h).unwrap_or_else(|| "(none)".to_owned()))
        .collect::<Vec<_>>()
        .join(", ");
    let wanted = options.hole.as_ref().map(|hole| hole.trim().to_owned());
    let fits: Vec<&&Mapped<'_>> = holes
        .iter()
        .filter(|h| wanted.is_none() || reference(h) == wanted)
        .collect();
    match (fits.as_slice(), options.hole.as_ref()) {
        ([one], _) => return mapped.iter().find(|m| m.index == one.index),
        _ if holes.is_empty() => faults.push(ReadFault::NoHole),
        (_, Some(hole)) => faults.push(ReadFault::NoSuchHole {
            hole: hole.clone(),
            refs,
        }),
        (_, None) => faults.push(ReadFault::SeveralHoles {
            count: holes.len(),
            refs,
        }),
    }
    None
}

/// What the card is called by.
fn reference(hole: &Mapped<'_>) -> Option<String> {
    tag(hole.tags, "ref").or_else(|| tag(hole.tags, "number"))
}

/// What stands on the card; None is what is missing or was reported.
pub(super) struct Card {
    pub(super) name: String,
    pub(super) number: Option<i64>,
    pub(super) par: Option<i64>,
    pub(super) stroke_index: Option<i64>,
}

/// Reads the card.
pub(super) fn card(hole: &Mapped<'_>, notes: &mut Notes) -> Card {
    let reference = reference(hole);
    let name = hole.name().unwrap_or_else(|| match &reference {
        Some(reference) => format!("Hole {reference}"),
        None => "Hole".to_owned(),
    });
    let index = tag(hole.tags, "handicap").or_else(|| tag(hole.tags, "stroke_index"));
    Card {
        name,
        number: extra("ref", reference, 99, notes),
        par: par(hole, notes),
        stroke_index: extra("handicap", index, 18, notes),
    }
}

/// Par, which no hole can do without.
fn par(hole: &Mapped<'_>, notes: &mut Notes) -> Option<i64> {
    let (field, allowed) = (
        format!("{}: par", hole.label()),
        "a whole number, 3 to 6".to_owned(),
    );
    let Some(text) = tag(hole.tags, "par") else {
        notes.faults.push(ReadFault::Missing { field, allowed });
        return None;
    };
    let par = text.parse().ok();
    if par.is_none() {
        notes.faults.push(ReadFault::Field {
            field,
            value: format!("{text:?}"),
            allowed,
        });
    }
    par
}

/// A number of the card that nothing depends on: a wrong one is left out with a warning.
fn extra(field: &str, text: Option<String>, highest: i64, notes: &mut Notes) -> Option<i64> {
    let text = text?;
    let number = text.parse().ok().filter(|n| (1..=highest).contains(n));
    if number.is_none() {
        notes.warn(format!(
            "{field} is {text:?}, no whole number from 1 to {highest}: left out"
        ));
    }
    number
}

/// Warns where the line of play is not as long as the map says (`dist`, metres or yards): a sign of swapped
/// longitude and latitude or of another tee.
pub(super) fn check_distance(hole: &Mapped<'_>, line: &[Point], notes: &mut Notes) {
    let said = tag(hole.tags, "dist").and_then(|text| text.parse::<f64>().ok());
    let Some(said) = said.filter(|d| *d > 0.0) else {
        return;
    };
    let length: f64 = line.windows(2).map(|s| (s[1] - s[0]).norm()).sum();
    let fits = |yards: f64| (length / yards - 1.0).abs() < 0.1;
    if !fits(said) && !fits(yards_from_metres(said)) {
        notes.warn(format!(
            "dist is {said}, but the line of play is {length:.0} yards long"
        ));
    }
}

/// The pin: the one with the hole's ref, else the nearest to the end of the line of play within reach of it.
pub(super) fn pin(
    hole: &Mapped<'_>,
    plane: &LocalPlane,
    line: &[Point],
    mapped: &[Mapped<'_>],
    reach: f64,
) -> Option<Point> {
    let pins = || mapped.iter().filter(|m| m.class.kind == Kind::Pin);
    let wanted = reference(hole);
    let own = pins().find(|pin| wanted.is_some() && reference(pin) == wanted);
    if let Some(own) = own {
        return points(own, plane).into_iter().next();
    }
    // A pin with the ref of another hole is not ours.
    let others = pins().filter(|pin| wanted.is_none() || reference(pin).is_none());
    nearest(
        others.flat_map(|pin| points(pin, plane)),
        line.last().copied()?,
        line,
        reach,
    )
}

/// Where the tee shot is played from: a point that tells it, else the start of the line of play.
pub(super) fn tee(
    plane: &LocalPlane,
    line: &[Point],
    mapped: &[Mapped<'_>],
    reach: f64,
) -> Option<Point> {
    let start = line.first().copied()?;
    let told = mapped
        .iter()
        .filter(|m| m.class.tells_tee)
        .flat_map(|m| points(m, plane));
    nearest(told, start, line, reach).or(Some(start))
}

/// The one of `candidates` nearest to `target`, of those within reach of the line.
fn nearest(
    candidates: impl Iterator<Item = Point>,
    target: Point,
    line: &[Point],
    reach: f64,
) -> Option<Point> {
    candidates
        .filter(|&p| surfaces::near(line, &[p], reach))
        .min_by(|a, b| (a - target).norm().total_cmp(&(b - target).norm()))
}

/// The points of a feature.
fn points(feature: &Mapped<'_>, plane: &LocalPlane) -> Vec<Point> {
    match &feature.shape {
        Some(Shape::Points(points)) => points
            .iter()
            .map(|p| plane.to_plane(p.longitude, p.latitude))
            .collect(),
        _ => Vec::new(),
    }
}
