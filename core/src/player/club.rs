//! A club in one player's hands: how far it carries and how its shots scatter.
use super::fault::{PlayerFault, check, check_name};
use crate::figures::level::{DRIVE_CARRY, DRIVE_RUN, LEAST_RUN, LONGEST_DRIVE};
use crate::figures::strike::FULL_SWING;
use serde::{Deserialize, Serialize};
use std::ops::Deref;

/// The largest share of mishits: as many strikes again are missed slightly, and some must be flush.
pub(crate) const MOST_MISHITS: f64 = 0.45;

/// How strikes that are not flush behave: the worst of each kind, between which and a flush strike all others lie.
///
/// There are two kinds: those that come up short (fat, topped), and those that fly most of the way but wild, or thin. From
/// flush to the worst there is no gap; a strike counts as a mishit from half of the way on, in rank, and as many are
/// missed less. Carries and runs are shares of the carry of a flush strike. Shapes are common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MishitShape {
    /// Share of the mishits that are duffs; the others are wild or thin.
    pub duff_part: f64,
    /// Mean carry of the worst duff.
    pub duff_carry: f64,
    /// Standard deviation of its carry.
    pub duff_carry_sd: f64,
    /// Its lateral standard deviation as a multiple of a flush strike's.
    pub duff_side: f64,
    /// Its run.
    pub duff_run: f64,
    /// Mean carry of the worst wild or thin strike.
    pub wild_carry: f64,
    /// Standard deviation of its carry.
    pub wild_carry_sd: f64,
    /// Its lateral standard deviation as a multiple of a flush strike's.
    pub wild_side: f64,
    /// Its run.
    pub wild_run: f64,
    /// How many of the misses are slight: a miss of severity u, a uniform on [0, 1], lies u to this power from flush to the
    /// worst. 1 is even, 0 makes every miss the worst.
    pub mildness: f64,
}

impl Default for MishitShape {
    /// The shape of a middling golfer's mishits with a full swing.
    fn default() -> Self {
        MishitShape {
            duff_part: FULL_SWING.duff_part,
            duff_carry: FULL_SWING.duff_carry,
            duff_carry_sd: FULL_SWING.duff_carry_sd,
            duff_side: FULL_SWING.duff_side,
            duff_run: FULL_SWING.duff_run,
            wild_carry: FULL_SWING.wild_carry,
            wild_carry_sd: FULL_SWING.wild_carry_sd,
            wild_side: FULL_SWING.wild_side,
            wild_run: FULL_SWING.wild_run,
            mildness: FULL_SWING.mildness,
        }
    }
}

impl MishitShape {
    /// Checks the numbers of the shape of a club named `of` (empty for none).
    ///
    /// # Errors
    /// The first number out of range, with its value and what is allowed.
    pub fn check(&self, of: &str) -> Result<(), PlayerFault> {
        let share = "0 to 1";
        check(
            of,
            "mishit_shape.duff_part",
            self.duff_part,
            0.0..=1.0,
            share,
        )?;
        let carries = "0.05 to 1.5";
        check(
            of,
            "mishit_shape.duff_carry",
            self.duff_carry,
            0.05..=1.5,
            carries,
        )?;
        check(
            of,
            "mishit_shape.wild_carry",
            self.wild_carry,
            0.05..=1.5,
            carries,
        )?;
        let half = "0 to 0.5";
        check(
            of,
            "mishit_shape.duff_carry_sd",
            self.duff_carry_sd,
            0.0..=0.5,
            half,
        )?;
        check(
            of,
            "mishit_shape.wild_carry_sd",
            self.wild_carry_sd,
            0.0..=0.5,
            half,
        )?;
        let times = "0 to 10";
        check(
            of,
            "mishit_shape.duff_side",
            self.duff_side,
            0.0..=10.0,
            times,
        )?;
        check(
            of,
            "mishit_shape.wild_side",
            self.wild_side,
            0.0..=10.0,
            times,
        )?;
        check(
            of,
            "mishit_shape.duff_run",
            self.duff_run,
            0.0..=2.0,
            "0 to 2",
        )?;
        check(
            of,
            "mishit_shape.wild_run",
            self.wild_run,
            0.0..=2.0,
            "0 to 2",
        )?;
        check(
            of,
            "mishit_shape.mildness",
            self.mildness,
            0.0..=10.0,
            "0 to 10",
        )
    }
}

/// What a club is made of; every field is public, [`Club::new`] checks them.
///
/// Yards; the lateral is positive to the right of the aim. The figures are those of the lie the club is
/// at home on: a driver on its tee, an iron on the fairway.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClubParts {
    /// Name, such as `7-iron`.
    pub name: String,
    /// Carry of a solid (flush) full strike in the middle of the pattern, 1 to 450 yards.
    pub carry: f64,
    /// Standard deviation of the carry of solid strikes, yards; beyond the middle no more than 6 % of the carry.
    pub carry_sd: f64,
    /// Mean lateral at landing, yards, within a quarter of the carry.
    pub lateral_bias: f64,
    /// Standard deviation of the lateral of solid strikes, yards.
    pub lateral_sd: f64,
    /// Correlation of carry and lateral, -0.99 to 0.99.
    pub correlation: f64,
    /// Share of strikes that are mishits, 0 to 0.45; as many again are missed slightly.
    pub mishit_share: f64,
    /// How those behave.
    pub mishit_shape: MishitShape,
    /// Run on a level fairway of medium firmness per yard of carry, 0 to 1.
    pub run: f64,
    /// Carry off the ground as a share of the carry from a tee, 0.3 to 1: less than 1 for a driver, whose face
    /// is too deep and too upright for it.
    pub off_ground: f64,
    /// Launch angle of a full strike, 0.1 to 85 degrees above the horizontal; None for what is usual with a club of that
    /// name and carry.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub launch_deg: Option<f64>,
    /// Backspin of a full strike, 0 to 15,000 rpm; None for what is usual.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub spin_rpm: Option<f64>,
}

