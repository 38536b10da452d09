//! The wideberth document of a hole: JSON, coordinates in yards, exact round trips.
//!
//! ```json
//! {"format": "wideberth-hole", "version": 1, "name": "Sixth", "number": 6, "par": 3, "stroke_index": 15,
//!  "tee": [0, 0], "pin": [0, 150], "line_of_play": [[0, 0], [0, 150]], "green_speed_ft": 9, "north_up": true,
//!  "features": [{"surface": "green", "name": "the green", "outline": [[-12, 138], [12, 138], [12, 162], [-12, 162]]},
//!               {"surface": "trees", "outline": [[30, 0], [50, 0], [50, 90]], "holes": [],
//!                "canopy": {"height_ft": 40, "openness": 0.5}}],
//!  "boundaries": [{"line": [[-40, 0], [-40, 160]], "out": "left"}],
//!  "terrain": {"rise_ft": 12, "fall_right_percent": 3,
//!              "patches": [{"feature": 0, "raise_ft": 0, "rise_percent": [0, 2], "blend": 8, "level": true,
//!                           "steps": [{"foot": [0, 150], "top": [0, 154], "height_ft": 1.5}]}],
//!              "ordinary_greens": false,
//!              "survey": {"corner": [-100, -100], "cell": [100, 100],
//!                         "heights_ft": [[10, 10, 12], [11, 10, 13], [12, 12, 15], [14, 14, 16]]}},
//!  "conditions": {"wind": {"mph": 12, "from_deg": 270}, "firmness": "firm", "green_speed_ft": 11,
//!                 "temperature_f": 59, "altitude_ft": 0, "hole_diameter_in": 4.25},
//!  "origin": [-24.35, -31.2], "attribution": "whose data it is", "tees": [{"name": "yellow", "at": [2, 38]}],
//!  "cautions": ["a road runs 40 yards to the right of the line of play"]}
//! ```
//!
//! `number`, `stroke_index`, `green_speed_ft` (9), `north_up` (false), `name`, `holes` and `canopy` of a feature, `boundaries`, `out`,
//! `origin` (the longitude and latitude of the point (0, 0)), `attribution`, `tees`, `cautions` and `warnings` may be left out, `terrain` and `conditions` too, with any of their members. The rows of `heights_ft` run
//! up the plan from the corner; a patch has an `outline` (and `holes`) of its own where it names no `feature`. On a
//! `level` patch (else false) the planes of `rise_ft` and `fall_right_percent` are level; with `ordinary_greens` (else
//! false) the slopes of greens are not told. Later features lie on top. A boundary becomes an area when it is read, and
//! is written as that area. Unknown fields are errors.
mod about;
mod ground;

use super::json::{self, Fields, wrong};
use super::{ReadFault, ReadFaults};
use crate::figures::hole::GREEN_SPEED_FT;
use crate::geometry::{Point, Ring};
use crate::hole::{
    Canopy, Conditions, Draft, DraftBoundary, DraftFeature, Feature, Hole, HoleFaults, Landform,
    Side, Surface, Warning,
};
use serde_json::{Value, json};

/// The name of the format.
const FORMAT: &str = "wideberth-hole";
/// The version written and read.
const VERSION: u64 = 1;

/// Reads a document.
///
/// # Errors
/// Text that is no JSON, or every field that is missing, unknown or wrong, or every fault of the hole.
pub fn read(text: &str) -> Result<Hole, ReadFaults> {
    from_value(&json::parse(text)?)
}

/// Writes a document; reading it gives an equal hole.
#[must_use]
pub fn write(hole: &Hole) -> String {
    value(hole).to_string()
}

