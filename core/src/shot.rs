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
use crate::rules::{self, Relief};
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
pub enum Next {
    /// The ball is in the hole.
    Holed,
    /// The ball is played as it lies.
    Play(Situation),
    /// A Rule gives options.
    Relief(Relief),
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
    if rolled.holed {
        return holed(from.at, hole.pin(), Events::default());
    }
    let rest = hole.pin() + forward * rolled.past + right_of(forward) * rolled.right;
    let ball = Ball {
        from,
        landed: from.at,
        rest,
        on: hole.feature_at(rest),
        events: Events::default(),
    };
    ball.settle(hole, noise)
}

fn fly(hole: &Hole, swing: &Swing, from: Situation, shot: &Shot, noise: &Noise) -> Outcome {
    let aim = shot.target - from.at;
    let forward = unit_or_up(aim, aim.norm());
    let strike = swing.strike(shot.carry.min(swing.full_carry), noise);
    let flown = forward * strike.carry + right_of(forward) * strike.lateral;
    // A ball that rolls from the start comes down nowhere: what was meant to carry runs.
    let (landed, run) = if swing.rolls {
        (from.at, flown.norm())
    } else {
        (from.at + flown, strike.run)
    };
    let mut events = Events::default();
    events.add_if(strike.mishit, Events::MISHIT);
    if from.lie == Lie::Trees
        && let Some(stopped) = stopped_by_trees(hole, from.at, landed, noise.trees)
    {
        events.add(Events::TREES);
        let ball = Ball {
            from,
            landed: stopped,
            rest: stopped,
            on: hole.feature_at(stopped),
            events,
        };
        return ball.settle(hole, noise);
    }
    let run = ground::run(hole, landed, flown / flown.norm(), run);
    if run.holed {
        return holed(landed, hole.pin(), events);
    }
    Ball {
        from,
        landed,
        rest: run.rest,
        on: run.on,
        events,
    }
    .settle(hole, noise)
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

/// A ball at rest.
struct Ball {
    from: Situation,
    landed: Point,
    rest: Point,
    /// The feature it lies on.
    on: Option<u16>,
    events: Events,
}

impl Ball {
    /// Played as it lies, or under a Rule.
    fn settle(mut self, hole: &Hole, noise: &Noise) -> Outcome {
        let surface = hole.surface_of(self.on);
        let next = match (surface, self.on) {
            (Surface::OutOfBounds, _) => {
                self.events.add(Events::OUT_OF_BOUNDS);
                Next::Relief(Relief::StrokeAndDistance { from: self.from })
            }
            (Surface::PenaltyRed | Surface::PenaltyYellow, Some(area)) => {
                self.events.add(Events::PENALTY_AREA);
                let crossing = last_entry(hole, self.from.at, self.landed, self.rest);
                Next::Relief(Relief::PenaltyArea {
                    from: self.from,
                    crossing,
                    area,
                })
            }
            (Surface::Trees | Surface::DeepRough, _) => {
                self.events.add_if(surface == Surface::Trees, Events::TREES);
                self.search(surface, noise)
            }
            _ => lying(hole, self.rest, surface, self.on),
        };
        Outcome {
            landed: self.landed,
            rest: self.rest,
            surface,
            events: self.events,
            next,
        }
    }

    /// Where a ball is hard to find: it may be lost (Rule 18.2) or unplayable (Rule 19).
    fn search(&mut self, surface: Surface, noise: &Noise) -> Next {
        let odds = SearchOdds::on(surface);
        let at = Situation {
            at: self.rest,
            lie: Lie::on(surface).unwrap_or(Lie::Rough),
        };
        if noise.search < odds.lost {
            self.events.add(Events::LOST);
            Next::Relief(Relief::StrokeAndDistance { from: self.from })
        } else if noise.search < odds.lost + odds.unplayable {
            self.events.add(Events::UNPLAYABLE);
            Next::Relief(Relief::Unplayable {
                from: self.from,
                at,
            })
        } else {
            Next::Play(at)
        }
    }
}

/// A ball that can be played where it lies, but for a wrong green.
fn lying(hole: &Hole, rest: Point, surface: Surface, feature: Option<u16>) -> Next {
    let lie = Lie::on(surface).unwrap_or(Lie::Rough);
    let situation = Situation { at: rest, lie };
    if lie == Lie::Green
        && !hole.is_its_green(feature)
        && let Some(drop) = rules::wrong_green(hole, rest)
    {
        return Next::Play(drop.situation);
    }
    Next::Play(situation)
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

/// The point X where a ball now in a penalty area last crossed its edge: traced back from where it rests,
/// along the run and then the flight's ground track (Rule 17.1d). The start if it never was outside.
fn last_entry(hole: &Hole, from: Point, landed: Point, rest: Point) -> Point {
    for (later, earlier) in [(rest, landed), (landed, from)] {
        let left = hole.walk(later, earlier, |piece, surface| {
            if surface.is_penalty_area() {
                ControlFlow::Continue(())
            } else {
                ControlFlow::Break(later + (earlier - later) * piece.from)
            }
        });
        if let ControlFlow::Break(crossing) = left {
            return crossing;
        }
    }
    from
}

/// A ball kept low passes trunks and low branches, not crowns: it meets this share of what the
/// openness of a stand says (common practice, no source).
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