impl ClubParts {
    /// A club from the three figures a golfer is likely to know: straight on average, never mishit, with the
    /// usual run of a club of that carry. Change any part before [`Club::new`] checks it.
    #[must_use]
    pub fn new(name: &str, carry: f64, carry_sd: f64, lateral_sd: f64) -> Self {
        ClubParts {
            carry_sd,
            lateral_sd,
            run: Self::usual_run(carry),
            ..ClubParts::exact(name, carry)
        }
    }

    /// The usual run of a club that carries `carry` yards, per yard of carry: 2 % for a short wedge, 20 yards for a
    /// drive of 250 in all (Course Rating System, published), and the cube of the carry between
    /// them (common practice, no source).
    #[must_use]
    pub fn usual_run(carry: f64) -> f64 {
        let length = (carry / DRIVE_CARRY).clamp(0.0, LONGEST_DRIVE);
        LEAST_RUN + DRIVE_RUN * length * length * length
    }

    /// Makes it carry so many yards, its spreads and bias keeping their share of the carry.
    pub(super) fn scale(&mut self, carry: f64) {
        let scale = carry / self.carry;
        self.carry = carry;
        self.carry_sd *= scale;
        self.lateral_sd *= scale;
        self.lateral_bias *= scale;
    }

    /// A club that always carries exactly `carry` yards, straight, and stops dead.
    #[must_use]
    pub fn exact(name: &str, carry: f64) -> Self {
        ClubParts {
            name: name.to_owned(),
            carry,
            carry_sd: 0.0,
            lateral_bias: 0.0,
            lateral_sd: 0.0,
            correlation: 0.0,
            mishit_share: 0.0,
            mishit_shape: MishitShape::default(),
            run: 0.0,
            off_ground: 1.0,
            launch_deg: None,
            spin_rpm: None,
        }
    }
}

/// A valid club. Its parts are read through it: `club.carry`.
#[derive(Clone, Debug, PartialEq)]
pub struct Club(ClubParts);

impl Club {
    /// Checks the parts.
    ///
    /// # Errors
    /// The first field that cannot be true, with its value and what is allowed.
    pub fn new(parts: ClubParts) -> Result<Self, PlayerFault> {
        let p = &parts;
        check_name("club", &p.name)?;
        if p.name.eq_ignore_ascii_case("putter") {
            return Err(PlayerFault::PutterAsClub {
                name: p.name.clone(),
            });
        }
        check(&p.name, "carry", p.carry, 1.0..=450.0, "1 to 450 yards")?;
        // Two bounds, so that the message says the one that was broken.
        let (spread, most) = (0.0..=f64::MAX, "0 or more");
        check(&p.name, "carry_sd", p.carry_sd, spread.clone(), most)?;
        check(&p.name, "lateral_sd", p.lateral_sd, spread, most)?;
        let half = 0.0..=0.5 * p.carry;
        check(
            &p.name,
            "carry_sd",
            p.carry_sd,
            half.clone(),
            "at most half the carry",
        )?;
        check(
            &p.name,
            "lateral_sd",
            p.lateral_sd,
            half,
            "at most half the carry",
        )?;
        let quarter = -0.25 * p.carry..=0.25 * p.carry;
        check(
            &p.name,
            "lateral_bias",
            p.lateral_bias,
            quarter,
            "within a quarter of the carry",
        )?;
        check(
            &p.name,
            "correlation",
            p.correlation,
            -0.99..=0.99,
            "-0.99 to 0.99",
        )?;
        check(
            &p.name,
            "mishit_share",
            p.mishit_share,
            0.0..=MOST_MISHITS,
            "0 to 0.45",
        )?;
        check(
            &p.name,
            "run",
            p.run,
            0.0..=1.0,
            "0 to 1 (a share of the carry)",
        )?;
        check(
            &p.name,
            "off_ground",
            p.off_ground,
            0.3..=1.0,
            "0.3 to 1 (a share of the carry)",
        )?;
        if let Some(degrees) = p.launch_deg {
            let range = 0.1..=85.0;
            check(&p.name, "launch_deg", degrees, range, "0.1 to 85 degrees")?;
        }
        if let Some(rpm) = p.spin_rpm {
            check(&p.name, "spin_rpm", rpm, 0.0..=15_000.0, "0 to 15000 rpm")?;
        }
        p.mishit_shape.check(&p.name)?;
        Ok(Club(parts))
    }

    /// The parts, to change some and check them again.
    #[must_use]
    pub fn into_parts(self) -> ClubParts {
        self.0
    }

    /// Takes all spread, bias and mishits away.
    pub(super) fn still(&mut self) {
        self.0 = ClubParts {
            run: self.run,
            off_ground: self.off_ground,
            launch_deg: self.launch_deg,
            spin_rpm: self.spin_rpm,
            ..ClubParts::exact(&self.0.name, self.0.carry)
        };
    }

    /// Mean carry plus run of a solid strike on a level fairway, yards.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.carry * (1.0 + self.run)
    }
}

impl Deref for Club {
    type Target = ClubParts;
    fn deref(&self) -> &ClubParts {
        &self.0
    }
}
