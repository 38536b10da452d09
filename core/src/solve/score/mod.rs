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
