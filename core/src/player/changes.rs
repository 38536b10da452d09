//! A player with some skills changed and all others kept: what practice would do.
use super::club::{Club, MishitShape};
use super::fault::{PlayerFault, check};
use super::{Lie, LieEffect, Player, PlayerParts, Putting, Touch, TouchSkill};

/// One skill of a player, which can change while all others stay as they are.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Skill {
    /// A skill with one club, by its name; a group of clubs is several changes.
    Club(ClubSkill, String),
    /// How little lies other than a tee and mown grass are felt.
    BadLies,
    /// One of the strokes around the green.
    Touch(Touch),
    /// A part of putting.
    Putt(PuttSkill),
}

/// What a golfer can be better at with a club.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ClubSkill {
    /// Carry of flush strikes; spreads and bias keep their share of it, and so the angles they are seen under.
    Length,
    /// Spread to the side and bias, as shares of the carry.
    Direction,
    /// Spread of the carry, as a share of it.
    Depth,
    /// Share and shape of the mishits.
    Mishits,
}

/// What a golfer can be better at on the green. Short putts are missed by the line, long ones left far by pace and reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PuttSkill {
    /// Starting the ball where it is aimed.
    Line,
    /// Seeing the slope.
    Reading,
    /// Rolling it as far as meant.
    Pace,
}

impl PuttSkill {
    /// Every part of putting.
    pub const ALL: [PuttSkill; 3] = [PuttSkill::Line, PuttSkill::Reading, PuttSkill::Pace];

    /// The name used in tables: `line`, `reading` or `pace`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            PuttSkill::Line => "line",
            PuttSkill::Reading => "reading",
            PuttSkill::Pace => "pace",
        }
    }
}

/// How a skill changes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Change<'a> {
    /// By a number: yards of carry more for [`ClubSkill::Length`], else a factor of 0 to 5 of the errors made (0.9 is a tenth
    /// fewer, or smaller by a tenth).
    By(f64),
    /// A share of the way, 0 to 1, to the skill of another player.
    ///
    /// Figures move in equal steps, so whatever lies between two players who can be is a player who can be. A club is read
    /// against the other player's of the same name; where there is none, against what the other has at that carry.
    Toward(&'a Player, f64),
}

impl Change<'_> {
    fn check(&self, skill: &Skill) -> Result<(), PlayerFault> {
        match *self {
            Change::By(_) if matches!(skill, Skill::Club(ClubSkill::Length, _)) => Ok(()),
            Change::By(factor) => check(&skill.told(), "factor", factor, 0.0..=5.0, "0 to 5"),
            Change::Toward(_, share) => {
                let allowed = "0 to 1 (a share of the way to another player)";
                check(&skill.told(), "share", share, 0.0..=1.0, allowed)
            }
        }
    }
}

impl Skill {
    /// The skill in words, such as `direction of driver`.
    fn told(&self) -> String {
        match self {
            Skill::Club(ClubSkill::Length, club) => format!("length of {club}"),
            Skill::Club(ClubSkill::Direction, club) => format!("direction of {club}"),
            Skill::Club(ClubSkill::Depth, club) => format!("distance of {club}"),
            Skill::Club(ClubSkill::Mishits, club) => format!("mishits of {club}"),
            Skill::BadLies => "bad lies".to_owned(),
            Skill::Touch(touch) => format!("short_game.{}", touch.name()),
            Skill::Putt(part) => format!("putting.{}", part.name()),
        }
    }
}

impl Player {
    /// The same player with some skills changed, one after the other. The order matters only if one skill changes twice.
    ///
    /// Name, handicap and habits stay. How long the longest club is still decides how much the others feel a lie.
    ///
    /// # Errors
    /// A club that is not in the bag, a factor outside 0 to 5, a share outside 0 to 1, or a skill that then cannot be.
    pub fn with_changes<'a>(
        self,
        changes: impl IntoIterator<Item = (Skill, Change<'a>)>,
    ) -> Result<Self, PlayerFault> {
        let mut parts = self.into_parts();
        for (skill, change) in changes {
            change.check(&skill)?;
            parts.change(&skill, change)?;
        }
        Player::new(parts)
    }
}