/// The document as a value.
pub(super) fn value(hole: &Hole) -> Value {
    let parts = hole.parts();
    let warnings: Vec<&str> = hole.warnings().iter().map(|w| w.0.as_str()).collect();
    let mut document = json!({
        "format": FORMAT,
        "version": VERSION,
        "name": parts.name,
        "par": parts.par,
        "tee": pair(parts.tee),
        "pin": pair(parts.pin),
        "line_of_play": pairs(parts.line.vertices()),
        "green_speed_ft": parts.green_speed,
        "features": parts.features.iter().map(feature_value).collect::<Vec<_>>(),
    });
    if let Some(number) = parts.number {
        document["number"] = json!(number);
    }
    if let Some(index) = parts.stroke_index {
        document["stroke_index"] = json!(index);
    }
    if let Some(document) = document.as_object_mut() {
        about::write(hole.about(), document);
    }
    if !warnings.is_empty() {
        document["warnings"] = json!(warnings);
    }
    if let Some(landform) = hole.terrain().landform() {
        document["terrain"] = ground::terrain_value(landform);
    }
    if !hole.conditions().is_default() {
        document["conditions"] = ground::conditions_value(hole.conditions());
    }
    document
}

fn pair(p: Point) -> Value {
    json!([p.x, p.y])
}

fn pairs(points: &[Point]) -> Value {
    points.iter().copied().map(pair).collect()
}

fn feature_value(feature: &Feature) -> Value {
    let mut value = json!({
        "surface": feature.surface.name(),
        "outline": pairs(feature.outline.exterior().vertices()),
    });
    if let Some(name) = &feature.name {
        value["name"] = json!(name);
    }
    if !feature.outline.holes().is_empty() {
        let holes: Vec<Value> = feature
            .outline
            .holes()
            .iter()
            .map(Ring::vertices)
            .map(pairs)
            .collect();
        value["holes"] = json!(holes);
    }
    if let Some(canopy) = feature.canopy {
        value["canopy"] = json!({"height_ft": canopy.height_ft, "openness": canopy.openness});
    }
    value
}

/// Reads a parsed document.
pub(super) fn from_value(value: &Value) -> Result<Hole, ReadFaults> {
    let mut faults = Vec::new();
    let Some(mut fields) = Fields::of(value, "", &mut faults) else {
        return Err(ReadFaults(faults));
    };
    let f = &mut faults;
    fields.required(
        "format",
        "\"wideberth-hole\"",
        |v| (v == FORMAT).then_some(()),
        f,
    );
    fields.required(
        "version",
        "1",
        |v| (v.as_u64() == Some(VERSION)).then_some(()),
        f,
    );
    let mut draft = Draft {
        name: fields.required("name", "text", json::text, f),
        par: fields.required("par", "a whole number, 3 to 6", Value::as_i64, f),
        number: fields.optional("number", "a whole number, 1 to 99", Value::as_i64, f),
        stroke_index: fields.optional("stroke_index", "a whole number, 1 to 18", Value::as_i64, f),
        tee: fields.required("tee", "a point [x, y], yards", json::point, f),
        pin: fields.required("pin", "a point [x, y], yards", json::point, f),
        line: fields.required(
            "line_of_play",
            "a list of points [x, y], yards",
            json::points,
            f,
        ),
        green_speed: fields.optional("green_speed_ft", "a number, 4 to 16", Value::as_f64, f),
        ..Draft::default()
    };
    let speed_is_wrong = f
        .iter()
        .any(|fault| matches!(fault, ReadFault::Field { field, .. } if field == "green_speed_ft"));
    draft.green_speed = draft
        .green_speed
        .or((!speed_is_wrong).then_some(GREEN_SPEED_FT));
    for (i, (path, value)) in fields.list("features", f).into_iter().enumerate() {
        let (feature, surface) = feature(value, &path, i, f);
        draft.features.extend(feature);
        // A feature of unknown kind may have been the green.
        draft.unreadable.extend(surface);
    }
    for (i, (path, value)) in fields.list("boundaries", f).into_iter().enumerate() {
        draft.boundaries.extend(boundary(value, &path, i, f));
    }
    let warnings: Vec<Warning> = fields
        .list("warnings", f)
        .into_iter()
        .filter_map(|(path, value)| {
            let text = json::text(value);
            if text.is_none() {
                f.push(wrong(&path, value, "text"));
            }
            text.map(Warning)
        })
        .collect();
    let about = about::read(&mut fields, f);
    let terrain = fields.optional("terrain", "an object", Some, f);
    let terrain = terrain.and_then(|value| ground::terrain(value, "terrain", f));
    let conditions = fields.optional("conditions", "an object", Some, f);
    let conditions = conditions.and_then(|value| ground::conditions(value, "conditions", f));
    fields.finish(f);
    if faults.is_empty() {
        let hole = draft.build(warnings)?;
        let hole = hole.with_about(about);
        return Ok(dressed(hole, terrain, conditions)?);
    }
    faults.extend(draft.faults().into_iter().map(ReadFault::Hole));
    Err(ReadFaults(faults))
}

