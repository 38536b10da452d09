//! Shots of every club of a bag, played through the kernel: what a picture of the bag shows.
use super::ExplainFault;
use super::bag_table::{at_home, full_shot};
use crate::noise::{PlayNoise, Seed};
use crate::player::Player;
use crate::shot::Addressed;
use crate::situation::Situation;
use rayon::prelude::*;

/// Where shots of one club come to rest, on the ground and from the lie that [`super::BagTable`] is worked out for.
#[derive(Clone, Debug, PartialEq)]
pub struct ClubShots {
    /// Name of the club.
    pub club: String,
    /// Yards to the right of the aim and yards along it, a shot each.
    pub rest: Vec<[f64; 2]>,
}

/// Plays `shots` full shots of every club, longest first; shot number i of every club meets the luck of play i.
///
/// # Errors
/// A number of shots outside 1 to 100,000; a club whose carry no believable ball speed gives.
pub fn club_shots(player: &Player, shots: u64, seed: Seed) -> Result<Vec<ClubShots>, ExplainFault> {
    if !(1..=MOST_SHOTS).contains(&shots) {
        return Err(ExplainFault::Shots(shots));
    }
    let setting = at_home(player)?;
    let start = Situation::on_the_tee(setting.hole());
    let played = setting.bag().clubs().map(|id| {
        let shot = Addressed::new(&setting, start, &full_shot(&setting, id));
        let rest = |number| {
            let rest = shot.play(&PlayNoise::new(seed, number).stroke(0)).rest;
            [rest.x - start.at.x, rest.y - start.at.y]
        };
        ClubShots {
            club: setting.bag().name(id).to_owned(),
            rest: (0..shots).into_par_iter().map(rest).collect(),
        }
    });
    Ok(played.collect())
}

/// Most shots of a club that are played for a picture.
pub const MOST_SHOTS: u64 = 100_000;
