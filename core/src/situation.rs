//! Where the ball is and how it lies: what the next stroke is played from.
use crate::geometry::Point;
use crate::hole::Hole;
use crate::player::Lie;

/// A ball in play.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Situation {
    /// The place, yards.
    pub at: Point,
    /// The lie.
    pub lie: Lie,
}

impl Situation {
    /// The ball teed up on the teeing area.
    #[must_use]
    pub fn on_the_tee(hole: &Hole) -> Self {
        Situation {
            at: hole.tee(),
            lie: Lie::Tee,
        }
    }

    /// Yards to the pin.
    #[must_use]
    pub fn to_pin(&self, hole: &Hole) -> f64 {
        (hole.pin() - self.at).norm()
    }
}
