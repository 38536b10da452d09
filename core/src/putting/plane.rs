//! The exact path of a ball rolling on a plane.
//!
//! dv/dt = -a (v/|v| - w), where a is the deceleration on the level and w points downhill with the length k: the
//! grade over the grade at which a ball would not come to rest ([`super::no_rest_grade`]). It is the equation of
//! Penner 2002 ("The physics of putting", Can. J. Phys. 80:83) in the plan, where grades of a few per cent make
//! no difference to lengths (0.1 % at 4 %).
//!
//! Solution (worked out here, checked against numerical integration): take the downhill direction as first axis and
//! let c, s be the components of the unit launch direction, R the roll-out the launch would have on the level and
//! y >= 0 the progress, with dy = a dt / |v|. The speed across the slope falls as e^-y while (|v|, speed
//! downhill) turns like a rapidity that grows by k y: with E = e^(k y),
//!
//! - |v| / v0 = e^-y (f E + g / E) / 2, downhill speed / v0 = e^-y (f E - g / E) / 2, across / v0 = s e^-y,
//! - still to go downhill: R e^-2y (f^2 E^2 / (1 - k) - g^2 / E^2 / (1 + k)) / 4,
//! - still to go across: R e^-2y s (f E / (2 - k) + g / E / (2 + k)),
//!
//! where f = 1 + c and g = 1 - c. Paths on a plane depend on length and green speed through k alone and scale with R.

use std::f64::consts::PI;

/// What a launch direction and a slope share, over and over in the formulas.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plane {
    /// The grade over the grade at which a ball would not come to rest; below 1.
    k: f64,
    /// 1 / 4(1 - k), 1 / 4(1 + k), 1 / (2 - k), 1 / (2 + k).
    shares: [f64; 4],
}

/// A launch on a plane.
#[derive(Clone, Copy, Debug)]
pub(super) struct Launch {
    plane: Plane,
    /// Roll-out on the level, yards.
    roll: f64,
    /// 1 + c, 1 - c and s.
    f: f64,
    g: f64,
    s: f64,
}

/// A ball on its way.
#[derive(Clone, Copy, Debug)]
pub(super) struct Moving {
    /// Still to go, downhill and across.
    pub(super) to_go: (f64, f64),
    /// Direction, downhill and across.
    pub(super) heading: (f64, f64),
    /// v0 e^-y / v.
    pub(super) slowness: f64,
}

impl Plane {
    #[inline]
    pub(super) fn new(k: f64) -> Self {
        let (one, two) = (1.0 - k * k, 4.0 - k * k);
        let over = 1.0 / (one * two);
        let (by_one, by_two) = (over * two, over * one);
        Plane {
            k,
            shares: [
                0.25 * (1.0 + k) * by_one,
                0.25 * (1.0 - k) * by_one,
                (2.0 + k) * by_two,
                (2.0 - k) * by_two,
            ],
        }
    }

    /// A launch in the direction (`c`, `s`), downhill and across, that would roll `roll` yards on the level.
    #[inline]
    pub(super) fn launch(self, c: f64, s: f64, roll: f64) -> Launch {
        Launch {
            plane: self,
            roll,
            f: 1.0 + c,
            g: 1.0 - c,
            s,
        }
    }
}

impl Launch {
    /// The roll-out on the level, yards.
    #[inline]
    pub(super) fn roll(&self) -> f64 {
        self.roll
    }

    /// Where the ball comes to rest, downhill and across from where it was struck.
    #[inline]
    pub(super) fn rest(&self) -> (f64, f64) {
        self.ahead_of(1.0, 1.0, 1.0)
    }

    /// The ball when e^-2y is `left`.
    #[inline]
    pub(super) fn at(&self, left: f64) -> Moving {
        let e = exp2(-0.5 * self.plane.k * log2(left));
        // One division gives 1 / e and the reciprocal of the speed.
        let both = self.f * e * e + self.g;
        let over = 1.0 / (e * both);
        let inverse = over * both;
        let slowness = 2.0 * e * e * over;
        let (up, down) = (self.f * e, self.g * inverse);
        Moving {
            to_go: self.ahead_of(left, e, inverse),
            heading: (0.5 * (up - down) * slowness, self.s * slowness),
            slowness,
        }
    }

    #[inline]
    fn ahead_of(&self, left: f64, e: f64, inverse: f64) -> (f64, f64) {
        let [steep, gentle, slow, fast] = self.plane.shares;
        let (up, down) = (self.f * e, self.g * inverse);
        let scale = self.roll * left;
        (
            scale * (up * up * steep - down * down * gentle),
            scale * self.s * (up * slow + down * fast),
        )
    }
}

