//! Whole numbers from Python, which may be of any size.

use pyo3::exceptions::{PyOverflowError, PyTypeError};
use pyo3::prelude::*;
use wideberth::noise::Seed;

use crate::errors::input_error;
use crate::given::unfit;

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
            Err(_) => Err(unfit(&number, "a whole number")),
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

/// What was given as a seed: a whole number, or something of NumPy's that one can be drawn of.
pub(crate) struct SeedGiven(PyResult<Whole>);

impl<'a, 'py> FromPyObject<'a, 'py> for SeedGiven {
    type Error = PyErr;

    fn extract(given: Borrowed<'a, 'py, PyAny>) -> PyResult<Self> {
        Ok(SeedGiven(match given.extract() {
            Ok(number) => Ok(number),
            Err(_) => drawn(given.as_any()),
        }))
    }
}

impl SeedGiven {
    /// A seed that is used where none is given.
    pub(crate) fn usual(seed: u32) -> Self {
        SeedGiven(Ok(Whole(Ok(seed.into()))))
    }

    /// The seed, if it is one.
    pub(crate) fn fit(self) -> PyResult<Seed> {
        Ok(Seed(self.0?.fit("seed", SEEDS)?))
    }
}

/// The whole number that a seed stands for; of a NumPy generator one is drawn.
#[pyfunction]
pub(crate) fn whole_seed(seed: SeedGiven) -> PyResult<u64> {
    Ok(seed.fit()?.0)
}

/// What a seed must be.
const SEEDS: &str = "a whole number, 0 to 18,446,744,073,709,551,615";

/// A seed drawn of a NumPy generator, which moves on, or of a seed sequence or bit generator.
///
/// Anything else is refused: nothing is played on luck that cannot be had again.
fn drawn(given: &Bound<'_, PyAny>) -> PyResult<Whole> {
    let random = given.py().import("numpy.random")?;
    let is = |class: &str| given.is_instance(&random.getattr(class)?);
    if is("Generator")? {
        let bits = given.getattr("bit_generator")?.call_method0("random_raw")?;
        return bits.extract();
    }
    if is("BitGenerator")? {
        return given.call_method0("random_raw")?.extract();
    }
    if given.hasattr("generate_state")? {
        let words: Vec<u64> = given.call_method1("generate_state", (2,))?.extract()?;
        let [low, high] = words[..] else {
            return Err(no_seed(given));
        };
        return Ok(Whole(Ok(i128::from(low | (high << 32)))));
    }
    Err(no_seed(given))
}

fn no_seed(given: &Bound<'_, PyAny>) -> PyErr {
    let shown = given.repr().map_or_else(
        |_| "of a type that cannot be shown".to_owned(),
        |shown| shown.to_string(),
    );
    PyTypeError::new_err(format!(
        "seed is {shown}; it must be {SEEDS}, or a NumPy Generator, BitGenerator or SeedSequence, so that the same luck \
         can be had again"
    ))
}
