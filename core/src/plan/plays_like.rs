//! What distance a shot plays like: wind, height, slope, air and ground told in yards.
use super::Scene;
use crate::geometry::{Point, right_of, unit_or_up};
use crate::player::Lie;
use crate::shot::{Shot, Stroke};
use crate::situation::Situation;
use crate::units::feet_from_yards;

/// The ordinary shot at a target, and the distance it plays like.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaysLike {
    /// Yards to the target on the plan.
    pub distance: f64,
    /// The distance, yards, that on level ground of medium firmness in still air calls for the same swing, carry and run
    /// together. Of a putt the distance itself.
    pub plays_like: f64,
    /// Name of the club or touch.
    pub stroke: String,
    /// Yards to the right of the target, where it is, that the shot is aimed: held off for wind and slope.
    pub aim_right: f64,
    /// Feet by which the target lies above the ball.
    pub uphill_ft: f64,
    /// False if the player's longest club does not get there from that lie.
    pub in_reach: bool,
}

/// Why a shot cannot be told.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PlaysLikeFault {
    /// A place that is none.
    #[error("{field} is ({x}, {y}); both must be finite numbers of yards")]
    NotFinite {
        /// The name of the place.
        field: &'static str,
        /// Yards to the right.
        x: f64,
        /// Yards up.
        y: f64,
    },
    /// The ball cannot be played where it lies.
    #[error("at is ({x:.1}, {y:.1}), {what}; it must be a place where a ball is played as it lies")]
    NoLie {
        /// Yards to the right.
        x: f64,
        /// Yards up.
        y: f64,
        /// The surface there.
        what: String,
    },
    /// A target at the ball's feet, or beyond all reason.
    #[error("to is {yards:.1} yards away; it must be 1 to 1000 yards")]
    Distance {
        /// Yards from the ball.
        yards: f64,
    },
}

impl PlaysLike {
    /// The ordinary shot from a place (on the teeing area from a peg) at a target, and what it plays like.
    ///
    /// # Errors
    /// A place that is not finite or from which no ball is played as it lies, a target nearer than 1 yard or farther
    /// than 1000.
    pub fn of(scene: &Scene, at: Point, target: Point) -> Result<Self, PlaysLikeFault> {
        for (field, Point { coords: p }) in [("at", at), ("to", target)] {
            if !(p.x.is_finite() && p.y.is_finite()) {
                let (x, y) = (p.x, p.y);
                return Err(PlaysLikeFault::NotFinite { field, x, y });
            }
        }
        let hole = scene.hole();
        let surface = hole.surface_at(at);
        let lie = if at == hole.tee() {
            Some(Lie::Tee)
        } else {
            Lie::on(surface)
        };
        let lie = lie.ok_or_else(|| PlaysLikeFault::NoLie {
            x: at.x,
            y: at.y,
            what: format!("on the surface {}", surface.name()),
        })?;
        let way = target - at;
        let distance = way.norm();
        if !(1.0..=1000.0).contains(&distance) {
            return Err(PlaysLikeFault::Distance { yards: distance });
        }
        let from = Situation { at, lie };
        let shot = scene.shot_at(from, target);
        let terrain = hole.terrain();
        Ok(PlaysLike {
            distance,
            plays_like: scene.plays_like(from, target),
            stroke: name(scene, &shot).to_owned(),
            aim_right: (shot.target - target).dot(&right_of(unit_or_up(way))),
            uphill_ft: feet_from_yards(terrain.height(target) - terrain.height(at)),
            in_reach: match shot.stroke {
                Stroke::Swing(_) => scene.reaches(from, target),
                _ => true,
            },
        })
    }
}

fn name<'a>(scene: &'a Scene, shot: &Shot) -> &'a str {
    match shot.stroke {
        Stroke::Putt => "putt",
        Stroke::Swing(club) => scene.bag().name(club),
        Stroke::Touch(touch) => touch.name(),
    }
}
