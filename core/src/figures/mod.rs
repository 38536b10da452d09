//! Every number of golf that nothing derives: what it means, its unit, its role and where it is from.
//!
//! Each stands here once, whoever uses it. The last paragraph of its comment says the unit and the role, for example
//! `Yards. Common practice, no source.` The fields of a struct say their unit, a constant of that type the role.
//! `docs/figures.py` reads this and writes `docs/models/figures.md`. The roles are
//!
//! - `Published: source`, `From memory: source`: the source says it, or is remembered to;
//! - `Fitted: to what`: chosen so that the model meets something else;
//! - `Computed: how`: worked out by other means than this library's;
//! - `Exact: why`: so by mechanics, geometry or agreement;
//! - `Common practice, no source`: what golfers and engineers do;
//! - `Chosen, no source`: chosen here.
//!
//! Settings of the computation (steps, numbers of strokes of luck, what is tried in a search) and limits of what is accepted
//! stand where they are used.

pub(crate) mod ball;
pub(crate) mod choice;
pub(crate) mod differences;
pub(crate) mod flight;
pub(crate) mod ground;
pub(crate) mod handicapping;
pub(crate) mod hole;
pub(crate) mod launch;
pub(crate) mod level;
pub(crate) mod lie;
pub(crate) mod putting;
pub(crate) mod round;
pub(crate) mod rules;
pub(crate) mod short_game;
pub(crate) mod strike;
pub(crate) mod trees;
