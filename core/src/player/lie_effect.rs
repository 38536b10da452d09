//! What a lie does to a stroke: less carry, more spread, more mishits, and more so for long clubs.
use super::fault::{PlayerFault, check};
use super::{Lie, Touch};
use crate::figures::lie as figures;
use crate::figures::strike::MISHIT;
use serde::{Deserialize, Serialize};

/// What a lie does to a stroke, next to the lie the club's figures were taken from.
///
/// Each effect has a part that every club feels and a part that grows with the fourth power of the club's
/// carry as a share of the longest club's: a wedge barely feels it, the driver feels all of it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LieEffect {
    /// Carry as a share of the club's carry, for a short club.
    pub carry: f64,
    /// Carry lost on top by the longest club, as a share of its carry.
    pub carry_long_loss: f64,
    /// Spread, as a share of the carry, as a multiple of the club's, for a short club.
    pub spread: f64,
    /// Added to that multiple for the longest club.
    pub spread_long: f64,
    /// Odds of a strike that is not flush as a multiple of the club's, for a short club: with a share of 0.2 (odds of 1 to
    /// 4) and a multiple of 2 they are 2 to 4, a share of a third. Mishits are the worse half of those.
    pub mishits: f64,
    /// Added to that multiple for the longest club.
    pub mishits_long: f64,
}

/// A [`LieEffect`] worked out for one club.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Effect {
    pub(crate) carry: f64,
    pub(crate) spread: f64,
    pub(crate) mishits: f64,
}

impl Effect {
    /// The share of mishits of a stroke that is mishit `share` of the time without the effect. The odds are those of
    /// being missed at all, of which a mishit is the worse half.
    pub(crate) fn mishit_share(&self, share: f64) -> f64 {
        let all = share / MISHIT;
        let missed = self.mishits * all;
        MISHIT * missed / (1.0 - all + missed)
    }
}

impl LieEffect {
    /// No effect at all.
    pub const NONE: LieEffect = LieEffect {
        carry: 1.0,
        carry_long_loss: 0.0,
        spread: 1.0,
        spread_long: 0.0,
        mishits: 1.0,
        mishits_long: 0.0,
    };

    /// The usual effect of a lie on a scratch golfer.
    ///
    /// Teed up the longest club is at home, on the fairway the shortest: there the effect is none.
    #[must_use]
    pub fn usual(lie: Lie) -> Self {
        let figures::Effect {
            carry,
            spread,
            mishits,
        } = match lie {
            Lie::Tee => figures::TEE,
            Lie::Fairway | Lie::Green | Lie::Fringe => figures::MOWN,
            Lie::FirstCut => figures::FIRST_CUT,
            Lie::Rough => figures::ROUGH,
            Lie::DeepRough => figures::DEEP_ROUGH,
            Lie::Bunker => figures::BUNKER,
            Lie::Trees => figures::TREES,
        };
        LieEffect {
            carry: carry.0,
            carry_long_loss: carry.1,
            spread: spread.0,
            spread_long: spread.1,
            mishits: mishits.0,
            mishits_long: mishits.1,
        }
    }

    /// The usual effects, in the order of [`Lie::ALL`].
    #[must_use]
    pub fn usual_all() -> [LieEffect; 9] {
        Lie::ALL.map(Self::usual)
    }

    /// The usual effects on a golfer who feels a bad lie so many times as much as a scratch golfer does: two feel twice
    /// as much when each factor of the lie counts twice. A tee and mown grass are the same to all.
    #[must_use]
    pub(super) fn felt_all(times: f64) -> [LieEffect; 9] {
        Lie::ALL.map(|lie| {
            if lie.is_bad() {
                Self::usual(lie).felt(times)
            } else {
                Self::usual(lie)
            }
        })
    }

    fn felt(self, times: f64) -> Self {
        let felt = |factor: f64| libm::pow(factor, times);
        let (carry, spread, mishits) = (felt(self.carry), felt(self.spread), felt(self.mishits));
        LieEffect {
            carry,
            carry_long_loss: carry - felt(self.carry - self.carry_long_loss),
            spread,
            spread_long: felt(self.spread + self.spread_long) - spread,
            mishits,
            mishits_long: felt(self.mishits + self.mishits_long) - mishits,
        }
    }

    /// Checks the numbers of the effect of `lie`.
    pub(super) fn check(&self, lie: Lie) -> Result<(), PlayerFault> {
        let of = format!("lies.{}", lie.name());
        check(&of, "carry", self.carry, 0.1..=1.2, "0.1 to 1.2")?;
        check(
            &of,
            "carry_long_loss",
            self.carry_long_loss,
            -0.2..=0.9 * self.carry,
            "-0.2 to nine tenths of carry",
        )?;
        check(&of, "spread", self.spread, 0.1..=10.0, "0.1 to 10")?;
        check(
            &of,
            "spread_long",
            self.spread_long,
            -0.9 * self.spread..=10.0,
            "minus nine tenths of spread to 10",
        )?;
        check(&of, "mishits", self.mishits, 0.0..=50.0, "0 to 50")?;
        check(
            &of,
            "mishits_long",
            self.mishits_long,
            -self.mishits..=50.0,
            "minus mishits to 50",
        )
    }

    /// The effect on a stroke around the green, or a punch: that on a short club, felt more or less.
    ///
    /// A lob wants a cushion under the ball: its figures are those of a tight lie, and grass costs it few more mishits. A
    /// chip or pitch from sand is picked clean, which is missed far more often. A bunker shot's figures are those of sand.
    pub(super) fn on_touch(&self, touch: Touch, lie: Lie) -> Effect {
        let (carry, spread, mishits) = match (touch, lie) {
            (Touch::BunkerShot, Lie::Bunker) => (0.0, 0.0, 0.0),
            (Touch::Chip | Touch::Pitch, Lie::Bunker) => (1.0, 1.0, figures::PICKED_CLEAN),
            (Touch::Lob, _) => (1.0, 1.0, figures::LOB_ON_GRASS),
            _ => (1.0, 1.0, 1.0),
        };
        let short = self.on(0.0);
        let felt = |effect: f64, share: f64| (1.0 + share * (effect - 1.0)).max(0.0);
        Effect {
            carry: felt(short.carry, carry),
            spread: felt(short.spread, spread),
            mishits: felt(short.mishits, mishits),
        }
    }

    /// The effect on a club that carries `length` times as far as the longest (0 to 1).
    pub(crate) fn on(&self, length: f64) -> Effect {
        let long = length * length * length * length;
        Effect {
            carry: self.carry - self.carry_long_loss * long,
            spread: self.spread + self.spread_long * long,
            mishits: self.mishits + self.mishits_long * long,
        }
    }
}
