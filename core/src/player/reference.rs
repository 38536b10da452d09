//! The reference golfers of course rating: how far they hit it and how closely their shots lie.
use super::club::Club;
use super::fault::{PlayerFault, check};
use super::figures::LevelFigures;
use super::model::Model;

/// Whose reference golfers a handicap is read against.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Reference {
    /// Men: bogey golfer at a handicap of 20.
    #[default]
    Men,
    /// Women: bogey golfer at a handicap of 24.
    Women,
}

/// Published lengths of a pair of reference golfers, and the areas that hold two thirds of their shots.
///
/// Source: Course Rating System Manual (2020), sections 4-4, 8 and 9; Rules of Handicapping.
pub(super) struct Tables {
    /// Handicap of the bogey golfer.
    pub(super) bogey: f64,
    /// Length of the tee shot, scratch and bogey, yards.
    pub(super) tee: (f64, f64),
    /// Length of the shot after it: what is reached in two less the tee shot.
    pub(super) second: (f64, f64),
    /// Width and depth of the areas for shots of 90, 110, 130, ... yards.
    scratch_areas: &'static [(f64, f64)],
    bogey_areas: &'static [(f64, f64)],
}

const MEN: Tables = Tables {
    bogey: 20.0,
    tee: (250.0, 200.0),
    second: (220.0, 170.0),
    scratch_areas: &[
        (11.0, 14.0),
        (12.0, 15.0),
        (13.0, 15.0),
        (15.0, 16.0),
        (18.0, 17.0),
        (23.0, 18.0),
        (29.0, 19.0),
        (35.0, 20.0),
        (41.0, 21.0),
    ],
    bogey_areas: &[
        (16.0, 19.0),
        (17.0, 21.0),
        (18.0, 23.0),
        (20.0, 25.0),
        (24.0, 28.0),
        (29.0, 34.0),
    ],
};

const WOMEN: Tables = Tables {
    bogey: 24.0,
    tee: (210.0, 150.0),
    second: (190.0, 130.0),
    scratch_areas: &[
        (12.0, 15.0),
        (14.0, 16.0),
        (17.0, 17.0),
        (20.0, 18.0),
        (26.0, 20.0),
        (30.0, 24.0),
        (34.0, 28.0),
    ],
    bogey_areas: &[(17.0, 22.0), (19.0, 24.0), (21.0, 27.0), (24.0, 30.0)],
};

/// Length of the first row of the areas and the step between rows, yards.
const FIRST: f64 = 90.0;
const STEP: f64 = 20.0;

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

impl Tables {
    /// Width and depth of the areas that hold two thirds of the shots of a length, of the scratch and the bogey golfer.
    pub(super) fn areas(&self, total: f64) -> ((f64, f64), (f64, f64)) {
        (
            area_at(self.scratch_areas, total),
            area_at(self.bogey_areas, total),
        )
    }
}

/// The area for a shot of any length: smooth and monotone through the rows (Fritsch and Carlson 1980), straight
/// on beyond the last, and below the first half of it in proportion to the length.
fn area_at(rows: &[(f64, f64)], length: f64) -> (f64, f64) {
    (
        side_at(rows, length, |r| r.0),
        side_at(rows, length, |r| r.1),
    )
}

fn side_at(rows: &[(f64, f64)], length: f64, side: impl Fn(&(f64, f64)) -> f64) -> f64 {
    let last = rows.len() - 1;
    let row = |i: usize| side(&rows[i]);
    let rise = |i: usize| row(i + 1) - row(i);
    let at = (length - FIRST) / STEP;
    if at <= 0.0 {
        return row(0) * (0.5 + 0.5 * length / FIRST);
    }
    #[expect(clippy::cast_precision_loss, reason = "a small integer")]
    if at >= last as f64 {
        return row(last) + rise(last - 1) * (at - last as f64);
    }
    let slope = |i: usize| match i {
        0 => rise(0),
        i if i == last => rise(last - 1),
        i if rise(i - 1) * rise(i) > 0.0 => 2.0 * rise(i - 1) * rise(i) / (rise(i - 1) + rise(i)),
        _ => 0.0,
    };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 < at < last"
    )]
    let i = at as usize;
    #[expect(clippy::cast_precision_loss, reason = "a small integer")]
    let t = at - i as f64;
    let (s, u) = (t * t * (3.0 - 2.0 * t), 1.0 - t);
    row(i) + s * rise(i) + t * u * (u * slope(i) - t * slope(i + 1))
}
