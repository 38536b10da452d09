//! Players by level: from a handicap, and a tour professional.
use super::fault::PlayerFault;
use super::figures::LevelFigures;
use super::model::Model;
use super::reference::Reference;
use super::swing::MISHIT;
use super::{
    Club, ClubParts, Habits, Lie, LieEffect, Player, PlayerParts, Putting, ShortGame, TouchSkill,
};

/// The clubs but the driver, with their carry as a share of the 3-wood's from a tee. Common practice, no
/// source; all levels alike.
const SHARES: [(&str, f64); 12] = [
    ("3-wood", 1.0),
    ("5-wood", 0.95),
    ("4-hybrid", 0.91),
    ("5-hybrid", 0.87),
    ("5-iron", 0.84),
    ("6-iron", 0.785),
    ("7-iron", 0.73),
    ("8-iron", 0.675),
    ("9-iron", 0.62),
    ("pitching wedge", 0.565),
    ("gap wedge", 0.485),
    ("sand wedge", 0.40),
];

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

/// Carry off the ground of the driver and the 3-wood as a share of their carry from a tee. Common practice, no source.
const DRIVER_OFF_GROUND: f64 = 0.84;
const WOOD_OFF_GROUND: f64 = 0.97;

/// The thirteen clubs of a level.
fn bag_of(model: &Model) -> Result<Vec<Club>, PlayerFault> {
    let driver = model.driver_carry();
    let wood = wood_carry(model);
    let mut clubs = vec![off_ground(
        model.club("driver", driver)?,
        DRIVER_OFF_GROUND,
    )?];
    for (name, share) in SHARES {
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

/// Level of the professional's short game and putting: half as far above scratch as the bogey golfer is below.
const PROFESSIONAL: f64 = -0.5;

/// Handicap of a golfer whose average score is about 90.
const NINETY: f64 = 17.0;

/// Fitted to the makes of tour professionals in 2016-18 (31 rows of 1.25 million putts, A. Gelman's golf putting
/// case study, 2019, published) on a green of Stimpmeter 11; see `examples/fit_putting.rs`.
///
/// The aim past the hole follows from the share of 10-foot putts that professionals leave short, 7 %
/// (Broadie, published), at that pace; it is taken to be the same for all levels.
const PROFESSIONAL_PUTTING: Putting = Putting {
    direction_deg: 1.086,
    misread_deg: 1.140,
    pace: 0.0714,
    past_ft: 1.25,
    read: 0.95,
};

/// Fitted to the makes of golfers who score about 90 at 3, 5 and 8 feet, their mean of 2.0 putts from 19 feet and
/// the 17 % of 10-foot putts they leave short (Broadie, published), on a green of Stimpmeter 10.
const NINETY_PUTTING: Putting = Putting {
    direction_deg: 1.368,
    misread_deg: 3.506,
    pace: 0.1116,
    past_ft: 1.25,
    read: 0.85,
};

/// Putting moves in equal proportions through the two fitted levels.
fn putting(level: f64, ninety: f64) -> Putting {
    let (a, b) = (PROFESSIONAL_PUTTING, NINETY_PUTTING);
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

/// Figures of one stroke around the green for the scratch and the bogey golfer.
struct TouchRow {
    full_carry: f64,
    run: f64,
    depth: (f64, f64),
    depth_floor: (f64, f64),
    direction_deg: (f64, f64),
    mishits: (f64, f64),
    /// Share of the mishits that are duffs.
    duff_part: f64,
}

/// Carry to run: a chip flies a third of the way, a pitch three quarters, a bunker shot seven tenths. Common
/// practice, no source. Spreads and mishits are set by hand so that the shares of shots from inside 60
/// yards that finish on the green come out as Broadie published them, and a professional's expected strokes as
/// in his tables from 20 to 60 yards, from fairway, rough and sand.
const CHIP: TouchRow = TouchRow {
    full_carry: 35.0,
    run: 2.0,
    depth: (0.22, 0.29),
    depth_floor: (0.25, 0.35),
    direction_deg: (2.5, 3.6),
    mishits: (0.02, 0.05),
    duff_part: 0.5,
};
const PITCH: TouchRow = TouchRow {
    full_carry: 75.0,
    run: 0.33,
    depth: (0.075, 0.115),
    depth_floor: (1.5, 1.9),
    direction_deg: (3.2, 4.4),
    mishits: (0.035, 0.075),
    duff_part: 0.5,
};
/// A lob flies nine tenths of the way, with a pitch's swing and less room for error: a seventh more spread and twice
/// the mishits. Common practice, no source.
const LOB: TouchRow = TouchRow {
    full_carry: 35.0,
    run: 0.12,
    depth: (1.15 * PITCH.depth.0, 1.15 * PITCH.depth.1),
    depth_floor: (1.15 * PITCH.depth_floor.0, 1.15 * PITCH.depth_floor.1),
    direction_deg: (1.15 * PITCH.direction_deg.0, 1.15 * PITCH.direction_deg.1),
    mishits: (2.0 * PITCH.mishits.0, 2.0 * PITCH.mishits.1),
    duff_part: 0.5,
};
const BUNKER_SHOT: TouchRow = TouchRow {
    full_carry: 40.0,
    run: 0.43,
    depth: (0.18, 0.29),
    depth_floor: (1.9, 4.4),
    direction_deg: (4.8, 8.4),
    mishits: (0.10, 0.38),
    duff_part: 0.6,
};
/// A low half swing with a middle iron: it flies little more than a third as far as a scratch golfer's driver and runs half
/// as far again on mown ground. Common practice, no source.
const PUNCH: TouchRow = TouchRow {
    full_carry: 85.0,
    run: 0.45,
    depth: (0.08, 0.13),
    depth_floor: (1.5, 2.2),
    direction_deg: (2.6, 4.2),
    mishits: (0.04, 0.12),
    duff_part: 0.5,
};

/// The weakest golfers miss no more of these strokes than this share (common practice, no source).
const MOST_MISSED: f64 = 0.44;

/// The longest putt from off the green that a player tries, yards. Common practice, no source.
const LONGEST_ROLL: f64 = 60.0;

/// How much less sure the pace of a putt from off the green is than that of one on it: the grass before the green takes
/// more or less of it. Common practice, no source.
const OFF_GREEN: f64 = 1.5;

/// Share of putts from off the green that are stubbed, for the scratch and the bogey golfer. Common practice, no source.
const STUBBED: (f64, f64) = (0.005, 0.015);

/// The putter from off the green: the player's own putting, less sure.
fn putter(level: f64, ninety: f64) -> TouchSkill {
    let on_green = putting(level, ninety);
    // From off the green most of the misread of the longest putts is felt.
    let misread = 0.75 * on_green.misread_deg;
    TouchSkill {
        full_carry: LONGEST_ROLL,
        run: 0.0,
        depth: OFF_GREEN * on_green.pace,
        depth_floor: 0.15,
        direction_deg: on_green.direction_deg.hypot(misread),
        duffs: between(STUBBED.0, STUBBED.1, level),
        thins: 0.0,
    }
}

/// The strokes around the green. A short hitter's are bounded by a share of the driver's carry.
fn short_game(level: f64, model: &Model, ninety: f64) -> ShortGame {
    let driver = model.driver_carry();
    let skill = |row: &TouchRow, longest: f64| {
        let missed = share_between(row.mishits.0, row.mishits.1, level).min(MOST_MISSED);
        TouchSkill {
            full_carry: row.full_carry.min(longest * driver),
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
        chip: skill(&CHIP, 0.25),
        pitch: skill(&PITCH, 0.4),
        lob: skill(&LOB, 0.2),
        bunker_shot: skill(&BUNKER_SHOT, 0.25),
        punch: skill(&PUNCH, 0.45),
    }
}
