//! The luck of one stroke: all randomness enters the library through this file.
//!
//! The noise of stroke `k` of play `i` depends on `(seed, i, k)` alone, never on the thread, the
//! batch or the plan, so plans compared under one seed meet the same luck, 100 plays and then 900
//! are the 1,000 plays, and any stroke can be replayed by itself.

use crate::stats::normal_quantile;
use rand::Rng;
use rand_distr::{Distribution, StandardNormal};
use rand_pcg::Pcg64Dxsm;
use serde::{Deserialize, Serialize};

/// A seed that fixes every result.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct Seed(pub u64);

impl Seed {
    /// A seed of its own for a part of what this one fixes, such as a hole of a round: parts have no luck in common with one
    /// another, nor with the whole.
    #[must_use]
    pub fn part(self, number: u64) -> Seed {
        Seed(mix(mix(self.0 ^ 0xbb67_ae85_84ca_a73b).wrapping_add(number)))
    }
}

/// The luck of one stroke: two standard normals and three uniforms on [0, 1).
///
/// Each field has one use per kind of stroke, so that two plans that meet the same noise share as
/// much luck as they can: a long swing stays long whatever the club.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Noise {
    /// Standard normal: how far the ball goes (carry of a swing, pace of a putt).
    pub depth: f64,
    /// Standard normal: how far it goes to the side (right of the aim is positive).
    pub side: f64,
    /// Uniform: which strike it is (below the mishit share: a mishit).
    pub strike: f64,
    /// Uniform: what the trees do to the ball.
    pub trees: f64,
    /// Uniform: how the ball is found (lost, unplayable, playable).
    pub search: f64,
}

impl Noise {
    /// A stroke with no luck at all: solid, straight and exactly as far as meant.
    pub const NONE: Noise = Noise {
        depth: 0.0,
        side: 0.0,
        strike: 0.999_999,
        trees: 0.5,
        search: 0.999_999,
    };
}

/// A fixed set of `n` strokes' luck spread evenly over all luck there is (quasi-random), for averages
/// that must not depend on a seed.
///
/// The additive recurrence on the generalised golden ratio in five dimensions (Roberts 2018, "The
/// unreasonable effectiveness of quasirandom sequences"). Every stroke is followed by its mirror image, so that left and right
/// are told apart by the hole alone, and every two by two of the opposite depth (antithetic, Hammersley and Morton 1956): of
/// every four strokes long and short, left and right are in balance.
#[must_use]
pub fn spread(n: u32) -> Vec<Noise> {
    // The positive root of x^6 = x + 1, whose negative powers are the steps.
    const RATIO: f64 = 1.134_724_138_401_519_4;
    let place = |i: u32, power: i32| (0.5 + f64::from(i + 1) / RATIO.powi(power)).fract();
    let sign = |i: u32| if i.is_multiple_of(2) { 1.0 } else { -1.0 };
    (0..n)
        .map(|i| {
            let pair = i / 2;
            Noise {
                depth: sign(pair) * normal_quantile(place(pair / 2, 1)),
                side: sign(i) * normal_quantile(place(pair, 2)),
                strike: place(pair, 3),
                trees: place(pair, 4),
                search: place(pair, 5),
            }
        })
        .collect()
}

/// The luck of one play: gives the noise of each of its strokes.
#[derive(Clone, Copy, Debug)]
pub struct PlayNoise {
    key: u64,
    play: u64,
}

impl PlayNoise {
    /// The luck of play number `play` under `seed`.
    #[must_use]
    pub fn new(seed: Seed, play: u64) -> Self {
        // The play number is hashed together with the seed: neighbouring seeds and plays must not
        // give related streams.
        PlayNoise {
            key: mix(mix(seed.0 ^ 0x9e37_79b9_7f4a_7c15).wrapping_add(play)),
            play,
        }
    }

    /// The noise of the stroke numbered `stroke` (the first is 0).
    #[must_use]
    pub fn stroke(&self, stroke: u32) -> Noise {
        let mut rng = self.stream(stroke);
        let strike = uniform(&mut rng);
        let (trees, search) = uniform_pair(&mut rng);
        Noise {
            depth: StandardNormal.sample(&mut rng),
            side: StandardNormal.sample(&mut rng),
            strike,
            trees,
            search,
        }
    }

    /// The generator behind one stroke: PCG64-DXSM (O'Neill 2014; the variant NumPy calls
    /// `PCG64DXSM`) with a hashed state and the stroke and play as its stream.
    fn stream(&self, stroke: u32) -> Pcg64Dxsm {
        let low = mix(self.key ^ u64::from(stroke).wrapping_mul(0xd134_2543_de82_ef95));
        let high = mix(low ^ self.key.rotate_left(32));
        let state = (u128::from(high) << 64) | u128::from(low);
        Pcg64Dxsm::new(state, (u128::from(self.play) << 32) | u128::from(stroke))
    }
}

/// Keys that scramble the numbers of a stroke in one of many sets of even luck: they depend on `(seed, set, stroke)` alone
/// and have nothing in common with the luck of plays.
pub(crate) fn keys(seed: Seed, set: u64, stroke: u32) -> [u32; 5] {
    let own = mix(mix(seed.0 ^ 0x6a09_e667_f3bc_c908).wrapping_add(set));
    let stroke = mix(own ^ u64::from(stroke).wrapping_mul(0xd134_2543_de82_ef95));
    std::array::from_fn(|number| (mix(stroke.wrapping_add(number as u64 + 1)) >> 32) as u32)
}

