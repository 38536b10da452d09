//! The shape of a club's path, told by how far the ball has fallen from its apex.
//!
//! With z the height, u = sqrt(1 - z / apex) is smooth along the path even at the top, where z alone
//! turns: it falls from 1 at the club to 0 at the apex and grows to 1 level with the start and beyond. Rise
//! and fall are each kept in proportion to their own length, so that a wind that moves the apex
//! stretches one and squeezes the other. What still differs from path to path is told by one number for each part,
//! its [`Bends`].
use super::equations::{Forces, Landed, State};
use super::fit::through;
use super::path::start;
use super::{FlightFault, Launch};

/// Pieces of the rise, and pieces of the fall per length of the level fall.
const RISE: f64 = 12.0;
const FALL: f64 = 16.0;
/// Nodes of the rise.
const RISEN: usize = 13;
/// Nodes of the fall, which is kept to half as long again as its level length.
const FALLEN: usize = 25;
/// The fall is followed down to this many apexes below the start, where u is [`DEEPEST`].
const DEPTH: f64 = 4.0;
const DEEPEST: f64 = 2.236;

/// Where the bends are measured: half way up and half way down, and this far below.
const HALF: f64 = 0.5;
const BELOW: f64 = 1.4;
/// What the parts of a path have beyond the path a [`Profile`] was made from; all 0 for that path itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bends {
    /// u half way up.
    pub(super) rise: f64,
    /// u half way down.
    pub(super) fall: f64,
    /// Departure of the share covered from u, as [`Profile`] has it, a little below.
    pub(super) reach: f64,
    /// The same of the forward speed.
    pub(super) forward: f64,
    /// The same of the downward speed.
    pub(super) down: f64,
}

/// The shape of a path.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Profile {
    /// u at equal steps of the rise, from the apex backwards to the club.
    rise: [f64; RISEN],
    /// u at equal steps of the fall, from the apex on.
    fall: [f64; FALLEN],
    /// Share of the level fall covered at u: u (1 + (u - 1) (p0 + p1 u + p2 u^2 + p3 u^3)).
    reach: [f64; 4],
    /// Forward and downward speed as shares of those at the level landing: 1 + (u - 1) (q0 + q1 u), the latter
    /// times u.
    forward: [f64; 2],
    down: [f64; 2],
}

/// A place on the path: how far it has fallen, the share of the level fall between it and the apex, and its
/// velocity as shares of that at the level landing.
#[derive(Clone, Copy)]
struct Place {
    u: f64,
    share: f64,
    forward: f64,
    down: f64,
}

/// A path followed beyond its level landing.
pub(super) struct Trace {
    /// The level landing.
    pub(super) level: Landed,
    /// From the apex backwards to the club.
    rising: Vec<Place>,
    /// From the apex on.
    falling: Vec<Place>,
    /// Level length of the rise per length of the fall.
    rise_length: f64,
}

impl Trace {
    /// Follows a ball to `depth` apexes below where it was struck.
    pub(super) fn of(
        forces: &Forces,
        launch: &Launch,
        step: f64,
        depth: f64,
    ) -> Result<Self, FlightFault> {
        let mut seen: Vec<State> = Vec::with_capacity(512);
        let level = forces.land(start(launch), step, 0.0, |s| seen.push(*s))?;
        let (apex, end) = (level.apex.at, level.end.at[1]);
        forces.land(level.end, step, -depth * apex[2], |s| seen.push(*s))?;
        let place = |s: &State| Place {
            u: (1.0 - s.at[2] / apex[2]).max(0.0).sqrt(),
            share: (s.at[1] - apex[1]).abs() / (end - apex[1]),
            forward: s.velocity[1] / level.end.velocity[1],
            down: s.velocity[2] / level.end.velocity[2],
        };
        let top = seen.partition_point(|s| s.velocity[2] > 0.0);
        Ok(Trace {
            level,
            rising: seen[..=top].iter().rev().map(place).collect(),
            falling: seen[top..].iter().map(place).collect(),
            rise_length: apex[1] / (end - apex[1]),
        })
    }

    /// u at a share of the rise, counted from the apex.
    fn rise_at(&self, share: f64) -> f64 {
        between(&self.rising, share * self.rise_length, |p| p.share).u
    }

    /// u at a share of the level fall.
    fn fall_at(&self, share: f64) -> f64 {
        between(&self.falling, share, |p| p.share).u
    }

    /// The place on the fall where the ball has fallen to u.
    fn fallen(&self, u: f64) -> Place {
        between(&self.falling, u, |p| p.u)
    }

    /// What a path of the kind is told by.
    fn measures(&self) -> Bends {
        let below = self.fallen(BELOW);
        let departure = |share: f64| (share - 1.0) / (BELOW - 1.0);
        Bends {
            rise: self.rise_at(HALF),
            fall: self.fall_at(HALF),
            reach: departure(below.share / BELOW),
            forward: departure(below.forward),
            down: departure(below.down / BELOW),
        }
    }

