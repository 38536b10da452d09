//! What a document tells of a hole beside what it is played on.
use super::super::ReadFault;
use super::super::json::{self, Fields, wrong};
use super::pair;
use crate::geometry::LocalPlane;
use crate::hole::{About, NamedTee};
use crate::text::{LONGEST_CREDIT, allowed, is_fit};
use serde_json::{Map, Value, json};

/// Writes what is known into the document.
pub(super) fn write(about: &About, document: &mut Map<String, Value>) {
    let mut put = |key: &str, value: Option<Value>| {
        if let Some(value) = value {
            document.insert(key.to_owned(), value);
        }
    };
    put("north_up", about.north_up.then_some(Value::Bool(true)));
    let origin = about.place.map(|plane| plane.origin());
    put("origin", origin.map(|(x, y)| json!([x, y])));
    put("attribution", about.attribution.as_ref().map(|a| json!(a)));
    let tee = |tee: &NamedTee| json!({"name": tee.name, "at": pair(tee.at)});
    let tees: Vec<Value> = about.tees.iter().map(tee).collect();
    put("tees", (!tees.is_empty()).then(|| json!(tees)));
    let cautions = &about.cautions;
    put("cautions", (!cautions.is_empty()).then(|| json!(cautions)));
}

/// Reads what is known.
pub(super) fn read(fields: &mut Fields<'_>, faults: &mut Vec<ReadFault>) -> About {
    let north_up = fields.optional("north_up", "true or false", Value::as_bool, faults);
    let place = fields.optional(
        "origin",
        "[longitude, latitude], within -180 to 180 and -89 to 89 degrees",
        |value| {
            let p = json::point(value)?;
            LocalPlane::new(p.x, p.y)
        },
        faults,
    );
    let attribution = fields.optional("attribution", &must_be(), plain, faults);
    let tees = fields.list("tees", faults);
    let tees = tees
        .into_iter()
        .filter_map(|(path, value)| tee(value, &path, faults))
        .collect();
    let cautions = fields.list("cautions", faults);
    let cautions = cautions.into_iter().filter_map(|(path, value)| {
        let text = plain(value);
        if text.is_none() {
            faults.push(wrong(&path, value, &must_be()));
        }
        text
    });
    About {
        cautions: cautions.collect(),
        north_up: north_up.unwrap_or(false),
        place,
        attribution,
        tees,
    }
}

/// What [`plain`] takes, in words.
fn must_be() -> String {
    format!("text that is not empty, {}", allowed(LONGEST_CREDIT))
}

/// A text that can be shown as it is.
fn plain(value: &Value) -> Option<String> {
    let text = value.as_str()?;
    let good = !text.trim().is_empty() && is_fit(text, LONGEST_CREDIT);
    good.then(|| text.to_owned())
}

fn tee(value: &Value, path: &str, faults: &mut Vec<ReadFault>) -> Option<NamedTee> {
    let mut fields = Fields::of(value, path, faults)?;
    let name = fields.required("name", &must_be(), plain, faults);
    let near = |value: &Value| json::point(value).filter(|p| p.x.abs() <= 1e5 && p.y.abs() <= 1e5);
    let at = fields.required("at", "a point [x, y], yards", near, faults);
    fields.finish(faults);
    Some(NamedTee {
        name: name?,
        at: at?,
    })
}
