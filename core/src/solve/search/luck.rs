//! The fixed sets of luck over which shots are averaged.
use crate::noise::Noise;
use crate::stats::normal_quantile;

/// Numbers of a point: depth, side, strike, trees, search.
const DIMENSIONS: usize = 5;

/// An even set of `1 << bits` strokes' luck: Sobol' points, scrambled.
///
/// Sobol' 1967 with the direction numbers of Joe and Kuo 2008 (new-joe-kuo-6.21201), scrambled after Owen 1995 by
/// the hash of Laine and Karras 2011: different `scramble` give independent sets, and the first 8, 16, 32, ... of a set are
/// even by themselves. Averages over them are unbiased: one stroke of a set stands for each tail, however far out it falls.
pub(in crate::solve) fn even(bits: u32, scramble: u32) -> Vec<Noise> {
    (0..1_u32 << bits)
        .map(|i| {
            let at: [f64; DIMENSIONS] = std::array::from_fn(|d| place(i, d, scramble));
            Noise {
                depth: normal_quantile(at[0]),
                side: normal_quantile(at[1]),
                strike: at[2],
                trees: at[3],
                search: at[4],
            }
        })
        .collect()
}

/// Point `i` of Sobol' as the luck of a stroke, each number scrambled by its key. Under random keys every point by itself
/// is as random as can be, while all together are even.
pub(crate) fn scrambled(i: u32, keys: &[u32; DIMENSIONS]) -> Noise {
    let at: [f64; DIMENSIONS] = std::array::from_fn(|d| within(owen(sobol(i, d), keys[d])));
    // Which strike it is decides most, so it is dealt out by the evenest number.
    Noise {
        strike: at[0],
        depth: normal_quantile(at[1]),
        side: normal_quantile(at[2]),
        trees: at[3],
        search: at[4],
    }
}

/// One scrambled number of point `i`, in (0, 1).
fn place(i: u32, dimension: usize, scramble: u32) -> f64 {
    #[expect(clippy::cast_possible_truncation, reason = "five dimensions")]
    let key = hash(scramble ^ hash(dimension as u32 + 1));
    within(owen(sobol(i, dimension), key))
}

/// The middle of the interval of (0, 1) that 32 bits tell.
fn within(bits: u32) -> f64 {
    (f64::from(bits) + 0.5) * (1.0 / 4_294_967_296.0)
}

/// The degree, the coefficients and the first direction numbers of the primitive polynomials of dimensions 2 to 5.
const POLYNOMIALS: [(usize, u32, [u32; 3]); DIMENSIONS - 1] = [
    (1, 0, [1, 0, 0]),
    (2, 1, [1, 3, 0]),
    (3, 1, [1, 3, 1]),
    (3, 2, [1, 1, 1]),
];

/// What each bit of a point's number adds, in dimensions 2 to 5.
const DIRECTIONS: [[u32; 32]; DIMENSIONS - 1] = [
    directions(POLYNOMIALS[0]),
    directions(POLYNOMIALS[1]),
    directions(POLYNOMIALS[2]),
    directions(POLYNOMIALS[3]),
];

const fn directions((degree, coefficients, first): (usize, u32, [u32; 3])) -> [u32; 32] {
    let mut directions = [0; 32];
    let mut k = 0;
    while k < 32 {
        directions[k] = if k < degree {
            first[k] << (31 - k)
        } else {
            let old = directions[k - degree];
            let mut next = old ^ (old >> degree);
            let mut j = 1;
            while j < degree {
                if coefficients >> (degree - 1 - j) & 1 == 1 {
                    next ^= directions[k - j];
                }
                j += 1;
            }
            next
        };
        k += 1;
    }
    directions
}

/// The bits of point `i` of the sequence in one dimension, the first bit after the point highest.
fn sobol(i: u32, dimension: usize) -> u32 {
    if dimension == 0 {
        return i.reverse_bits();
    }
    let (mut left, mut bits) = (i, 0);
    while left != 0 {
        bits ^= DIRECTIONS[dimension - 1][left.trailing_zeros() as usize];
        left &= left - 1;
    }
    bits
}

