//! How objects get into a pickle and out again: those made with keywords, and those written as JSON.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};
use std::sync::Arc;
use wideberth::course::Course;

use crate::course::PyCourse;
use crate::errors::refused;

/// What pickle wants: something to call, and what to call it with.
pub(crate) type Made<'py> = (Bound<'py, PyAny>, ());

/// A call of a class or function with keywords, for every protocol: those below 2 know no keywords, so they are bound
/// beforehand.
pub(crate) fn made<'py>(
    callable: Bound<'py, PyAny>,
    mut positional: Vec<Bound<'py, PyAny>>,
    keywords: &Bound<'py, PyDict>,
) -> PyResult<Made<'py>> {
    let py = callable.py();
    positional.insert(0, callable);
    let arguments = PyTuple::new(py, positional)?;
    let partial = py.import("functools")?.getattr("partial")?;
    Ok((partial.call(arguments, Some(keywords))?, ()))
}

/// What pickle wants, of an object that is read from text.
pub(crate) type Written<'py> = (Bound<'py, PyAny>, (String,));

/// A call of the `from_json` of an object's class with what its `to_json` wrote.
pub(crate) fn written<'py>(object: &Bound<'py, PyAny>, text: String) -> PyResult<Written<'py>> {
    Ok((object.get_type().getattr("from_json")?, (text,)))
}

/// What pickle wants of something found of a course.
pub(crate) type Restored<'py> = (Bound<'py, PyAny>, (PyCourse, String));

/// A call of the `_restore` of an object's class with its course and what was found of it as JSON.
pub(crate) fn restored<'py>(
    object: &Bound<'py, PyAny>,
    course: &Arc<Course>,
    found: serde_json::Result<String>,
) -> PyResult<Restored<'py>> {
    let restore = object.get_type().getattr("_restore")?;
    Ok((restore, (course.clone().into(), found.map_err(refused)?)))
}
