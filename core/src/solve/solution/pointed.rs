//! A shot that somebody points at on the map, told as the solution's own are.
use super::advice::{finish, instruction, words};
use crate::geometry::Point;
use crate::plan::{Instruction, Strategy};
use crate::shot::{Shot, Stroke};
use crate::situation::Situation;
use crate::solve::solution::Solution;

/// A shot with what a map and a sentence need of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Pointed {
    /// The club, or the stroke around the green, as it is called.
    pub club: String,
    /// The shot.
    pub shot: Shot,
    /// Where a solid strike without luck ends.
    pub finish: Point,
    /// The shot as a coach would tell it.
    pub words: String,
    /// The shot as an instruction of a plan, played just as it is told.
    pub instruction: Instruction,
}

impl Solution {
    /// A stroke aimed over a place, with nothing held off for wind or slope: a full one, or one that goes as far as the
    /// place, where it can. None where the stroke does not suit the lie. A putt is at the hole, wherever is pointed.
    #[must_use]
    pub fn pointed(
        &self,
        from: Situation,
        stroke: Stroke,
        over: Point,
        full: bool,
    ) -> Option<Pointed> {
        let scene = self.scene();
        let most = scene.most_carry(from.lie, stroke)?;
        let (target, carry) = match stroke {
            Stroke::Putt => (scene.hole().pin(), 0.0),
            _ if full => (over, most),
            _ => (over, scene.carry_to(from.at, stroke, over).clamp(0.0, most)),
        };
        let shot = Shot {
            stroke,
            target,
            carry,
        };
        Some(self.tell(from, shot))
    }

    /// The ordinary shot at the flag, whatever lies there.
    #[must_use]
    pub fn pointed_at_the_flag(&self, from: Situation) -> Pointed {
        self.tell(from, self.at_the_pin(from))
    }

    /// The shot that is played from a situation, told without looking at others.
    #[must_use]
    pub fn best_shot(&self, from: Situation) -> Pointed {
        let left = self.most().unwrap_or(0);
        let shot = self
            .stored(from, left)
            .unwrap_or_else(|| self.choose(self.scene(), from, 0));
        self.tell(from, shot)
    }

    /// The strokes that suit the lie of a ball, longest clubs first and the putt last, with the longest carry of each,
    /// yards.
    #[must_use]
    pub fn strokes_from(&self, from: Situation) -> Vec<(String, f64)> {
        let scene = self.scene();
        let clubs = scene.bag().clubs().map(Stroke::Swing);
        let touches = crate::player::Touch::ALL.into_iter().map(Stroke::Touch);
        clubs
            .chain(touches)
            .chain([Stroke::Putt])
            .filter_map(|stroke| {
                let most = scene.most_carry(from.lie, stroke)?;
                Some((scene.stroke_name(stroke), most))
            })
            .collect()
    }

    fn tell(&self, from: Situation, shot: Shot) -> Pointed {
        let scene = self.scene();
        Pointed {
            club: scene.stroke_name(shot.stroke),
            finish: finish(scene, from, &shot),
            words: words(scene, from, &shot),
            instruction: instruction(scene, from, &shot),
            shot,
        }
    }
}
