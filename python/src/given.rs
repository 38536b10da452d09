//! Arguments as Python gives them: of any type, of any length. What cannot be taken is told with the name of the argument, its
//! value and what is allowed; lengths are looked at before anything is made of that length.

use pyo3::exceptions::PyOverflowError;
use pyo3::prelude::*;
use pyo3::types::{PyMapping, PyString};

use crate::errors::input_error;

/// The most items of any list. What a list of its kind may hold is told by whoever knows; this keeps it small until then.
const MOST_ITEMS: usize = 10_000;

/// What an argument can be taken for.
pub(crate) trait Given<'a>: Sized {
    /// What it must be, in words.
    fn allowed() -> String;
    /// The value, or None where it is something else.
    fn read(given: &'a Bound<'_, PyAny>) -> PyResult<Option<Self>>;
}

/// Takes an argument, or says what is wrong with it: for `#[pyo3(from_py_with = given)]`.
pub(crate) fn given<'a, T: Given<'a>>(argument: &'a Bound<'_, PyAny>) -> PyResult<T> {
    T::read(argument)?.ok_or_else(|| unfit(argument, &T::allowed()))
}

/// An error that is told which argument it is about, as it hears of it where the argument is one of a function.
pub(crate) fn named(py: Python<'_>, error: PyErr, name: &str) -> PyErr {
    let note = format!("while processing '{name}'");
    // Where no note can be put the error is told without.
    let _ = error.value(py).call_method1("add_note", (note,));
    error
}

/// The error of an argument of a wrong type. Its name is put in front once it is known, see `wideberth._given`.
pub(crate) fn unfit(argument: &Bound<'_, PyAny>, allowed: &str) -> PyErr {
    made_by("unfit", argument, (argument, allowed))
}

/// The error that a function of `wideberth._given` makes.
fn made_by<'py>(
    function: &str,
    argument: &Bound<'py, PyAny>,
    told: impl pyo3::call::PyCallArgs<'py>,
) -> PyErr {
    let module = argument.py().import("wideberth._given");
    match module.and_then(|module| module.call_method1(function, told)) {
        Ok(error) => PyErr::from_value(error),
        Err(error) => error,
    }
}

/// A share, if it is one.
pub(crate) fn checked_share(share: f64) -> PyResult<f64> {
    if (0.0..=1.0).contains(&share) {
        Ok(share)
    } else {
        Err(input_error(format!("share is {share}; it must be 0 to 1")))
    }
}

/// Refuses an array that masks some of its values.
pub(crate) fn without_gaps(field: &str, given: &Bound<'_, PyAny>) -> PyResult<()> {
    if given.hasattr("mask").unwrap_or(false) {
        let module = given.py().import("wideberth._given")?;
        module.call_method1("without_gaps", (field, given))?;
    }
    Ok(())
}

/// True of text with nothing in it that a terminal, a table or a page acts upon instead of showing it.
#[pyfunction]
pub(crate) fn is_plain(text: &str) -> bool {
    wideberth::text::is_plain(text)
}

/// The error of an argument of the right type that says too much.
fn too_long(argument: &Bound<'_, PyAny>, has: &str) -> PyErr {
    let message = format!("has {has} items; it must have at most {MOST_ITEMS}");
    let error = input_error("").into_value(argument.py());
    made_by("awaiting_its_name", argument, (error, message))
}

impl<'a> Given<'a> for f64 {
    fn allowed() -> String {
        "a number".to_owned()
    }

    fn read(given: &'a Bound<'_, PyAny>) -> PyResult<Option<Self>> {
        match given.extract::<f64>() {
            Ok(number) => Ok(Some(number)),
            // Refused for its size, by whoever knows what is allowed.
            Err(error) if error.is_instance_of::<PyOverflowError>(given.py()) => {
                let below = given.lt(0)?;
                Ok(Some(if below {
                    f64::NEG_INFINITY
                } else {
                    f64::INFINITY
                }))
            }
            Err(_) => Ok(None),
        }
    }
}

/// Text, or an argument that is refused because it is none.
pub(crate) struct Text(String);

