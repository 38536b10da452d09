//! One mapping from the core's errors to Python's.

use pyo3::PyErr;
use pyo3::exceptions::PyValueError;

pyo3::create_exception!(
    wideberth,
    InputError,
    PyValueError,
    "Input that cannot be used: the message names the field, the value and what is allowed."
);

/// An [`InputError`] with a message of our own; what it quotes cannot act on a terminal.
pub(crate) fn input_error(message: impl Into<String>) -> PyErr {
    InputError::new_err(wideberth::text::shown(&message.into()))
}

/// The core's error as an [`InputError`].
pub(crate) fn refused(error: impl std::fmt::Display) -> PyErr {
    input_error(error.to_string())
}
