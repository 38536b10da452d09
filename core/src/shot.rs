//! One stroke: from a situation, a decision and some luck to what becomes of the ball.
//!
//! [`resolve`] is the one model of golf in the library. It is pure: the same arguments give the same
//! outcome and nothing else is touched.

use crate::figures::trees::{SEARCH_IN_DEEP_ROUGH, SEARCH_IN_TREES};
use crate::flight::{Landing, Track};
use crate::geometry::{Point, Vector, right_of, unit_of, unit_or_up};
use crate::ground::{Ball, Course, Pace, Run};
use crate::hole::{Hole, Surface};
use crate::noise::Noise;
use crate::player::{ClubId, Lie, Strike, Swing, Touch};
use crate::putting::{self, Green};
use crate::rules::{self, Relief};
use crate::setting::{Path, Prepared, Setting, SideHill};
use crate::situation::Situation;
use std::cell::OnceCell;
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
    /// The ball hit trees, or came to rest on the floor of a wood.
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
#[inline]
pub fn resolve(setting: &Setting, from: Situation, shot: &Shot, noise: &Noise) -> Outcome {
    Addressed::new(setting, from, shot).play(noise)
}

/// A shot from where the ball lies, ready to be played by any luck: what does not depend on that is worked out.
#[derive(Clone, Copy, Debug)]
pub struct Addressed<'a>(Kind<'a>);

#[derive(Clone, Copy, Debug)]
enum Kind<'a> {
    Putt(Putt<'a>),
    Flies(Struck<'a>),
    /// The putter from off the green.
    Rolls(Struck<'a>),
}

impl<'a> Addressed<'a> {
    /// Makes a shot ready.
    #[must_use]
    #[inline]
    pub fn new(setting: &'a Setting, from: Situation, shot: &Shot) -> Self {
        let bag = setting.bag();
        Addressed(match shot.stroke {
            Stroke::Putt => Kind::Putt(Putt::new(setting, from)),
            Stroke::Swing(club) => {
                let (swing, prepared) = (bag.swing(club, from.lie), setting.club(club));
                Kind::Flies(Struck::new(setting, from, shot, swing, prepared))
            }
            Stroke::Touch(touch) => {
                let (swing, prepared) = (bag.touch(touch, from.lie), setting.touch(touch));
                let struck = Struck::new(setting, from, shot, swing, prepared);
                if swing.rolls {
                    Kind::Rolls(struck)
                } else {
                    Kind::Flies(struck)
                }
            }
        })
    }

    /// Plays it once.
    #[must_use]
    #[inline]
    pub fn play(&self, noise: &Noise) -> Outcome {
        match &self.0 {
            Kind::Putt(putt) => putt.roll(noise),
            Kind::Flies(struck) => struck.fly(noise),
            Kind::Rolls(struck) => struck.roll(noise),
        }
    }
}

/// A putt at the hole.
#[derive(Clone, Copy, Debug)]
struct Putt<'a> {
    setting: &'a Setting,
    from: Situation,
    line: Vector,
    /// Unit vector along the line.
    forward: Vector,
    green: Green,
}

impl<'a> Putt<'a> {
    #[inline]
    fn new(setting: &'a Setting, from: Situation) -> Self {
        let hole = setting.hole();
        let line = hole.pin() - from.at;
        Putt {
            setting,
            from,
            line,
            forward: unit_or_up(line),
            green: green(hole, from.at),
        }
    }

    fn roll(&self, noise: &Noise) -> Outcome {
        let (hole, from, forward) = (self.setting.hole(), self.from, self.forward);
        let rolled = putting::stroke(self.setting.bag().putting(), &self.green, self.line, noise);
        if rolled.holed {
            return holed(from.at, hole.pin(), Events::default());
        }
        let rest = hole.pin() + forward * rolled.past + right_of(forward) * rolled.right;
        let ball = Resting {
            from,
            landed: from.at,
            rest,
            on: hole.feature_at(rest),
            events: Events::default(),
        };
        ball.settle(hole, noise)
    }
}

/// The ground of a putt from `ball`: an ordinary green where its slope is not told.
#[inline]
fn green(hole: &Hole, ball: Point) -> Green {
    let (speed, terrain) = (hole.green_speed(), hole.terrain());
    let green = if terrain.tells_greens() {
        Green::over(speed, ball, hole.pin(), |p| terrain.slope(p))
    } else {
        Green::ordinary(speed)
    };
    green.with_hole(hole.conditions().hole_scale())
}

/// A stroke with a club or a touch: one that puts the ball in the air, or the putter from off the green.
#[derive(Clone, Copy, Debug)]
struct Struck<'a> {
    setting: &'a Setting,
    swing: &'a Swing,
    prepared: &'a Prepared,
    from: Situation,
    /// Unit vector along the aim.
    forward: Vector,
    /// The carry meant, yards.
    meant: f64,
    /// How the ground lies under the ball.
    hill: SideHill,
}

