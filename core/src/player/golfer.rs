//! A player: clubs, lies, short game and putting, checked together.
use super::bag::{Bag, ClubId, Touch};
use super::beyond::Beyond;
use super::fault::{PlayerFault, check, check_name};
use super::lie_effect::Effect;
use super::swing::{Mishit, Swing};
use super::{Club, Habits, Lie, LieEffect, Putting, ShortGame, TouchSkill};
use crate::figures::short_game as figures;
use crate::figures::strike::SPREAD_FLOOR;
use std::ops::Deref;

/// What a player is made of; every field is public, [`Player::new`] checks them together.
#[derive(Clone, Debug, PartialEq)]
pub struct PlayerParts {
    /// Name of the player.
    pub name: String,
    /// Handicap Index, if known: -10 (a plus handicap) to 54.
    pub handicap: Option<f64>,
    /// The clubs but the putter, 1 to 13, in any order.
    pub clubs: Vec<Club>,
    /// What each lie does, in the order of [`Lie::ALL`].
    pub lies: [LieEffect; 9],
    /// What the player does by habit when nobody advises.
    pub habits: Habits,
    /// The strokes around the green.
    pub short_game: ShortGame,
    /// How the player putts.
    pub putting: Putting,
}

/// A valid player. Its parts are read through it: `player.clubs`.
///
/// The clubs are held longest carry first.
#[derive(Clone, Debug, PartialEq)]
pub struct Player(PlayerParts);

/// What a tee shot with the longest club comes to on average, mishits included.
#[derive(Clone, Debug, PartialEq)]
pub struct TeeShot {
    /// The club.
    pub club: String,
    /// Mean carry, yards.
    pub carry: f64,
    /// Mean run on a level fairway of medium firmness, yards.
    pub run: f64,
    /// Mean carry plus run, yards.
    pub total: f64,
}

impl Player {
    /// Checks the parts and puts the clubs in order, longest carry first.
    ///
    /// # Errors
    /// The first field that cannot be true, with its value and what is allowed.
    pub fn new(mut parts: PlayerParts) -> Result<Self, PlayerFault> {
        check_name("player", &parts.name)?;
        if let Some(handicap) = parts.handicap {
            check("", "handicap", handicap, -10.0..=54.0, "-10 to 54")?;
        }
        let count = parts.clubs.len();
        if !(1..=13).contains(&count) {
            return Err(PlayerFault::ClubCount { count });
        }
        parts.clubs.sort_by(|a, b| b.carry.total_cmp(&a.carry));
        for (i, club) in parts.clubs.iter().enumerate() {
            if parts.clubs[..i].iter().any(|c| c.name == club.name) {
                return Err(PlayerFault::DuplicateClub {
                    name: club.name.clone(),
                });
            }
        }
        for (lie, effect) in Lie::ALL.into_iter().zip(&parts.lies) {
            effect.check(lie)?;
        }
        parts.habits.check()?;
        parts.short_game.check()?;
        parts.putting.check()?;
        Ok(Player(parts))
    }

    /// The parts, to change some and check them again.
    #[must_use]
    pub fn into_parts(self) -> PlayerParts {
        self.0
    }

    /// The club of a name.
    ///
    /// # Errors
    /// [`PlayerFault::UnknownClub`] with the names there are.
    pub fn club(&self, name: &str) -> Result<&Club, PlayerFault> {
        self.clubs
            .iter()
            .find(|c| c.name == name)
            .ok_or_else(|| PlayerFault::UnknownClub {
                name: name.to_owned(),
                known: self.clubs.iter().map(|c| c.name.clone()).collect(),
            })
    }

    /// The same player with another mean carry for one club; its spreads and bias keep their share of the
    /// carry.
    ///
    /// # Errors
    /// A club that is not in the bag, or a carry out of range.
    pub fn with_carry(self, name: &str, carry: f64) -> Result<Self, PlayerFault> {
        let mut club = self.club(name)?.clone().into_parts();
        check(name, "carry", carry, 1.0..=450.0, "1 to 450 yards")?;
        club.scale(carry);
        let club = Club::new(club)?;
        let mut parts = self.into_parts();
        if let Some(old) = parts.clubs.iter_mut().find(|c| c.name == name) {
            *old = club;
        }
        Player::new(parts)
    }

    /// The same player with other habits of choice.
    ///
    /// # Errors
    /// A habit out of range.
    pub fn with_habits(self, habits: Habits) -> Result<Self, PlayerFault> {
        let mut parts = self.into_parts();
        parts.habits = habits;
        Player::new(parts)
    }

    /// The same player without error: no spread, mishits or habits, putts read in full, on line and at the meant pace. What
    /// such a player scores can be worked out by hand.
    #[must_use]
    pub fn without_spread(&self) -> Self {
        let mut parts = self.0.clone();
        parts.habits = Habits::NONE;
        for club in &mut parts.clubs {
            club.still();
        }
        parts.short_game = parts.short_game.map(|t| TouchSkill {
            depth: 0.0,
            depth_floor: 0.0,
            direction_deg: 0.0,
            duffs: 0.0,
            thins: 0.0,
            ..t
        });
        parts.putting = Putting {
            direction_deg: 0.0,
            misread_deg: 0.0,
            pace: 0.0,
            past_ft: parts.putting.past_ft,
            read: 1.0,
        };
        Player(parts)
    }

    /// The mean tee shot with the longest club (in a usual bag the driver) on level ground of medium firmness in still
    /// air, mishits included.
    #[must_use]
    pub fn tee_shot(&self) -> TeeShot {
        let bag = self.prepare();
        let club = bag.longest(Lie::Tee);
        let swing = bag.swing(club, Lie::Tee);
        let (carry, total) = (
            swing.mean_carry(swing.full_carry),
            swing.mean_total(swing.full_carry),
        );
        TeeShot {
            club: bag.name(club).to_owned(),
            carry,
            run: total - carry,
            total,
        }
    }