impl PlayerParts {
    fn change(&mut self, skill: &Skill, change: Change<'_>) -> Result<(), PlayerFault> {
        match skill {
            Skill::Club(skill, name) => {
                let known = || self.clubs.iter().map(|c| c.name.clone()).collect();
                let at = self.clubs.iter().position(|c| c.name == *name);
                let at = at.ok_or_else(|| PlayerFault::UnknownClub {
                    name: name.clone(),
                    known: known(),
                })?;
                self.clubs[at] = changed_club(&self.clubs[at], *skill, change)?;
            }
            Skill::BadLies => {
                for lie in Lie::ALL.into_iter().filter(|lie| lie.is_bad()) {
                    let own = &mut self.lies[lie as usize];
                    *own = match change {
                        Change::By(factor) => LieEffect::NONE.mixed(own, factor),
                        Change::Toward(other, share) => own.mixed(&other.lies[lie as usize], share),
                    };
                }
            }
            Skill::Touch(touch) => {
                let own = self.short_game.touch_mut(*touch);
                *own = match change {
                    Change::By(factor) => own.missed(factor),
                    Change::Toward(other, share) => {
                        own.mixed(other.short_game.touch(*touch), share)
                    }
                };
            }
            Skill::Putt(part) => self.putting = changed_putting(self.putting, *part, change),
        }
        Ok(())
    }
}

/// So much of the way from one figure to another; exact at both ends.
fn mix(from: f64, to: f64, share: f64) -> f64 {
    (1.0 - share) * from + share * to
}

/// What a club does beside its length: spreads and bias in yards at some carry, and mishits.
#[derive(Clone, Copy)]
struct Pattern {
    depth: f64,
    side: f64,
    bias: f64,
    mishit_share: f64,
    mishit_shape: MishitShape,
}

impl Pattern {
    /// What a club would do if it carried so many yards.
    fn of(club: &Club, carry: f64) -> Self {
        let scale = carry / club.carry;
        Pattern {
            depth: scale * club.carry_sd,
            side: scale * club.lateral_sd,
            bias: scale * club.lateral_bias,
            mishit_share: club.mishit_share,
            mishit_shape: club.mishit_shape,
        }
    }

    fn mixed(&self, to: &Pattern, share: f64) -> Self {
        let at = |from, to| mix(from, to, share);
        Pattern {
            depth: at(self.depth, to.depth),
            side: at(self.side, to.side),
            bias: at(self.bias, to.bias),
            mishit_share: at(self.mishit_share, to.mishit_share),
            mishit_shape: self.mishit_shape.mixed(&to.mishit_shape, share),
        }
    }

    /// What a player does with the club of that name at its carry; with none, between the two clubs next to it in carry.
    fn of_player(player: &Player, like: &Club) -> Self {
        if let Ok(club) = player.club(&like.name) {
            return Self::of(club, like.carry);
        }
        // Longest first: the clubs before this place are longer.
        let shorter = player.clubs.partition_point(|c| c.carry > like.carry);
        match (
            shorter.checked_sub(1).map(|i| &player.clubs[i]),
            player.clubs.get(shorter),
        ) {
            (Some(long), Some(short)) => {
                let share = (long.carry - like.carry) / (long.carry - short.carry);
                Self::of(long, like.carry).mixed(&Self::of(short, like.carry), share)
            }
            (Some(only), None) | (None, Some(only)) => Self::of(only, like.carry),
            (None, None) => unreachable!("a player has a club"),
        }
    }
}

