//! Where the ball is and how it lies: what the next stroke is played from.
use crate::geometry::Point;
use crate::hole::{Hole, Surface};
use crate::player::Lie;
use serde::{Deserialize, Serialize};

/// A ball in play.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Situation {
    /// The place, yards.
    pub at: Point,
    /// The lie.
    pub lie: Lie,
}

/// Why no ball can be played from a place.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlaceFault {
    /// A place no ball is played from.
    #[error("at is ({x}, {y}), {what}; it must be a place that a ball may be played from{hint}")]
    NoPlace {
        /// Yards to the right of the plan's origin.
        x: f64,
        /// Yards up from the plan's origin.
        y: f64,
        /// What is there.
        what: &'static str,
        /// What would do, or nothing.
        hint: &'static str,
    },
    /// A lie that no ball has there.
    #[error("lie is \"{}\" at ({x}, {y}); {}", .lie.name(), if *.lie == Lie::Green {
        "only a ball on a putting green lies so"
    } else {
        "a ball on a putting green lies on \"green\""
    })]
    NoLie {
        /// The lie given.
        lie: Lie,
        /// Yards to the right of the plan's origin.
        x: f64,
        /// Yards up from the plan's origin.
        y: f64,
    },
}

/// The farthest from the pin that a ball is played from, yards.
const FARTHEST: f64 = 2_000.0;

impl Situation {
    /// The ball teed up on the teeing area.
    #[must_use]
    pub fn on_the_tee(hole: &Hole) -> Self {
        Situation {
            at: hole.tee(),
            lie: Lie::Tee,
        }
    }

    /// The ball at a place, with a lie or with the one that the ground there gives.
    ///
    /// A lie may be better or worse than the ground (a ball sitting down on a fairway, teed up on a forward tee), but for a
    /// putting green: who putts stands on one.
    ///
    /// # Errors
    /// A place out of bounds, or off the hole; one in a penalty area for which no lie is told; a lie that no ball has there.
    pub fn lying(hole: &Hole, at: Point, lie: Option<Lie>) -> Result<Self, PlaceFault> {
        let no_place = |what, hint| PlaceFault::NoPlace {
            x: at.x,
            y: at.y,
            what,
            hint,
        };
        if !(at.x.is_finite() && at.y.is_finite()) {
            return Err(no_place("not a finite number of yards", ""));
        }
        if (hole.pin() - at).norm() > FARTHEST {
            return Err(no_place("more than 2,000 yards from the pin", ""));
        }
        let surface = hole.surface_at(at);
        let on_the_ground = match surface {
            Surface::OutOfBounds => return Err(no_place("out of bounds", "")),
            _ if at == hole.tee() => Some(Lie::Tee),
            _ => Lie::on(surface),
        };
        let Some(lie) = lie.or(on_the_ground) else {
            let hint = ": name the lie of a ball that is played as it lies there";
            return Err(no_place("in a penalty area", hint));
        };
        if (lie == Lie::Green) != (surface == Surface::Green) {
            return Err(PlaceFault::NoLie {
                lie,
                x: at.x,
                y: at.y,
            });
        }
        Ok(Situation { at, lie })
    }

    /// Yards to the pin.
    #[must_use]
    pub fn to_pin(&self, hole: &Hole) -> f64 {
        (hole.pin() - self.at).norm()
    }
}
