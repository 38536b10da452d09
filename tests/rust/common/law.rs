//! The law of strikes written down a second time, from a club's own figures: severity by severity, each of luck that is normal
//! to the side and bent in depth.
use statrs::distribution::{ContinuousCDF, Normal};
use wideberth::player::ClubParts;

/// Severities of each kind of miss, in the middles of equal parts.
const SEVERITIES: u32 = 2_000;

/// Strikes of one law: flush ones, or misses of one kind and one severity.
#[derive(Clone, Copy)]
pub(crate) struct Piece {
    pub(crate) share: f64,
    /// Carry of even luck.
    pub(crate) carry: f64,
    /// What luck in depth multiplies: bent as flush strikes are, and as it is.
    pub(crate) bent_sd: f64,
    pub(crate) even_sd: f64,
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
    /// How far beyond the middle flush strikes spread, as a share of how far short of it: 6 % of the carry at most.
    pub(crate) beyond: f64,
}

/// Luck of so many standard deviations, bent over a quarter of one about the middle.
fn bent(luck: f64, beyond: f64) -> f64 {
    let hyperbola = luck.hypot(0.25) - 0.25;
    0.5 * (1.0 + beyond) * luck - 0.5 * (1.0 - beyond) * hyperbola
}

/// The share that is left of a spread bounded by 6 % of the carry: the less of both, but for a smooth corner.
fn bounded(spread: f64) -> f64 {
    (1.0 + (spread / 0.06).powi(16)).powf(-0.0625)
}

/// Mean of a function of normal luck: by trapezoids.
fn over_luck(of: impl Fn(f64) -> f64) -> f64 {
    let density = |z: f64| (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt();
    let step = 0.01;
    let at = |k: i32| step * f64::from(k);
    (-900..=900)
        .map(|k| step * density(at(k)) * of(at(k)))
        .sum()
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
            bent_sd: depth,
            even_sd: 0.0,
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
                    bent_sd: mix(depth, 0.0),
                    even_sd: mix(0.0, worst[1] * carry),
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
            beyond: bounded(club.carry_sd / club.carry),
        }
    }

    /// Mean over all strikes.
    pub(crate) fn mean(&self, of: impl Fn(&Piece) -> f64) -> f64 {
        self.pieces.iter().map(|p| p.share * of(p)).sum()
    }

    /// Mean carry over all strikes for which `of` holds, times their share.
    pub(crate) fn mean_carry_of(&self, of: impl Fn(&Piece) -> bool) -> f64 {
        let sunk = over_luck(|z| bent(z, self.beyond));
        self.mean(|p| f64::from(u8::from(of(p))) * (p.carry + p.bent_sd * sunk))
    }

    /// Mean carry over all strikes.
    pub(crate) fn mean_carry(&self) -> f64 {
        self.mean_carry_of(|_| true)
    }

    /// Mean run over all strikes: flush ones run on in proportion to their carry.
    pub(crate) fn mean_run(&self) -> f64 {
        let flush = self.pieces[0];
        let sunk = over_luck(|z| bent(z, self.beyond)) * flush.bent_sd / flush.carry;
        self.mean(|p| p.run) + flush.share * flush.run * sunk
    }

    /// Variance of the carry over all strikes.
    pub(crate) fn variance_of_carry(&self) -> f64 {
        let mean = self.mean_carry();
        let [one, two, both] = [
            over_luck(|z| bent(z, self.beyond)),
            over_luck(|z| bent(z, self.beyond).powi(2)),
            over_luck(|z| z * bent(z, self.beyond)),
        ];
        self.mean(|p| {
            let off = p.carry - mean;
            off * off
                + 2.0 * off * p.bent_sd * one
                + p.bent_sd * p.bent_sd * two
                + 2.0 * p.bent_sd * p.even_sd * both
                + p.even_sd * p.even_sd
        })
    }

    /// Covariance of carry and lateral over all strikes.
    pub(crate) fn covariance(&self) -> f64 {
        let both = over_luck(|z| z * bent(z, self.beyond));
        self.mean(|p| self.correlation * p.side_sd * (p.bent_sd * both + p.even_sd))
    }

    /// The share of strikes that carry less than `x`.
    pub(crate) fn carries_below(&self, x: f64) -> f64 {
        self.mean(|p| below(self.luck(p, x - p.carry)))
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

    /// The luck by which strikes of a piece carry so much more than even luck lets them: by halving.
    fn luck(&self, piece: &Piece, more: f64) -> f64 {
        let (mut low, mut high) = (-40.0, 40.0);
        while high - low > 1e-9 {
            let luck = 0.5 * (low + high);
            if piece.bent_sd * bent(luck, self.beyond) + piece.even_sd * luck < more {
                low = luck;
            } else {
                high = luck;
            }
        }
        0.5 * (low + high)
    }

    /// Log density of a shot's carry and lateral.
    pub(crate) fn log_density(&self, carry: f64, lateral: f64) -> f64 {
        let rho = self.correlation;
        let open = 1.0 - rho * rho;
        self.mean(|p| {
            let u = self.luck(p, carry - p.carry);
            let v = (lateral - self.bias) / p.side_sd;
            let turn = 0.5 * (1.0 + self.beyond) - 0.5 * (1.0 - self.beyond) * u / u.hypot(0.25);
            let depth_sd = p.bent_sd * turn + p.even_sd;
            let square = (u * u - 2.0 * rho * u * v + v * v) / open;
            (-0.5 * square).exp()
                / (2.0 * std::f64::consts::PI * depth_sd * p.side_sd * open.sqrt())
        })
        .ln()
    }
}

/// The share of a standard normal below `x`; without any spread the law is a step.
fn below(x: f64) -> f64 {
    Normal::standard().cdf(x.clamp(-40.0, 40.0))
}
