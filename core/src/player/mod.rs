//! The golfer: clubs and their dispersion, lies, short game and putting.
mod bag;
mod lie;
mod putting;
mod swing;

pub use bag::{Bag, ClubId, Touch};
pub use lie::Lie;
pub use putting::Putting;
pub use swing::{Mishit, Strike, Swing};
/// stub
pub struct Player;
impl Player {
    pub fn club_id(&self, _: &str) -> Option<ClubId> {
        None
    }
    pub fn club_names(&self) -> Vec<&str> {
        vec![]
    }
    pub fn club_name(&self, _: ClubId) -> &str {
        ""
    }
}
