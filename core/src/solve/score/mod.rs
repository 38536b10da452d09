//! Playing for a score: what is best with 1, 2, ... strokes left, everywhere ([`by_left`]) and for one shot ([`place`]).
pub(super) mod by_left;
pub(super) mod place;

/// Strokes as a number that may be less than nothing.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    reason = "at most 60"
)]
pub(in crate::solve) fn signed(strokes: usize) -> i32 {
    strokes as i32
}

/// What differs by no more than this is equal.
pub(in crate::solve) const NOTHING: f64 = 1e-9;

/// True where something is cheaper than what it is held against, each told by what is to be paid and by strokes to come; of
/// equals, that with the fewest strokes.
#[inline]
pub(in crate::solve) fn is_cheaper(this: (f64, f64), than: (f64, f64)) -> bool {
    let less = |a: f64, b: f64| a < b - NOTHING;
    less(this.0, than.0) || (!less(than.0, this.0) && less(this.1, than.1))
}
