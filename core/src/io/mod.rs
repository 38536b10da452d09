//! Documents and map files, and the way between them and valid values.
pub mod asc;
pub mod course;
pub mod fault;
pub mod geojson;
mod json;
pub mod native;
pub mod survey;

pub use fault::{ReadFault, ReadFaults};

use crate::hole::Hole;
use geojson::Options;
use std::path::Path;

/// Reads a hole from a file; its content tells the format, as in [`hole_from_text`].
///
/// # Errors
/// A file that cannot be read (the message names it), or every fault of what it says.
pub fn read_hole(path: &Path, options: &Options) -> Result<Hole, ReadFaults> {
    hole_from_text(&text_of(path)?, options)
}

/// The text of a file.
///
/// # Errors
/// A file that cannot be read, or is not UTF-8; the message names it.
pub fn text_of(path: &Path) -> Result<String, ReadFaults> {
    let file = path.display().to_string();
    let bytes = std::fs::read(path).map_err(|error| {
        ReadFaults(vec![ReadFault::File {
            file: file.clone(),
            error: error.to_string(),
        }])
    })?;
    String::from_utf8(bytes).map_err(|error| {
        let error = format!(
            "it is not UTF-8 text (byte {})",
            error.utf8_error().valid_up_to()
        );
        ReadFaults(vec![ReadFault::File { file, error }])
    })
}

/// Refuses what is told beside a document, which tells all of the hole itself.
fn told_for_a_map(options: &Options) -> Result<(), ReadFaults> {
    let green_speed_ft = options.green_speed_ft;
    let nothing = Options {
        // The choice of the only hole there is.
        hole: options.hole.clone(),
        green_speed_ft,
        ..Options::default()
    };
    if *options == nothing {
        return Ok(());
    }
    Err(ReadFaults(vec![ReadFault::Field {
        field: "what is told beside the file".to_owned(),
        value: "told".to_owned(),
        allowed: "left out: a wideberth document tells all of its hole, and only what a map does not tell can be told"
            .to_owned(),
    }]))
}

/// Reads a hole from a wideberth document or a map, whichever it is.
///
/// # Errors
/// Every fault of the text at once.
pub fn hole_from_text(text: &str, options: &Options) -> Result<Hole, ReadFaults> {
    let value = json::parse(text)?;
    let has = |key: &str| value.get(key).is_some();
    if has("format") {
        told_for_a_map(options)?;
        native::from_value(&value)
    } else if has("type") || has("elements") {
        geojson::from_value(&value, options)
    } else {
        Err(ReadFaults(vec![ReadFault::UnknownFormat]))
    }
}
