//! The roll of a ball over a green of any shape, integrated step by step.
use super::capture::captured;
use super::{HOLE_RADIUS, RESISTANCE, ROLL_DECELERATION};
use crate::geometry::{Point, Vector};

/// Seconds a step.
const STEP: f64 = 1.0 / 500.0;

/// Steps between points that are kept.
const KEPT: u32 = 10;

/// Seconds after which a roll is given up: no putt that comes to rest takes half as long.
const LONGEST: f64 = 120.0;

/// How a roll ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ending {
    /// In the hole.
    Holed,
    /// At rest on the green.
    AtRest,
    /// Still rolling after two minutes: the slope is too steep for the ball to come to rest.
    StillRolling,
}

/// A ball reaching the rim of the hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Entry {
    /// Speed at the rim, yards a second.
    pub speed: f64,
    /// How far to the right of the centre the ball would go straight on, yards.
    pub offset: f64,
}

/// The path of a ball.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// Points every fiftieth of a second, from the start to the end.
    pub points: Vec<Point>,
    /// How it ended.
    pub ending: Ending,
    /// The first time it reached the rim of the hole, whether the hole took it or not.
    pub entry: Option<Entry>,
}

impl Path {
    /// The last point.
    #[must_use]
    pub fn end(&self) -> Point {
        self.points.last().copied().unwrap_or_else(Point::origin)
    }
}

/// Rolls a ball from `start` with `velocity` (yards a second) over a green whose gradient (rise over run) is
/// `gradient` of the place, towards a hole at `hole`.
///
/// dv/dt = -(5/7) g rho v/|v| - (5/7) g grad h with rho = 0.783 over the Stimpmeter reading (Penner 2002, "The
/// physics of putting", Can. J. Phys. 80:83), in the plan, by the classical Runge-Kutta method in steps of 2 ms.
/// At the rim the hole takes the ball if it is slow enough for its offset ([`super::captured`]); a ball it does not take
/// rolls on undisturbed. This is the reference for the hot loop, not part of it.
#[must_use]
pub fn roll(
    start: Point,
    velocity: Vector,
    gradient: impl Fn(Point) -> Vector,
    green_speed: f64,
    hole: Option<Point>,
) -> Path {
    let ground = Ground {
        gradient,
        deceleration: ROLL_DECELERATION / green_speed,
        resistance: RESISTANCE / green_speed,
    };
    let mut path = Path {
        points: vec![start],
        ending: Ending::StillRolling,
        entry: None,
    };
    let (mut at, mut v) = (start, velocity);
    let mut steps = 0;
    // A speed that one step takes away.
    let crawl = 1.5 * ground.deceleration * STEP;
    while f64::from(steps) * STEP < LONGEST {
        if v.norm() < crawl && ground.holds(at) {
            path.ending = Ending::AtRest;
            break;
        }
        let (next, after) = ground.step(at, v);
        if let Some(entry) = hole.and_then(|h| reach_rim(h, at, next, v, after)) {
            path.entry.get_or_insert(entry);
            if captured(entry.speed, entry.offset) {
                path.ending = Ending::Holed;
                at = hole.unwrap_or(next);
                break;
            }
        }
        (at, v) = (next, after);
        steps += 1;
        if steps % KEPT == 0 {
            path.points.push(at);
        }
    }
    if path.end() != at {
        path.points.push(at);
    }
    path
}

struct Ground<F> {
    gradient: F,
    /// On the level, yards a second squared.
    deceleration: f64,
    /// The grade that would keep a ball rolling.
    resistance: f64,
}

impl<F: Fn(Point) -> Vector> Ground<F> {
    /// True where a ball at rest stays.
    fn holds(&self, at: Point) -> bool {
        (self.gradient)(at).norm() < self.resistance
    }

    fn push(&self, at: Point, v: Vector) -> Vector {
        let speed = v.norm();
        let friction = if speed > 0.0 { v / speed } else { v };
        (friction + (self.gradient)(at) / self.resistance) * -self.deceleration
    }

    /// One step of the classical Runge-Kutta method.
    fn step(&self, at: Point, v: Vector) -> (Point, Vector) {
        let half = 0.5 * STEP;
        let a1 = self.push(at, v);
        let v2 = v + a1 * half;
        let a2 = self.push(at + v * half, v2);
        let v3 = v + a2 * half;
        let a3 = self.push(at + v2 * half, v3);
        let v4 = v + a3 * STEP;
        let a4 = self.push(at + v3 * STEP, v4);
        let sixth = STEP / 6.0;
        (
            at + (v + (v2 + v3) * 2.0 + v4) * sixth,
            v + (a1 + (a2 + a3) * 2.0 + a4) * sixth,
        )
    }
}

/// The entry, if the step from `from` to `to` comes inside the rim.
fn reach_rim(hole: Point, from: Point, to: Point, before: Vector, after: Vector) -> Option<Entry> {
    let (outside, inside) = ((from - hole).norm(), (to - hole).norm());
    if !(outside >= HOLE_RADIUS && inside < HOLE_RADIUS) {
        return None;
    }
    let share = (outside - HOLE_RADIUS) / (outside - inside);
    let at = from + (to - from) * share;
    let v = before + (after - before) * share;
    let speed = v.norm();
    let to_hole = hole - at;
    Some(Entry {
        speed,
        offset: (to_hole.y * v.x - to_hole.x * v.y) / -speed,
    })
}
