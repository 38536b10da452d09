//! How far a stroke goes, for choosing it: carry and run together, by the carry meant and the wind.
use crate::flight::FlightTable;
use crate::geometry::{Point, Vector, right_of};

/// What to mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Meant {
    /// The carry, yards, as on a still day on level ground.
    pub carry: f64,
    /// The point to aim over.
    pub target: Point,
}

/// Number of carries, and of directions of the wind, that are worked out.
const CARRIES: usize = 9;
const WINDS: usize = 5;

/// Carry and run together, and the drift, of solid strikes on the level ground of a day: what a player plans with.
///
/// Between the carries and the directions of the wind worked out everything is straight.
#[derive(Clone, Debug, PartialEq)]
pub struct Distances {
    /// Unit vector the wind blows to; zero in still air.
    wind_to: Vector,
    /// The longest carry that can be meant.
    full: f64,
    /// `totals[wind][carry]`, yards; rising with the carry.
    totals: [[f64; CARRIES]; WINDS],
    /// Yards of drift where the wind is square to the aim, in the same order.
    drifts: [[f64; CARRIES]; WINDS],
}

impl Distances {
    /// Works the distances out; `run` is where a ball comes to rest from where it landed.
    pub(super) fn new(
        flight: &FlightTable,
        full: f64,
        run: impl Fn(f64, Vector) -> Vector,
    ) -> Self {
        let wind_to = flight.wind_to();
        let windy = wind_to != Vector::zeros();
        let mut distances = Distances {
            wind_to,
            full,
            totals: [[0.0; CARRIES]; WINDS],
            drifts: [[0.0; CARRIES]; WINDS],
        };
        for w in 0..WINDS {
            if w > 0 && !windy {
                distances.totals[w] = distances.totals[0];
                continue;
            }
            let along = steps(w) / steps(WINDS - 1) * 2.0 - 1.0;
            // The aim for which so much of the wind is along, and the rest from its left.
            let aim = |along: f64| {
                if windy {
                    let across = (1.0 - along * along).max(0.0).sqrt();
                    wind_to * along - right_of(wind_to) * across
                } else {
                    Vector::y()
                }
            };
            let forward = aim(along);
            // Not quite along: the drift is told per share of the wind that is across.
            let aside = aim(along.clamp(-0.98, 0.98));
            let right = right_of(aside);
            let across = aside.y * wind_to.x - aside.x * wind_to.y;
            for k in 1..CARRIES {
                let carry = full * steps(k) / steps(CARRIES - 1);
                let track = flight.track(carry, forward);
                let total = track.carry + run(carry, forward).dot(&forward);
                let before = distances.totals[w][k - 1];
                // More carry goes farther: what little the last hop makes of it is evened out.
                let least = before + 0.1 * full / steps(CARRIES - 1);
                distances.totals[w][k] = total.max(least);
                if windy {
                    let drift = flight.track(carry, aside).drift + run(carry, aside).dot(&right);
                    distances.drifts[w][k] = drift / across;
                }
            }
        }
        distances
    }

    /// How much of the wind is along the unit vector `forward`, -1 to 1; 0 in still air.
    #[must_use]
    #[inline]
    pub fn along(&self, forward: Vector) -> f64 {
        forward.dot(&self.wind_to)
    }

    /// The carry to mean so that carry and run come to `total` yards with so much wind along; beyond the longest in
    /// proportion.
    #[must_use]
    #[inline]
    pub fn carry_for(&self, total: f64, along: f64) -> f64 {
        let blended;
        let totals = if self.wind_to == Vector::zeros() {
            &self.totals[0]
        } else {
            let (w, v) = cell(along);
            let (row, next) = (&self.totals[w], &self.totals[w + 1]);
            blended = std::array::from_fn(|k| row[k] + v * (next[k] - row[k]));
            &blended
        };
        // Which carries it lies between: counted, which needs no branches.
        let inner = &totals[1..CARRIES - 1];
        let k = 1 + inner.iter().map(|t| usize::from(*t < total)).sum::<usize>();
        let (low, high) = (totals[k - 1], totals[k]);
        let step = self.full / steps(CARRIES - 1);
        step * (steps(k - 1) + (total - low) / (high - low))
    }

    /// Carry and run of a solid strike meant to carry `carry` yards with so much wind along.
    #[must_use]
    #[inline]
    pub fn total_for(&self, carry: f64, along: f64) -> f64 {
        self.read(&self.totals, carry, along)
    }

    /// Yards by which such a strike drifts to the right when aimed along `forward`.
    #[must_use]
    #[inline]
    pub fn drift_for(&self, carry: f64, forward: Vector) -> f64 {
        let across = forward.y * self.wind_to.x - forward.x * self.wind_to.y;
        across * self.read(&self.drifts, carry, self.along(forward))
    }

    #[inline]
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the rows"
    )]
    fn read(&self, rows: &[[f64; CARRIES]; WINDS], carry: f64, along: f64) -> f64 {
        let (w, v) = cell(along);
        let at = (carry / self.full * steps(CARRIES - 1)).max(0.0);
        let k = (at as usize).min(CARRIES - 2);
        let u = at - steps(k);
        let row = |w: usize| rows[w][k] + u * (rows[w][k + 1] - rows[w][k]);
        row(w) + v * (row(w + 1) - row(w))
    }
}

/// The directions of the wind between which a share of it along the aim lies, and the place between them.
#[inline]
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the rows"
)]
fn cell(along: f64) -> (usize, f64) {
    let at = ((along + 1.0) * 0.5 * steps(WINDS - 1)).clamp(0.0, steps(WINDS - 1));
    let w = (at as usize).min(WINDS - 2);
    (w, at - steps(w))
}

#[inline]
#[expect(clippy::cast_precision_loss, reason = "a small count")]
fn steps(k: usize) -> f64 {
    k as f64
}
