//! What a feature of a map is, told by its tags.
use crate::hole::Surface;
use serde_json::{Map, Value};

/// The part a feature plays in the game.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// The line of play of a hole, with its card.
    Play,
    /// The hole in the green.
    Pin,
    /// A part of the hole.
    Surface(Surface),
    /// It has to do with golf, but nothing here uses it.
    Unused,
}

/// What a feature is and the tag that says so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Class {
    pub(super) kind: Kind,
    /// The tag as `key=value`.
    pub(super) tag: String,
    /// What was assumed of it, if anything.
    pub(super) assumed: Option<&'static str>,
    /// True where it may be a point that tells the place of the tee.
    pub(super) tells_tee: bool,
}

/// What the value of a tag means and what is assumed of it; None where it has nothing to do with golf.
type Meaning = Option<(Kind, Option<&'static str>)>;

/// The text of a tag; numbers are taken as they are written.
pub(super) fn tag(tags: &Map<String, Value>, key: &str) -> Option<String> {
    match tags.get(key)? {
        Value::String(text) => Some(text.trim().to_owned()).filter(|t| !t.is_empty()),
        Value::Number(number) => Some(number.to_string()),
        _ => None,
    }
}

/// The class of a feature; None where it has nothing to do with golf.
pub(super) fn class(tags: &Map<String, Value>) -> Option<Class> {
    let by = |key: &str, class: fn(&str) -> Meaning| {
        let value = tag(tags, key)?;
        let (kind, assumed) = class(&value)?;
        let tells_tee = key == "role" && kind == Kind::Surface(Surface::Tee);
        Some(Class {
            kind,
            tag: format!("{key}={value}"),
            assumed,
            tells_tee,
        })
    };
    let underground = tag(tags, "tunnel").is_some_and(|t| t != "no");
    by("golf", golf)
        .or_else(|| by("role", role))
        .or_else(|| by("surface", plain))
        .or_else(|| by("natural", natural))
        .or_else(|| by("landuse", landuse))
        .or_else(|| {
            if underground {
                None
            } else {
                by("waterway", waterway)
            }
        })
}

const UNMARKED: &str = "has no golf tag: taken for a red penalty area";

fn golf(value: &str) -> Meaning {
    let kind = match value {
        "hole" => Kind::Play,
        "pin" => Kind::Pin,
        "tee" => Kind::Surface(Surface::Tee),
        "fairway" => Kind::Surface(Surface::Fairway),
        "green" => Kind::Surface(Surface::Green),
        "bunker" => Kind::Surface(Surface::Bunker),
        "rough" => Kind::Surface(Surface::Rough),
        "water_hazard" => Kind::Surface(Surface::PenaltyYellow),
        "lateral_water_hazard" => Kind::Surface(Surface::PenaltyRed),
        "penalty_area" => {
            return Some((
                Kind::Surface(Surface::PenaltyRed),
                Some("has no colour: taken for red"),
            ));
        }
        "out_of_bounds" => Kind::Surface(Surface::OutOfBounds),
        _ => Kind::Unused,
    };
    Some((kind, None))
}

/// The value of `role`: everything is for us, so an unknown one is worth a warning.
fn role(value: &str) -> Meaning {
    plain(value).or(Some((Kind::Unused, None)))
}

/// The value of `surface`, which maps also use for `grass` or `asphalt`.
fn plain(value: &str) -> Meaning {
    let kind = match value {
        "line_of_play" => Kind::Play,
        "pin" => Kind::Pin,
        _ => Kind::Surface(Surface::from_name(value)?),
    };
    Some((kind, None))
}

fn natural(value: &str) -> Meaning {
    match value {
        "water" | "wetland" => Some((Kind::Surface(Surface::PenaltyRed), Some(UNMARKED))),
        "wood" | "tree_row" | "tree" => Some((Kind::Surface(Surface::Trees), None)),
        "scrub" | "heath" => Some((Kind::Surface(Surface::DeepRough), None)),
        "sand" => Some((Kind::Unused, None)),
        _ => None,
    }
}

fn landuse(value: &str) -> Meaning {
    match value {
        "forest" => Some((Kind::Surface(Surface::Trees), None)),
        "basin" | "reservoir" => Some((Kind::Surface(Surface::PenaltyRed), Some(UNMARKED))),
        _ => None,
    }
}

fn waterway(value: &str) -> Meaning {
    matches!(
        value,
        "river" | "riverbank" | "stream" | "ditch" | "drain" | "canal"
    )
    .then_some((Kind::Surface(Surface::PenaltyRed), Some(UNMARKED)))
}
