//! The luck of one stroke: all randomness enters the library through this file.
//!
//! The noise of stroke `k` of play `i` depends on `(seed, i, k)` alone, never on the thread, the
//! batch or the plan, so plans compared under one seed meet the same luck, 100 plays and then 900
//! are the 1,000 plays, and any stroke can be replayed by itself.

use rand::{Rng, SeedableRng};
use rand_distr::{Distribution, StandardNormal};
use rand_pcg::Pcg64Dxsm;

/// A seed that fixes every result.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Seed(pub u64);

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
        PlayNoise { key: mix(mix(seed.0 ^ 0x9e37_79b9_7f4a_7c15).wrapping_add(play)), play }
    }

    /// The noise of the stroke numbered `stroke` (the first is 0).
    #[must_use]
    pub fn stroke(&self, stroke: u32) -> Noise {
        let mut rng = self.stream(stroke);
        Noise {
            depth: StandardNormal.sample(&mut rng),
            side: StandardNormal.sample(&mut rng),
            strike: uniform(&mut rng),
            trees: uniform(&mut rng),
            search: uniform(&mut rng),
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
