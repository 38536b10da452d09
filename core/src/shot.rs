//! One stroke: from a situation, a decision and some luck to what becomes of the ball.
//!
//! [`resolve`] is the one model of golf in the library. It is pure: the same arguments give the same
//! outcome and nothing else is touched.

use crate::geometry::{Point, Vector};
use crate::ground;
use crate::hole::{Canopy, Hole, Surface};
use crate::noise::Noise;
use crate::player::{Bag, ClubId, Lie, Swing, Touch};
use crate::putting;
use crate::rules::{self, Drop, Options};
use crate::situation::Situation;
use std::ops::ControlFlow;

/// What is swung.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stroke {
    /// A club from the bag, fully or in part.
    Swing(ClubId),
    /// A stroke around the green, or a punch.
    Touch(Touch),
    /// A putt at the hole.
    Putt,
}

/// A decision: what to swing, where to aim and how far the ball is meant to carry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shot {
    /// What is swung.
    pub stroke: Stroke,
    /// The point aimed over.
    pub target: Point,
    /// The carry meant, yards; no more than the stroke can give from the lie. A putt ignores it.
    pub carry: f64,
}

/// What happened to a ball on the way, as a set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Events(u8);

impl Events {
    /// The strike was not solid.
    pub const MISHIT: Events = Events(1);
    /// The ball came to rest in a penalty area.
    pub const PENALTY_AREA: Events = Events(2);
    /// The ball came to rest out of bounds.
    pub const OUT_OF_BOUNDS: Events = Events(4);
    /// The ball was not found.
    pub const LOST: Events = Events(8);
    /// The ball could not be played where it lay.
    pub const UNPLAYABLE: Events = Events(16);
    /// The ball hit trees or came to rest under them.
    pub const TREES: Events = Events(32);

    /// True if every event of `other` is in this set.
    #[must_use]
    pub fn has(self, other: Events) -> bool {
        self.0 & other.0 == other.0
    }

    fn add(&mut self, other: Events) {
        self.0 |= other.0;
    }

    fn add_if(&mut self, condition: bool, event: Events) {
        if condition {
            self.add(event);
        }
    }
}

/// What comes next.
#[derive(Clone, Copy, Debug, PartialEq)]
#[expect(
    clippy::large_enum_variant,
    reason = "boxing the rare case would allocate in the hot loop"
)]
pub enum Next {
    /// The ball is in the hole.
    Holed,
    /// The ball is played as it lies.
    Play(Situation),
    /// A Rule gives these options.
    Relief(Options),
}

/// What became of one stroke.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// Where the ball came down (where it was struck, for a putt).
    pub landed: Point,
    /// Where it came to rest, before any relief.
    pub rest: Point,
    /// The surface it came to rest on.
    pub surface: Surface,
    /// What happened on the way.
    pub events: Events,
    /// What comes next.
    pub next: Next,
}

/// Plays one stroke.
#[must_use]
pub fn resolve(hole: &Hole, bag: &Bag, from: Situation, shot: &Shot, noise: &Noise) -> Outcome {
    match shot.stroke {
        Stroke::Putt => roll_putt(hole, bag, from, noise),
        Stroke::Swing(club) => fly(hole, bag.swing(club, from.lie), from, shot, noise),
        Stroke::Touch(touch) => fly(hole, bag.touch(touch, from.lie), from, shot, noise),
    }
}

fn roll_putt(hole: &Hole, bag: &Bag, from: Situation, noise: &Noise) -> Outcome {
    let line = hole.pin() - from.at;
    let distance = line.norm();
    let forward = unit_or_up(line, distance);
    let rolled = putting::putt(bag.putting(), hole.green_speed(), distance, noise);
    let rest = hole.pin() + forward * rolled.past + right_of(forward) * rolled.right;
    let events = Events::default();
    if rolled.holed {
        return holed(from.at, hole.pin(), events);
    }
    settle(hole, from, from.at, rest, events, noise)
}

fn fly(hole: &Hole, swing: &Swing, from: Situation, shot: &Shot, noise: &Noise) -> Outcome {
    let aim = shot.target - from.at;
    let forward = unit_or_up(aim, aim.norm());
    let strike = swing.strike(shot.carry.min(swing.full_carry), noise);
    let flown = forward * strike.carry + right_of(forward) * strike.lateral;
    let mut events = Events::default();
    events.add_if(strike.mishit, Events::MISHIT);
    if from.lie == Lie::Trees {
        if let Some(stopped) = stopped_by_trees(hole, from.at, from.at + flown, noise.trees) {
            events.add(Events::TREES);
            return settle(hole, from, stopped, stopped, events, noise);
        }
    }
    let landed = from.at + flown;
    let distance = flown.norm();
    let rolled = ground::run(hole, landed, flown / distance, strike.run);
    if rolled.holed {
        return holed(landed, hole.pin(), events);
    }
    settle(hole, from, landed, rolled.rest, events, noise)
}

fn holed(landed: Point, pin: Point, events: Events) -> Outcome {
    Outcome {
        landed,
        rest: pin,
        surface: Surface::Green,
        events,
        next: Next::Holed,
    }
}

