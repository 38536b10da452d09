//! The reference golfers of course rating: how far they hit it and how closely their shots lie.
use super::club::Club;
use super::fault::{PlayerFault, check};
use super::figures::LevelFigures;
use super::model::Model;
use serde::{Deserialize, Serialize};

/// Whose reference golfers a handicap is read against.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reference {
    /// Men: bogey golfer at a handicap of 20.
    #[default]
    Men,
    /// Women: bogey golfer at a handicap of 24.
    Women,
}

/// Published lengths of a pair of reference golfers.
///
/// Source: Course Rating System Manual (2020), sections 8 and 9; Rules of Handicapping.
pub(super) struct Tables {
    /// Handicap of the bogey golfer.
    pub(super) bogey: f64,
    /// Length of the tee shot, scratch and bogey, yards.
    pub(super) tee: (f64, f64),
    /// Length of the shot after it: what is reached in two less the tee shot.
    pub(super) second: (f64, f64),
    /// How much wider shots lie than a man's at the same share of the longest club's carry.
    pub(super) wide: f64,
}

const MEN: Tables = Tables {
    bogey: 20.0,
    tee: (250.0, 200.0),
    second: (220.0, 170.0),
    wide: 1.0,
};

/// The areas that hold two thirds of women's shots are 1.15 to 1.3 times as wide and deep as men's at the same share of the
/// tee shot (Course Rating System Manual 2020, 4-4, published).
const WOMEN: Tables = Tables {
    bogey: 24.0,
    tee: (210.0, 150.0),
    second: (190.0, 130.0),
    wide: 1.25,
};

/// Run of the tee shot on a level fairway, yards (Course Rating System, published; scratch and bogey alike).
pub(super) const TEE_RUN: f64 = 20.0;

impl Reference {
    /// The reference golfers of a name: `men` or `women`.
    ///
    /// # Errors
    /// [`PlayerFault::UnknownReference`] for any other name.
    pub fn from_name(name: &str) -> Result<Self, PlayerFault> {
        match name {
            "men" => Ok(Reference::Men),
            "women" => Ok(Reference::Women),
            _ => Err(PlayerFault::UnknownReference {
                given: name.to_owned(),
            }),
        }
    }

    pub(super) fn tables(self) -> &'static Tables {
        match self {
            Reference::Men => &MEN,
            Reference::Women => &WOMEN,
        }
    }

    /// Where a handicap of 0 to 54 lies between the scratch (0) and the bogey golfer (1), and beyond: the
    /// steps from one handicap to the next grow smaller, by a factor of e every `levelling` strokes.
    pub(super) fn level(self, handicap: f64, levelling: f64) -> f64 {
        let gone = |h: f64| 1.0 - libm::exp(-h / levelling);
        gone(handicap) / gone(self.tables().bogey)
    }

    /// The club with which a golfer of that handicap carries a ball `carry` yards when it is struck
    /// solidly: spread, mishits and run are those of the level.
    ///
    /// # Errors
    /// A handicap outside 0 to 54, or a name or carry [`Club::new`] refuses.
    pub fn club(self, handicap: f64, name: &str, carry: f64) -> Result<Club, PlayerFault> {
        LevelFigures::FITTED.club(self, handicap, name, carry)
    }
}

impl LevelFigures {
    /// The same under these figures; see [`Reference::club`].
    ///
    /// # Errors
    /// A handicap outside 0 to 54, or a name or carry [`Club::new`] refuses.
    pub fn club(
        &self,
        reference: Reference,
        handicap: f64,
        name: &str,
        carry: f64,
    ) -> Result<Club, PlayerFault> {
        check(name, "carry", carry, 1.0..=450.0, "1 to 450 yards")?;
        Model::at(self, reference, handicap)?.club(name, carry)
    }
}
