//! Shots of a length against the areas that course rating publishes.
use super::{Measured, Who};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::player::{
    Club, ClubId, LevelFigures, Lie, LieEffect, Player, PlayerFault, Reference,
};

/// Share of the strikes of a length that end in an area around where solid ones do.
pub(crate) fn inside(
    figures: &LevelFigures,
    who: Who,
    length: f64,
    (width, depth): (f64, f64),
    strokes: u64,
) -> Measured {
    let (reference, handicap) = match who {
        Who::Woman(handicap) => (Reference::Women, handicap),
        Who::Man(handicap) => (Reference::Men, handicap),
        Who::Professional => (Reference::Men, 0.0),
    };
    let club = of_length(figures, reference, handicap, length).expect("a club");
    let bag = alone(club).expect("a player").prepare();
    let swing = bag.swing(ClubId(0), Lie::Fairway);
    let ends = (0..strokes)
        .map(|play| PlayNoise::new(Seed(20_261_125), play).stroke(0))
        .map(|noise| swing.strike(swing.full_carry, &noise))
        .filter(|s| {
            (s.carry + s.run - length).abs() <= 0.5 * depth && s.lateral.abs() <= 0.5 * width
        })
        .count();
    let value = ends as f64 / strokes as f64;
    Measured {
        value,
        error: (value * (1.0 - value) / strokes as f64).sqrt(),
    }
}

/// The club with which a golfer hits the ball `total` yards.
fn of_length(
    figures: &LevelFigures,
    reference: Reference,
    handicap: f64,
    total: f64,
) -> Result<Club, PlayerFault> {
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
    figures.club(reference, handicap, "club", 0.5 * (low + high))
}

/// A player with one club, whose lies change nothing and who means what he does.
fn alone(club: Club) -> Result<Player, PlayerFault> {
    let mut parts = Player::from_handicap(10.0)?.into_parts();
    parts.clubs = vec![club];
    parts.lies = [LieEffect::NONE; 9];
    parts.shortfall = 0.0;
    Player::new(parts)
}
