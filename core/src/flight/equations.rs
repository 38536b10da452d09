//! The equations of motion and their integration up to the landing.
use super::wind::Stream;
use super::{Aerodynamics, Air, BALL_MASS, BALL_RADIUS, FlightFault, GRAVITY};
use crate::figures::flight::VISCOSITY;
use crate::units::{feet_from_yards, yards_from_metres};
use std::f64::consts::PI;

/// Seconds after which a ball must have landed.
const LONGEST_FLIGHT: f64 = 60.0;

/// A ball in the air, in the frame of its shot: x right, y along the aim, z up.
#[derive(Clone, Copy, Debug)]
pub(super) struct State {
    /// Where it is, m.
    pub(super) at: [f64; 3],
    /// How fast it moves, m/s.
    pub(super) velocity: [f64; 3],
    /// Spin, rad/s.
    pub(super) spin: f64,
}

impl State {
    /// This state moved along a rate of change for `dt` seconds.
    #[inline]
    fn along(&self, rate: &State, dt: f64) -> State {
        let add = |a: [f64; 3], b: [f64; 3]| [0, 1, 2].map(|i: usize| a[i] + dt * b[i]);
        State {
            at: add(self.at, rate.at),
            velocity: add(self.velocity, rate.velocity),
            spin: self.spin + dt * rate.spin,
        }
    }
}

/// Everything that acts on one ball.
#[derive(Clone, Copy, Debug)]
pub(super) struct Forces {
    aerodynamics: Aerodynamics,
    stream: Stream,
    /// Half the density times the cross-section over the mass, 1/m.
    push: f64,
    /// Reynolds number per m/s.
    reynolds: f64,
    /// The spin axis: to the right for backspin, its right end down for a ball that curves right.
    axis: (f64, f64),
    spin_loss: f64,
}

impl Forces {
    pub(super) fn new(
        aerodynamics: Aerodynamics,
        air: Air,
        stream: Stream,
        axis_tilt_deg: f64,
    ) -> Self {
        let (sin, cos) = libm::sincos(axis_tilt_deg.to_radians());
        Forces {
            aerodynamics,
            stream,
            push: air.density() * PI * BALL_RADIUS * BALL_RADIUS / (2.0 * BALL_MASS),
            reynolds: air.density() * 2.0 * BALL_RADIUS / VISCOSITY,
            axis: (cos, -sin),
            spin_loss: aerodynamics.spin_loss_per_metre(),
        }
    }

    /// The rate of change of a state: drag against the motion through the air, lift across it, gravity.
    #[inline]
    fn rate(&self, state: &State) -> State {
        let (right, along) = self.stream.at(state.at[2]);
        let [vx, vy, vz] = state.velocity;
        let (x, y, z) = (vx - right, vy - along, vz);
        let speed = (x * x + y * y + z * z).sqrt();
        // A ball at rest in the air has no spin ratio; nothing acts on it but gravity.
        let ratio = state.spin * BALL_RADIUS / speed.max(1e-6);
        let (drag, lift) = self.aerodynamics.coefficients(ratio, self.reynolds * speed);
        let (drag, lift) = (self.push * drag * speed, self.push * lift * speed);
        let (a, c) = self.axis;
        State {
            at: state.velocity,
            velocity: [
                -drag * x - lift * (c * y),
                -drag * y + lift * (c * x - a * z),
                -drag * z + lift * (a * y) - GRAVITY,
            ],
            spin: -self.spin_loss * speed * state.spin,
        }
    }

    /// One step of the classical Runge-Kutta method of order four.
    #[inline]
    pub(super) fn step(&self, state: &State, dt: f64) -> State {
        let k1 = self.rate(state);
        let k2 = self.rate(&state.along(&k1, 0.5 * dt));
        let k3 = self.rate(&state.along(&k2, 0.5 * dt));
        let k4 = self.rate(&state.along(&k3, dt));
        let mean = |a: f64, b: f64, c: f64, d: f64| (a + 2.0 * (b + c) + d) * (1.0 / 6.0);
        let each = |f: fn(&State) -> [f64; 3]| {
            let (a, b, c, d) = (f(&k1), f(&k2), f(&k3), f(&k4));
            [0, 1, 2].map(|i: usize| mean(a[i], b[i], c[i], d[i]))
        };
        let rate = State {
            at: each(|k| k.at),
            velocity: each(|k| k.velocity),
            spin: mean(k1.spin, k2.spin, k3.spin, k4.spin),
        };
        state.along(&rate, dt)
    }

    /// Where within a step of `dt` seconds from `state` a quantity falls to 0, and the state there.
    ///
    /// The quantity is positive at the start and not at the end. False position with Illinois' halving
    /// of the end that stays.
    fn find(&self, state: &State, dt: f64, of: impl Fn(&State) -> f64) -> (f64, State) {
        let (mut low, mut above) = (0.0, of(state));
        let mut found = (dt, self.step(state, dt));
        let (mut high, mut below) = (dt, of(&found.1));
        let mut side = 0;
        for _ in 0..60 {
            if below == 0.0 || high - low < 1e-12 {
                break;
            }
            let middle = low + (high - low) * above / (above - below);
            found = (middle, self.step(state, middle));
            let value = of(&found.1);
            if value.abs() < 1e-10 {
                break;
            }
            if value > 0.0 {
                (low, above) = (middle, value);
                if side == 1 {
                    below *= 0.5;
                }
                side = 1;
            } else {
                (high, below) = (middle, value);
                if side == -1 {
                    above *= 0.5;
                }
                side = -1;
            }
        }
        found
    }

    /// Flies a ball until it comes down to `height` metres, in steps of `dt` seconds; `see` is shown the
    /// state after every step.
    pub(super) fn land(
        &self,
        start: State,
        dt: f64,
        height: f64,
        mut see: impl FnMut(&State),
    ) -> Result<Landed, FlightFault> {
        let (mut state, mut seconds, mut apex) = (start, 0.0, start);
        see(&state);
        while seconds < LONGEST_FLIGHT {
            let next = self.step(&state, dt);
            if state.velocity[2] > 0.0 && next.velocity[2] <= 0.0 {
                // The step ends at the top, so that a landing just after it has a start above it.
                let (part, top) = self.find(&state, dt, |s| s.velocity[2]);
                if top.at[2] > apex.at[2] {
                    apex = top;
                }
                if !(apex.at[2] > height) {
                    return Err(too_high(height, apex.at[2]));
                }
                (state, seconds) = (top, seconds + part);
                // Falling from here on, whatever the rounding.
                state.velocity[2] = 0.0;
            } else if next.velocity[2] <= 0.0 && next.at[2] <= height {
                let (part, end) = self.find(&state, dt, |s| s.at[2] - height);
                see(&end);
                return Ok(Landed {
                    end,
                    seconds: seconds + part,
                    apex,
                });
            } else {
                (state, seconds) = (next, seconds + dt);
            }
            see(&state);
        }
        Err(FlightFault::NeverLands {
            seconds: LONGEST_FLIGHT,
        })
    }
}

/// The end of a flight.
#[derive(Clone, Copy, Debug)]
pub(super) struct Landed {
    /// The ball as it touches down.
    pub(super) end: State,
    /// Time in the air.
    pub(super) seconds: f64,
    /// The ball at its highest.
    pub(super) apex: State,
}

fn too_high(height: f64, apex: f64) -> FlightFault {
    let feet = |metres| feet_from_yards(yards_from_metres(metres));
    FlightFault::TooHigh {
        height_ft: feet(height),
        apex_ft: feet(apex),
    }
}
