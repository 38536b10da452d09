//! Playing for a score: what is best with 1, 2, ... strokes left, everywhere ([`by_left`]) and for one shot ([`place`]).
pub(super) mod by_left;
pub(super) mod place;
