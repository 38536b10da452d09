//! Shots of a length against the areas that course rating publishes, played on level ground.
use super::holes::meadow;
use super::{Measured, Who};
use std::sync::Arc;
use wideberth::geometry::{Point, Vector};
use wideberth::noise::{Noise, PlayNoise, Seed};
use wideberth::plan::Scene;
use wideberth::player::{Habits, LevelFigures, Lie, LieEffect, Player, PlayerFault, Reference};
use wideberth::shot::{Shot, Stroke};
use wideberth::situation::Situation;

/// Share of the shots of a length that end in an area around where a solid one does, on a fairway.
pub(crate) fn inside(
    figures: &LevelFigures,
    who: Who,
    length: f64,
    (width, depth): (f64, f64),
    strokes: u64,
) -> Measured {
    let player = with_club_of(figures, who, length).expect("a player");
    let scene = Scene::new(Arc::new(meadow()), Arc::new(player.prepare())).expect("a scene");
    let club = scene.bag().find("club").expect("the club");
    let from = Situation {
        at: Point::new(0.0, 100.0),
        lie: Lie::Fairway,
    };
    let shot = Shot {
        stroke: Stroke::Swing(club),
        target: from.at + Vector::new(0.0, length),
        carry: scene.bag().swing(club, from.lie).full_carry,
    };
    let end = |noise: &Noise| scene.resolve(from, &shot, noise).rest;
    let middle = end(&Noise::NONE);
    let ends = (0..strokes)
        .map(|play| end(&PlayNoise::new(Seed(20_261_125), play).stroke(0)) - middle)
        .filter(|off| off.y.abs() <= 0.5 * depth && off.x.abs() <= 0.5 * width)
        .count();
    let value = ends as f64 / strokes as f64;
    Measured {
        value,
        error: (value * (1.0 - value) / strokes as f64).sqrt(),
    }
}

/// A golfer who has, beside the longest club, the one that goes `total` yards; whose lies change nothing, and who means
/// what he does.
fn with_club_of(figures: &LevelFigures, who: Who, total: f64) -> Result<Player, PlayerFault> {
    let (reference, handicap) = match who {
        Who::Woman(handicap) => (Reference::Women, handicap),
        Who::Man(handicap) => (Reference::Men, handicap),
        Who::Professional => (Reference::Men, 0.0),
    };
    let mut parts = who.player(figures)?.into_parts();
    let (mut low, mut high) = (0.5 * total, total);
    for _ in 0..50 {
        let carry = 0.5 * (low + high);
        let club = figures.club(reference, handicap, "club", carry)?;
        if club.total() < total {
            low = carry;
        } else {
            high = carry;
        }
    }
    let club = figures.club(reference, handicap, "club", 0.5 * (low + high))?;
    parts.clubs.truncate(1);
    parts.clubs.push(club);
    parts.lies = [LieEffect::NONE; 9];
    parts.habits = Habits::NONE;
    Player::new(parts)
}
