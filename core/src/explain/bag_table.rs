//! The bag, club by club: how far each club goes and within what two thirds of its shots finish.
use super::ExplainFault;
use super::mixture::{Pattern, Span};
use crate::player::{Lie, LieEffect, Player};

/// The share of shots that spans are told for.
pub(super) const TWO_THIRDS: f64 = 2.0 / 3.0;

/// What one club does in full from the lie it is at home on (the driver on its tee, an iron on the fairway), on level
/// fairway of medium firmness in still air. Yards.
#[derive(Clone, Debug, PartialEq)]
pub struct ClubRow {
    /// Name of the club.
    pub club: String,
    /// Mean carry of solid strikes.
    pub carry: f64,
    /// Mean carry and run of solid strikes.
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
    /// Share of strikes that are not solid, 0 to 1.
    pub mishit_share: f64,
}

/// A player's bag, one row a club.
///
/// The spans are exact for the pattern of the club, the ellipse of solid strikes and its two kinds of mishits: quantiles
/// of the mixture, found as roots. Width and depth hold two thirds each; a smaller share of shots is within both.
#[derive(Clone, Debug, PartialEq)]
pub struct BagTable {
    /// The clubs, longest first.
    pub clubs: Vec<ClubRow>,
}

impl BagTable {
    /// Works the table out.
    ///
    /// # Errors
    /// None for a player that is valid without the effects of lies, as every player there is.
    pub fn of(player: &Player) -> Result<Self, ExplainFault> {
        // At home a lie has no effect; teed up even a driver carries its own carry.
        let mut parts = player.clone().into_parts();
        parts.lies = [LieEffect::NONE; 9];
        let bag = Player::new(parts)?.prepare();
        let clubs = bag.clubs().map(|id| {
            let (club, swing) = (bag.club(id), bag.swing(id, Lie::Tee));
            let full = swing.full_carry;
            let (all, solid) = (Pattern::all(swing, full), Pattern::solid(swing, full));
            ClubRow {
                club: club.name.clone(),
                carry: club.carry,
                total: club.total(),
                average: swing.mean_total(full),
                depth: all.along(TWO_THIRDS),
                width: all.side(TWO_THIRDS),
                solid_depth: solid.along(TWO_THIRDS),
                solid_width: solid.side(TWO_THIRDS),
                mishit_share: swing.mishit_share(),
            }
        });
        Ok(BagTable {
            clubs: clubs.collect(),
        })
    }
}
