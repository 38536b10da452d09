//! How objects get into a pickle and out again: those made with keywords, and those written as JSON.

use pyo3::prelude::*;
use pyo3::types::{PyDict, PyTuple};

use crate::course::PyCourse;
use crate::errors::input_error;

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

/// Refuses a text that holds no JSON object, as `to_json` writes one of what messages call `it`: how its reader would take it
/// says nothing.
pub(crate) fn check_object(text: &str, it: &str) -> PyResult<()> {
    /// The most characters of the text that are shown.
    const MOST: usize = 80;
    if text.trim_start().starts_with('{') {
        return Ok(());
    }
    let shown: String = text.chars().take(MOST).collect();
    Err(input_error(format!(
        "text is {shown:?}; it must be the JSON of {it}, as to_json writes it"
    )))
}

/// What pickle wants, of an object that is read from text.
pub(crate) type Written<'py> = (Bound<'py, PyAny>, (String,));

/// Gives a class `from_json`, `to_json` and, by these, pickles: what is written is the value it holds, and what is read is made
/// an object by `$make`, which refuses what is none.
macro_rules! by_json {
    ($class:ident($held:ty), $make:expr, $it:literal, $other:literal, $written:literal) => {
        #[pyo3::pymethods]
        impl $class {
            #[doc = concat!("Reads ", $it, " back from the text that `to_json` wrote.")]
            ///
            /// Args:
            ///     text: the JSON text.
            ///
            /// Raises:
            #[doc = concat!("    InputError: the text is no JSON, or no ", $other, ", or a number in it is out of range.")]
            #[classmethod]
            fn from_json(
                _: &pyo3::Bound<'_, pyo3::types::PyType>,
                text: $crate::given::Text,
            ) -> pyo3::PyResult<Self> {
                $crate::travel::check_object(&text, $it)?;
                let held: $held = serde_json::from_str(&text).map_err(|fault| {
                    let allowed = concat!("the JSON of ", $it, ", as to_json writes it");
                    $crate::errors::input_error(format!("text must be {allowed}: {fault}"))
                })?;
                ($make)(held)
            }

            #[doc = $written]
            fn to_json(&self) -> pyo3::PyResult<String> {
                let held: &$held = &self.0;
                serde_json::to_string(held).map_err($crate::errors::refused)
            }

            fn __reduce__<'py>(
                slf: &pyo3::Bound<'py, Self>,
            ) -> pyo3::PyResult<$crate::travel::Written<'py>> {
                $crate::travel::written(slf, slf.get().to_json()?)
            }
        }
    };
}
pub(crate) use by_json;

/// A call of the `from_json` of an object's class with what its `to_json` wrote.
pub(crate) fn written<'py>(object: &Bound<'py, PyAny>, text: String) -> PyResult<Written<'py>> {
    Ok((object.get_type().getattr("from_json")?, (text,)))
}

/// Gives a class that holds a value of plain fields these fields, a constructor that takes them in their order and, by it,
/// pickles.
macro_rules! by_fields {
    ($class:ident($held:ident): $($(#[$doc:meta])+ $field:ident: $kind:ty),+ $(,)?) => {
        #[pyo3::pymethods]
        impl $class {
            #[new]
            fn new($(#[pyo3(from_py_with = $crate::given::given)] $field: $kind),+) -> Self {
                $class($held { $($field),+ })
            }

            fn __reduce__<'py>(
                slf: &pyo3::Bound<'py, Self>,
            ) -> (pyo3::Bound<'py, pyo3::types::PyType>, ($($kind,)+)) {
                let held = slf.get().0.clone();
                (slf.get_type(), ($(held.$field,)+))
            }
        }

        $crate::getters::getters! {
            $class, self: $($(#[$doc])+ $field: $kind = self.0.$field.clone();)+
        }
    };
}
pub(crate) use by_fields;

/// What pickle wants of something found of a course.
pub(crate) type Restored<'py> = (Bound<'py, PyAny>, (PyCourse, String));

/// Gives a class pickles of what it found of a course: `$again` makes what the class holds of the course and what
/// was found, or nothing where that is of another course, and `$found` is how it tells what was found.
macro_rules! by_course {
    ($class:ident, $again:expr, $($found:tt)+) => {
        #[pyo3::pymethods]
        impl $class {
            /// Puts a pickled one together again.
            #[staticmethod]
            fn _restore(course: &$crate::course::PyCourse, found: &str) -> pyo3::PyResult<Self> {
                let found = serde_json::from_str(found).map_err($crate::errors::refused)?;
                let again = $again(course.0.clone(), found).map($class);
                again.ok_or_else(|| $crate::errors::input_error("found is of another course"))
            }

            fn __reduce__<'py>(
                slf: &pyo3::Bound<'py, Self>,
            ) -> pyo3::PyResult<$crate::travel::Restored<'py>> {
                let (restore, held) = (slf.get_type().getattr("_restore")?, &slf.get().0);
                let found = serde_json::to_string(&held.$($found)+).map_err($crate::errors::refused)?;
                Ok((restore, (held.course.clone().into(), found)))
            }
        }
    };
}
pub(crate) use by_course;