impl<'a> Struck<'a> {
    #[inline]
    fn new(
        setting: &'a Setting,
        from: Situation,
        shot: &Shot,
        swing: &'a Swing,
        prepared: &'a Prepared,
    ) -> Self {
        let forward = unit_or_up(shot.target - from.at);
        Struck {
            setting,
            swing,
            prepared,
            from,
            forward,
            meant: shot.carry.min(swing.full_carry),
            hill: setting.side_hill(from.at, forward),
        }
    }

    fn fly(&self, noise: &Noise) -> Outcome {
        let (hole, from, forward) = (self.setting.hole(), self.from, self.forward);
        let strike = self.strike(noise);
        let flight = &self.prepared.flight;
        let still = self.setting.is_still();
        // In still air over level ground only trees and unusual runs ask for more of the flight than its length.
        let track = OnceCell::new();
        let track = || track.get_or_init(|| flight.track(strike.carry, forward));
        let (carried, swerve) = if still {
            flight.flown(strike.carry)
        } else {
            (track().carry, track().swerve)
        };
        let strike = Strike {
            lateral: strike.lateral * swerve,
            ..strike
        };
        let (landed, share, height) = if still {
            let aside = right_of(forward) * strike.lateral;
            (from.at + forward * carried + aside, 1.0, 0.0)
        } else {
            self.landing(&strike, track())
        };
        let mut events = Events::default();
        events.add_if(strike.mishit, Events::MISHIT);
        let path = Path {
            hole,
            from: from.at,
            to: landed,
            height: |of_way: f64| flight.height(track(), share * of_way),
        };
        if let Some(stopped) = self.setting.stands().stop(&path, noise.trees) {
            events.add(Events::TREES);
            return Resting {
                from,
                landed: stopped,
                rest: stopped,
                on: hole.feature_at(stopped),
                events,
            }
            .settle(hole, noise);
        }
        // A ball comes down the way it went, turned by the wind.
        let heading = unit_or_up(forward * carried + right_of(forward) * strike.lateral);
        let landing = || flight.landing(track(), height);
        let run = self.run(landed, heading, &strike, landing);
        ended(hole, from, landed, run, events, noise)
    }

    /// A ball that rolls from the start, as far as on a level green of the day it would roll the length of the strike.
    fn roll(&self, noise: &Noise) -> Outcome {
        let (hole, from) = (self.setting.hole(), self.from);
        let strike = self.strike(noise);
        let mut events = Events::default();
        events.add_if(strike.mishit, Events::MISHIT);
        let way = self.forward * strike.carry + right_of(self.forward) * strike.lateral;
        let length = way.norm();
        let pace = Pace::to_roll(length, self.prepared.green.rolling);
        let on = hole.feature_at(from.at);
        let run = self
            .course()
            .roll_on(from.at, on, unit_of(way, length), pace);
        ended(hole, from, from.at, run, events, noise)
    }

    /// The strike: the player's own from that lie, made less sure and turned downhill by a slope under the ball.
    #[inline]
    fn strike(&self, noise: &Noise) -> Strike {
        let hill = self.hill;
        if hill == SideHill::LEVEL {
            return self.swing.strike(self.meant, noise);
        }
        let luck = Noise {
            depth: noise.depth * hill.spread(),
            side: noise.side * hill.spread(),
            strike: noise.strike / hill.mishits(),
            ..*noise
        };
        let strike = self.swing.strike(self.meant, &luck);
        Strike {
            lateral: strike.lateral + hill.pull(self.prepared) * strike.carry,
            ..strike
        }
    }

    /// Where the ball comes down, the share of its level flight it has then flown, and how much higher that is than
    /// where it was struck.
    #[inline]
    fn landing(&self, strike: &Strike, track: &Track) -> (Point, f64, f64) {
        let (from, forward, flight) = (self.from.at, self.forward, &self.prepared.flight);
        let at = |share: f64| {
            let right = strike.lateral * share + flight.drift(track, share);
            from + forward * (track.carry * share) + right_of(forward) * right
        };
        let terrain = self.setting.hole().terrain();
        let (mut landed, mut share, mut height) = (at(1.0), 1.0, 0.0);
        if terrain.is_flat() {
            return (landed, share, height);
        }
        let start = terrain.height(from);
        let (mut last, mut miss) = (share, 0.0);
        for look in 0..LANDING_LOOKS {
            height = terrain.height(landed) - start;
            let off = flight.share_to(track, height) - share;
            // Close enough: on a plane after the second look.
            if off.abs() * track.carry < LANDING_CLOSE {
                break;
            }
            // The secant method: on ground that rises nearly as steeply as the ball falls, looking again gains little.
            let steepness = if look > 0 && share != last {
                ((miss - off) / (share - last)).clamp(LANDING_STEEPNESS.0, LANDING_STEEPNESS.1)
            } else {
                1.0
            };
            (last, miss) = (share, off);
            share = (share + off / steepness).clamp(0.0, MOST_SHARE);
            landed = at(share);
        }
        (landed, share, height)
    }

