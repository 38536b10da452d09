//! How far each club goes from each lie, and which club covers a distance.
use crate::player::{Bag, ClubId, Lie, Swing};

/// Full distances (carry and run on a fairway) from every lie.
#[derive(Clone, Debug)]
pub struct Reach {
    /// `totals[lie]` holds the full distance of each club and the carry's share of it.
    totals: [Vec<Total>; 9],
    /// `longest[lie]` is the club that goes farthest.
    longest: [ClubId; 9],
}

#[derive(Clone, Copy, Debug)]
struct Total {
    yards: f64,
    carry_share: f64,
    club: ClubId,
}

impl Reach {
    /// Works out the distances of a bag.
    #[must_use]
    pub fn new(bag: &Bag) -> Self {
        let totals = Lie::ALL.map(|lie| clubs(bag, lie));
        let longest = std::array::from_fn(|lie| totals[lie].last().map_or(ClubId(0), |t| t.club));
        Reach { totals, longest }
    }

    /// The full distance of the longest club from a lie, yards.
    #[must_use]
    pub fn farthest(&self, lie: Lie) -> f64 {
        self.totals[lie as usize].last().map_or(0.0, |t| t.yards)
    }

    /// The club that goes farthest from a lie.
    #[must_use]
    pub fn longest(&self, lie: Lie) -> ClubId {
        self.longest[lie as usize]
    }

    /// The shortest club that covers `distance` from a lie, and the carry to mean with it; the
    /// longest club, fully swung, when none does.
    #[must_use]
    pub fn club_for(&self, distance: f64, lie: Lie) -> (ClubId, f64) {
        let totals = &self.totals[lie as usize];
        let chosen = totals
            .iter()
            .find(|t| t.yards >= distance)
            .or(totals.last());
        chosen.map_or((ClubId(0), distance), |t| {
            (t.club, distance.min(t.yards) * t.carry_share)
        })
    }
}

/// The clubs of a bag that are worth a full swing from a lie, shortest first: a club that goes no
/// farther than a shorter club is left out.
fn clubs(bag: &Bag, lie: Lie) -> Vec<Total> {
    let mut totals: Vec<Total> = Vec::with_capacity(bag.len());
    for club in bag.clubs().rev() {
        let swing = bag.swing(club, lie);
        let yards = full_distance(swing);
        if totals.last().is_none_or(|shorter| yards > shorter.yards) {
            totals.push(Total {
                yards,
                carry_share: 1.0 / (1.0 + swing.run),
                club,
            });
        }
    }
    totals
}

/// Carry and run of a full solid strike on a fairway.
#[must_use]
pub(crate) fn full_distance(swing: &Swing) -> f64 {
    swing.full_carry * (1.0 + swing.run)
}
