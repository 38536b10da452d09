//! What is played over a distance on a still day, remembered.
use crate::player::Lie;
use crate::shot::{Shot, Stroke};
use std::sync::OnceLock;

/// The ordinary shots of a still day over level ground by lie and distance: at a green and elsewhere.
///
/// The stroke changes at some distances and the carry to mean is straight between some. A stretch on which every look finds
/// one stroke and a straight carry is remembered; on any other the shot is worked out each time. A stretch is looked at
/// when a ball first lies there, and depends on nothing but itself, so it does not matter who asks first.
#[derive(Clone, Debug, Default)]
pub(super) struct Known {
    rows: [[OnceLock<Box<[OnceLock<Option<Stretch>>]>>; 2]; 9],
}

/// A stroke that is right for a stretch of distances.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    stroke: Stroke,
    /// The carry to mean at the beginning of the stretch, and what a stretch adds to it.
    carry: (f64, f64),
}

/// Stretches to a yard, and in all.
const PER_YARD: f64 = 2.0;
const STRETCHES: usize = 1400;

/// Where a stretch is looked at, and how straight it is.
const LOOKS: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];
const STRAIGHT: f64 = 1e-9;

impl Known {
    /// The stroke over `distance` yards and the carry to mean; None where it must be worked out. `shot` is the shot over a
    /// distance, or None where it depends on more. Hot path.
    #[inline]
    pub(super) fn stroke(
        &self,
        lie: Lie,
        at_green: bool,
        distance: f64,
        shot: impl Fn(f64) -> Option<Shot>,
    ) -> Option<(Stroke, f64)> {
        let at = distance * PER_YARD;
        if !(at < STRETCHES as f64) {
            return None;
        }
        // By way of 32 bits: the processor has no instruction for the whole range of 64.
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "checked against the stretches"
        )]
        let place = at as u32;
        let row = self.rows[lie as usize][usize::from(at_green)].get_or_init(|| {
            std::iter::repeat_with(OnceLock::new)
                .take(STRETCHES)
                .collect()
        });
        let from = f64::from(place);
        let Stretch { stroke, carry } = (*row[place as usize]
            .get_or_init(|| Stretch::of(|share| shot((from + share) / PER_YARD))))?;
        Some((stroke, carry.0 + (at - from) * carry.1))
    }
}

impl Stretch {
    fn of(shot: impl Fn(f64) -> Option<Shot>) -> Option<Self> {
        let (first, last) = (shot(LOOKS[0])?, shot(LOOKS[LOOKS.len() - 1])?);
        let carry = (first.carry, last.carry - first.carry);
        let fits = |share: f64| {
            shot(share).is_some_and(|shot| {
                let off = shot.carry - (carry.0 + share * carry.1);
                shot.stroke == first.stroke && off.abs() < STRAIGHT
            })
        };
        LOOKS.into_iter().all(fits).then_some(Stretch {
            stroke: first.stroke,
            carry,
        })
    }
}
