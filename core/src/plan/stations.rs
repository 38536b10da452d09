//! A strategy's targets, worked out beforehand for balls along the line of play.
use super::Scene;
use super::ahead::past_the_trees;
use crate::geometry::Point;
use crate::player::Lie;
use crate::shot::Shot;
use crate::situation::Situation;
use rayon::prelude::*;

/// Yards between stations.
const STEP: f64 = 10.0;

/// The lies that a full shot is planned from; others use the nearest of these.
const PLANNED: [Lie; 4] = [Lie::Fairway, Lie::Rough, Lie::DeepRough, Lie::Bunker];

/// The tee shot, and a target for every station and lie.
#[derive(Clone, Debug)]
pub(super) struct Stations {
    tee: Situation,
    tee_target: Point,
    tee_shot: Shot,
    /// `targets[lie][station]`.
    targets: Vec<Vec<Point>>,
}

impl Stations {
    /// Asks `target` for every station. The line must hold still: the answer may depend on nothing
    /// but the situation.
    pub(super) fn new(scene: &Scene, target: impl Fn(Situation) -> Point + Sync) -> Self {
        let line = scene.hole().line();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a hole is short"
        )]
        let count = (line.length() / STEP).ceil() as u32 + 1;
        let targets = PLANNED
            .iter()
            .map(|&lie| {
                (0..count)
                    .into_par_iter()
                    .map(|k| {
                        target(Situation {
                            at: line.at(f64::from(k) * STEP, 0.0),
                            lie,
                        })
                    })
                    .collect()
            })
            .collect();
        let tee = Situation::on_the_tee(scene.hole());
        let tee_target = target(tee);
        Stations {
            tee,
            tee_target,
            tee_shot: scene.shot_at(tee, tee_target),
            targets,
        }
    }

    /// The ordinary shot at the target of the nearest station with the same kind of lie.
    pub(super) fn shot(&self, scene: &Scene, from: Situation) -> Shot {
        if from == self.tee {
            return self.tee_shot;
        }
        let shot = scene.shot_at(from, self.target(scene, from));
        past_the_trees(scene, from, shot)
    }

    fn target(&self, scene: &Scene, from: Situation) -> Point {
        if from.lie == Lie::Tee {
            return self.tee_target;
        }
        let row = match from.lie {
            Lie::Tee | Lie::Fairway | Lie::FirstCut | Lie::Fringe | Lie::Green => 0,
            Lie::Rough | Lie::Trees => 1,
            Lie::DeepRough => 2,
            Lie::Bunker => 3,
        };
        let along = scene.hole().line().station(from.at).along.max(0.0);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a hole is short"
        )]
        let station = (along / STEP).round() as usize;
        let targets = &self.targets[row];
        targets[station.min(targets.len() - 1)]
    }
}