fn changed_club(club: &Club, skill: ClubSkill, change: Change<'_>) -> Result<Club, PlayerFault> {
    let mut parts = club.clone().into_parts();
    if skill == ClubSkill::Length {
        let carry = match change {
            Change::By(yards) => club.carry + yards,
            Change::Toward(other, share) => mix(club.carry, other.club(&club.name)?.carry, share),
        };
        check(&club.name, "carry", carry, 1.0..=450.0, "1 to 450 yards")?;
        parts.scale(carry);
        return Club::new(parts);
    }
    let own = Pattern::of(club, club.carry);
    let to = match change {
        Change::By(factor) => Pattern {
            depth: factor * own.depth,
            side: factor * own.side,
            bias: factor * own.bias,
            mishit_share: factor * own.mishit_share,
            ..own
        },
        Change::Toward(other, share) => own.mixed(&Pattern::of_player(other, club), share),
    };
    match skill {
        ClubSkill::Length => {}
        ClubSkill::Direction => {
            parts.lateral_sd = to.side;
            parts.lateral_bias = to.bias;
        }
        ClubSkill::Depth => parts.carry_sd = to.depth,
        ClubSkill::Mishits => {
            parts.mishit_share = to.mishit_share;
            parts.mishit_shape = to.mishit_shape;
        }
    }
    Club::new(parts)
}

impl MishitShape {
    fn mixed(&self, to: &MishitShape, share: f64) -> Self {
        let at = |from, to| mix(from, to, share);
        MishitShape {
            duff_part: at(self.duff_part, to.duff_part),
            duff_carry: at(self.duff_carry, to.duff_carry),
            duff_carry_sd: at(self.duff_carry_sd, to.duff_carry_sd),
            duff_side: at(self.duff_side, to.duff_side),
            duff_run: at(self.duff_run, to.duff_run),
            wild_carry: at(self.wild_carry, to.wild_carry),
            wild_carry_sd: at(self.wild_carry_sd, to.wild_carry_sd),
            wild_side: at(self.wild_side, to.wild_side),
            wild_run: at(self.wild_run, to.wild_run),
            mildness: at(self.mildness, to.mildness),
        }
    }
}

impl LieEffect {
    fn mixed(&self, to: &LieEffect, share: f64) -> Self {
        let at = |from, to| mix(from, to, share);
        LieEffect {
            carry: at(self.carry, to.carry),
            carry_long_loss: at(self.carry_long_loss, to.carry_long_loss),
            spread: at(self.spread, to.spread),
            spread_long: at(self.spread_long, to.spread_long),
            mishits: at(self.mishits, to.mishits),
            mishits_long: at(self.mishits_long, to.mishits_long),
        }
    }
}

impl TouchSkill {
    fn mixed(&self, to: &TouchSkill, share: f64) -> Self {
        let at = |from, to| mix(from, to, share);
        TouchSkill {
            full_carry: at(self.full_carry, to.full_carry),
            run: at(self.run, to.run),
            depth: at(self.depth, to.depth),
            depth_floor: at(self.depth_floor, to.depth_floor),
            direction_deg: at(self.direction_deg, to.direction_deg),
            duffs: at(self.duffs, to.duffs),
            thins: at(self.thins, to.thins),
        }
    }

    /// The same stroke with errors so many times as large and as frequent.
    fn missed(&self, factor: f64) -> Self {
        TouchSkill {
            depth: factor * self.depth,
            depth_floor: factor * self.depth_floor,
            direction_deg: factor * self.direction_deg,
            duffs: factor * self.duffs,
            thins: factor * self.thins,
            ..*self
        }
    }
}

fn changed_putting(own: Putting, part: PuttSkill, change: Change<'_>) -> Putting {
    let to = match change {
        Change::By(factor) => Putting {
            direction_deg: factor * own.direction_deg,
            misread_deg: factor * own.misread_deg,
            pace: factor * own.pace,
            past_ft: own.past_ft,
            read: 1.0 - factor * (1.0 - own.read),
        },
        Change::Toward(other, share) => {
            let (other, at) = (&other.putting, |from, to| mix(from, to, share));
            Putting {
                direction_deg: at(own.direction_deg, other.direction_deg),
                misread_deg: at(own.misread_deg, other.misread_deg),
                pace: at(own.pace, other.pace),
                past_ft: at(own.past_ft, other.past_ft),
                read: at(own.read, other.read),
            }
        }
    };
    match part {
        PuttSkill::Line => Putting {
            direction_deg: to.direction_deg,
            ..own
        },
        PuttSkill::Reading => Putting {
            misread_deg: to.misread_deg,
            read: to.read,
            ..own
        },
        PuttSkill::Pace => Putting {
            pace: to.pace,
            past_ft: to.past_ft,
            ..own
        },
    }
}
