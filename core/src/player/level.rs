//! Players by level: from a handicap, and a tour professional.
use super::fault::PlayerFault;
use super::reference::{Model, Reference};
use super::{Club, Lie, LieEffect, Player, PlayerParts, Putting, ShortGame, TouchSkill};

/// The clubs but the driver, with their carry as a share of the 3-wood's from a tee. Common practice, no
/// source; all levels alike.
const SHARES: [(&str, f64); 12] = [
    ("3-wood", 1.0),
    ("5-wood", 0.94),
    ("4-hybrid", 0.895),
    ("5-hybrid", 0.855),
    ("5-iron", 0.82),
    ("6-iron", 0.765),
    ("7-iron", 0.71),
    ("8-iron", 0.655),
    ("9-iron", 0.60),
    ("pitching wedge", 0.545),
    ("gap wedge", 0.465),
    ("sand wedge", 0.385),
];

/// How far solid strikes fall short of what the player meant: 2 % at scratch, 7 % for the bogey golfer.
///
/// With the mishits it puts the centre of the pattern of a golfer who scores about 90 some 13 yards short
/// from 150 yards (Broadie, published; on average, not tuned further), and fewer than one approach in ten over
/// the green (Course Rating System Manual, sections 8 and 9, published).
const SHORTFALL: (f64, f64) = (0.02, 0.07);

impl Player {
    /// A man of a handicap of 0 to 54, read against the reference golfers of course rating.
    ///
    /// Lengths, areas, mishits, short game and putting all move along one curve through the scratch golfer
    /// (0) and the bogey golfer (20), whose steps grow smaller as the handicap grows. Lengths and mishit
    /// shares move along it in equal steps, spreads in equal proportions.
    ///
    /// A player's *average* score is some strokes above par plus handicap: a golfer who averages 80 has a handicap of
    /// about 7, one who averages 90 about 17, one who averages 100 about 27.
    ///
    /// # Errors
    /// A handicap outside 0 to 54.
    pub fn from_handicap(handicap: f64) -> Result<Self, PlayerFault> {
        Self::from_reference(Reference::Men, handicap)
    }

    /// A man or woman of a handicap of 0 to 54; see [`Player::from_handicap`].
    ///
    /// # Errors
    /// A handicap outside 0 to 54.
    pub fn from_reference(reference: Reference, handicap: f64) -> Result<Self, PlayerFault> {
        let model = Model::at(reference, handicap)?;
        let level = model.level;
        Player::new(PlayerParts {
            name: format!("handicap {handicap}"),
            handicap: Some(handicap),
            clubs: bag_of(&model)?,
            lies: LieEffect::usual_all(),
            shortfall: SHORTFALL.0 + (SHORTFALL.1 - SHORTFALL.0) * level,
            short_game: short_game(level, &model),
            putting: putting(level),
        })
    }

    /// A man at the level of the professional tours, based on no real person.
    ///
    /// The scratch golfer's lengths and areas, both stretched to a tee shot of 285 yards (which leaves the
    /// angles alone), half the scratch golfer's mishits, and the putting fitted to the makes of 2016-18.
    ///
    /// # Errors
    /// None in practice: the constants are valid, which a test checks.
    pub fn professional() -> Result<Self, PlayerFault> {
        let model = Model {
            reference: Reference::Men,
            level: 0.0,
            stretch: 285.0 / 250.0,
            mishits: 0.015,
        };
        Player::new(PlayerParts {
            name: "tour professional".to_owned(),
            handicap: None,
            clubs: bag_of(&model)?,
            lies: LieEffect::usual_all(),
            shortfall: 0.01,
            short_game: short_game(PROFESSIONAL_TOUCH, &model),
            putting: putting(PROFESSIONAL_TOUCH),
        })
    }
}

/// The level of a professional's short game and putting: as far above scratch as a handicap of 7 is below.
const PROFESSIONAL_TOUCH: f64 = -0.5;

/// The thirteen clubs of a level.
fn bag_of(model: &Model) -> Result<Vec<Club>, PlayerFault> {
    let wood = wood_carry(model)?;
    let mut clubs = vec![model.club("driver", model.driver_carry())?];
    for (name, share) in SHARES {
        clubs.push(model.club(name, share * wood)?);
    }
    Ok(clubs)
}

/// Carry of the 3-wood, such that from the fairway its mean length over all strikes is the second shot of the
/// reference golfer.
fn wood_carry(model: &Model) -> Result<f64, PlayerFault> {
    let driver = model.driver_carry();
    let (mut low, mut high) = (0.6 * driver, driver);
    for _ in 0..40 {
        let carry = 0.5 * (low + high);
        if fairway_length(model, driver, carry)? < model.second_length() {
            low = carry;
        } else {
            high = carry;
        }
    }
    Ok(0.5 * (low + high))
}

/// Mean length off the fairway, over all strikes, of a club that carries `carry` yards from a tee.
fn fairway_length(model: &Model, driver: f64, carry: f64) -> Result<f64, PlayerFault> {
    let club = model.club("3-wood", carry)?;
    let effect = LieEffect::usual(Lie::Fairway).on(carry / driver);
    let share = club.mishit_share * effect.mishits;
    let shape = &club.mishit_shape;
    let duff = share * shape.duff_part * (shape.duff_carry + shape.duff_run);
    let wild = share * (1.0 - shape.duff_part) * (shape.wild_carry + shape.wild_run);
    Ok(carry * effect.carry * ((1.0 - share) * (1.0 + club.run) + duff + wild))
}

/// A figure that moves in equal proportions from the scratch (level 0) to the bogey golfer (level 1).
fn between(scratch: f64, bogey: f64, level: f64) -> f64 {
    scratch * libm::pow(bogey / scratch, level)
}

fn putting(level: f64) -> Putting {
    Putting {
        direction_deg: between(0.95, 1.1, level),
        misread_deg: between(0.4, 1.2, level),
        pace: between(0.09, 0.13, level),
        past_ft: 1.2,
    }
}

fn short_game(level: f64, model: &Model) -> ShortGame {
    let wedge = 0.4 * model.driver_carry();
    let skill = |full_carry: f64,
                 run: f64,
                 depth: (f64, f64),
                 direction: (f64, f64),
                 missed: (f64, f64),
                 duffs: f64| {
        let missed = between(missed.0, missed.1, level);
        TouchSkill {
            full_carry,
            run,
            depth: between(depth.0, depth.1, level),
            depth_floor: between(0.3, 0.6, level),
            direction_deg: between(direction.0, direction.1, level),
            duffs: missed * duffs,
            thins: missed * (1.0 - duffs),
        }
    };
    ShortGame {
        chip: skill(
            35.0_f64.min(wedge),
            2.0,
            (0.13, 0.2),
            (1.6, 2.6),
            (0.01, 0.05),
            0.5,
        ),
        pitch: skill(
            75.0_f64.min(wedge),
            0.33,
            (0.1, 0.16),
            (2.2, 3.8),
            (0.025, 0.1),
            0.5,
        ),
        bunker_shot: skill(
            40.0_f64.min(wedge),
            0.43,
            (0.16, 0.28),
            (3.0, 5.0),
            (0.05, 0.2),
            0.6,
        ),
        punch: skill(
            110.0_f64.min(1.4 * wedge),
            0.45,
            (0.1, 0.17),
            (2.5, 4.5),
            (0.03, 0.12),
            0.5,
        ),
    }
}