    /// The ground as this stroke's ball meets it.
    #[inline]
    fn course(&self) -> Course<'_> {
        Course {
            hole: self.setting.hole(),
            turfs: self.setting.turfs(),
        }
    }

    #[inline]
    fn run(
        &self,
        landed: Point,
        heading: Vector,
        strike: &Strike,
        landing: impl Fn() -> Landing,
    ) -> Run {
        let hole = self.setting.hole();
        let course = self.course();
        if strike.mishit {
            // What a ball does that was not struck solidly is told by how far it runs.
            let pace = Pace::to_roll(strike.run, self.prepared.home_rolling);
            return course.roll_on(landed, hole.feature_at(landed), heading, pace);
        }
        if !self.prepared.runs {
            return Run {
                rest: landed,
                on: hole.feature_at(landed),
                holed: false,
            };
        }
        if self.setting.is_still()
            && let Some(run) = self.level_run(landed, heading, strike.carry)
        {
            return run;
        }
        let landing = self.prepared.lands.on(landing());
        course.bounce_out(landed, Ball::landing(&landing, heading))
    }

    /// The run of a solid strike in still air over level ground that comes down on one kind of it alone. None where the ball
    /// must be followed from the start; a test holds the two together.
    #[inline]
    fn level_run(&self, landed: Point, heading: Vector, carry: f64) -> Option<Run> {
        let (hole, turfs) = (self.setting.hole(), self.setting.turfs());
        let on = hole.feature_at(landed);
        let surface = hole.surface_of(on);
        let Some(turf) = turfs.on(surface) else {
            return Some(Run {
                rest: landed,
                on,
                holed: false,
            });
        };
        let kind = turfs.alike(surface);
        let run = self.prepared.level_run(carry, (kind, turf))?;
        let at = |yards: f64| landed + heading * yards;
        let (first, last) = run.span();
        let (back, ahead) = (at(first), at(last));
        let one_kind = hole.uniform(back, ahead).is_some();
        if one_kind && !(surface == Surface::Green && passes(hole, back, ahead)) {
            return Some(Run {
                rest: at(run.rest(turf)),
                on,
                holed: false,
            });
        }
        // It may cross edges in the air and is followed from where it rolls, if it touches down on the one kind alone.
        let (mut rolls_from, mut rolls_on) = (landed, on);
        for touch in run.touches() {
            (rolls_from, rolls_on) = (at(touch), hole.feature_at(at(touch)));
            if turfs.alike(hole.surface_of(rolls_on)) != kind {
                return None;
            }
        }
        let (way, pace) = run.rolls();
        Some(
            self.course()
                .roll_on(rolls_from, rolls_on, heading * way, pace),
        )
    }
}

/// True where the hole is on a straight way, or next to it.
fn passes(hole: &Hole, from: Point, to: Point) -> bool {
    let (way, pin) = (to - from, hole.pin() - from);
    let nearest = way * (pin.dot(&way) / way.norm_squared()).clamp(0.0, 1.0);
    let radius = putting::HOLE_RADIUS * hole.conditions().hole_scale();
    (pin - nearest).norm_squared() <= radius * radius
}

/// How often the height of the ground is looked up to find where a ball comes down on a slope, and the error that is left,
/// yards.
const LANDING_LOOKS: usize = 3;
const LANDING_CLOSE: f64 = 0.01;
/// A ball that falls far below where it was struck goes no farther than this many times its level way: what a table
/// tells of so long a fall is a guess, and a duffed ball has little way to begin with.
const MOST_SHARE: f64 = 3.0;
/// How fast the ground can come to meet a ball, next to level ground: 1 there, more uphill.
const LANDING_STEEPNESS: (f64, f64) = (0.25, 4.0);

/// The outcome of a stroke whose ball came down at `landed` and ran.
fn ended(
    hole: &Hole,
    from: Situation,
    landed: Point,
    run: Run,
    events: Events,
    noise: &Noise,
) -> Outcome {
    if run.holed {
        return holed(landed, hole.pin(), events);
    }
    Resting {
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
struct Resting {
    from: Situation,
    landed: Point,
    rest: Point,
    /// The feature it lies on.
    on: Option<u16>,
    events: Events,
}

impl Resting {
    /// Played as it lies, or under a Rule.
    #[inline]
    fn settle(mut self, hole: &Hole, noise: &Noise) -> Outcome {
        let surface = hole.surface_of(self.on);
        let next = match surface {
            Surface::OutOfBounds
            | Surface::PenaltyRed
            | Surface::PenaltyYellow
            | Surface::Trees
            | Surface::DeepRough => self.in_trouble(hole, surface, noise),
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

    /// Where a Rule may be called for.
    #[inline(never)]
    fn in_trouble(&mut self, hole: &Hole, surface: Surface, noise: &Noise) -> Next {
        match (surface, self.on) {
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
            _ => {
                self.events.add_if(surface == Surface::Trees, Events::TREES);
                self.search(surface, noise)
            }
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
    /// The odds on a surface: inputs of the model, not of the Rules.
    #[must_use]
    pub fn on(surface: Surface) -> Self {
        let (lost, unplayable) = match surface {
            Surface::Trees => SEARCH_IN_TREES,
            Surface::DeepRough => SEARCH_IN_DEEP_ROUGH,
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
