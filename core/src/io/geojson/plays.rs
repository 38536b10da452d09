//! The holes of a map: their lines of play, their numbers and the course each belongs to; and choosing among them.
use super::classify::Kind;
use super::map::{Map, Mapped};
use super::overpass::encloses;
use super::shape::Position;
use crate::geometry::LocalPlane;
use crate::io::ReadFault;
use std::collections::BTreeMap;

/// A place this far from every line of play chooses none, yards.
const FAR: f64 = 500.0;

/// The tags that name the course of a hole.
pub(super) const COURSE: [&str; 3] = ["golf:course:name", "golf:course", "course"];

/// Which hole of a map.
#[derive(Clone, Debug, PartialEq)]
pub enum Choice {
    /// By its `ref`; where no hole has it, by its place among holes that have none, counted from 1 in the order of the map.
    Ref(String),
    /// The one whose line of play is nearest to a longitude and latitude, degrees.
    Place(f64, f64),
}

/// One hole of a map: a line of play under one of its numbers.
#[derive(Clone)]
pub(super) struct Play<'m> {
    pub(super) feature: &'m Mapped,
    /// Its number or name, if it has one, as [`normal`] writes it.
    pub(super) reference: Option<String>,
    /// Which of the numbers of the line that is: a line `9;18` is two holes.
    pub(super) part: usize,
    pub(super) parts: usize,
    /// The course it belongs to, where the map tells.
    pub(super) course: Option<String>,
}

impl Play<'_> {
    /// How notes and faults of a whole course call it.
    pub(super) fn label(&self) -> String {
        match &self.reference {
            Some(reference) => format!("hole {reference}"),
            None => self.feature.label(),
        }
    }
}

/// A number as it is compared: `9`, `09`, `9.0` and `Hole 9` are one.
pub(super) fn normal(text: &str) -> String {
    let text = text.trim().to_lowercase();
    let bare = ["hole", "no.", "no", "#"]
        .iter()
        .find_map(|word| text.strip_prefix(word))
        .map_or(text.as_str(), str::trim);
    let whole = |v: &f64| v.fract() == 0.0 && v.abs() < 1e6;
    match bare.parse::<f64>().ok().filter(whole) {
        Some(value) => format!("{value:.0}"),
        None => text,
    }
}

/// The parts of a tag that tells several things, as `9;18`.
pub(super) fn parts(text: &str) -> Vec<&str> {
    let parts = text.split([';', ',', '/']).map(str::trim);
    parts.filter(|part| !part.is_empty()).collect()
}

/// The numbers of a line of play: its `ref`, or a name that is nothing but a number.
pub(super) fn references(feature: &Mapped) -> Vec<String> {
    if let Some(text) = feature.tags.first(&["ref", "number"]) {
        return parts(text).into_iter().map(normal).collect();
    }
    let name = feature.tags.get("name").map(normal);
    name.into_iter()
        .filter(|n| n.parse::<u8>().is_ok())
        .collect()
}

/// True of a map of a single hole: whatever tee and pin are on it are meant for that hole.
pub(super) fn is_single(map: &Map) -> bool {
    all(map).len() == 1
}

/// Every hole of the map, in its order.
pub(super) fn all(map: &Map) -> Vec<Play<'_>> {
    let courses = outlines(map);
    let lines = map.features.iter().filter(|m| m.class.kind == Kind::Play);
    lines
        .flat_map(|feature| {
            let references = references(feature);
            let course = course_of(feature, &courses);
            let count = references.len().max(1);
            (0..count).map(move |part| Play {
                feature,
                reference: references.get(part).cloned(),
                part,
                parts: count,
                course: course.clone(),
            })
        })
        .collect()
}

/// The outlines of courses with the name of each.
pub(super) fn outlines(map: &Map) -> Vec<(String, &Mapped)> {
    let found = map
        .features
        .iter()
        .filter(|m| m.class.kind == Kind::Outline);
    found
        .filter(|m| !m.areas().is_empty())
        .map(|m| (m.name().unwrap_or_else(|| m.label()), m))
        .collect()
}

fn course_of(feature: &Mapped, outlines: &[(String, &Mapped)]) -> Option<String> {
    if let Some(name) = feature.tags.first(&COURSE) {
        return Some(name.to_owned());
    }
    let places: Vec<Position> = feature.positions().collect();
    let middle = *places.get(places.len() / 2)?;
    let around = outlines.iter().filter(|(_, m)| {
        m.areas().iter().any(|rings| {
            let within = rings.iter().filter(|ring| encloses(ring, middle)).count();
            within % 2 == 1
        })
    });
    // The smallest of several: a short course inside a large one.
    let size = |m: &Mapped| -> f64 {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for p in m.positions() {
            (low, high) = (low.min(p.latitude), high.max(p.latitude));
        }
        high - low
    };
    around
        .min_by(|a, b| size(a.1).total_cmp(&size(b.1)))
        .map(|(name, _)| name.clone())
}

