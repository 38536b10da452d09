//! A player on a hole, prepared: everything that choosing and playing shots looks up.
use super::{Escapes, Outlook, Reach};
use crate::geometry::Point;
use crate::hole::{Hole, Surface};
use crate::noise::Noise;
use crate::player::{Bag, Lie, Touch};
use crate::shot::{self, Next, Outcome, Shot, Stroke};
use crate::situation::Situation;
use std::sync::Arc;

/// A player on a hole.
#[derive(Clone, Debug)]
pub struct Scene {
    hole: Arc<Hole>,
    bag: Arc<Bag>,
    /// Which club covers which distance.
    pub reach: Reach,
    /// The quick reckoning of strokes to come.
    pub outlook: Outlook,
    /// The way out of the trees, from everywhere under them.
    pub escapes: Escapes,
}

/// What a shot is worth by the quick reckoning, averaged over some luck.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Assessment {
    /// Strokes to come after it, penalties included.
    pub strokes: f64,
    /// Share of balls in a penalty area, out of bounds, lost, unplayable or in trees.
    pub trouble: f64,
}

/// The longest putt from the fringe, yards; beyond it the ball is chipped (common practice, no
/// source).
const LONGEST_FRINGE_PUTT: f64 = 15.0;

impl Scene {
    /// Prepares a player on a hole.
    #[must_use]
    pub fn new(hole: Arc<Hole>, bag: Arc<Bag>) -> Self {
        let reach = Reach::new(&bag);
        let outlook = Outlook::new(&bag, hole.green_speed(), reach.farthest(Lie::Fairway));
        let escapes = Escapes::new(&hole, &bag, &outlook);
        Scene {
            hole,
            bag,
            reach,
            outlook,
            escapes,
        }
    }

    /// The hole.
    #[must_use]
    pub fn hole(&self) -> &Hole {
        &self.hole
    }

    /// The player's strokes.
    #[must_use]
    pub fn bag(&self) -> &Bag {
        &self.bag
    }

    /// Plays one stroke.
    #[must_use]
    pub fn resolve(&self, from: Situation, shot: &Shot, noise: &Noise) -> Outcome {
        shot::resolve(&self.hole, &self.bag, from, shot, noise)
    }

    /// The ordinary shot at a target: putt, chip, pitch, bunker shot or the shortest club that
    /// covers the distance; from under trees the way out.
    #[must_use]
    pub fn shot_at(&self, from: Situation, target: Point) -> Shot {
        let distance = (target - from.at).norm();
        match from.lie {
            Lie::Green => Shot {
                stroke: Stroke::Putt,
                target: self.hole.pin(),
                carry: 0.0,
            },
            Lie::Trees => self.escapes.shot_from(from.at),
            Lie::Fringe if distance <= LONGEST_FRINGE_PUTT && target == self.hole.pin() => Shot {
                stroke: Stroke::Putt,
                target,
                carry: 0.0,
            },
            lie => match self.touch_for(from, target, distance) {
                Some(touch) => {
                    let swing = self.bag.touch(touch, lie);
                    Shot {
                        stroke: Stroke::Touch(touch),
                        target,
                        carry: distance / (1.0 + swing.run),
                    }
                }
                None => self.swing_at(from, target, distance),
            },
        }
    }

    fn swing_at(&self, from: Situation, target: Point, distance: f64) -> Shot {
        let (club, carry) = self.reach.club_for(distance, from.lie);
        Shot {
            stroke: Stroke::Swing(club),
            target,
            carry,
        }
    }

    /// The touch that suits a distance, if it is short enough for one: a chip when it can land on
    /// mown ground, else a pitch; from sand a bunker shot.
    fn touch_for(&self, from: Situation, target: Point, distance: f64) -> Option<Touch> {
        let covers = |touch| {
            let swing = self.bag.touch(touch, from.lie);
            distance <= swing.full_carry * (1.0 + swing.run)
        };
        if from.lie == Lie::Bunker {
            return covers(Touch::BunkerShot).then_some(Touch::BunkerShot);
        }
        if from.lie == Lie::Tee || !covers(Touch::Pitch) {
            return None;
        }
        if covers(Touch::Chip) {
            let share = 1.0 / (1.0 + self.bag.touch(Touch::Chip, from.lie).run);
            let landing = from.at + (target - from.at) * share;
            if matches!(
                self.hole.surface_at(landing),
                Surface::Green | Surface::Fringe
            ) {
                return Some(Touch::Chip);
            }
        }
        Some(Touch::Pitch)
    }

    /// Averages a shot over `luck` by the quick reckoning.
    #[must_use]
    pub fn assess(&self, from: Situation, shot: &Shot, luck: &[Noise]) -> Assessment {
        let mut sum = Assessment::default();
        for noise in luck {
            let (strokes, trouble) = self.value(self.resolve(from, shot, noise));
            sum.strokes += strokes;
            sum.trouble += f64::from(u8::from(trouble));
        }
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let n = luck.len().max(1) as f64;
        Assessment {
            strokes: sum.strokes / n,
            trouble: sum.trouble / n,
        }
    }

    fn value(&self, outcome: Outcome) -> (f64, bool) {
        let reckon = |s: &Situation| self.outlook.strokes(&self.hole, *s);
        match outcome.next {
            Next::Holed => (0.0, false),
            Next::Play(situation) => (reckon(&situation), situation.lie == Lie::Trees),
            Next::Relief(relief) => {
                let drop = relief.options(&self.hole).best(reckon);
                (f64::from(drop.penalty) + reckon(&drop.situation), true)
            }
        }
    }
}