/// The logarithm to base 2 of a positive normal number, to 0.000003: a polynomial through the Chebyshev nodes of one octave.
#[inline]
fn log2(x: f64) -> f64 {
    const ONE: u64 = 0x3ff0_0000_0000_0000;
    let bits = x.to_bits();
    #[expect(
        clippy::cast_possible_wrap,
        clippy::cast_precision_loss,
        reason = "11 bits"
    )]
    let octave = (bits >> 52) as i64 as f64 - 1023.0;
    let m = f64::from_bits(bits & !(0xfff << 52) | ONE);
    let square = m * m;
    octave
        + (LOG2[0] + LOG2[1] * m)
        + square * ((LOG2[2] + LOG2[3] * m) + square * (LOG2[4] + LOG2[5] * m + LOG2[6] * square))
}

const LOG2: [f64; 7] = [
    -3.034_602_850_171_000_7,
    6.089_895_762_554_059,
    -5.301_709_108_641_906,
    3.249_466_561_295_933,
    -1.247_962_495_430_827_3,
    0.270_037_457_420_482_63,
    -0.025_123_203_285_849_185,
];

/// 2 to the power of a number between -1000 and 1000, to 0.0000002: a polynomial through the Chebyshev nodes of one octave.
#[inline]
fn exp2(x: f64) -> f64 {
    // Cut off above zero: a call to floor would cost as much as the rest.
    #[expect(clippy::cast_possible_truncation, reason = "a small number")]
    let whole = (x + 1024.0) as i64 - 1024;
    #[expect(clippy::cast_precision_loss, reason = "a small integer")]
    let t = x - whole as f64;
    #[expect(clippy::cast_sign_loss, reason = "a small integer made positive")]
    let octave = f64::from_bits(((whole + 1023) as u64) << 52);
    let square = t * t;
    octave
        * ((EXP2[0] + EXP2[1] * t)
            + square * ((EXP2[2] + EXP2[3] * t) + square * (EXP2[4] + EXP2[5] * t)))
}

const EXP2: [f64; 6] = [
    0.999_999_895_763_136,
    0.693_154_620_003_298_3,
    0.240_140_770_091_838_92,
    0.055_863_282_659_267_11,
    0.008_946_214_666_312_844,
    0.001_895_107_291_013_427_2,
];

/// The launch that enters the centre of the hole, in units of the distance to it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entering {
    /// Roll-out of the launch on the level.
    pub(super) roll: f64,
    /// e^-2y at the hole.
    pub(super) left: f64,
    /// Angle by which the launch is turned uphill from the line to the hole, radians, 0 to pi.
    pub(super) aim: f64,
}

/// Solves for the launch over a unit distance in the direction (`along`, `across`), downhill and across (>= 0),
/// of a plane of slope `k`, that enters the hole with a roll-out on the level of `past` left.
///
/// None where it finds no launch.
pub(super) fn enter(k: f64, along: f64, across: f64, past: f64) -> Option<Entering> {
    if !(across > 1e-9) {
        return Some(Entering {
            roll: 1.0 - k * along + past,
            left: libm::pow(past / (1.0 - k * along + past), 1.0 / (1.0 - k * along)),
            aim: 0.0,
        });
    }
    let hole = (along, across);
    let found = converge(first_guess(k, hole, past), hole).or_else(|| {
        // Where a fast putt is easy and a dying one is not, slow down step by step.
        let mut back = first_guess(k, hole, past * SLOWER.powi(SLOWINGS));
        for left in (0..SLOWINGS).rev() {
            back = converge(back, hole)?;
            let progress = back.progress + 0.5 * libm::log(SLOWER);
            back = Back::new(k, back.turn, progress, past * SLOWER.powi(left));
        }
        converge(back, hole)
    })?;
    Some(found.entering(libm::atan2(across, along)))
}

const SLOWER: f64 = 1.5;
const SLOWINGS: i32 = 30;

/// Newton's method on the path run backwards from the hole, in the direction at the hole and the progress.
fn converge(mut back: Back, hole: (f64, f64)) -> Option<Back> {
    for _ in 0..60 {
        if back.off(hole) < 1e-10 {
            return Some(back);
        }
        let (turn, progress) = back.step(hole)?;
        back = back.moved(turn, progress);
    }
    None
}

