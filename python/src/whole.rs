//! Whole numbers from Python, which may be of any size.

use pyo3::exceptions::PyOverflowError;
use pyo3::prelude::*;

use crate::errors::input_error;

/// A whole number, or the digits of one too big for any field.
pub(crate) struct Whole(Result<i128, String>);

impl<'a, 'py> FromPyObject<'a, 'py> for Whole {
    type Error = PyErr;

    fn extract(number: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        match number.extract::<i128>() {
            Ok(value) => Ok(Whole(Ok(value))),
            Err(error) if error.is_instance_of::<PyOverflowError>(number.py()) => {
                // Python refuses to write down thousands of digits.
                let digits = number
                    .str()
                    .map_or_else(|_| "enormous".to_owned(), |digits| digits.to_string());
                Ok(Whole(Err(digits)))
            }
            Err(error) => Err(error),
        }
    }
}

impl From<i128> for Whole {
    fn from(value: i128) -> Self {
        Whole(Ok(value))
    }
}

impl Whole {
    /// The number, if it fits its field.
    pub(crate) fn fit<T: TryFrom<i128>>(self, field: &str, allowed: &str) -> PyResult<T> {
        let refusal = |value: &dyn std::fmt::Display| {
            input_error(format!("{field} is {value}; it must be {allowed}"))
        };
        match self.0 {
            Ok(value) => T::try_from(value).map_err(|_| refusal(&value)),
            Err(digits) => Err(refusal(&digits)),
        }
    }
}
