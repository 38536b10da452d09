//! The Rules of Golf (2023) that a ball can meet: the options each gives, what they cost and where
//! the ball is dropped.
//!
//! Each procedure cites its Rule. The options are offered, not chosen: the strategy takes the one it
//! thinks best. "Not nearer the hole" is measured from the hole position itself.

pub use crate::figures::rules::CLUB_LENGTH;
use crate::figures::rules::{CLEAR, FARTHEST_BACK, LATERAL, PENALTY, PENALTY_OUT_OF_BUNKER};
use crate::geometry::{Point, Vector, right_of};
use crate::hole::{Hole, Surface};
use crate::player::Lie;
use crate::situation::Situation;
use std::ops::ControlFlow;

/// Which procedure a drop follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Procedure {
    /// Stroke and distance: play again from where the last stroke was made (Rules 14.6 and 18.1).
    StrokeAndDistance,
    /// Back on the line from the hole through the reference point (Rules 17.1d(2), 19.2b, 19.3a).
    BackOnTheLine,
    /// Within two club-lengths of the reference point (Rules 17.1d(3), 19.2c, 19.3a).
    Lateral,
    /// From a bunker, back on the line outside it, for two penalty strokes (Rule 19.3b).
    BackOutsideTheBunker,
    /// Off a wrong green, without penalty (Rule 13.1f).
    WrongGreen,
}

/// A ball dropped (or teed or placed) under a Rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drop {
    /// Where it is played from next.
    pub situation: Situation,
    /// Penalty strokes.
    pub penalty: u8,
    /// The procedure followed.
    pub procedure: Procedure,
}

/// What a Rule is applied to: a ball that is not simply played as it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Relief {
    /// Out of bounds, or lost outside a penalty area (Rule 18.2).
    StrokeAndDistance {
        /// Where the last stroke was made.
        from: Situation,
    },
    /// In a penalty area (Rule 17.1d).
    PenaltyArea {
        /// Where the last stroke was made.
        from: Situation,
        /// The point X where the ball last crossed the edge of the area.
        crossing: Point,
        /// The feature that is the penalty area.
        area: u16,
    },
    /// Unplayable outside a penalty area (Rule 19).
    Unplayable {
        /// Where the last stroke was made.
        from: Situation,
        /// Where the ball lies.
        at: Situation,
    },
}

impl Relief {
    /// The options the Rule gives.
    #[must_use]
    pub fn options(&self, hole: &Hole) -> Options {
        match *self {
            Relief::StrokeAndDistance { from } => stroke_and_distance(from),
            Relief::PenaltyArea {
                from,
                crossing,
                area,
            } => penalty_area(hole, from, crossing, area),
            Relief::Unplayable { from, at } => unplayable(hole, from, at),
        }
    }
}

/// The options a Rule gives: never empty once a Rule has filled it, since stroke and distance is
/// always one of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Options {
    drops: [Drop; Self::MOST],
    len: usize,
}

impl Options {
    /// More than any Rule gives: stroke and distance, one lateral, and one for each better lie on the
    /// line.
    const MOST: usize = 12;

    fn starting_with(drop: Drop) -> Self {
        Options {
            drops: [drop; Self::MOST],
            len: 1,
        }
    }

    fn push(&mut self, drop: Drop) {
        if self.len < Self::MOST {
            self.drops[self.len] = drop;
            self.len += 1;
        }
    }

    /// The options offered.
    #[must_use]
    pub fn as_slice(&self) -> &[Drop] {
        &self.drops[..self.len]
    }

    /// The option with the fewest penalty strokes plus strokes still to come by `estimate`; the
    /// first of equals.
    pub fn best(&self, mut estimate: impl FnMut(&Situation) -> f64) -> Drop {
        let cost = |drop: &Drop, to_come: f64| f64::from(drop.penalty) + to_come;
        let mut best = self.drops[0];
        let mut least = cost(&best, estimate(&best.situation));
        for drop in &self.as_slice()[1..] {
            let this = cost(drop, estimate(&drop.situation));
            if this < least {
                (best, least) = (*drop, this);
            }
        }
        best
    }
}

/// Out of bounds or lost outside a penalty area: stroke and distance is compulsory (Rule 18.2).
///
/// `from` is where the stroke was made. From the tee the ball may be teed again; elsewhere it is
/// dropped within a club-length of the spot, in the same area, so the lie is taken as it was.
#[must_use]
pub fn stroke_and_distance(from: Situation) -> Options {
    Options::starting_with(Drop {
        situation: from,
        penalty: PENALTY,
        procedure: Procedure::StrokeAndDistance,
    })
}

/// In a penalty area, relief taken for one penalty stroke (Rule 17.1d): stroke and distance; back on
/// the line; and from a red area lateral relief.
///
/// `crossing` is the point X where the ball last crossed the edge of the area, `area` the feature.
#[must_use]
pub fn penalty_area(hole: &Hole, from: Situation, crossing: Point, area: u16) -> Options {
    let mut options = stroke_and_distance(from);
    let outside = |feature: Option<u16>| feature != Some(area);
    back_on_the_line(hole, crossing, outside, |situation| {
        options.push(Drop {
            situation,
            penalty: PENALTY,
            procedure: Procedure::BackOnTheLine,
        });
    });
    if hole.surface_of(Some(area)) == Surface::PenaltyRed
        && let Some(situation) = lateral(hole, crossing, outside)
    {
        options.push(Drop {
            situation,
            penalty: PENALTY,
            procedure: Procedure::Lateral,
        });
    }
    options
}

