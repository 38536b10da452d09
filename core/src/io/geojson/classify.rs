//! What a feature of a map is, told by its tags.
use super::tags::Tags;
use crate::hole::Surface;

/// The part a feature plays in the game.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    /// The line of play of a hole, with its card.
    Play,
    /// The hole in the green.
    Pin,
    /// A part of the hole.
    Surface(Surface),
    /// The outline of a golf course.
    Outline,
    /// The shore of the sea: land to the left of it, water to the right.
    Coast,
    /// A wall, fence or hedge.
    Barrier(Barrier),
    /// A house or another building.
    Building,
    /// Where people are, with the word for it.
    People(&'static str),
    /// It has to do with golf, but nothing here uses it.
    Unused,
}

/// What stands across the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Barrier {
    Wall,
    Fence,
    Hedge,
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

impl Class {
    /// True where somebody marked it for the game; nobody marked what a map has for other reasons.
    pub(super) fn is_marked(&self) -> bool {
        let key = self.tag.split('=').next();
        matches!(key, Some("golf" | "role" | "surface"))
    }
}

/// What the value of a tag means and what is assumed of it; None where it has nothing to do with golf.
type Meaning = Option<(Kind, Option<&'static str>)>;

/// The class of a feature; None where it has nothing to do with golf.
pub(super) fn class(tags: &Tags) -> Option<Class> {
    let by = |key: &str, class: fn(&str) -> Meaning| {
        let value = tags.get(key)?;
        let (kind, assumed) = class(value)?;
        let tells_tee = key == "role" && kind == Kind::Surface(Surface::Tee);
        Some(Class {
            kind,
            tag: format!("{key}={value}"),
            assumed,
            tells_tee,
        })
    };
    let above = |class: Option<Class>| class.filter(|_| !tags.says_yes("tunnel"));
    by("golf", golf)
        .or_else(|| by("role", role))
        .or_else(|| by("surface", plain))
        .or_else(|| by("leisure", outline))
        .or_else(|| above(by("natural", natural)))
        .or_else(|| above(by("landuse", landuse)))
        .or_else(|| above(by("waterway", waterway)))
        .or_else(|| by("barrier", barrier))
        .or_else(|| by("building", building))
        .or_else(|| above(by("railway", railway)))
        .or_else(|| by("golf", unknown))
        .or_else(|| above(by("highway", highway)).filter(|_| !tags.says_yes("golf_cart")))
        .or_else(|| by("amenity", amenity))
        .or_else(|| by("leisure", leisure))
        .or_else(|| by("tourism", tourism))
        .or_else(|| by("landuse", residential))
        .or_else(|| by("surface", unknown).filter(|_| !tags.tell_what_it_is()))
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
        "clubhouse" => Kind::Building,
        _ => return None,
    };
    Some((kind, None))
}

/// The value of `role`: everything is for us, so an unknown one is worth a note.
fn role(value: &str) -> Meaning {
    plain(value).or_else(|| unknown(value))
}

/// A value that says nothing here, of a tag that is for us.
fn unknown(_: &str) -> Meaning {
    Some((Kind::Unused, None))
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

fn outline(value: &str) -> Meaning {
    (value == "golf_course").then_some((Kind::Outline, None))
}

fn natural(value: &str) -> Meaning {
    match value {
        "water" | "wetland" | "bay" => Some((Kind::Surface(Surface::PenaltyRed), Some(UNMARKED))),
        "coastline" => Some((Kind::Coast, None)),
        "wood" | "tree_row" | "tree" => Some((Kind::Surface(Surface::Trees), None)),
        "scrub" | "heath" => Some((Kind::Surface(Surface::DeepRough), None)),
        "sand" | "beach" | "shingle" | "cliff" | "bare_rock" => Some((Kind::Unused, None)),
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

fn barrier(value: &str) -> Meaning {
    let barrier = match value {
        "wall" | "city_wall" | "retaining_wall" => Barrier::Wall,
        "fence" | "guard_rail" => Barrier::Fence,
        "hedge" => Barrier::Hedge,
        _ => return None,
    };
    Some((Kind::Barrier(barrier), None))
}

fn building(value: &str) -> Meaning {
    (value != "no").then_some((Kind::Building, None))
}

/// Streets and ways on foot, by the first word of their kind (`primary_link` is a road as `primary` is).
fn highway(value: &str) -> Meaning {
    let word = match value.trim_end_matches("_link") {
        "motorway" | "trunk" | "primary" | "secondary" | "tertiary" | "unclassified"
        | "residential" | "living_street" | "road" | "busway" => "road",
        "service" => "service road",
        "footway" | "path" | "cycleway" | "bridleway" | "track" | "pedestrian" | "steps" => "path",
        "bus_stop" => "bus stop",
        _ => return None,
    };
    Some((Kind::People(word), None))
}

fn railway(value: &str) -> Meaning {
    matches!(value, "rail" | "light_rail" | "tram" | "narrow_gauge")
        .then_some((Kind::People("railway"), None))
}

fn amenity(value: &str) -> Meaning {
    let word = match value {
        "parking" => "car park",
        "school" | "kindergarten" | "college" => "school",
        "hospital" | "nursing_home" => "hospital",
        "grave_yard" | "place_of_worship" => "place of worship",
        _ => return None,
    };
    Some((Kind::People(word), None))
}

fn leisure(value: &str) -> Meaning {
    let word = match value {
        "playground" => "playground",
        "pitch" | "track" | "stadium" | "sports_centre" => "sports ground",
        "garden" => "garden",
        "park" => "park",
        _ => return None,
    };
    Some((Kind::People(word), None))
}

fn tourism(value: &str) -> Meaning {
    matches!(value, "camp_site" | "caravan_site" | "picnic_site")
        .then_some((Kind::People("camp site"), None))
}

fn residential(value: &str) -> Meaning {
    match value {
        "residential" => Some((Kind::People("housing estate"), None)),
        "allotments" => Some((Kind::People("allotment garden"), None)),
        _ => None,
    }
}