/// A ball at rest: played as it lies, or under a Rule.
fn settle(
    hole: &Hole,
    from: Situation,
    landed: Point,
    rest: Point,
    mut events: Events,
    noise: &Noise,
) -> Outcome {
    let feature = hole.feature_at(rest);
    let surface = hole.surface_of(feature);
    let next = match surface {
        Surface::OutOfBounds => {
            events.add(Events::OUT_OF_BOUNDS);
            Next::Relief(rules::stroke_and_distance(from))
        }
        Surface::PenaltyRed | Surface::PenaltyYellow => {
            events.add(Events::PENALTY_AREA);
            let crossing = last_entry(hole, from.at, landed, rest);
            let area = feature.unwrap_or_default();
            Next::Relief(rules::penalty_area(hole, from, crossing, area))
        }
        Surface::Trees | Surface::DeepRough => {
            events.add_if(surface == Surface::Trees, Events::TREES);
            search(hole, from, rest, surface, &mut events, noise)
        }
        _ => lying(hole, rest, surface, feature),
    };
    Outcome {
        landed,
        rest,
        surface,
        events,
        next,
    }
}

/// A ball that can be played where it lies, but for a wrong green.
fn lying(hole: &Hole, rest: Point, surface: Surface, feature: Option<u16>) -> Next {
    let lie = Lie::on(surface).unwrap_or(Lie::Rough);
    let situation = Situation { at: rest, lie };
    if lie == Lie::Green && !hole.is_its_green(feature) {
        if let Some(Drop { situation, .. }) = rules::wrong_green(hole, rest) {
            return Next::Play(situation);
        }
    }
    Next::Play(situation)
}

/// Where a ball is hard to find: it may be lost (Rule 18.2) or unplayable (Rule 19).
fn search(
    hole: &Hole,
    from: Situation,
    rest: Point,
    surface: Surface,
    events: &mut Events,
    noise: &Noise,
) -> Next {
    let odds = SearchOdds::on(surface);
    let at = Situation {
        at: rest,
        lie: Lie::on(surface).unwrap_or(Lie::Rough),
    };
    if noise.search < odds.lost {
        events.add(Events::LOST);
        Next::Relief(rules::stroke_and_distance(from))
    } else if noise.search < odds.lost + odds.unplayable {
        events.add(Events::UNPLAYABLE);
        Next::Relief(rules::unplayable(hole, from, at))
    } else {
        Next::Play(at)
    }
}

/// The chance that a ball is lost, or found and unplayable.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SearchOdds {
    /// Not found within three minutes.
    pub lost: f64,
    /// Found, but no stroke at it makes sense.
    pub unplayable: f64,
}

impl SearchOdds {
    /// The odds on a surface (common practice, no source: inputs of the model, not of the Rules).
    #[must_use]
    pub fn on(surface: Surface) -> Self {
        let (lost, unplayable) = match surface {
            Surface::Trees => (0.04, 0.06),
            Surface::DeepRough => (0.03, 0.03),
            _ => (0.0, 0.0),
        };
        SearchOdds { lost, unplayable }
    }
}

/// The point X where the ball last came into a penalty area: on the flight's ground track up to the
/// landing, then on the run (Rule 17.1d). The start if it never was outside.
fn last_entry(hole: &Hole, from: Point, landed: Point, rest: Point) -> Point {
    let mut entry = from;
    let mut inside = false;
    for (a, b) in [(from, landed), (landed, rest)] {
        let _: ControlFlow<()> = hole.walk(a, b, |piece, surface| {
            let penalty = surface.is_penalty_area();
            if penalty && !inside {
                entry = a + (b - a) * piece.from;
            }
            inside = penalty;
            ControlFlow::Continue(())
        });
    }
    entry
}

/// The branches that a low ball from under trees has to pass, as the yards over which nine balls in
/// ten would be stopped are not the whole canopy but trunks and low branches: a ball kept low meets
/// half of what a ball through the crowns meets (common practice, no source).
const LOW_BALL_SHARE: f64 = 0.5;

/// Where trees stop a low ball on its way from `from` to `landed`, if they do.
///
/// The chance to get through ten yards of canopy is its openness; over a path the chances multiply.
/// The ball stops where the running chance falls to `luck`, a uniform on [0, 1).
fn stopped_by_trees(hole: &Hole, from: Point, landed: Point, luck: f64) -> Option<Point> {
    let path = landed - from;
    let length = path.norm();
    let mut spent = 0.0;
    let patience = -libm::log(luck.max(f64::MIN_POSITIVE));
    let met = hole.walk(from, landed, |piece, surface| {
        if surface != Surface::Trees {
            return ControlFlow::Continue(());
        }
        let per_yard = low_ball_hazard(hole.canopy_of(piece.layer));
        let met = spent + per_yard * (piece.to - piece.from) * length;
        if met >= patience {
            let share = piece.from + (patience - spent) / (per_yard * length);
            return ControlFlow::Break(from + path * share);
        }
        spent = met;
        ControlFlow::Continue(())
    });
    met.break_value()
}

/// The rate at which a stand of trees stops a low ball, per yard.
pub(crate) fn low_ball_hazard(canopy: Canopy) -> f64 {
    -libm::log(canopy.openness.max(1e-9)) / 10.0 * LOW_BALL_SHARE
}

/// To the right of a direction.
fn right_of(forward: Vector) -> Vector {
    Vector::new(forward.y, -forward.x)
}

/// The unit vector along `v` of length `length`; up the plan for a vector of no length.
fn unit_or_up(v: Vector, length: f64) -> Vector {
    if length > 1e-9 {
        v / length
    } else {
        Vector::y()
    }
}
