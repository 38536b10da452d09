//! How far each club goes from each lie, and which club covers a distance.
use crate::figures::choice::LEAST_SWING;
use crate::geometry::Vector;
use crate::player::{ClubId, Lie};
use crate::setting::{Planned, Setting};

/// Full distances (carry and run on level fairway or green of the day) from every lie, with the wind from every side.
#[derive(Clone, Debug)]
pub struct Reach {
    /// `totals[wind][lie]` holds the full distance of each club that is worth a full swing, shortest first.
    totals: [[Vec<Total>; 9]; WINDS],
    wind_to: Vector,
}

#[derive(Clone, Copy, Debug)]
struct Total {
    yards: f64,
    club: ClubId,
}

/// Shares of the wind along the aim that are told apart when a club is chosen: -1, -1/2, 0, 1/2, 1.
const WINDS: usize = 5;

impl Reach {
    /// Works out the distances of a player on a day.
    #[must_use]
    pub fn new(setting: &Setting) -> Self {
        let totals = std::array::from_fn(|wind| {
            #[expect(clippy::cast_precision_loss, reason = "a small count")]
            let along = wind as f64 / 2.0 - 1.0;
            Lie::ALL.map(|lie| clubs(setting, lie, along))
        });
        let first = setting.bag().clubs().next();
        Reach {
            totals,
            wind_to: first.map_or(Vector::zeros(), |c| setting.club(c).flight.wind_to()),
        }
    }

    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "-1 to 1"
    )]
    fn totals(&self, lie: Lie, forward: Vector) -> &[Total] {
        let along = forward.dot(&self.wind_to);
        // By way of 32 bits: the processor has no instruction for the whole range of 64.
        let wind = (2.0 * along + 2.5) as u32 as usize;
        &self.totals[wind.min(WINDS - 1)][lie as usize]
    }

    /// The full distance of the longest club from a lie along the unit vector `forward`, yards.
    #[must_use]
    #[inline]
    pub fn farthest(&self, lie: Lie, forward: Vector) -> f64 {
        self.totals(lie, forward).last().map_or(0.0, |t| t.yards)
    }

    /// The full distance of the shortest club from a lie along the unit vector `forward`, yards.
    #[must_use]
    #[inline]
    pub fn nearest(&self, lie: Lie, forward: Vector) -> f64 {
        self.totals(lie, forward).first().map_or(0.0, |t| t.yards)
    }

    /// The full distance of a club from a lie along the unit vector `forward`, yards; of a club that is not worth a full
    /// swing from there, that of the next longer one.
    #[must_use]
    pub fn distance(&self, club: ClubId, lie: Lie, forward: Vector) -> f64 {
        let totals = self.totals(lie, forward);
        let found = totals.iter().find(|t| t.club <= club).or(totals.last());
        found.map_or(0.0, |t| t.yards)
    }

    /// The least way that a club is swung over from a lie along the unit vector `forward`, yards: a shorter one is a pitch, or
    /// from sand a bunker shot, where that gets there.
    #[must_use]
    #[inline]
    pub(crate) fn least(&self, lie: Lie, forward: Vector) -> f64 {
        LEAST_SWING * self.nearest(lie, forward)
    }

    /// The same of one club.
    #[must_use]
    pub(crate) fn least_of(&self, club: ClubId, lie: Lie, forward: Vector) -> f64 {
        LEAST_SWING * self.distance(club, lie, forward)
    }

    /// The clubs that cover `distance` from a lie along the unit vector `forward`, shortest first; the longest club
    /// alone when none does.
    #[inline]
    pub fn clubs_for(
        &self,
        distance: f64,
        lie: Lie,
        forward: Vector,
    ) -> impl Iterator<Item = ClubId> + '_ {
        let totals = self.totals(lie, forward);
        let covers = totals.iter().position(|t| t.yards >= distance);
        let first = covers.unwrap_or(totals.len().saturating_sub(1));
        totals[first..].iter().map(|t| t.club)
    }
}

impl Reach {
    /// Up to `count` clubs about a distance: the shortest that covers it and the next shorter ones; the longest when none
    /// covers it.
    pub(super) fn clubs_near(
        &self,
        distance: f64,
        lie: Lie,
        forward: Vector,
        count: usize,
    ) -> impl Iterator<Item = ClubId> + '_ {
        let totals = self.totals(lie, forward);
        let covers = totals.iter().position(|t| t.yards >= distance);
        let end = covers.map_or(totals.len(), |at| at + 1);
        let near = &totals[end.saturating_sub(count)..end];
        near.iter().rev().map(|t| t.club)
    }
}

/// The clubs of a bag that are worth a full swing from a lie, shortest first: a club that carries no farther than a shorter
/// club, or goes no farther with its run, is left out.
fn clubs(setting: &Setting, lie: Lie, along: f64) -> Vec<Total> {
    let bag = setting.bag();
    let mut totals: Vec<Total> = Vec::with_capacity(bag.len());
    let mut carried = 0.0;
    for club in bag.clubs().rev() {
        let full = bag.swing(club, lie).full_carry;
        // What it goes on the ground it goes farther on: a ball that gets to the green runs farther there.
        let prepared = setting.club(club);
        let on = |ground: &Planned| ground.day.total_for(full, along);
        let yards = on(&prepared.told).max(on(&prepared.green));
        if full > carried && totals.last().is_none_or(|shorter| yards > shorter.yards) {
            carried = full;
            totals.push(Total { yards, club });
        }
    }
    totals
}