    /// Works out every stroke from every lie, once, for the simulation.
    #[must_use]
    pub fn prepare(&self) -> Bag {
        let longest = self.clubs[0].carry;
        let swings: Vec<[Swing; 9]> = self
            .clubs
            .iter()
            .map(|c| {
                Lie::ALL.map(|lie| {
                    let mut effect = self.effect(lie, c.carry / longest);
                    if lie != Lie::Tee {
                        effect.carry *= c.off_ground;
                    }
                    self.full_swing(c, effect)
                })
            })
            .collect();
        let touches = Touch::ALL.map(|touch| {
            Lie::ALL.map(|lie| {
                let effect = self.lies[lie as usize].on_touch(touch, lie);
                touch_swing(self.short_game.touch(touch), touch, effect)
            })
        });
        Bag {
            clubs: self.clubs.clone(),
            longest: Lie::ALL.map(|lie| longest_from(&swings, lie)),
            swings,
            touches,
            putting: self.putting,
            habits: self.habits,
        }
    }

    fn effect(&self, lie: Lie, length: f64) -> Effect {
        self.lies[lie as usize].on(length)
    }

    /// Carry in the middle of the pattern of a club of this player's, from the lie it is at home on, per yard of a flush
    /// strike's.
    pub(crate) fn middle_of(&self, club: &Club) -> f64 {
        1.0 / self.full_swing(club, LieEffect::NONE.on(0.0)).flush
    }

    /// A club's swing under the effect of a lie.
    fn full_swing(&self, club: &Club, effect: Effect) -> Swing {
        let depth = club.carry_sd * effect.spread;
        let share = effect.mishit_share(club.mishit_share);
        let shape = &club.mishit_shape;
        Swing {
            full_carry: club.carry * effect.carry,
            rolls: false,
            flush: 1.0,
            depth_floor: SPREAD_FLOOR * depth * effect.carry,
            depth_slope: (1.0 - SPREAD_FLOOR) * depth / club.carry,
            beyond: Beyond::of(club.carry_sd / club.carry, effect.spread),
            side_slope: club.lateral_sd * effect.spread / club.carry,
            bias_slope: club.lateral_bias / club.carry,
            correlation: club.correlation,
            independence: (1.0 - club.correlation * club.correlation).sqrt(),
            run: club.run,
            duff: Mishit {
                share: share * shape.duff_part,
                carry: shape.duff_carry,
                carry_sd: shape.duff_carry_sd,
                side: shape.duff_side,
                run: shape.duff_run,
                mildness: shape.mildness,
            },
            thin: Mishit {
                share: share * (1.0 - shape.duff_part),
                carry: shape.wild_carry,
                carry_sd: shape.wild_carry_sd,
                side: shape.wild_side,
                run: shape.wild_run,
                mildness: shape.mildness,
            },
        }
        .told_by_its_middle()
    }
}

impl Deref for Player {
    type Target = PlayerParts;
    fn deref(&self) -> &PlayerParts {
        &self.0
    }
}

/// The club with the longest carry from a lie.
fn longest_from(swings: &[[Swing; 9]], lie: Lie) -> ClubId {
    let mut best = 0;
    for (i, swing) in swings.iter().enumerate() {
        if swing[lie as usize].full_carry > swings[best][lie as usize].full_carry {
            best = i;
        }
    }
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a bag holds at most 13 clubs"
    )]
    ClubId(best as u8)
}

/// A stroke around the green under the effect of a lie.
///
/// The worst duff flies a short part of the way of a flush strike. The worst thin strike flies low and runs well past; a putt
/// cannot fly: what is not struck well rolls less.
fn touch_swing(skill: &TouchSkill, touch: Touch, effect: Effect) -> Swing {
    let total = 1.0 + skill.run;
    let missed = skill.duffs + skill.thins;
    let scale = effect.mishit_share(missed) / missed.max(f64::MIN_POSITIVE);
    let (thin_carry, duff_run) = (figures::THIN_CARRY, figures::DUFF_RUN * total);
    let (thin_run, duff_run) = match touch {
        Touch::Putter => (0.0, 0.0),
        Touch::Chip | Touch::Pitch => (figures::THIN_TOTAL * total - thin_carry, duff_run),
        Touch::Lob | Touch::BunkerShot => (figures::THIN_SPLASH * total - thin_carry, duff_run),
        Touch::Punch => (total - figures::THIN_PUNCH, duff_run),
    };
    Swing {
        full_carry: skill.full_carry * effect.carry,
        rolls: touch == Touch::Putter,
        flush: 1.0,
        depth_floor: skill.depth_floor,
        depth_slope: skill.depth * effect.spread,
        beyond: Beyond(1.0),
        // The ball keeps its direction when it runs on.
        side_slope: skill.direction_deg.to_radians() * effect.spread,
        bias_slope: 0.0,
        correlation: 0.0,
        independence: 1.0,
        run: skill.run,
        duff: Mishit {
            share: skill.duffs * scale,
            carry: figures::DUFF_CARRY,
            carry_sd: figures::DUFF_CARRY_SD,
            side: figures::DUFF_SIDE,
            run: duff_run,
            mildness: figures::MILDNESS,
        },
        thin: Mishit {
            share: skill.thins * scale,
            carry: thin_carry,
            carry_sd: figures::THIN_CARRY_SD,
            side: figures::THIN_SIDE,
            run: thin_run,
            mildness: figures::MILDNESS,
        },
    }
    .told_by_its_middle()
}