/// The hole with its terrain and conditions, or the faults of both.
fn dressed(
    hole: Hole,
    terrain: Option<Landform>,
    conditions: Option<Result<Conditions, HoleFaults>>,
) -> Result<Hole, HoleFaults> {
    let shaped = match terrain {
        Some(landform) => hole.with_terrain(landform),
        None => Ok(hole),
    };
    let conditions = conditions.unwrap_or_else(|| Ok(Conditions::default()));
    match (shaped, conditions) {
        (Ok(hole), Ok(conditions)) => hole.under(conditions),
        (Err(mut faults), Err(more)) => {
            faults.0.extend(more.0);
            Err(faults)
        }
        (Err(faults), _) | (_, Err(faults)) => Err(faults),
    }
}

/// A feature, or else the surface of one that could not be read.
fn feature(
    value: &Value,
    path: &str,
    source: usize,
    faults: &mut Vec<ReadFault>,
) -> (Option<DraftFeature>, Option<Surface>) {
    let before = faults.len();
    let Some(mut fields) = Fields::of(value, path, faults) else {
        return (None, Some(Surface::Green));
    };
    let names = Surface::ALL.map(Surface::name).join(", ");
    let surface = fields.required("surface", &format!("one of {names}"), surface, faults);
    let name = fields.optional("name", "text", json::text, faults);
    let outline = fields.required(
        "outline",
        "a list of points [x, y], yards",
        json::points,
        faults,
    );
    let holes = fields.list("holes", faults);
    let canopy_path = fields.path("canopy");
    let canopy = fields.optional("canopy", "an object", Some, faults);
    let canopy = canopy.and_then(|value| canopy_of(value, &canopy_path, faults));
    fields.finish(faults);
    let mut rings: Vec<Vec<Point>> = outline.into_iter().collect();
    for (path, value) in holes {
        match json::points(value) {
            Some(ring) => rings.push(ring),
            None => faults.push(wrong(&path, value, "a list of points [x, y], yards")),
        }
    }
    match surface {
        Some(surface) if faults.len() == before => (
            Some(DraftFeature {
                source,
                surface,
                rings,
                name,
                canopy,
            }),
            None,
        ),
        surface => (None, surface.or(Some(Surface::Green))),
    }
}

fn surface(value: &Value) -> Option<Surface> {
    value.as_str().and_then(Surface::from_name)
}

fn canopy_of(value: &Value, path: &str, faults: &mut Vec<ReadFault>) -> Option<Canopy> {
    let mut fields = Fields::of(value, path, faults)?;
    let usual = Canopy::default();
    let before = faults.len();
    let height = fields.optional(
        "height_ft",
        "a number above 0, at most 300",
        Value::as_f64,
        faults,
    );
    let openness = fields.optional("openness", "a number, 0 to 1", Value::as_f64, faults);
    fields.finish(faults);
    (faults.len() == before).then(|| Canopy {
        height_ft: height.unwrap_or(usual.height_ft),
        openness: openness.unwrap_or(usual.openness),
    })
}

fn boundary(
    value: &Value,
    path: &str,
    source: usize,
    faults: &mut Vec<ReadFault>,
) -> Option<DraftBoundary> {
    let mut fields = Fields::of(value, path, faults)?;
    let before = faults.len();
    let name = fields.optional("name", "text", json::text, faults);
    let line = fields.required(
        "line",
        "a list of points [x, y], yards",
        json::points,
        faults,
    );
    let out = fields.optional("out", "\"left\" or \"right\"", side, faults);
    fields.finish(faults);
    line.filter(|_| faults.len() == before)
        .map(|line| DraftBoundary {
            source,
            name,
            line,
            out,
        })
}

fn side(value: &Value) -> Option<Side> {
    match value.as_str()? {
        "left" => Some(Side::Left),
        "right" => Some(Side::Right),
        _ => None,
    }
}
