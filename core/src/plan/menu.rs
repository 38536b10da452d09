//! The menu: which strokes may be played from where a ball lies, and which of two is the one for a distance.
//!
//! Instructions, strategies, proposals, the solver and the strokes around the green all choose from it.
use super::Scene;
use super::scene::Goal;
use crate::figures::choice::{LONGEST_CHIP, LONGEST_FRINGE_PUTT};
use crate::geometry::{Point, Vector, unit_or_up};
use crate::hole::Surface;
use crate::player::{ClubId, Lie, PlayerFault, Touch};
use crate::shot::{Shot, Stroke};
use crate::situation::Situation;
use std::ops::ControlFlow;

/// What a stroke with the putter at the hole is called.
const PUTT: &str = "putt";

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

/// The strokes around the green that suit a lie, in the order of [`Touch::ALL`]: none from tee and green. A putt at the hole is
/// besides, see [`may_putt`].
pub(crate) fn around_the_green(lie: Lie) -> impl Iterator<Item = Touch> {
    let suits = move |touch: &Touch| *touch != Touch::Punch && touch.suits(lie);
    Touch::ALL.into_iter().filter(suits)
}

/// True where a putt at the hole may be played, so many yards from it.
pub(crate) fn may_putt(lie: Lie, distance: f64) -> bool {
    lie == Lie::Green || lie == Lie::Fringe && distance <= LONGEST_FRINGE_PUTT
}

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

    /// What a stroke is called: the club's name, `putt`, `chip`, `bunker shot`, ...
    #[must_use]
    pub fn stroke_name(&self, stroke: Stroke) -> String {
        match stroke {
            Stroke::Putt => PUTT.to_owned(),
            Stroke::Swing(club) => self.bag().name(club).to_owned(),
            Stroke::Touch(touch) => touch.spoken(),
        }
    }

    /// The stroke that is called so.
    ///
    /// # Errors
    /// A club that the player has not.
    pub fn stroke(&self, name: &str) -> Result<Stroke, PlayerFault> {
        let touch = Touch::ALL.into_iter().find(|touch| touch.spoken() == name);
        match touch {
            Some(touch) => Ok(Stroke::Touch(touch)),
            None if name == PUTT => Ok(Stroke::Putt),
            None => self.bag().find(name).map(Stroke::Swing),
        }
    }

    /// The longest carry that can be meant with a stroke from a lie, yards, 0 for a putt; None where the stroke does not
    /// suit the lie.
    #[must_use]
    pub fn most_carry(&self, lie: Lie, stroke: Stroke) -> Option<f64> {
        match stroke {
            Stroke::Putt => matches!(lie, Lie::Green | Lie::Fringe).then_some(0.0),
            Stroke::Swing(club) => Some(self.bag().swing(club, lie).full_carry),
            Stroke::Touch(touch) => touch
                .suits(lie)
                .then(|| self.bag().touch(touch, lie).full_carry),
        }
    }

    /// True where a club is swung over a way: less than three quarters of a swing is a pitch (from sand a bunker shot), where
    /// one gets there.
    #[must_use]
    pub fn is_swing(&self, from: Situation, club: ClubId, way: Vector) -> bool {
        let (distance, forward) = (way.norm(), unit_or_up(way));
        from.lie == Lie::Tee
            || distance >= self.reach.least_of(club, from.lie, forward)
            || distance > self.full_length(short_stroke(from.lie), from.lie, forward)
    }

    /// Carry and run of a full touch along `forward`, yards.
    #[must_use]
    pub fn full_length(&self, touch: Touch, lie: Lie, forward: Vector) -> f64 {
        let distances = &self.setting().touch(touch).told.day;
        let full = self.bag().touch(touch, lie).full_carry;
        distances.total_for(full, distances.along(forward))
    }

    /// The touch that suits a distance, if it is too short for three quarters of a swing of the shortest club: near and from
    /// short mown grass the putter where all the way is mown, else a chip that lands on green or fringe; else a pitch, or a lob
    /// where the pitch does not land there. From sand a bunker shot, if it gets there.
    pub(super) fn touch_for(
        &self,
        from: Situation,
        goal: &Goal,
        always_chips: bool,
    ) -> Option<Touch> {
        let Goal {
            distance,
            forward,
            rise,
            ..
        } = *goal;
        // A yard up plays about a yard longer.
        let covers = |touch| distance + rise <= self.full_length(touch, from.lie, forward);
        if from.lie == Lie::Bunker {
            return covers(Touch::BunkerShot).then_some(Touch::BunkerShot);
        }
        let is_swing = distance + rise >= self.reach.least(from.lie, forward);
        if from.lie == Lie::Tee || is_swing || !covers(Touch::Pitch) {
            return None;
        }
        let near = distance <= LONGEST_CHIP;
        let putts = near && !always_chips && Touch::Putter.suits(from.lie);
        if putts && covers(Touch::Putter) && self.is_mown(from.at, goal.at) {
            return Some(Touch::Putter);
        }
        // With room to spare where it is near: one in six lands shorter by more than a spread.
        let lands_on_mown = |touch: Touch| {
            let distances = &self.setting().touch(touch).told.day;
            let carry = distances.carry_for(distance, distances.along(forward));
            let spare = if near {
                self.bag().touch(touch, from.lie).depth_sd(carry)
            } else {
                0.0
            };
            [carry, carry - spare].into_iter().all(|carry| {
                let surface = self.hole().surface_at(from.at + forward * carry);
                matches!(surface, Surface::Green | Surface::Fringe)
            })
        };
        if near && covers(Touch::Chip) && lands_on_mown(Touch::Chip) {
            return Some(Touch::Chip);
        }
        // Little green to work with: too many pitches would come down in the rough before it, and lobs would not.
        let lob = Touch::Lob;
        let short_sided = !lands_on_mown(Touch::Pitch) && lands_on_mown(lob);
        if short_sided && lob.suits(from.lie) && covers(lob) {
            return Some(lob);
        }
        Some(Touch::Pitch)
    }

    /// True where the straight way is over mown ground alone.
    fn is_mown(&self, from: Point, to: Point) -> bool {
        let walked = self
            .hole()
            .walk::<()>(from, to, |_, surface| match surface {
                Surface::Fairway | Surface::FirstCut | Surface::Fringe | Surface::Green => {
                    ControlFlow::Continue(())
                }
                _ => ControlFlow::Break(()),
            });
        walked.is_continue()
    }
}

/// The stroke of a lie that takes the place of part of a swing.
fn short_stroke(lie: Lie) -> Touch {
    match lie {
        Lie::Bunker => Touch::BunkerShot,
        _ => Touch::Pitch,
    }
}