impl<'py> FromPyObject<'_, 'py> for Text {
    type Error = PyErr;

    fn extract(argument: Borrowed<'_, 'py, PyAny>) -> PyResult<Self> {
        given(&argument).map(Text)
    }
}

impl std::ops::Deref for Text {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

/// Takes an argument for what a type of ours is extracted from, with what it must be in words.
macro_rules! taken_for {
    ($kind:ty, $allowed:expr) => {
        impl<'a> $crate::given::Given<'a> for $kind {
            fn allowed() -> String {
                $allowed.to_owned()
            }

            fn read(given: &'a pyo3::Bound<'_, pyo3::PyAny>) -> pyo3::PyResult<Option<Self>> {
                Ok(pyo3::types::PyAnyMethods::extract(given).ok())
            }
        }
    };
}
pub(crate) use taken_for;

/// Takes an argument for a class of ours, without a copy, with what it must be in words.
macro_rules! taken_as {
    ($class:ty, $allowed:literal) => {
        impl<'a> $crate::given::Given<'a> for &'a $class {
            fn allowed() -> String {
                $allowed.to_owned()
            }

            fn read(given: &'a pyo3::Bound<'_, pyo3::PyAny>) -> pyo3::PyResult<Option<Self>> {
                let found = given.cast::<$class>().ok();
                Ok(found.map(pyo3::Bound::get))
            }
        }
    };
}
pub(crate) use taken_as;

taken_for!(bool, "True or False");
taken_for!((f64, f64), "two numbers in a tuple");
taken_for!(&'a str, "text");
taken_for!(String, "text");
taken_for!(std::path::PathBuf, "a path, as a str or a Path");

impl<'a, T: Given<'a>> Given<'a> for Option<T> {
    fn allowed() -> String {
        format!("{}, or None", T::allowed())
    }

    fn read(given: &'a Bound<'_, PyAny>) -> PyResult<Option<Self>> {
        if given.is_none() {
            return Ok(Some(None));
        }
        Ok(T::read(given)?.map(Some))
    }
}

/// An item of a list.
pub(crate) trait Item: Sized {
    /// What the items are, in words.
    const ITEMS: &'static str;
    /// The item, or None where it is something else.
    fn of(item: &Bound<'_, PyAny>) -> Option<Self>;
}

/// Takes objects of a class of ours as items of lists, with what they are in words.
macro_rules! items {
    ($class:ty, $words:literal) => {
        impl $crate::given::Item for $class {
            const ITEMS: &'static str = $words;

            fn of(item: &pyo3::Bound<'_, pyo3::PyAny>) -> Option<Self> {
                let item: &pyo3::Bound<'_, Self> = item.cast().ok()?;
                Some(item.get().clone())
            }
        }
    };
}
pub(crate) use items;

impl<'a, T: Item> Given<'a> for Vec<T> {
    fn allowed() -> String {
        format!("a list of {}", T::ITEMS)
    }

    fn read(given: &'a Bound<'_, PyAny>) -> PyResult<Option<Self>> {
        // A dict is no list of its keys.
        let is_no_list = given.is_instance_of::<PyString>() || given.cast::<PyMapping>().is_ok();
        if is_no_list || !given.hasattr("__getitem__")? {
            return Ok(None);
        }
        let length = match given.len() {
            Ok(length) => length,
            Err(error) if error.is_instance_of::<PyOverflowError>(given.py()) => {
                return Err(too_long(given, "far too many"));
            }
            // An array of no dimension.
            Err(_) => return Ok(None),
        };
        if length > MOST_ITEMS {
            return Err(too_long(given, &length.to_string()));
        }
        let mut items = Vec::with_capacity(length);
        for item in given.try_iter()?.take(length) {
            match T::of(&item?) {
                Some(item) => items.push(item),
                None => return Ok(None),
            }
        }
        Ok(Some(items))
    }
}

impl Item for (f64, f64) {
    const ITEMS: &'static str = "pairs of numbers";

    fn of(item: &Bound<'_, PyAny>) -> Option<Self> {
        item.extract().ok()
    }
}