/// Nested uniform scrambling of all bits from the highest down.
fn owen(bits: u32, key: u32) -> u32 {
    let mut x = bits.reverse_bits().wrapping_add(key);
    for factor in [0x6c50_b47c, 0xb82f_1e52, 0xc7af_e638, 0x8d22_f6e6] {
        x ^= x.wrapping_mul(factor);
    }
    x.reverse_bits()
}

/// A hash of 32 bits (the finaliser of MurmurHash3, Appleby 2011).
fn hash(mut x: u32) -> u32 {
    x ^= x >> 16;
    x = x.wrapping_mul(0x85eb_ca6b);
    x ^= x >> 13;
    x = x.wrapping_mul(0xc2b2_ae35);
    x ^ (x >> 16)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Computed independently with SciPy's `qmc.Sobol(d=5, scramble=False)`, which lists the points in Gray-code order:
    /// the same eight points as a set.
    #[test]
    fn the_points_are_those_of_sobol() {
        let eighths = |i: u32| -> [u32; DIMENSIONS] { std::array::from_fn(|d| sobol(i, d) >> 29) };
        let mut points: Vec<_> = (0..8).map(eighths).collect();
        points.sort_unstable();
        assert_eq!(points, SCIPY_EIGHTHS);
    }

    const SCIPY_EIGHTHS: [[u32; DIMENSIONS]; 8] = [
        [0, 0, 0, 0, 0],
        [1, 5, 3, 1, 1],
        [2, 6, 6, 6, 2],
        [3, 3, 5, 7, 3],
        [4, 4, 4, 4, 4],
        [5, 1, 7, 5, 5],
        [6, 2, 2, 2, 6],
        [7, 7, 1, 3, 7],
    ];

    /// Of a normal 0.0026998 lies more than 3 from the middle. So much does of the sets, within 4.5 standard errors of what they
    /// scatter (false-alarm rate 7e-6).
    #[test]
    fn sets_have_the_tails_of_a_normal() {
        const SETS: u32 = 4_000;
        let far = |set: Vec<Noise>| {
            let far = set.iter().filter(|n| n.side.abs() > 3.0);
            f64::from(u32::try_from(far.count()).unwrap()) / 64.0
        };
        let all: Vec<f64> = (0..SETS).map(|s| far(even(6, 100 + s))).collect();
        let mean = all.iter().sum::<f64>() / f64::from(SETS);
        let square = all.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / f64::from(SETS);
        let error = (square / f64::from(SETS)).sqrt();
        assert!(
            (mean - 0.002_699_8).abs() < 4.5 * error,
            "{mean} +- {error}"
        );
    }

    #[test]
    fn every_power_of_two_fills_every_stratum() {
        for scramble in 0..4 {
            for bits in 3..=7 {
                let n = 1_usize << bits;
                for d in 0..DIMENSIONS {
                    let mut seen = vec![false; n];
                    for i in 0..1_u32 << bits {
                        #[expect(
                            clippy::cast_possible_truncation,
                            clippy::cast_sign_loss,
                            clippy::cast_precision_loss,
                            reason = "a share of n"
                        )]
                        let stratum = (place(i, d, scramble) * n as f64) as usize;
                        assert!(!std::mem::replace(&mut seen[stratum], true));
                    }
                }
            }
        }
    }

    /// A normal has mean 0, variance 1 and fourth moment 3; a finite set misses the far tail.
    #[test]
    fn sets_have_the_moments_of_a_normal_and_differ() {
        let (one, other) = (even(8, 1), even(8, 2));
        assert_ne!(one, other);
        for set in [one, other] {
            let mean = |f: &dyn Fn(&Noise) -> f64| set.iter().map(f).sum::<f64>() / 256.0;
            assert!(mean(&|n| n.depth).abs() < 0.02);
            assert!((mean(&|n| n.side * n.side) - 1.0).abs() < 0.05);
            assert!(mean(&|n| n.side * n.depth).abs() < 0.02);
            assert!((mean(&|n| n.strike) - 0.5).abs() < 0.003);
            assert!((mean(&|n| n.depth.powi(4)) - 3.0).abs() < 0.5);
        }
    }
}
