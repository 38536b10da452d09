//! The reference golfers of course rating: how far they hit it and how closely their shots lie.
use super::club::Club;
use super::fault::{PlayerFault, check};
use super::model::Model;
use crate::figures::level::{LevelFigures, MEN, ReferenceGolfers, WOMEN};
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

    /// Published figures of the pair of golfers.
    pub(crate) fn tables(self) -> &'static ReferenceGolfers {
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
