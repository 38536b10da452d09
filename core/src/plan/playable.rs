//! Whether a shot that somebody names can be played from where the ball lies.
use super::Scene;
use crate::shot::Shot;
use crate::situation::Situation;

/// A shot that cannot be played.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ShotFault {
    /// A stroke that is not played from such a lie.
    #[error("a {stroke} cannot be played from the lie {lie:?}")]
    Lie {
        /// The stroke.
        stroke: String,
        /// The lie.
        lie: &'static str,
    },
    /// A target that is no place, or a carry that is no distance.
    #[error("{field} is {value}; it must be {allowed}")]
    Range {
        /// Name of the field.
        field: &'static str,
        /// The value given.
        value: f64,
        /// What is allowed.
        allowed: &'static str,
    },
}

/// The farthest from the ball that a target may be, yards.
const FARTHEST: f64 = 2_000.0;

impl Scene {
    /// A shot as it can be played from a situation: a carry of more than the stroke can give is its full one.
    ///
    /// # Errors
    /// A stroke that does not suit the lie; a target more than 2,000 yards away or NaN; a carry below 0 or NaN.
    pub fn playable(&self, from: Situation, shot: &Shot) -> Result<Shot, ShotFault> {
        let range = |field, value: f64, is_fine, allowed| {
            if is_fine {
                Ok(())
            } else {
                Err(ShotFault::Range {
                    field,
                    value,
                    allowed,
                })
            }
        };
        let away = (shot.target - from.at).norm();
        range(
            "the distance to the target",
            away,
            away <= FARTHEST,
            "0 to 2,000 yards",
        )?;
        range("carry", shot.carry, shot.carry >= 0.0, "0 yards or more")?;
        let most = self.most_carry(from.lie, shot.stroke);
        let most = most.ok_or_else(|| ShotFault::Lie {
            stroke: self.stroke_name(shot.stroke),
            lie: from.lie.name(),
        })?;
        Ok(Shot {
            carry: shot.carry.min(most),
            ..*shot
        })
    }
}
