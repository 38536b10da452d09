//! The wideberth document of a course: JSON that holds the documents of its holes.
//!
//! ```json
//! {"format": "wideberth-course", "version": 1, "name": "Heron Links", "attribution": "drawn by the club",
//!  "holes": [{"format": "wideberth-hole", "version": 1, "name": "First"}]}
//! ```
//!
//! The holes stand in the order in which they are played, each as in [`super::native`]; `attribution` may be left out.
//! Unknown fields are errors.
use super::json::{self, Fields};
use super::{ReadFault, ReadFaults, native};
use crate::course::{Course, MOST_HOLES};
use serde_json::{Value, json};
use std::sync::Arc;

/// The name of the format.
pub(super) const FORMAT: &str = "wideberth-course";
/// The version written and read.
const VERSION: u64 = 1;

/// Reads a document.
///
/// # Errors
/// Text that is no JSON, every field that is missing, unknown or wrong, every fault of every hole, or those of the course.
pub fn read(text: &str) -> Result<Course, ReadFaults> {
    from_value(&json::parse(text)?)
}

/// True for a text that is a document of a course, whether it can be read or not.
#[must_use]
pub fn is_document(text: &str) -> bool {
    json::parse(text).is_ok_and(|value| value.get("format").is_some_and(|format| format == FORMAT))
}

/// Writes a document; reading it gives an equal course.
#[must_use]
pub fn write(course: &Course) -> String {
    let holes: Vec<Value> = course.holes().iter().map(|h| native::value(h)).collect();
    let mut document = json!({
        "format": FORMAT,
        "version": VERSION,
        "name": course.name(),
        "holes": holes,
    });
    if let Some(attribution) = course.attribution() {
        document["attribution"] = json!(attribution);
    }
    document.to_string()
}

/// Reads a parsed document.
pub(super) fn from_value(value: &Value) -> Result<Course, ReadFaults> {
    let mut faults = Vec::new();
    let Some(mut fields) = Fields::of(value, "", &mut faults) else {
        return Err(ReadFaults(faults));
    };
    let f = &mut faults;
    let format = |v: &Value| (v == FORMAT).then_some(());
    fields.required("format", "\"wideberth-course\"", format, f);
    let version = |v: &Value| (v.as_u64() == Some(VERSION)).then_some(());
    fields.required("version", "1", version, f);
    let name = fields.required("name", "text", json::text, f);
    let attribution = fields.optional("attribution", "text", json::text, f);
    let list = fields.list("holes", f);
    fields.finish(f);
    let mut holes = Vec::new();
    // Of a list that is too long nothing is prepared: the course refuses it by its length.
    let read = if list.len() > MOST_HOLES {
        0
    } else {
        list.len()
    };
    for (part, value) in list.iter().take(read) {
        match native::from_value(value) {
            Ok(hole) => holes.push(Arc::new(hole)),
            Err(of_hole) => faults.extend(of_hole.0.into_iter().map(|fault| ReadFault::Part {
                part: part.clone(),
                fault: Box::new(fault),
            })),
        }
    }
    if list.len() > MOST_HOLES {
        faults.push(ReadFault::Field {
            field: "holes".to_owned(),
            value: format!("a list of {}", list.len()),
            allowed: format!("a list of 1 to {MOST_HOLES} holes"),
        });
    }
    match name {
        Some(name) if faults.is_empty() => Ok(Course::new(name, holes, attribution)?),
        _ => Err(ReadFaults(faults)),
    }
}
