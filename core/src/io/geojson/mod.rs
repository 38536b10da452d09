//! Maps of holes: GeoJSON (RFC 7946) with OpenStreetMap's golf tags or with plain surface names.
//!
//! A map is a `FeatureCollection`. What a feature is, is told by the first of these that fits:
//!
//! - `golf`: `hole` (a LineString from tee to green with `par` and, if known, `ref`, `handicap`, `name`), `pin`, `tee`,
//!   `fairway`, `green`, `bunker`, `rough`, `water_hazard` (yellow), `lateral_water_hazard` (red), `penalty_area` (red),
//!   `out_of_bounds` (a line or an area). Other values are left out with a warning.
//! - `role` or `surface`: one of our surface names (`first_cut`, `fringe`, `penalty_red`, ...), `pin`, or `line_of_play`
//!   (as `golf=hole`, with `number` and `stroke_index` as other names of `ref` and `handicap`). A point with `role=tee`
//!   is where the tee shot is played from.
//! - `natural=water` or `wetland`, `landuse=basin` or `reservoir`, `waterway=*`: nobody marked it, so it becomes a red
//!   penalty area with a warning; a line is as wide as its `width` (metres), or 4 yards with a warning.
//! - `natural=wood` or `tree_row` or `tree`, `landuse=forest`: trees, as high as their `height` (metres).
//! - `natural=scrub` or `heath`: deep rough (common practice, no source).
//!
//! Anything else is no part of the game and is passed over, the course's own outline too: ground outside it is out of
//! bounds only where a boundary is drawn.
//!
//! The tee shot is played from the first position of the line of play. Features farther from the line of play than
//! [`Options::reach`] are left out. Where outlines overlap, the more special one wins, from the bottom: rough, deep
//! rough, trees, first cut, fairway, penalty area, tee, bunker, fringe, green, and out of bounds over everything, for
//! nothing beyond the boundary is on the course (Rules of Golf, Definitions: out of bounds). Trees stand over whatever ground
//! is drawn on them, which is the ground that a ball under them lies on; but a wood that covers the tee or the pin is taken
//! for one that the hole is cut out of ([`Hole::standing_trees`]).
//! No fringe is invented where none is mapped.
mod classify;
mod play;
mod shape;
mod surfaces;

use super::json::{self, shown, wrong};
use super::projection::LocalPlane;
use super::{ReadFault, ReadFaults};
use crate::geometry::Point;
use crate::hole::{Draft, FeatureRef, Hole, HoleFault, Warning};
use classify::{Class, Kind};
use serde_json::{Map, Value};
use shape::{Position, Shape};

/// How a map is read.
#[derive(Clone, Debug, PartialEq)]
pub struct Options {
    /// The `ref` of the hole to read; needed when the map has several.
    pub hole: Option<String>,
    /// Features within this many yards of the line of play belong to the hole; default 150.
    pub reach: f64,
    /// Stimpmeter reading of the green, feet (maps do not tell it); default 9.
    pub green_speed_ft: f64,
}

impl Default for Options {
    fn default() -> Self {
        Options {
            hole: None,
            reach: 150.0,
            green_speed_ft: super::native::GREEN_SPEED_FT,
        }
    }
}

/// Reads a hole from a map.
///
/// # Errors
/// Text that is no JSON, or every fault of the map and of the hole in it.
pub fn read(text: &str, options: &Options) -> Result<Hole, ReadFaults> {
    from_value(&json::parse(text)?, options)
}

/// A feature of the map that has to do with golf.
struct Mapped<'a> {
    /// Its place in the map, counted from 0.
    index: usize,
    class: Class,
    tags: &'a Map<String, Value>,
    /// Its geometry, or None where that is missing or was reported as faulty.
    shape: Option<Shape>,
}

impl Mapped<'_> {
    /// How faults and warnings call it.
    fn label(&self) -> String {
        match self.class.kind {
            Kind::Surface(surface) => FeatureRef {
                index: self.index,
                surface,
                name: self.name(),
            }
            .to_string(),
            Kind::Pin => format!("pin (feature {})", self.index),
            Kind::Play | Kind::Unused => format!("{} (feature {})", self.class.tag, self.index),
        }
    }

    fn name(&self) -> Option<String> {
        classify::tag(self.tags, "name")
    }
}

/// What was found wrong or assumed so far.
#[derive(Default)]
struct Notes {
    faults: Vec<ReadFault>,
    warnings: Vec<Warning>,
}

impl Notes {
    fn warn(&mut self, text: String) {
        self.warnings.push(Warning(text));
    }

    fn fault(&mut self, feature: String, message: impl Into<String>) {
        self.faults.push(ReadFault::Geometry {
            feature,
            message: message.into(),
        });
    }
}

/// Reads a parsed map.
pub(super) fn from_value(value: &Value, options: &Options) -> Result<Hole, ReadFaults> {
    let mut notes = Notes::default();
    if !(options.reach >= 0.0 && options.reach <= 2000.0) {
        let (field, value, allowed) = (
            "reach".to_owned(),
            options.reach.to_string(),
            "0 to 2000 yards".to_owned(),
        );
        notes.faults.push(ReadFault::Field {
            field,
            value,
            allowed,
        });
    }
    let mapped = features(value, &mut notes);
    let chosen = play::choose(&mapped, options, &mut notes.faults);
    match chosen.and_then(|hole| project(hole, &mut notes)) {
        Some((hole, plane, line)) => {
            let drawn = draft(hole, &plane, line, &mapped, options, &mut notes);
            finish(drawn, notes)
        }
        None => Err(ReadFaults(notes.faults)),
    }
}

