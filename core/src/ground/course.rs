//! The way of a ball along the ground: bounces, hops and roll across the map until it rests.
use super::bounce::{After, Ball, Rolling, Slope, hop, touch};
use super::roll::{Pace, Rolled};
use super::{LONGEST_ROLL, MOST_HOPS, Turf, Turfs, roll};
use crate::flight::GRAVITY;
use crate::geometry::{Piece, Point, Vector};
use crate::hole::{Hole, Surface};
use crate::putting;
use crate::units::METRES_PER_YARD;
use std::ops::ControlFlow;

/// Where a ball came to rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// The place.
    pub rest: Point,
    /// The feature it rests on.
    pub on: Option<u16>,
    /// True when it ran into the hole.
    pub holed: bool,
}

/// The ground of a hole as one stroke's ball meets it.
#[derive(Clone, Copy, Debug)]
pub struct Course<'a> {
    /// The map and the shape of the ground.
    pub hole: &'a Hole,
    /// What the ball meets on each surface.
    pub turfs: &'a Turfs,
}

/// A ball that meets water goes this far in, yards, so that it is in the area and not on its edge.
const INTO_WATER: f64 = 0.1;

/// Yards of a slope over which it is taken as one plane; less on and around greens, whose shape is finer.
const PLANE: f64 = 3.0;
const GREEN_PLANE: f64 = 2.0;

/// A plane stands for ground that bends away from it by no more than this over the ball's way, yards; where it bends
/// more the way is halved, down to this length.
const MOST_BEND: f64 = 0.05;
const LEAST_PLANE: f64 = 0.05;

/// Yards beyond an edge in which no other is looked for.
const BEYOND_EDGE: f64 = 0.25;

/// How often the height of the ground is looked up to find where a hop ends on it, and the error that is left, m.
const HOP_LOOKS: usize = 4;
const HOP_CLOSE: f64 = 1e-3;

/// Pieces of plane after which a ball is left where it is: it would roll for ever.
const MOST_PIECES: usize = 400;

/// How the ground lies at a place.
#[derive(Clone, Copy)]
struct Lay {
    /// Yards.
    height: f64,
    slope: Slope,
}

