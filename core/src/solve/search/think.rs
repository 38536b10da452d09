//! A long look at one situation.
use super::action::{Mesh, offer};
use super::shortlist::{Round, Shortlist};
use super::sight::Sight;
use crate::noise::Noise;
use crate::situation::Situation;

#[rustfmt::skip]
const ROUNDS: [Round; 5] = [
    Round { luck: 32, keep: 60, vary: (4, 1.0), race: false },
    Round { luck: 128, keep: 24, vary: (3, 0.5), race: false },
    Round { luck: 512, keep: 12, vary: (1, 0.5), race: false },
    Round { luck: 1024, keep: 8, vary: (1, 0.25), race: false },
    Round { luck: 2048, keep: 4, vary: (0, 0.0), race: false },
];

/// Tries everything over much luck.
pub(in crate::solve) fn run(
    sight: &Sight<'_>,
    from: Situation,
    luck: &[Noise],
    shortlist: &mut Shortlist,
    own: f64,
    bold: usize,
) {
    offer(sight.scene, from, Mesh::CLOSE, &mut shortlist.offers);
    rounds(sight, from, luck, shortlist, own, bold);
}

/// Tries what is offered over much luck.
pub(in crate::solve) fn rounds(
    sight: &Sight<'_>,
    from: Situation,
    luck: &[Noise],
    shortlist: &mut Shortlist,
    own: f64,
    bold: usize,
) {
    shortlist.run(sight, from, luck, &ROUNDS, own, bold);
}
