//! A strategy's targets, worked out beforehand for balls along the line of play.
use super::Scene;
use crate::geometry::Point;
use crate::player::Lie;
use crate::situation::Situation;
use rayon::prelude::*;

/// Yards between stations.
const STEP: f64 = 10.0;

/// The lies that a full shot is planned from; others use the nearest of these.
const PLANNED: [Lie; 4] = [Lie::Fairway, Lie::Rough, Lie::DeepRough, Lie::Bunker];

/// A target for every station and lie, and one for the tee shot.
#[derive(Clone, Debug)]
pub(super) struct Stations {
    tee: Point,
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
        Stations {
            tee: target(Situation::on_the_tee(scene.hole())),
            targets,
        }
    }

    /// The target from a situation: that of the nearest station with the same kind of lie.
    pub(super) fn target(&self, scene: &Scene, from: Situation) -> Point {
        if from.lie == Lie::Tee {
            return self.tee;
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