impl Course<'_> {
    /// What becomes of a ball that comes down at `landed`. Hot path.
    ///
    /// Every touch is on the surface and slope that is there; a ball may hop over what it does not touch. It
    /// rolls over every surface on its way at that surface's cost, stops in water, and drops into the hole if
    /// it meets it slowly enough.
    #[must_use]
    pub fn bounce_out(&self, landed: Point, ball: Ball) -> Run {
        let (mut at, mut ball) = (landed, ball);
        let mut on = self.hole.feature_at(at);
        let mut lay = self.lay(at);
        for hops in 0.. {
            let Some(turf) = self.turf(on) else {
                return still(at, on);
            };
            let rolling = match touch(&ball, &lay.slope, turf) {
                After::Hop(leaving) if hops < MOST_HOPS && (at - landed).norm() < LONGEST_ROLL => {
                    (ball, lay) = self.hop(&mut at, &leaving, &lay);
                    on = self.hole.feature_at(at);
                    continue;
                }
                After::Hop(leaving) => Rolling {
                    velocity: leaving.velocity,
                    skips: true,
                },
                After::Roll(rolling) => rolling,
            };
            return self.roll_out(at, on, rolling);
        }
        still(at, on)
    }

    /// The hop of a ball from `at` to where it meets the ground that is there, which on ground that bends is
    /// not the plane it leaves: Newton's method on its height above the ground. How it comes down, and on what.
    #[inline]
    fn hop(&self, at: &mut Point, ball: &Ball, lay: &Lay) -> (Ball, Lay) {
        let mut to = hop(ball, &lay.slope);
        let terrain = self.hole.terrain();
        if terrain.is_flat() {
            *at += to.moved;
            return (to.ball, *lay);
        }
        let level = ball.velocity.xy();
        let plane = (ball.velocity.z - to.ball.velocity.z) / GRAVITY;
        let mut seconds = plane;
        let mut there = terrain.height_and_slope(*at + to.moved);
        for _ in 0..HOP_LOOKS {
            let ground = (there.0 - lay.height) * METRES_PER_YARD;
            let above = (ball.velocity.z - 0.5 * GRAVITY * seconds) * seconds - ground;
            let sinks = there.1.dot(&level) - to.ball.velocity.z;
            // Close enough, or it does not come nearer.
            if !(sinks > 0.0 && above.abs() > HOP_CLOSE) {
                break;
            }
            seconds = (seconds + above / sinks).clamp(0.0, 2.0 * plane);
            to.moved = level * (seconds * (1.0 / METRES_PER_YARD));
            to.ball.velocity.z = ball.velocity.z - GRAVITY * seconds;
            there = terrain.height_and_slope(*at + to.moved);
        }
        *at += to.moved;
        let lay = Lay {
            height: there.0,
            slope: Slope::rising(there.1),
        };
        (to.ball, lay)
    }

    /// What becomes of a ball that rolls, or skips, from `at`, which lies on `on`. Hot path.
    #[must_use]
    pub fn roll_out(&self, at: Point, on: Option<u16>, ball: Rolling) -> Run {
        if !self.hole.terrain().is_flat() {
            return self.roll_over(at, on, ball);
        }
        let level = ball.velocity.xy();
        let speed = level.norm();
        let forward = level / speed.max(f64::MIN_POSITIVE);
        let skips = ball.skips;
        self.roll_level(at, on, forward, Pace { speed, skips })
    }

    /// The same for a ball that begins along the unit vector `forward`, at a pace.
    pub(crate) fn roll_on(&self, at: Point, on: Option<u16>, forward: Vector, pace: Pace) -> Run {
        if self.hole.terrain().is_flat() {
            self.roll_level(at, on, forward, pace)
        } else {
            self.roll_over(at, on, pace.along(forward))
        }
    }

    #[inline]
    fn turf(&self, on: Option<u16>) -> Option<&Turf> {
        self.turfs.on(self.hole.surface_of(on))
    }

    #[inline]
    fn lay(&self, at: Point) -> Lay {
        if self.hole.terrain().is_flat() {
            return Lay {
                height: 0.0,
                slope: Slope::LEVEL,
            };
        }
        let (height, rise) = self.hole.terrain().height_and_slope(at);
        Lay {
            height,
            slope: Slope::rising(rise),
        }
    }

    #[inline]
    fn slope(&self, at: Point) -> Slope {
        if self.hole.terrain().is_flat() {
            Slope::LEVEL
        } else {
            Slope::rising(self.hole.terrain().slope(at))
        }
    }

    /// The roll over level ground, one surface after another: straight on.
    fn roll_level(
        &self,
        mut at: Point,
        mut on: Option<u16>,
        forward: Vector,
        mut pace: Pace,
    ) -> Run {
        for _ in 0..MOST_PIECES {
            let Some(turf) = self.turf(on) else {
                return still(at, on);
            };
            // Most balls stay on the surface they begin on, and the index can tell without walking.
            let way = forward * pace.yards_to_rest(turf);
            if self.hole.uniform(at, at + way).is_some() {
                return if self.drops(on, at, way, pace, turf) {
                    self.holed(on)
                } else {
                    still(at + way, on)
                };
            }
            // Others are mostly slowed by what they come to, and stop within that way; some run on after it.
            let way = way + forward * (2.0 * INTO_WATER);
            let metres = METRES_PER_YARD * way.norm();
            let run = self.hole.walk_on(on, at, at + way, |piece, surface| {
                on = piece.layer;
                let begins = at + way * piece.from;
                let Some(turf) = self.turfs.on(surface) else {
                    return ControlFlow::Break(still(begins + inside(way, &piece), on));
                };
                let (gone, after) = pace.after(turf, metres * (piece.to - piece.from));
                let gone = forward * yards(gone);
                if self.drops(on, begins, gone, pace, turf) {
                    return ControlFlow::Break(self.holed(on));
                }
                if after.is_rest() {
                    return ControlFlow::Break(still(begins + gone, on));
                }
                pace = after;
                ControlFlow::Continue(())
            });
            if let ControlFlow::Break(run) = run {
                return run;
            }
            at += way;
        }
        still(at, on)
    }

    /// The roll over ground that is not level, one small plane after another.
    fn roll_over(&self, mut at: Point, mut on: Option<u16>, mut ball: Rolling) -> Run {
        let mut crossed = false;
        let mut slope = self.slope(at);
        for _ in 0..MOST_PIECES {
            let surface = self.hole.surface_of(on);
            let Some(turf) = self.turfs.on(surface) else {
                return still(at, on);
            };
            let mut most = if crossed {
                BEYOND_EDGE
            } else if matches!(surface, Surface::Green | Surface::Fringe) {
                GREEN_PLANE
            } else {
                PLANE
            };
            let (mut rolled, mut there) = self.over_plane(at, &ball, &slope, turf, most);
            while most > LEAST_PLANE && bend(&slope, &there, rolled.moved) > MOST_BEND {
                most *= 0.5;
                (rolled, there) = self.over_plane(at, &ball, &slope, turf, most);
            }
            let way = rolled.moved;
            let (mut next, mut into_water) = (on, Vector::zeros());
            // A ball that has just crossed an edge is let go on a little, lest it cross it for ever.
            if !crossed
                && self.hole.uniform(at, at + way).is_none()
                && let Some(beyond) = self.leaves(on, at, way)
            {
                // It is on the very edge, and as fast as after so much ground.
                next = beyond.layer;
                into_water = inside(way, &beyond);
                rolled = roll(&ball, &slope, turf, beyond.from * ground(&slope, way));
                rolled.moved = way * beyond.from;
                there = self.slope(at + rolled.moved);
            }
            let speed_after = |yards| roll(&ball, &slope, turf, yards).ball.velocity.norm();
            if self.meets_hole(on, at, rolled.moved, speed_after) {
                return self.holed(on);
            }
            at += rolled.moved;
            if rolled.at_rest {
                return still(at, self.hole.feature_at(at));
            }
            if next != on && self.turf(next).is_none() {
                return still(at + into_water, next);
            }
            ball = rolled.ball;
            slope = there;
            (on, crossed) = if crossed {
                (self.hole.feature_at(at), false)
            } else {
                (next, next != on)
            };
        }
        still(at, self.hole.feature_at(at))
    }

    /// A roll of at most `most` yards over one plane, and the slope of the ground where it ends.
    #[inline]
    fn over_plane(
        &self,
        at: Point,
        ball: &Rolling,
        slope: &Slope,
        turf: &Turf,
        most: f64,
    ) -> (Rolled, Slope) {
        let rolled = roll(ball, slope, turf, most);
        (rolled, self.slope(at + rolled.moved))
    }

    /// The part of a way over what comes after the feature it begins on, if it leaves that.
    fn leaves(&self, on: Option<u16>, at: Point, way: Vector) -> Option<Piece> {
        let mut first = true;
        let left = self.hole.walk_on(on, at, at + way, |piece, _| {
            if std::mem::take(&mut first) {
                ControlFlow::Continue(())
            } else {
                ControlFlow::Break(piece)
            }
        });
        left.break_value()
    }

    /// True when a ball that rolls over a green from `start` meets the hole on its way, slowly enough to drop;
    /// `speed_after` tells its speed, m/s, after so many yards.
    #[inline]
    fn meets_hole(
        &self,
        on: Option<u16>,
        start: Point,
        way: Vector,
        speed_after: impl Fn(f64) -> f64,
    ) -> bool {
        if self.hole.surface_of(on) != Surface::Green {
            return false;
        }
        let to_pin = self.hole.pin() - start;
        let (ahead, square) = (to_pin.dot(&way), way.norm_squared());
        if !(ahead > 0.0 && ahead <= square) {
            return false;
        }
        let length = square.sqrt();
        let offset = (to_pin.x * way.y - to_pin.y * way.x) / length;
        let scale = self.hole.conditions().hole_scale();
        if offset.abs() >= putting::HOLE_RADIUS * scale {
            return false;
        }
        let there = speed_after(ahead / length);
        putting::captured_by(there / METRES_PER_YARD, offset, scale)
    }

    /// [`Course::meets_hole`] of a ball that runs straight on over level ground.
    #[inline]
    fn drops(&self, on: Option<u16>, start: Point, way: Vector, pace: Pace, turf: &Turf) -> bool {
        let speed_after = |yards: f64| pace.after(turf, METRES_PER_YARD * yards).1.speed;
        self.meets_hole(on, start, way, speed_after)
    }

    fn holed(&self, on: Option<u16>) -> Run {
        Run {
            rest: self.hole.pin(),
            on,
            holed: true,
        }
    }
}

#[inline]
fn yards(metres: f64) -> f64 {
    metres * (1.0 / METRES_PER_YARD)
}

/// From the edge of water into it, along the part of a way that lies over it: not beyond its middle.
#[inline]
fn inside(way: Vector, water: &Piece) -> Vector {
    let most = INTO_WATER / way.norm().max(f64::MIN_POSITIVE);
    way * most.min(0.5 * (water.to - water.from))
}

/// Yards by which ground that slopes otherwise at the end of a way may lie off the plane it begins on.
#[inline]
fn bend(from: &Slope, to: &Slope, way: Vector) -> f64 {
    (to.gradient() - from.gradient()).norm() * way.norm()
}

/// The length along the ground of a straight way of the plan.
fn ground(slope: &Slope, way: Vector) -> f64 {
    way.norm().hypot(slope.gradient().dot(&way))
}

fn still(rest: Point, on: Option<u16>) -> Run {
    Run {
        rest,
        on,
        holed: false,
    }
}
