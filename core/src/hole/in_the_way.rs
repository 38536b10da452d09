//! What lies in the way of a shot: the yards that reach it, and the yards that carry it.
use super::{Hole, Side, Surface};
use crate::geometry::{Point, right_of, unit_or_up};

/// A bunker or penalty area that a shot may find.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InTheWay {
    /// Which feature it is, by its place in [`Hole::features`].
    pub feature: u16,
    /// On which side of the aim it lies; None where the aim leads over it.
    pub side: Option<Side>,
    /// Yards from the ball to where it begins.
    pub reach: f64,
    /// Yards from the ball to where it ends.
    pub carry: f64,
}

/// Yards between two looks: yards are told whole.
const STEP: f64 = 0.5;

/// What has been seen of one feature.
#[derive(Clone, Copy)]
struct Seen {
    /// The nearest and the farthest look at it, yards.
    near: f64,
    far: f64,
    /// The same of the looks along the aim itself.
    ahead: Option<(f64, f64)>,
    /// Looks to the right of the aim less looks to the left.
    rightward: i32,
}

impl Hole {
    /// The bunkers and penalty areas in the way of a shot from `from` at `aim`, nearest first: those that lie open within
    /// `farthest` yards and no more than `fan` yards aside for each yard out, but for the one that the ball lies in. Where
    /// the aim leads over one it is measured along the aim, else from its nearest to its farthest point within the fan.
    #[must_use]
    pub fn in_the_way(&self, from: Point, aim: Point, fan: f64, farthest: f64) -> Vec<InTheWay> {
        let ahead = unit_or_up(aim - from);
        let right = right_of(ahead);
        let lies_in = self.feature_at(from);
        let mut seen: Vec<Option<Seen>> = vec![None; self.features().len()];
        let mut out = STEP;
        while out <= farthest {
            for (aside, turn) in across(fan, out) {
                let way = ahead * libm::cos(turn) + right * libm::sin(turn);
                let feature = self
                    .feature_at(from + way * out)
                    .filter(|&f| Some(f) != lies_in && self.is_trouble(f));
                if let Some(feature) = feature {
                    look(&mut seen[usize::from(feature)], out, aside);
                }
            }
            out += STEP;
        }
        let mut found: Vec<InTheWay> = (0u16..)
            .zip(seen)
            .filter_map(|(feature, seen)| Some(seen?.told(feature)))
            .collect();
        found.sort_by(|a, b| a.reach.total_cmp(&b.reach));
        found
    }

    fn is_trouble(&self, feature: u16) -> bool {
        matches!(
            self.surface_of(Some(feature)),
            Surface::Bunker | Surface::PenaltyRed | Surface::PenaltyYellow
        )
    }
}

/// The looks across a fan at a distance: the side of each (-1 left, 0 ahead, 1 right) and its angle to the aim, radians.
fn across(fan: f64, out: f64) -> impl Iterator<Item = (i32, f64)> {
    let half = libm::atan(fan);
    #[expect(clippy::cast_possible_truncation, reason = "a few hundred looks")]
    let looks = (half * out / STEP).ceil() as i32;
    let turn = move |k: i32| half * f64::from(k) / f64::from(looks.max(1));
    (-looks..=looks).map(move |k| (k.signum(), turn(k)))
}

fn look(seen: &mut Option<Seen>, out: f64, aside: i32) {
    let seen = seen.get_or_insert(Seen {
        near: out,
        far: out,
        ahead: None,
        rightward: 0,
    });
    seen.far = out;
    seen.rightward += aside;
    if aside == 0 {
        seen.ahead = Some((seen.ahead.map_or(out, |(first, _)| first), out));
    }
}

impl Seen {
    fn told(self, feature: u16) -> InTheWay {
        let (reach, carry) = self.ahead.unwrap_or((self.near, self.far));
        let side = if self.rightward > 0 {
            Side::Right
        } else {
            Side::Left
        };
        InTheWay {
            feature,
            side: self.ahead.is_none().then_some(side),
            reach,
            carry: carry + STEP,
        }
    }
}