/// The finaliser of SplitMix64 (Steele, Lea and Flood 2014): every input bit reaches every output bit.
fn mix(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A uniform on [0, 1) from the top 53 bits.
fn uniform(rng: &mut impl Rng) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "53 bits fit an f64 exactly")]
    let bits = (rng.next_u64() >> 11) as f64;
    bits * (1.0 / 9_007_199_254_740_992.0)
}

/// Two uniforms on [0, 1) from the halves of one draw: a grain of 2^-32 is fine enough for a chance.
fn uniform_pair(rng: &mut impl Rng) -> (f64, f64) {
    let bits = rng.next_u64();
    let half = |bits: u64| (bits & 0xffff_ffff) as f64 * (1.0 / 4_294_967_296.0);
    (half(bits >> 32), half(bits))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_noise_never_changes() {
        // Golden values: a dependency that shifts them shifts every published result. The raw bits were
        // computed independently with the PCG64DXSM of NumPy, set to the same state.
        let first = PlayNoise::new(Seed(11), 0);
        assert_eq!(first.stream(0).next_u64(), GOLDEN_BITS[0]);
        assert_eq!(
            PlayNoise::new(Seed(11), 1).stream(3).next_u64(),
            GOLDEN_BITS[1]
        );
        assert_eq!(first.stroke(0).depth.to_bits(), GOLDEN_DEPTH.to_bits());
    }

    const GOLDEN_BITS: [u64; 2] = [4_792_793_892_065_446_751, 16_618_211_980_401_174_497];
    const GOLDEN_DEPTH: f64 = 0.485_536_329_537_896_7;

    #[test]
    fn plays_seeds_and_strokes_do_not_repeat_each_other() {
        let mut seen = std::collections::HashSet::new();
        for seed in 0..20 {
            for play in 0..50 {
                for stroke in 0..20 {
                    assert!(
                        seen.insert(PlayNoise::new(Seed(seed), play).stream(stroke).next_u64())
                    );
                }
            }
        }
    }

    #[test]
    fn parts_have_luck_of_their_own() {
        let mut seen = std::collections::HashSet::new();
        for seed in 0..50 {
            assert!(seen.insert(Seed(seed)));
            for part in 0..18 {
                assert!(seen.insert(Seed(seed).part(part)));
            }
        }
        assert_eq!(Seed(1).part(3), Seed(1).part(3));
    }

    #[test]
    fn the_fields_have_the_moments_they_claim() {
        // 200,000 strokes: each mean must lie within 4.5 standard errors, false-alarm rate 7e-6 each.
        let n = 200_000;
        let draws: Vec<Noise> = (0..n / 10)
            .flat_map(|play| (0..10).map(move |k| PlayNoise::new(Seed(3), play).stroke(k)))
            .collect();
        let mean = |f: &dyn Fn(&Noise) -> f64| draws.iter().map(f).sum::<f64>() / n as f64;
        let close = |value: f64, wanted: f64, sd: f64| {
            assert!(
                (value - wanted).abs() < 4.5 * sd / (n as f64).sqrt(),
                "{value} is not {wanted}"
            );
        };
        close(mean(&|x| x.depth), 0.0, 1.0);
        close(mean(&|x| x.side), 0.0, 1.0);
        close(mean(&|x| x.depth * x.depth), 1.0, 2f64.sqrt());
        close(mean(&|x| x.side * x.side), 1.0, 2f64.sqrt());
        close(mean(&|x| x.depth * x.side), 0.0, 1.0);
        close(mean(&|x| x.strike), 0.5, (1.0 / 12f64).sqrt());
        close(mean(&|x| x.trees), 0.5, (1.0 / 12f64).sqrt());
        close(mean(&|x| x.search), 0.5, (1.0 / 12f64).sqrt());
        close(
            mean(&|x| x.depth * (x.strike - 0.5)),
            0.0,
            (1.0 / 12f64).sqrt(),
        );
    }

    #[test]
    fn every_stroke_of_the_spread_set_has_its_mirror_image() {
        for pair in spread(256).chunks_exact(2) {
            let mirrored = Noise {
                side: -pair[0].side,
                ..pair[0]
            };
            assert_eq!(pair[1], mirrored);
        }
    }

    #[test]
    fn the_spread_set_averages_better_than_chance() {
        let set = spread(256);
        let mean = |f: &dyn Fn(&Noise) -> f64| set.iter().map(f).sum::<f64>() / 256.0;
        // Independent draws would miss by about 1/16; the even spread by far less.
        assert!(mean(&|x| x.depth).abs() < 1e-12);
        assert!(mean(&|x| x.side).abs() < 1e-12);
        assert!((mean(&|x| x.depth * x.depth) - 1.0).abs() < 0.05);
        assert!(mean(&|x| x.depth * x.side).abs() < 0.05);
        assert!((mean(&|x| x.strike) - 0.5).abs() < 0.01);
    }
}