/// A slope so weak that it bends the line evenly in time.
fn first_guess(k: f64, (along, across): (f64, f64), past: f64) -> Back {
    let bearing = libm::atan2(across, along);
    let progress = 0.5 * libm::log(((1.0 - 0.9 * k * along).max(0.1) + past) / past);
    let left = libm::exp(-2.0 * progress);
    let lead = 0.5 * (1.0 - 2.0 * progress * left / (1.0 - left));
    let heading = (bearing + k * across * (lead - progress))
        .clamp(0.01 * bearing, PI - 0.01 * (PI - bearing));
    Back::new(k, libm::log(libm::tan(0.5 * heading)), progress, past)
}

/// The path run backwards from the hole.
#[derive(Clone, Copy)]
struct Back {
    k: f64,
    /// Roll-out on the level that is left at the hole.
    past: f64,
    /// The logarithm of tan(heading / 2) at the hole; it falls by k y on the way.
    turn: f64,
    /// y at the hole.
    progress: f64,
    /// From the start to the hole, and its derivatives.
    from_start: (f64, f64),
    by_turn: (f64, f64),
    by_progress: (f64, f64),
    /// Velocity at the start over the speed at the hole, downhill and across, and the speed.
    velocity: (f64, f64, f64),
}

impl Back {
    fn new(k: f64, turn: f64, progress: f64, past: f64) -> Self {
        let t = libm::exp(turn);
        let over = 1.0 / (1.0 + t * t);
        let (f, g, s) = (2.0 * over, 2.0 * t * t * over, 2.0 * t * over);
        let c = f - 1.0;
        // (e^(q y) - 1) / q
        let grown = |q: f64| {
            let gain = q * progress;
            if gain.abs() < 1e-9 {
                progress
            } else {
                libm::expm1(gain) / q
            }
        };
        let (steep, gentle) = (grown(2.0 * (1.0 - k)), grown(2.0 * (1.0 + k)));
        let (slow, fast) = (grown(2.0 - k), grown(2.0 + k));
        let (ahead, e) = (libm::exp(progress), libm::exp(-k * progress));
        let (up, down) = (f * e, g / e);
        let velocity = (
            0.5 * ahead * (up - down),
            ahead * s,
            0.5 * ahead * (up + down),
        );
        Back {
            k,
            past,
            turn,
            progress,
            from_start: (
                0.5 * past * (f * f * steep - g * g * gentle),
                past * s * (f * slow + g * fast),
            ),
            by_turn: (
                -past * s * s * (f * steep + g * gentle),
                past * s * ((2.0 * c - 1.0) * f * slow + (2.0 * c + 1.0) * g * fast),
            ),
            by_progress: (
                2.0 * past * velocity.0 * velocity.2,
                2.0 * past * velocity.1 * velocity.2,
            ),
            velocity,
        }
    }

    /// Distance of the start's image from the hole: logarithm of the length, and bearing.
    fn misses(&self, (along, across): (f64, f64)) -> (f64, f64) {
        let (x, y) = self.from_start;
        (
            0.5 * libm::log(x * x + y * y),
            libm::atan2(y * along - x * across, x * along + y * across),
        )
    }

    fn off(&self, hole: (f64, f64)) -> f64 {
        let (length, bearing) = self.misses(hole);
        length.hypot(bearing)
    }

    /// Newton's step in turn and progress.
    fn step(&self, hole: (f64, f64)) -> Option<(f64, f64)> {
        let (length, bearing) = self.misses(hole);
        let (x, y) = self.from_start;
        let square = x * x + y * y;
        let polar = |(dx, dy): (f64, f64)| ((x * dx + y * dy) / square, (x * dy - y * dx) / square);
        let (lt, bt) = polar(self.by_turn);
        let (lp, bp) = polar(self.by_progress);
        let det = lt * bp - lp * bt;
        let turn = (lp * bearing - length * bp) / det;
        let progress = (length * bt - lt * bearing) / det;
        (turn.is_finite() && progress.is_finite())
            .then(|| (turn.clamp(-1.0, 1.0), progress.clamp(-1.0, 1.0)))
    }

    fn moved(&self, turn: f64, progress: f64) -> Back {
        let progress = (self.progress + progress).max(0.1 * self.progress);
        Back::new(self.k, self.turn + turn, progress, self.past)
    }

    fn entering(&self, bearing: f64) -> Entering {
        let (downhill, across, speed) = self.velocity;
        Entering {
            roll: self.past * speed * speed,
            left: libm::exp(-2.0 * self.progress),
            aim: libm::atan2(across, downhill) - bearing,
        }
    }
}