/// Unplayable outside a penalty area (Rule 19): stroke and distance; back on the line; lateral. In a
/// bunker the last two must stay in it, and two penalty strokes buy a drop back on the line outside.
///
/// `from` is where the last stroke was made, `at` where the ball lies now.
#[must_use]
pub fn unplayable(hole: &Hole, from: Situation, at: Situation) -> Options {
    let mut options = stroke_and_distance(from);
    let in_bunker = at.lie == Lie::Bunker;
    let bunker = hole.feature_at(at.at);
    let allowed = |feature: Option<u16>| !in_bunker || feature == bunker;
    back_on_the_line(hole, at.at, allowed, |situation| {
        options.push(Drop {
            situation,
            penalty: PENALTY,
            procedure: Procedure::BackOnTheLine,
        });
    });
    if let Some(situation) = lateral(hole, at.at, allowed) {
        options.push(Drop {
            situation,
            penalty: PENALTY,
            procedure: Procedure::Lateral,
        });
    }
    if in_bunker {
        back_on_the_line(
            hole,
            at.at,
            |feature| feature != bunker,
            |situation| {
                options.push(Drop {
                    situation,
                    penalty: PENALTY_OUT_OF_BUNKER,
                    procedure: Procedure::BackOutsideTheBunker,
                });
            },
        );
    }
    options
}

/// On a green that is not the green of the hole: free relief is compulsory (Rule 13.1f). The ball is
/// dropped at the nearest point off that green that is not nearer the hole; None if there is none
/// within a hundred yards.
#[must_use]
pub fn wrong_green(hole: &Hole, at: Point) -> Option<Drop> {
    let green = hole.feature_at(at);
    let to_pin = (hole.pin() - at).norm();
    (1..=100).find_map(|yards| {
        around(at, f64::from(yards))
            .filter(|p| (hole.pin() - p).norm() >= to_pin)
            .filter_map(|p| playable(hole, p, |feature| feature != green))
            .find(|s| s.lie != Lie::Green)
            .map(|situation| Drop {
                situation,
                penalty: 0,
                procedure: Procedure::WrongGreen,
            })
    })
}

/// A lie that no other is preferred to when dropping.
const GOOD_ENOUGH: u8 = 1;

/// Offers the spots on the line from the hole through `reference`, going back from it, where a ball
/// may be dropped: the first that is allowed, and then each first one with a better lie.
fn back_on_the_line(
    hole: &Hole,
    reference: Point,
    allowed: impl Fn(Option<u16>) -> bool,
    mut offer: impl FnMut(Situation),
) {
    let back = direction(hole.pin(), reference) * FARTHEST_BACK;
    let mut best = u8::MAX;
    let _: ControlFlow<()> = hole.walk(reference, reference + back, |piece, surface| {
        let share = piece.from + CLEAR / FARTHEST_BACK;
        if let Some(lie) = Lie::on(surface).filter(|_| share < piece.to && allowed(piece.layer)) {
            let badness = badness(lie);
            if badness < best {
                best = badness;
                offer(Situation {
                    at: reference + back * share,
                    lie,
                });
            }
        }
        if best <= GOOD_ENOUGH {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    });
}

/// Sines and cosines of 90, 45 and 0 degrees: directions from nearest the hole that the Rule allows to straight
/// away from it.
const AWAY: [(f64, f64); 3] = [
    (1.0, 0.0),
    (
        std::f64::consts::FRAC_1_SQRT_2,
        std::f64::consts::FRAC_1_SQRT_2,
    ),
    (0.0, 1.0),
];

/// The best lie within two club-lengths of `reference` that is not nearer the hole, looked for at the full
/// two club-lengths and, if no place there will do, at one; of equal lies the one nearest the hole.
fn lateral(
    hole: &Hole,
    reference: Point,
    allowed: impl Fn(Option<u16>) -> bool,
) -> Option<Situation> {
    let away = direction(hole.pin(), reference);
    let right = right_of(away);
    [LATERAL * CLUB_LENGTH, CLUB_LENGTH]
        .into_iter()
        .find_map(|radius| {
            let places = AWAY.into_iter().flat_map(|(sine, cosine)| {
                [sine, -sine].map(|side| reference + (away * cosine + right * side) * radius)
            });
            places
                .filter_map(|p| playable(hole, p, &allowed))
                .min_by_key(|situation| badness(situation.lie))
        })
}

/// The situation of a ball dropped at `p`, if it is in bounds, outside every penalty area, and on a
/// feature that is allowed.
fn playable(hole: &Hole, p: Point, allowed: impl Fn(Option<u16>) -> bool) -> Option<Situation> {
    let feature = hole.feature_at(p);
    let lie = Lie::on(hole.surface_of(feature))?;
    allowed(feature).then_some(Situation { at: p, lie })
}

/// Thirty-two points on a circle.
fn around(centre: Point, radius: f64) -> impl Iterator<Item = Point> {
    (0..32).map(move |i| {
        let (sin, cos) = libm::sincos(f64::from(i) * std::f64::consts::TAU / 32.0);
        centre + Vector::new(sin, cos) * radius
    })
}

/// The unit direction from one point to another; up the plan if they are the same.
fn direction(from: Point, to: Point) -> Vector {
    (to - from).try_normalize(1e-9).unwrap_or_else(Vector::y)
}

/// The order in which a golfer prefers lies when dropping.
fn badness(lie: Lie) -> u8 {
    match lie {
        Lie::Green | Lie::Tee => 0,
        Lie::Fairway | Lie::Fringe => 1,
        Lie::FirstCut => 2,
        Lie::Rough => 3,
        Lie::Bunker => 4,
        Lie::DeepRough => 5,
        Lie::Trees => 6,
    }
}
