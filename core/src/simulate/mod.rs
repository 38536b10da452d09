//! Playing a hole, once or many times.
//!
//! A run advances in waves of any size on the current thread pool. What it gathers is counts and sums
//! of whole numbers, so neither the number of threads nor the size of the waves can change a result.

mod abreast;
mod cause;
mod checkpoint;
mod many;
mod play;
mod strokes;
mod tally;

pub use cause::Cause;
pub use checkpoint::Checkpoint;
pub use many::{MOST_STROKES, ManyStrokes};
pub use play::{Listener, Played, STROKE_CAP, Told};
pub use strokes::{Recording, StrokeRow};
pub use tally::Tally;

pub(crate) use abreast::{abreast, wave_end};
pub(crate) use play::{Playing, cause, play};
