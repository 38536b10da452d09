//! The law of strikes written down a second time, from a club's own figures: severity by severity, each normal.
use statrs::distribution::{ContinuousCDF, Normal};
use wideberth::player::ClubParts;

/// Severities of each kind of miss, in the middles of equal parts.
const SEVERITIES: u32 = 2_000;

/// Strikes that are normal together: flush ones, or misses of one kind and one severity.
#[derive(Clone, Copy)]
pub(crate) struct Piece {
    pub(crate) share: f64,
    pub(crate) carry: f64,
    pub(crate) carry_sd: f64,
    pub(crate) side_sd: f64,
    /// Mean run.
    pub(crate) run: f64,
    pub(crate) mishit: bool,
}

/// All strikes of a club from the lie it is at home on, of the part `part` of a full swing (at least three tenths).
pub(crate) struct Law {
    pub(crate) pieces: Vec<Piece>,
    pub(crate) bias: f64,
    pub(crate) correlation: f64,
}

impl Law {
    pub(crate) fn of(club: &ClubParts, part: f64) -> Self {
        Self::over(club, part, SEVERITIES)
    }

    /// The same with so many severities of each kind.
    pub(crate) fn over(club: &ClubParts, part: f64, severities: u32) -> Self {
        let shape = &club.mishit_shape;
        let missed = 2.0 * club.mishit_share;
        let carry = club.carry * part;
        // Half of the spread in depth does not depend on how much of a swing it is.
        let (depth, side) = (club.carry_sd * (0.5 + 0.5 * part), club.lateral_sd * part);
        let flush = Piece {
            share: 1.0 - missed,
            carry,
            carry_sd: depth,
            side_sd: side,
            run: club.run * carry,
            mishit: false,
        };
        let mut pieces = vec![flush];
        let wild_part = 1.0 - shape.duff_part;
        for (part, worst) in [
            (
                shape.duff_part,
                [
                    shape.duff_carry,
                    shape.duff_carry_sd,
                    shape.duff_side,
                    shape.duff_run,
                ],
            ),
            (
                wild_part,
                [
                    shape.wild_carry,
                    shape.wild_carry_sd,
                    shape.wild_side,
                    shape.wild_run,
                ],
            ),
        ] {
            for k in 0..severities {
                let u = (f64::from(k) + 0.5) / f64::from(severities);
                let g = u.powf(shape.mildness);
                let mix = |flush: f64, worst: f64| (1.0 - g) * flush + g * worst;
                // From the first mishit on they run ever more as the worst do.
                let rolled = if u < 0.5 {
                    0.0
                } else {
                    (2.0 * u - 1.0).powf(shape.mildness)
                };
                pieces.push(Piece {
                    share: missed * part / f64::from(severities),
                    carry: mix(carry, worst[0] * carry),
                    carry_sd: mix(depth, worst[1] * carry),
                    side_sd: mix(side, worst[2] * side),
                    run: carry * (club.run + rolled * (worst[3] - club.run)),
                    mishit: u >= 0.5,
                });
            }
        }
        Law {
            pieces,
            bias: club.lateral_bias * part,
            correlation: club.correlation,
        }
    }

    /// Mean over all strikes.
    pub(crate) fn mean(&self, of: impl Fn(&Piece) -> f64) -> f64 {
        self.pieces.iter().map(|p| p.share * of(p)).sum()
    }

    /// The share of strikes that carry less than `x`.
    pub(crate) fn carries_below(&self, x: f64) -> f64 {
        self.mean(|p| below((x - p.carry) / p.carry_sd))
    }

    /// The share of strikes whose lateral is less than `x`.
    pub(crate) fn laterals_below(&self, x: f64) -> f64 {
        self.mean(|p| below((x - self.bias) / p.side_sd))
    }

    /// The carry that a share `p` of strikes stays under.
    pub(crate) fn carry_at(&self, p: f64) -> f64 {
        let (mut low, mut high) = (0.0, 2.0 * self.pieces[0].carry);
        while high - low > 1e-6 {
            let middle = 0.5 * (low + high);
            if self.carries_below(middle) < p {
                low = middle;
            } else {
                high = middle;
            }
        }
        0.5 * (low + high)
    }

    /// Log density of a shot's carry and lateral.
    pub(crate) fn log_density(&self, carry: f64, lateral: f64) -> f64 {
        let rho = self.correlation;
        let open = 1.0 - rho * rho;
        self.mean(|p| {
            let (u, v) = (
                (carry - p.carry) / p.carry_sd,
                (lateral - self.bias) / p.side_sd,
            );
            let square = (u * u - 2.0 * rho * u * v + v * v) / open;
            (-0.5 * square).exp()
                / (2.0 * std::f64::consts::PI * p.carry_sd * p.side_sd * open.sqrt())
        })
        .ln()
    }
}

/// The share of a standard normal below `x`; without any spread the law is a step.
fn below(x: f64) -> f64 {
    Normal::standard().cdf(x.clamp(-40.0, 40.0))
}
