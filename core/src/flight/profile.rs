//! The shape of a club's path, told by how far the ball has fallen from its apex.
//!
//! With z the height, u = sqrt(1 - z / apex) is smooth along the path even at the top, where z alone
//! turns: it falls from 1 at the club to 0 at the apex and grows to 1 level with the start and beyond. Rise
//! and fall are each kept in proportion to their own length, so that a wind that moves the apex
//! stretches one and squeezes the other. In those proportions a parabola is the straight line; what a path
//! differs from it by grows with how far its apex lies beyond the middle, the *bend*. So the shape of a full
//! strike in still air gives those of weaker strikes and other winds.
use super::equations::{Forces, State};
use super::fit::through;
use super::path::start;
use super::table::Weather;
use super::{FlightFault, Launch, Wind};

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

/// The bend is believed up to here.
const MOST_BEND: f64 = 3.0;

/// The shape of a path.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Profile {
    /// One over how far beyond the middle the apex lies.
    middle: f64,
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

/// A place on the fall: how far it has fallen, the share of the level fall covered, and its velocity.
#[derive(Clone, Copy)]
struct Place {
    u: f64,
    share: f64,
    forward: f64,
    down: f64,
}

impl Profile {
    /// The shape of a full strike's path in still air.
    pub(super) fn of(weather: &Weather, launch: &Launch, step: f64) -> Result<Self, FlightFault> {
        let forces = Forces::new(weather.aerodynamics, weather.air, Wind::CALM.over(0.0), 0.0);
        let level = forces.land(start(launch), step, 0.0, |_| {})?;
        let (apex, end) = (level.apex.at, level.end.at[1]);
        let mut seen: Vec<State> = Vec::new();
        forces.land(start(launch), step, -DEPTH * apex[2], |s| seen.push(*s))?;
        let place = |s: &State| Place {
            u: (1.0 - s.at[2] / apex[2]).max(0.0).sqrt(),
            share: (s.at[1] - apex[1]).abs() / (end - apex[1]),
            forward: s.velocity[1] / level.end.velocity[1],
            down: s.velocity[2] / level.end.velocity[2],
        };
        let falling: Vec<Place> = seen
            .iter()
            .filter(|s| s.at[1] >= apex[1])
            .map(place)
            .collect();
        let mut rising: Vec<Place> = seen
            .iter()
            .filter(|s| s.at[1] <= apex[1])
            .map(place)
            .collect();
        rising.reverse();
        let rise_length = apex[1] / (end - apex[1]);
        let at_u = |u: f64| between(&falling, u, |p| p.u);
        let reach = [0.45, 0.8, 1.35, 2.1];
        let speeds = [0.5, 1.7];
        let beyond_middle = apex[1] / end - 0.5;
        Ok(Profile {
            middle: if beyond_middle.abs() > 1e-4 {
                1.0 / beyond_middle
            } else {
                0.0
            },
            rise: nodes(|i| between(&rising, i / RISE * rise_length, |p| p.share).u),
            fall: nodes(|i| between(&falling, i / FALL, |p| p.share).u),
            reach: through(reach, reach.map(|u| (at_u(u).share / u - 1.0) / (u - 1.0))),
            forward: through(speeds, speeds.map(|u| (at_u(u).forward - 1.0) / (u - 1.0))),
            down: through(speeds, speeds.map(|u| (at_u(u).down / u - 1.0) / (u - 1.0))),
        })
    }

    /// How far from a parabola a path with its apex there is, against a full strike in still air.
    #[inline]
    pub(super) fn bend(&self, apex_share: f64) -> f64 {
        ((apex_share - 0.5) * self.middle).clamp(0.0, MOST_BEND)
    }

    /// Height at a share of the carry, in apexes, for a path whose apex lies at `apex_share`.
    #[inline]
    pub(super) fn height(&self, apex_share: f64, bend: f64, share: f64) -> f64 {
        let (straight, u) = if share < apex_share {
            let covered = (apex_share - share) / apex_share;
            (covered, look_up(&self.rise, covered * RISE))
        } else {
            let covered = (share - apex_share) / (1.0 - apex_share);
            (covered, look_up(&self.fall, covered * FALL))
        };
        let u = straight + bend * (u - straight);
        1.0 - u * u
    }

    /// Share of the carry at which the ball has fallen to `u`.
    #[inline]
    pub(super) fn share(&self, apex_share: f64, bend: f64, u: f64) -> f64 {
        let [a, b, c, d] = self.reach;
        // Straight on below the deepest place that was followed.
        let v = u.min(DEEPEST);
        let covered = u * (1.0 + bend * (v - 1.0) * (a + v * (b + v * (c + v * d))));
        apex_share + (1.0 - apex_share) * covered
    }

    /// Forward and downward speed where the ball has fallen to `u`, as shares of those at the level
    /// landing.
    #[inline]
    pub(super) fn speeds(&self, bend: f64, u: f64) -> (f64, f64) {
        let v = u.min(DEEPEST);
        let by = |q: [f64; 2]| 1.0 + bend * (v - 1.0) * (q[0] + q[1] * v);
        (by(self.forward), u * by(self.down))
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
    let t = (value - key(&a)) / (key(&b) - key(&a));
    let mix = |f: fn(&Place) -> f64| f(&a) + t * (f(&b) - f(&a));
    Place {
        u: mix(|p| p.u),
        share: mix(|p| p.share),
        forward: mix(|p| p.forward),
        down: mix(|p| p.down),
    }
}