    /// What this path has beyond another.
    pub(super) fn bends(&self, base: &Trace) -> Bends {
        let (own, base) = (self.measures(), base.measures());
        // A gale may stop a ball in its fall or blow it back; no shape tells that, so bends are kept within
        // those of paths that come down on the far side of their apex.
        let beyond = |own: f64, base: f64, most: f64| {
            let bend = own - base;
            if bend.is_finite() {
                bend.clamp(-most, most)
            } else {
                0.0
            }
        };
        Bends {
            rise: beyond(own.rise, base.rise, 0.2),
            fall: beyond(own.fall, base.fall, 0.2),
            reach: beyond(own.reach, base.reach, 0.4),
            forward: beyond(own.forward, base.forward, 1.0),
            down: beyond(own.down, base.down, 0.4),
        }
    }
}

impl Profile {
    /// How deep a trace must go for a profile.
    pub(super) const DEPTH: f64 = DEPTH;
    /// How deep a trace must go for its bends.
    pub(super) const BEND_DEPTH: f64 = BELOW * BELOW - 1.0;

    /// The shape of a path, usually a full strike's in still air.
    pub(super) fn of(trace: &Trace) -> Self {
        let reach = [0.45, 0.8, 1.35, 2.1];
        let speeds = [0.6, BELOW];
        let by = |f: fn(Place) -> f64| move |u: f64| (f(trace.fallen(u)) - 1.0) / (u - 1.0);
        Profile {
            rise: nodes(|i| trace.rise_at(i / RISE)),
            fall: nodes(|i| trace.fall_at(i / FALL)),
            reach: through(reach, reach.map(by(|p| p.share / p.u))),
            forward: through(speeds, speeds.map(by(|p| p.forward))),
            down: through(speeds, speeds.map(by(|p| p.down / p.u))),
        }
    }

    /// Height at a share of the carry, in apexes, for a path whose apex lies at `apex_share`.
    #[inline]
    pub(super) fn height(&self, apex_share: f64, bends: &Bends, share: f64) -> f64 {
        let (straight, u, bend) = if share < apex_share {
            let covered = (apex_share - share) / apex_share;
            (covered, look_up(&self.rise, covered * RISE), bends.rise)
        } else {
            let covered = (share - apex_share) / (1.0 - apex_share);
            (covered, look_up(&self.fall, covered * FALL), bends.fall)
        };
        // Nothing at either end of the part, the whole bend half way.
        let u = u + bend * (4.0 * straight * (1.0 - straight));
        1.0 - u * u
    }

    /// Share of the carry at which the ball has fallen to `u`.
    #[inline]
    pub(super) fn share(&self, apex_share: f64, bends: &Bends, u: f64) -> f64 {
        let [a, b, c, d] = self.reach;
        // Straight on below the deepest place that was followed.
        let v = u.min(DEEPEST);
        let covered = u * (1.0 + (v - 1.0) * (bends.reach + a + v * (b + v * (c + v * d))));
        apex_share + (1.0 - apex_share) * covered
    }

    /// Forward and downward speed where the ball has fallen to `u`, as shares of those at the level
    /// landing.
    #[inline]
    pub(super) fn speeds(&self, bends: &Bends, u: f64) -> (f64, f64) {
        let v = u.min(DEEPEST);
        let by = |bend: f64, q: [f64; 2]| 1.0 + (v - 1.0) * (bend + q[0] + q[1] * v);
        (
            by(bends.forward, self.forward),
            u * by(bends.down, self.down),
        )
    }
}

/// Values at 0, 1, 2, ...
fn nodes<const N: usize>(value: impl Fn(f64) -> f64) -> [f64; N] {
    #[expect(clippy::cast_precision_loss, reason = "small integers")]
    std::array::from_fn(|i| value(i as f64))
}

/// The value at a place between nodes, straight; straight on beyond the last.
#[inline]
fn look_up<const N: usize>(nodes: &[f64; N], at: f64) -> f64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the conversion saturates, and brings a place below the first node to it"
    )]
    let i = (at as usize).min(N - 2);
    #[expect(clippy::cast_precision_loss, reason = "a small integer")]
    let t = at - i as f64;
    nodes[i] + t * (nodes[i + 1] - nodes[i])
}

/// The place where a key that grows along the places has a value, straight between neighbours; straight on
/// beyond the last two.
fn between(places: &[Place], value: f64, key: impl Fn(&Place) -> f64) -> Place {
    let after = places
        .partition_point(|p| key(p) < value)
        .clamp(1, places.len() - 1);
    let (a, b) = (places[after - 1], places[after]);
    let step = key(&b) - key(&a);
    // A ball blown back may come down where it was: then there is no step to share.
    let t = if step > 0.0 {
        (value - key(&a)) / step
    } else {
        0.0
    };
    let mix = |f: fn(&Place) -> f64| f(&a) + t * (f(&b) - f(&a));
    Place {
        u: mix(|p| p.u),
        share: mix(|p| p.share),
        forward: mix(|p| p.forward),
        down: mix(|p| p.down),
    }
}
