//! The bag, club by club: how far each club goes and within what two thirds of its shots finish.
use super::ExplainFault;
use super::mixture::{Kind, Pattern, Span};
use super::practice_ground;
use crate::noise::Noise;
use crate::player::{ClubId, Lie, LieEffect, Player, Swing};
use crate::setting::Setting;
use crate::shot::{Shot, Stroke, resolve};
use crate::situation::Situation;
use rayon::prelude::*;
use std::sync::Arc;

/// The share of shots that spans are told for.
pub(super) const TWO_THIRDS: f64 = 2.0 / 3.0;

/// What one club does in full from the lie it is at home on (the driver on its tee, an iron on the fairway), on level
/// fairway of medium firmness in still air. Yards.
#[derive(Clone, Debug, PartialEq)]
pub struct ClubRow {
    /// Name of the club.
    pub club: String,
    /// Mean carry of flush strikes.
    pub carry: f64,
    /// Carry and run of a solid strike without any luck.
    pub total: f64,
    /// Mean carry and run of all shots, mishits included.
    pub average: f64,
    /// The central two thirds of where all shots finish along the aim: a sixth of them ends shorter, a sixth longer.
    pub depth: Span,
    /// The central two thirds of where all shots finish to the right of the aim (left is negative): a sixth of them ends
    /// farther left, a sixth farther right.
    pub width: Span,
    /// [`ClubRow::depth`] of solid strikes alone.
    pub solid_depth: Span,
    /// [`ClubRow::width`] of solid strikes alone.
    pub solid_width: Span,
    /// Share of strikes that are mishits, 0 to 0.45; as many again are missed slightly.
    pub mishit_share: f64,
}

/// A player's bag, one row a club.
///
/// The spans are quantiles of the pattern of the club, flush strikes and its two kinds of misses at sixteen severities, each
/// played through the kernel, found as roots. Width and depth hold two thirds each; a smaller share of
/// shots is within both.
#[derive(Clone, Debug, PartialEq)]
pub struct BagTable {
    /// The clubs, longest first.
    pub clubs: Vec<ClubRow>,
}

impl BagTable {
    /// Works the table out.
    ///
    /// # Errors
    /// A club whose carry no believable ball speed gives.
    pub fn of(player: &Player) -> Result<Self, ExplainFault> {
        let setting = at_home(player)?;
        let clubs: Vec<ClubId> = setting.bag().clubs().collect();
        Ok(BagTable {
            clubs: clubs.into_par_iter().map(|id| row(&setting, id)).collect(),
        })
    }
}

/// The player on a long fairway, every club on the lie it is at home on.
pub(super) fn at_home(player: &Player) -> Result<Setting, ExplainFault> {
    // At home a lie has no effect; teed up even a driver carries its own carry.
    let mut parts = player.clone().into_parts();
    parts.lies = [LieEffect::NONE; 9];
    let bag = Arc::new(Player::new(parts)?.prepare());
    Ok(Setting::new(Arc::new(practice_ground::fairway()?), bag)?)
}

/// A full shot straight up the fairway.
pub(super) fn full_shot(setting: &Setting, id: ClubId) -> Shot {
    Shot {
        stroke: Stroke::Swing(id),
        target: setting.hole().pin(),
        carry: setting.bag().swing(id, Lie::Tee).full_carry,
    }
}

fn row(setting: &Setting, id: ClubId) -> ClubRow {
    let (club, swing) = (setting.bag().club(id), setting.bag().swing(id, Lie::Tee));
    let start = Situation::on_the_tee(setting.hole());
    let shot = full_shot(setting, id);
    let end = |luck: &Noise| {
        let rest = resolve(setting, start, &shot, luck).rest;
        (rest.y - start.at.y, rest.x - start.at.x)
    };
    let all = Pattern::of(&strikes(swing), end);
    let solid = all.last_alone();
    ClubRow {
        club: club.name.clone(),
        carry: club.carry,
        total: end(&Noise::NONE).0,
        average: all.mean(),
        depth: all.along(TWO_THIRDS),
        width: all.side(TWO_THIRDS),
        solid_depth: solid.along(TWO_THIRDS),
        solid_width: solid.side(TWO_THIRDS),
        mishit_share: swing.mishit_share(),
    }
}

/// Severities of each kind of miss that are looked at: in the middles of equal parts.
const SEVERITIES: u32 = 16;

/// The strikes of a swing: misses of both kinds at every severity that is looked at, and flush ones last.
fn strikes(swing: &Swing) -> Vec<Kind> {
    let (duffs, thins) = (swing.duff.all(), swing.thin.all());
    let misses = |from: f64, all: f64| {
        (0..SEVERITIES).map(move |k| Kind {
            share: all / f64::from(SEVERITIES),
            pick: from + all * (f64::from(k) + 0.5) / f64::from(SEVERITIES),
        })
    };
    let flush = Kind {
        share: 1.0 - duffs - thins,
        pick: Noise::NONE.strike,
    };
    let missed = misses(0.0, duffs).chain(misses(duffs, thins));
    missed.chain([flush]).collect()
}
