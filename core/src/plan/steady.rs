//! `steady`: the fat of the green when the whole pattern is safe, else the roomiest landing place.
use super::stations::Stations;
use super::{Scene, Strategy};
use crate::geometry::Point;
use crate::noise::{self, Noise};
use crate::shot::Shot;
use crate::situation::Situation;

/// Plays to the place where the player's whole pattern fits: the middle of the green if it can be
/// reached without undue risk, else the landing area down the hole that costs least once a stroke is
/// charged for every ball in trouble. Out of the trees by the safest gap.
#[derive(Clone, Debug)]
pub struct Steady {
    stations: Stations,
}

/// Strokes charged for a ball in trouble on top of what it costs (common practice, no source): what
/// makes the strategy cautious.
const CAUTION: f64 = 0.1;

/// Within this distance of the pin, yards, it is played at; from farther off the middle of the green
/// is (common practice, no source).
pub(super) const AT_THE_PIN: f64 = 60.0;

/// Luck over which a landing place is judged.
const LUCK: u32 = 24;

impl Steady {
    /// Prepares the strategy for a scene.
    #[must_use]
    pub fn new(scene: &Scene) -> Self {
        let luck = noise::spread(LUCK);
        Steady {
            stations: Stations::new(scene, |from| roomiest(scene, from, &luck)),
        }
    }
}

impl Strategy for Steady {
    fn choose(&self, scene: &Scene, from: Situation) -> Shot {
        let hole = scene.hole();
        let target = if from.to_pin(hole) <= AT_THE_PIN {
            hole.pin()
        } else {
            self.stations.target(scene, from)
        };
        scene.shot_at(from, target)
    }
}

/// The best target by the cautious reckoning: the middle of the green or a landing place short of it.
pub(super) fn roomiest(scene: &Scene, from: Situation, luck: &[Noise]) -> Point {
    let hole = scene.hole();
    let judge = |target: Point| {
        let assessed = scene.assess(from, &scene.shot_at(from, target), luck);
        (assessed.strokes + CAUTION * assessed.trouble, target)
    };
    let better = |a: (f64, Point), b: (f64, Point)| if b.0 < a.0 { b } else { a };
    let middle = hole.middle_of_green();
    let start = hole.line().station(from.at).along;
    let reach = scene.reach.farthest(from.lie, hole.line().direction(start));
    let to_green = (middle - from.at).norm();
    let mut best = (f64::INFINITY, middle);
    if scene.reaches(from, middle) {
        best = better(best, judge(middle));
    }
    // Straight down the line first, in steps; then to either side of the best of those.
    let mut length = reach;
    while length > 0.4 * reach {
        if length < to_green {
            best = better(best, judge(hole.line().at(start + length, 0.0)));
        }
        length -= 12.0;
    }
    let base = hole.line().station(best.1);
    for offset in [-18.0, -12.0, -6.0, 6.0, 12.0, 18.0] {
        if best.1 != middle {
            best = better(best, judge(hole.line().at(base.along, base.right + offset)));
        }
    }
    best.1
}
