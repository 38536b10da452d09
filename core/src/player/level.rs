//! Players by level: from a handicap, and a tour professional.
use super::fault::PlayerFault;
use super::model::Model;
use super::reference::Reference;
use super::{
    Club, ClubParts, Habits, Lie, LieEffect, Player, PlayerParts, Putting, ShortGame, TouchSkill,
};
use crate::figures::level::{
    CLUBS, DRIVER_OFF_GROUND, LevelFigures, NINETY, PROFESSIONAL, WOOD_OFF_GROUND,
};
use crate::figures::short_game as figures;
use crate::figures::{putting as putters, strike::MISHIT};

impl Player {
    /// A man of a handicap of 0 to 54, read against the reference golfers of course rating.
    ///
    /// Lengths go through the scratch golfer (0) and the bogey golfer (20), whose tables are published, and on in equal steps
    /// that grow smaller as the handicap grows. What no table tells ([`LevelFigures`]: how closely flush strikes lie, how many
    /// are missed, how much bad lies are felt, habits, how skill levels off) was fitted to published figures of golfers at
    /// play; `docs/calibration.md` lists them all. A lower handicap is better in everything.
    ///
    /// A player's *average* score is above par plus handicap: a golfer who averages 80 has a handicap of
    /// about 7, one who averages 90 about 17, one who averages 100 about 27.
    ///
    /// # Errors
    /// A handicap outside 0 to 54.
    pub fn from_handicap(handicap: f64) -> Result<Self, PlayerFault> {
        Self::from_reference(Reference::Men, handicap)
    }

    /// A man or woman of a handicap of 0 to 54; see [`Player::from_handicap`].
    ///
    /// The women's bogey golfer has a handicap of 24. Lengths and spreads are read against the women's tables; mishits,
    /// short game and putting go by the handicap alone, a woman's of 24 being a man's of 24.
    ///
    /// # Errors
    /// A handicap outside 0 to 54.
    pub fn from_reference(reference: Reference, handicap: f64) -> Result<Self, PlayerFault> {
        LevelFigures::FITTED.player(reference, handicap)
    }

    /// A man at the level of the professional tours, based on no real person.
    ///
    /// The scratch golfer's lengths stretched to a tee shot of 285 yards, with spreads and mishits fitted to the strokes that
    /// tour professionals need by distance, and the putting fitted to the makes of 2016-18.
    ///
    /// # Errors
    /// None in practice: the constants are valid, which a test checks.
    pub fn professional() -> Result<Self, PlayerFault> {
        LevelFigures::FITTED.professional()
    }
}

impl LevelFigures {
    /// The player of a handicap that these figures make.
    ///
    /// # Errors
    /// A handicap outside 0 to 54.
    pub fn player(&self, reference: Reference, handicap: f64) -> Result<Player, PlayerFault> {
        let model = Model::at(self, reference, handicap)?;
        let (level, ninety) = (model.touch(), self.ninety());
        Player::new(PlayerParts {
            name: match reference {
                Reference::Men => format!("handicap {handicap}"),
                Reference::Women => format!("handicap {handicap} (women)"),
            },
            handicap: Some(handicap),
            clubs: bag_of(&model)?,
            lies: LieEffect::felt_all(model.bad_lie),
            habits: habits(&model),
            short_game: short_game(level, &model, ninety),
            putting: putting(level, ninety),
        })
    }

    /// Where a golfer whose average score is about 90 lies between the scratch and the bogey golfer.
    fn ninety(&self) -> f64 {
        Reference::Men.level(NINETY, self.levelling)
    }

    /// The professional that these figures make.
    ///
    /// # Errors
    /// Figures that no club can have.
    pub fn professional(&self) -> Result<Player, PlayerFault> {
        let (model, ninety) = (Model::professional(self), self.ninety());
        Player::new(PlayerParts {
            name: "tour professional".to_owned(),
            handicap: None,
            clubs: bag_of(&model)?,
            lies: LieEffect::felt_all(model.bad_lie),
            habits: Habits {
                every_flag: false,
                always_chips: false,
                ..habits(&model)
            },
            short_game: short_game(PROFESSIONAL, &model, ninety),
            putting: putting(PROFESSIONAL, ninety),
        })
    }
}

/// The habits of a club golfer: too little club, at every flag, and chips where a putt would do (a professional's are a little
/// of the first alone). Common practice, no source, but for how much club.
fn habits(model: &Model) -> Habits {
    Habits {
        too_little_club: model.too_little_club,
        every_flag: true,
        always_chips: true,
    }
}

