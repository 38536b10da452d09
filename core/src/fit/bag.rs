//! A player of a level with the clubs and the few figures a golfer names.
use super::evidence::Known;
use super::fault::FitFault;
use super::fitted::Fit;
use crate::player::{Club, Player, Reference};

impl Fit {
    /// The player of a handicap who carries these clubs and has these figures. A club the level has keeps the level's
    /// figures; any other must be among the known carries, and has the spreads of the level at that carry.
    ///
    /// # Errors
    /// A handicap outside 0 to 54, a club of neither kind, and what [`Fit::with_known`] refuses.
    pub fn of_bag(
        reference: Reference,
        handicap: f64,
        bag: &[String],
        known: &Known,
    ) -> Result<Fit, FitFault> {
        let level = Player::from_reference(reference, handicap)?;
        let named = |name: &str| level.clubs.iter().find(|c| c.name == name);
        let usual = Known {
            carries: known
                .carries
                .iter()
                .filter(|(name, _)| named(name).is_some())
                .cloned()
                .collect(),
            lateral_biases: Vec::new(),
        };
        let moved = Fit::with_known(&level, &usual)?;
        let clubs: Result<Vec<Club>, FitFault> = bag
            .iter()
            .map(
                |name| match (named(name), known.carries.iter().find(|(n, _)| n == name)) {
                    (Some(club), _) => Ok(club.clone()),
                    (None, Some((_, carry))) => {
                        let carry = carry / moved.stretch_at(*carry);
                        Ok(reference.club(handicap, name, carry)?)
                    }
                    (None, None) => Err(FitFault::NoCarry {
                        name: name.clone(),
                        known: level.clubs.iter().map(|c| c.name.clone()).collect(),
                    }),
                },
            )
            .collect();
        let mut parts = level.clone().into_parts();
        parts.clubs = clubs?;
        Fit::with_known(&Player::new(parts)?, known)
    }

    /// How many times as far as the prior the player hits a club that carries about so far: a club the level does not
    /// have is taken to be as much out of the common as its nearest neighbour, and so tells nothing new of the player.
    fn stretch_at(&self, carry: f64) -> f64 {
        let apart = |c: &Club| libm::log(c.carry / carry).abs();
        let nearest = self
            .player()
            .clubs
            .iter()
            .min_by(|a, b| apart(a).total_cmp(&apart(b)));
        let same = |c: &&Club| nearest.is_some_and(|n| n.name == c.name);
        match (nearest, self.prior().clubs.iter().find(same)) {
            (Some(now), Some(then)) => now.carry / then.carry,
            _ => 1.0,
        }
    }
}
