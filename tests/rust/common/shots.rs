//! Shots of invented golfers, from the code that plays them.

use wideberth::fit::{Evidence, Figure, Fit, Shot};
use wideberth::noise::{PlayNoise, Seed};
use wideberth::player::{Bag, Club, ClubParts, Lie, LieEffect, Player, Strike};

pub(crate) fn level(handicap: f64) -> Player {
    Player::from_handicap(handicap).expect("valid")
}

/// Stroke number `i` of a full shot.
pub(crate) fn strike(bag: &Bag, club: &str, lie: Lie, stream: u64, i: u32) -> Strike {
    let swing = bag.swing(bag.find(club).expect("valid"), lie);
    let noise = PlayNoise::new(Seed(20_261_125), stream).stroke(i);
    swing.strike(swing.full_carry, &noise)
}

pub(crate) fn shots(player: &Player, club: &str, lie: Lie, count: u32, stream: u64) -> Vec<Shot> {
    let bag = player.prepare();
    (0..count)
        .map(|i| {
            let strike = strike(&bag, club, lie, stream, i);
            Shot {
                lie: Some(lie),
                // The wildest are not taken for shots.
                ..Shot::new(club, strike.carry, strike.lateral.clamp(-250.0, 250.0))
            }
        })
        .collect()
}

pub(crate) fn evidence(shots: Vec<Shot>) -> Evidence {
    Evidence {
        shots,
        unit_told: true,
        ..Evidence::default()
    }
}

pub(crate) fn fit(prior: &Player, shots: Vec<Shot>) -> Fit {
    Fit::to_shots(prior, &evidence(shots)).expect("valid")
}

pub(crate) fn figure(club: &ClubParts, figure: Figure) -> f64 {
    match figure {
        Figure::Carry => club.carry,
        Figure::CarrySd => club.carry_sd,
        Figure::LateralBias => club.lateral_bias,
        Figure::LateralSd => club.lateral_sd,
        Figure::Correlation => club.correlation,
        Figure::MishitShare => club.mishit_share,
    }
}

/// A golfer of a level to whom all lies are alike.
pub(crate) fn level_from_any_lie(handicap: f64) -> Player {
    let mut parts = level(handicap).into_parts();
    parts.lies = [LieEffect::NONE; 9];
    Player::new(parts).expect("valid")
}

/// A golfer unlike the level in every figure of a club, to whom all lies are alike.
pub(crate) fn unlike() -> Player {
    let mut parts = level_from_any_lie(18.0).into_parts();
    let old = parts
        .clubs
        .iter_mut()
        .find(|c| c.name == "7-iron")
        .expect("valid");
    *old = Club::new(ClubParts {
        carry: 136.0,
        carry_sd: 9.5,
        lateral_bias: 6.0,
        lateral_sd: 7.0,
        correlation: -0.3,
        mishit_share: 0.22,
        ..old.clone().into_parts()
    })
    .expect("valid");
    Player::new(parts).expect("valid")
}