/// The thirteen clubs of a level.
fn bag_of(model: &Model) -> Result<Vec<Club>, PlayerFault> {
    let driver = model.driver_carry();
    let wood = wood_carry(model);
    let mut clubs = vec![off_ground(
        model.club("driver", driver)?,
        DRIVER_OFF_GROUND,
    )?];
    for (name, share) in CLUBS {
        clubs.push(model.club(name, share * wood)?);
    }
    clubs[1] = off_ground(clubs[1].clone(), WOOD_OFF_GROUND)?;
    Ok(clubs)
}

fn off_ground(club: Club, share: f64) -> Result<Club, PlayerFault> {
    Club::new(ClubParts {
        off_ground: share,
        ..club.into_parts()
    })
}

/// Carry of the 3-wood, such that from the fairway its mean length over all strikes is the second shot of the
/// reference golfer.
fn wood_carry(model: &Model) -> f64 {
    let driver = model.driver_carry();
    let (mut low, mut high) = (0.6 * driver, driver);
    for _ in 0..40 {
        let carry = 0.5 * (low + high);
        if fairway_length(model, carry) < model.second_length() {
            low = carry;
        } else {
            high = carry;
        }
    }
    0.5 * (low + high)
}

/// Mean length off the fairway, over all strikes, of a 3-wood that carries `carry` yards from a tee.
fn fairway_length(model: &Model, carry: f64) -> f64 {
    let effect = LieEffect::usual(Lie::Fairway).on(carry / model.driver_carry());
    WOOD_OFF_GROUND * effect.carry * model.mean_length(carry, effect)
}

/// A figure that moves in equal proportions from the scratch (level 0) to the bogey golfer (level 1).
fn between(scratch: f64, bogey: f64, level: f64) -> f64 {
    scratch * libm::pow(bogey / scratch, level)
}

/// A share of mishits that moves in equal proportions of the odds of being missed at all, and so stays one.
fn share_between(scratch: f64, bogey: f64, level: f64) -> f64 {
    let odds = |mishits: f64| mishits / (MISHIT - mishits);
    let odds = between(odds(scratch), odds(bogey), level);
    MISHIT * odds / (1.0 + odds)
}

/// Putting moves in equal proportions through the two fitted levels.
fn putting(level: f64, ninety: f64) -> Putting {
    let (a, b) = (putters::PROFESSIONAL, putters::NINETY);
    let at = (level - PROFESSIONAL) / (ninety - PROFESSIONAL);
    Putting {
        direction_deg: between(a.direction_deg, b.direction_deg, at),
        misread_deg: between(a.misread_deg, b.misread_deg, at),
        pace: between(a.pace, b.pace, at),
        past_ft: a.past_ft,
        // What is not read moves in equal proportions, and stays between nothing and all.
        read: 1.0 - between(1.0 - a.read, 1.0 - b.read, at),
    }
}

/// The putter from off the green: the player's own putting, less sure.
fn putter(level: f64, ninety: f64) -> TouchSkill {
    let on_green = putting(level, ninety);
    let misread = figures::OFF_GREEN_MISREAD * on_green.misread_deg;
    TouchSkill {
        full_carry: figures::LONGEST_ROLL,
        run: 0.0,
        depth: figures::OFF_GREEN * on_green.pace,
        depth_floor: figures::ROLL_FLOOR,
        direction_deg: on_green.direction_deg.hypot(misread),
        duffs: between(figures::STUBBED.0, figures::STUBBED.1, level),
        thins: 0.0,
    }
}

/// The strokes around the green. A short hitter's are bounded by a share of the driver's carry.
fn short_game(level: f64, model: &Model, ninety: f64) -> ShortGame {
    let driver = model.driver_carry();
    let skill = |row: &figures::Touch| {
        let missed = share_between(row.mishits.0, row.mishits.1, level).min(figures::MOST_MISSED);
        TouchSkill {
            full_carry: row.full_carry.min(row.longest * driver),
            run: row.run,
            depth: between(row.depth.0, row.depth.1, level),
            depth_floor: between(row.depth_floor.0, row.depth_floor.1, level),
            direction_deg: between(row.direction_deg.0, row.direction_deg.1, level),
            duffs: missed * row.duff_part,
            thins: missed * (1.0 - row.duff_part),
        }
    };
    ShortGame {
        putter: putter(level, ninety),
        chip: skill(&figures::CHIP),
        pitch: skill(&figures::PITCH),
        lob: skill(&figures::LOB),
        bunker_shot: skill(&figures::BUNKER_SHOT),
        punch: skill(&figures::PUNCH),
    }
}