/// The holes of one course: of the named one, or of the only one there is.
///
/// # Errors
/// No course of that name, or several courses with holes and none named.
pub(super) fn of_course<'m>(
    plays: Vec<Play<'m>>,
    course: Option<&str>,
) -> Result<Vec<Play<'m>>, ReadFault> {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for play in &plays {
        if let Some(course) = &play.course {
            *counts.entry(course).or_default() += 1;
        }
    }
    let told = |(name, count): (&&str, &usize)| format!("{name:?} ({count} holes)");
    let names = counts.iter().map(told).collect::<Vec<_>>().join(", ");
    let Some(course) = course else {
        return if counts.len() > 1 {
            Err(ReadFault::SeveralCourses { courses: names })
        } else {
            Ok(plays)
        };
    };
    let is_it = |other: &str| other.trim().eq_ignore_ascii_case(course.trim());
    if !counts.keys().any(|name| is_it(name)) {
        return Err(ReadFault::NoSuchCourse {
            course: course.to_owned(),
            courses: if names.is_empty() {
                "none".to_owned()
            } else {
                names
            },
        });
    }
    let own = |play: &Play<'_>| play.course.as_deref().is_some_and(is_it);
    Ok(plays.into_iter().filter(own).collect())
}

/// The one hole that is meant, and a note where it was taken by its place in the file.
///
/// # Errors
/// No hole, none or several that fit.
pub(super) fn choose<'m>(
    plays: Vec<Play<'m>>,
    choice: Option<&Choice>,
) -> Result<(Play<'m>, Option<String>), ReadFault> {
    if plays.is_empty() {
        return Err(ReadFault::NoHole);
    }
    let refs = refs_of(&plays);
    match choice {
        None => match plays.as_slice() {
            [one] => Ok((one.clone(), None)),
            _ => Err(ReadFault::SeveralHoles {
                count: plays.len(),
                refs,
            }),
        },
        Some(Choice::Ref(text)) => by_reference(&plays, text, refs),
        Some(Choice::Place(longitude, latitude)) => {
            let wanted = format!("({longitude}, {latitude})");
            let nearest = nearest(&plays, *longitude, *latitude);
            match nearest {
                Some((play, far)) if far <= FAR => Ok((play.clone(), None)),
                _ => Err(ReadFault::Field {
                    field: "hole".to_owned(),
                    value: wanted,
                    allowed: format!(
                        "a longitude and latitude within {FAR} yards of the line of play of a hole"
                    ),
                }),
            }
        }
    }
}

fn refs_of(plays: &[Play<'_>]) -> String {
    /// More are not listed.
    const LISTED: usize = 40;
    let told = |play: &Play<'_>| {
        play.reference
            .clone()
            .unwrap_or_else(|| "(none)".to_owned())
    };
    let mut refs: Vec<String> = plays.iter().take(LISTED).map(told).collect();
    if plays.len() > LISTED {
        refs.push(format!("and {} more", plays.len() - LISTED));
    }
    refs.join(", ")
}

fn by_reference<'m>(
    plays: &[Play<'m>],
    text: &str,
    refs: String,
) -> Result<(Play<'m>, Option<String>), ReadFault> {
    let wanted = normal(text);
    let fits: Vec<&Play<'m>> = plays
        .iter()
        .filter(|play| play.reference.as_ref() == Some(&wanted))
        .collect();
    match fits.as_slice() {
        [one] => return Ok(((*one).clone(), None)),
        [] => {}
        several => {
            let told = |play: &&Play<'_>| {
                let course = play.course.as_deref().map_or_else(
                    || "of no course that is told".to_owned(),
                    |course| format!("of the course {course:?}"),
                );
                format!("{} {course}", play.feature.label())
            };
            return Err(ReadFault::AmbiguousHole {
                hole: text.trim().to_owned(),
                choices: several.iter().map(told).collect::<Vec<_>>().join("; "),
            });
        }
    }
    let place = wanted.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
    let by_place = place.and_then(|i| plays.get(i));
    match by_place.filter(|play| play.reference.is_none()) {
        Some(play) => {
            let label = play.feature.label();
            let note =
                format!("{label} has no ref: taken for hole {wanted} by its place in the map");
            Ok((play.clone(), Some(note)))
        }
        None => Err(ReadFault::NoSuchHole {
            hole: text.trim().to_owned(),
            refs,
        }),
    }
}

/// The line of play nearest to a place, and how far that is, yards.
fn nearest<'p, 'm>(
    plays: &'p [Play<'m>],
    longitude: f64,
    latitude: f64,
) -> Option<(&'p Play<'m>, f64)> {
    let plane = LocalPlane::new(longitude, latitude)?;
    let far = |play: &Play<'_>| {
        let places: Vec<_> = play
            .feature
            .positions()
            .map(|p| plane.to_plane(p.longitude, p.latitude))
            .collect();
        super::nearby::to_line(crate::geometry::Point::origin(), &places)
    };
    plays
        .iter()
        .map(|play| (play, far(play)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
}

/// The holes of the course that the options name, or all of them: a number may still tell them apart.
///
/// # Errors
/// No course of that name.
pub(super) fn of_course_of<'m>(
    plays: Vec<Play<'m>>,
    options: &super::Options,
) -> Result<Vec<Play<'m>>, ReadFault> {
    match &options.course {
        Some(course) => of_course(plays, Some(course)),
        None => Ok(plays),
    }
}
