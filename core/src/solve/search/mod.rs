//! Which shots are tried at a place, over which luck, and which of them are kept.
//!
//! [`sight`] plays one stroke and tells what becomes of the ball by the values known so far. A [`shortlist`] tries the
//! actions that [`action`] lists at one place, in rounds over more and more [`luck`]. A
//! [`level`] does it at every place: closer ones take over what wider ones found, and [`neighbours`] agree on
//! their aims. What was kept, with where it ends, is a finite game: the [`model`].
pub(super) mod action;
pub(super) mod level;
pub(super) mod luck;
pub(super) mod model;
mod neighbours;
pub(super) mod shortlist;
pub(super) mod sight;
