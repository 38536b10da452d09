//! Properties that are read off what an object holds.

/// Gives a class properties, each with its docstring, its type and the expression it is read by: `name: f64 = self.0.name;`.
macro_rules! getters {
    ($class:ident, $it:ident: $($(#[$doc:meta])+ $name:ident: $kind:ty = $value:expr;)+) => {
        #[pyo3::pymethods]
        impl $class {
            $(
                $(#[$doc])+
                #[getter]
                fn $name(&$it) -> $kind {
                    $value
                }
            )+
        }
    };
}
pub(crate) use getters;