/// The features of the map that have to do with golf; what is faulty is reported.
fn features<'a>(value: &'a Value, notes: &mut Notes) -> Vec<Mapped<'a>> {
    let faults = &mut notes.faults;
    if value.get("type").and_then(Value::as_str) != Some("FeatureCollection") {
        let kind = value.get("type").unwrap_or(&Value::Null);
        faults.push(wrong("type", kind, "\"FeatureCollection\""));
        return Vec::new();
    }
    if let Some(crs) = value
        .get("crs")
        .filter(|crs| !crs.is_null() && !crs.to_string().contains("CRS84"))
    {
        faults.push(ReadFault::Crs { crs: shown(crs) });
    }
    let Some(list) = value.get("features").and_then(Value::as_array) else {
        faults.push(wrong(
            "features",
            value.get("features").unwrap_or(&Value::Null),
            "a list of features",
        ));
        return Vec::new();
    };
    list.iter()
        .enumerate()
        .filter_map(|(index, feature)| mapped(index, feature, notes))
        .collect()
}

/// One feature, or None where it has nothing to do with golf.
fn mapped<'a>(index: usize, feature: &'a Value, notes: &mut Notes) -> Option<Mapped<'a>> {
    if feature.get("type").and_then(Value::as_str) != Some("Feature") {
        notes.faults.push(wrong(
            &format!("features[{index}]"),
            feature,
            "an object with \"type\": \"Feature\"",
        ));
        return None;
    }
    let tags = feature.get("properties")?.as_object()?;
    let class = classify::class(tags)?;
    let mut mapped = Mapped {
        index,
        class,
        tags,
        shape: None,
    };
    if mapped.class.kind == Kind::Unused {
        notes.warn(format!("{} is not used", mapped.label()));
        return None;
    }
    match shape::read(feature.get("geometry").unwrap_or(&Value::Null)) {
        Ok(shape) => mapped.shape = Some(shape),
        Err(messages) => {
            for message in messages {
                notes.fault(mapped.label(), message);
            }
        }
    }
    Some(mapped)
}

/// The chosen hole with its plane and line of play in it.
fn project<'m, 'a>(
    hole: &'m Mapped<'a>,
    notes: &mut Notes,
) -> Option<(&'m Mapped<'a>, LocalPlane, Vec<Point>)> {
    let line = match hole.shape.as_ref()? {
        Shape::Lines(lines) if lines.len() == 1 => &lines[0],
        _ => {
            notes.fault(
                hole.label(),
                "the line of play must be one LineString from tee to green",
            );
            return None;
        }
    };
    let origin = line[0];
    let Some(plane) = LocalPlane::new(origin.longitude, origin.latitude) else {
        notes.fault(
            hole.label(),
            format!(
                "latitude {} is too near a pole; it must be -89 to 89",
                origin.latitude
            ),
        );
        return None;
    };
    Some((hole, plane, on_plane(&plane, line)))
}

/// Positions on the plane, repeated ones once.
fn on_plane(plane: &LocalPlane, positions: &[Position]) -> Vec<Point> {
    let mut positions = positions.to_vec();
    positions.dedup();
    positions
        .iter()
        .map(|p| plane.to_plane(p.longitude, p.latitude))
        .collect()
}

/// The hole as drawn.
fn draft(
    hole: &Mapped<'_>,
    plane: &LocalPlane,
    line: Vec<Point>,
    mapped: &[Mapped<'_>],
    options: &Options,
    notes: &mut Notes,
) -> Draft {
    let card = play::card(hole, notes);
    play::check_distance(hole, &line, notes);
    let mut drawing = surfaces::Drawing {
        plane,
        line: &line,
        reach: options.reach,
        draft: Draft::default(),
        left_out: 0,
    };
    for feature in mapped {
        if let Kind::Surface(surface) = feature.class.kind {
            drawing.add(feature, surface, notes);
        }
    }
    if drawing.left_out > 0 {
        let (count, reach) = (drawing.left_out, options.reach);
        notes.warn(format!(
            "{count} features farther than {reach} yards from the line of play were left out"
        ));
    }
    let mut draft = drawing.draft;
    draft
        .features
        .sort_by_key(|feature| surfaces::height(feature.surface));
    let pin = play::pin(hole, plane, &line, mapped, options.reach);
    Draft {
        name: Some(card.name),
        number: card.number,
        par: card.par,
        stroke_index: card.stroke_index,
        tee: play::tee(plane, &line, mapped, options.reach),
        pin,
        line: Some(line),
        green_speed: Some(options.green_speed_ft),
        ..draft
    }
}

/// The hole, or all the faults.
fn finish(mut draft: Draft, mut notes: Notes) -> Result<Hole, ReadFaults> {
    // A pin that is mapped but faulty has been reported; without one the line of play ends at it.
    let pin_is_faulty = notes.faults.iter().any(
        |fault| matches!(fault, ReadFault::Geometry { feature, .. } if feature.starts_with("pin (")),
    );
    let assumed = draft.pin.is_none() && !pin_is_faulty;
    if assumed {
        draft.pin = draft.line.as_ref().and_then(|line| line.last().copied());
        notes.warn("no pin is mapped: the end of the line of play is taken for it".to_owned());
    }
    let faults = if notes.faults.is_empty() {
        match draft.build(std::mem::take(&mut notes.warnings)) {
            // The plane is laid out with north up.
            Ok(hole) => return Ok(hole.with_north_up(true)),
            Err(faults) => faults.0,
        }
    } else {
        draft.faults()
    };
    if assumed
        && faults
            .iter()
            .any(|fault| matches!(fault, HoleFault::PinOffGreen { .. }))
    {
        notes.fault(
            "pin".to_owned(),
            "none is mapped (golf=pin), and the line of play does not end on the green",
        );
    }
    notes.faults.extend(faults.into_iter().map(ReadFault::Hole));
    Err(ReadFaults(notes.faults))
}
