//! Golfers, lies and strokes for tests of strokes on a day.
use super::{all, shaped, straight};
use std::sync::Arc;
use wideberth::geometry::{Point, Vector};
use wideberth::hole::{Hole, Surface};
use wideberth::noise::Noise;
use wideberth::plan::Scene;
use wideberth::player::{Club, ClubId, ClubParts, Lie, LieEffect, Player};
use wideberth::setting::Setting;
use wideberth::shot::{self, Outcome, Shot, Stroke};
use wideberth::situation::Situation;

/// Feet in a yard.
pub(crate) const FEET: f64 = 3.0;

/// The strokes of a player on a hole.
pub(crate) fn setting(hole: &Hole, player: &Player) -> Setting {
    Setting::new(Arc::new(hole.clone()), Arc::new(player.prepare())).expect("a setting")
}

/// The plans of a player on a hole.
pub(crate) fn plan_on(hole: &Hole, player: &Player) -> Scene {
    Scene::new(Arc::new(hole.clone()), Arc::new(player.prepare())).expect("a scene")
}

/// Fairway all around and a green 390 yards away.
pub(crate) fn fairway() -> Hole {
    straight(4, 390.0, vec![all(Surface::Fairway)])
}

/// A player without error whose clubs carry what is told from every lie, and run what is usual.
pub(crate) fn golfer(clubs: &[(&str, f64)]) -> Player {
    let mut parts = Player::from_handicap(5.0)
        .expect("a handicap")
        .without_spread()
        .into_parts();
    parts.clubs = clubs
        .iter()
        .map(|&(name, carry)| Club::new(ClubParts::new(name, carry, 0.0, 0.0)).expect("a club"))
        .collect();
    parts.lies = [LieEffect::NONE; 9];
    Player::new(parts).expect("a player")
}

/// Three clubs and their carries.
pub(crate) const BAG: [(&str, f64); 3] =
    [("driver", 250.0), ("7-iron", 160.0), ("sand wedge", 85.0)];

pub(crate) fn lying(at: Point, lie: Lie) -> Situation {
    Situation { at, lie }
}

/// A full swing up the plan from the tee.
pub(crate) fn full(club: u8) -> Shot {
    Shot {
        stroke: Stroke::Swing(ClubId(club)),
        target: Point::new(0.0, 500.0),
        carry: f64::INFINITY,
    }
}

/// What becomes of a full swing from the tee without luck.
pub(crate) fn struck(setting: &Setting, club: u8) -> Outcome {
    let tee = lying(Point::origin(), Lie::Tee);
    shot::resolve(setting, tee, &full(club), &Noise::NONE)
}

/// A hole whose ground rises by `gradient` until it goes on level around its green.
pub(crate) fn sloping(hole: &Hole, gradient: Vector) -> Hole {
    shaped(hole, |x, y| {
        let fade = ((345.0 - y) / 25.0).clamp(0.0, 1.0);
        gradient.x * x * fade + gradient.y * y.min(320.0)
    })
}
