//! The strokes around the green, and the low one from under trees.
use super::Touch;
use super::club::MOST_MISHITS;
use super::fault::{PlayerFault, check};
use serde::{Deserialize, Serialize};

/// How a player plays one of the strokes around the green from a good lie.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TouchSkill {
    /// The longest carry that can be meant, yards; for the putter the longest roll over mown ground.
    pub full_carry: f64,
    /// Run on a medium green per yard of carry: what is meant in all is `carry * (1 + run)`. None for the putter,
    /// whose ball rolls from the start.
    pub run: f64,
    /// Standard deviation of the carry per yard of meant carry (for the putter, of the roll).
    pub depth: f64,
    /// What is added to it whatever the carry, yards.
    pub depth_floor: f64,
    /// Standard deviation of the direction, degrees.
    pub direction_deg: f64,
    /// Share of strokes that are fat and go a fraction of the way.
    pub duffs: f64,
    /// Share of strokes that are thin and run well past.
    pub thins: f64,
}

impl TouchSkill {
    fn check(&self, touch: Touch) -> Result<(), PlayerFault> {
        let of = &format!("short_game.{}", touch.name());
        let (runs, allowed) = match touch {
            Touch::Putter => (0.0..=0.0, "0 (the ball rolls all the way)"),
            _ => (0.0..=5.0, "0 to 5 (a multiple of the carry)"),
        };
        check(
            of,
            "full_carry",
            self.full_carry,
            1.0..=250.0,
            "1 to 250 yards",
        )?;
        check(of, "run", self.run, runs, allowed)?;
        check(
            of,
            "depth",
            self.depth,
            0.0..=0.6,
            "0 to 0.6 (a share of the carry)",
        )?;
        check(
            of,
            "depth_floor",
            self.depth_floor,
            0.0..=10.0,
            "0 to 10 yards",
        )?;
        check(
            of,
            "direction_deg",
            self.direction_deg,
            0.0..=30.0,
            "0 to 30 degrees",
        )?;
        check(of, "duffs", self.duffs, 0.0..=MOST_MISHITS, "0 to 0.45")?;
        let left = 0.0..=MOST_MISHITS - self.duffs;
        check(of, "thins", self.thins, left, "0 to 0.45 less the duffs")
    }
}

/// A player's strokes around the green.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShortGame {
    /// The putter from off the green.
    pub putter: TouchSkill,
    /// Low, most of the way along the ground.
    pub chip: TouchSkill,
    /// High, most of the way through the air.
    pub pitch: TouchSkill,
    /// As high and soft as can be.
    pub lob: TouchSkill,
    /// From sand near the green (its figures are those of a fair lie in sand).
    pub bunker_shot: TouchSkill,
    /// A short low swing under branches.
    pub punch: TouchSkill,
}

impl ShortGame {
    /// The skill in one of the strokes.
    #[must_use]
    pub fn touch(&self, touch: Touch) -> &TouchSkill {
        match touch {
            Touch::Putter => &self.putter,
            Touch::Chip => &self.chip,
            Touch::Pitch => &self.pitch,
            Touch::Lob => &self.lob,
            Touch::BunkerShot => &self.bunker_shot,
            Touch::Punch => &self.punch,
        }
    }

    pub(super) fn touch_mut(&mut self, touch: Touch) -> &mut TouchSkill {
        match touch {
            Touch::Putter => &mut self.putter,
            Touch::Chip => &mut self.chip,
            Touch::Pitch => &mut self.pitch,
            Touch::Lob => &mut self.lob,
            Touch::BunkerShot => &mut self.bunker_shot,
            Touch::Punch => &mut self.punch,
        }
    }

    /// The same strokes with a change to each.
    #[must_use]
    pub fn map(self, f: impl Fn(TouchSkill) -> TouchSkill) -> Self {
        ShortGame {
            putter: f(self.putter),
            chip: f(self.chip),
            pitch: f(self.pitch),
            lob: f(self.lob),
            bunker_shot: f(self.bunker_shot),
            punch: f(self.punch),
        }
    }

    pub(super) fn check(&self) -> Result<(), PlayerFault> {
        for touch in Touch::ALL {
            self.touch(touch).check(touch)?;
        }
        Ok(())
    }
}
