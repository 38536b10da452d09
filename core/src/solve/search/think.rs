//! A long look at one situation.
use super::action::{Action, Mesh, offer};
use super::shortlist::{Round, Shortlist, Trials};
use super::sight::Sight;
use crate::noise::Noise;
use crate::situation::Situation;

#[rustfmt::skip]
const LONG: Trials = Trials { race: false, rounds: &[
    Round { luck: 32, keep: 60, vary: (4, 1.0) },
    Round { luck: 128, keep: 24, vary: (3, 0.5) },
    Round { luck: 512, keep: 12, vary: (1, 0.5) },
    Round { luck: 1024, keep: 8, vary: (1, 0.25) },
    Round { luck: 2048, keep: 4, vary: (0, 0.0) },
] };

/// Tries everything that `may` be tried, over much luck. `own` and `bold` are as in [`Shortlist::run`].
pub(in crate::solve) fn run(
    sight: &Sight<'_>,
    from: Situation,
    luck: &[Noise],
    own: f64,
    bold: bool,
    may: impl Fn(&Action) -> bool,
) -> Shortlist {
    let mut shortlist = Shortlist::default();
    offer(sight.scene, from, Mesh::CLOSE, &mut shortlist.offers);
    shortlist.offers.retain(may);
    shortlist.run(sight, from, luck, &LONG, own, bold);
    shortlist
}
