//! Luck spread evenly, for shares and means without chance.
use statrs::distribution::{ContinuousCDF, Normal};
use wideberth::noise::Noise;

/// The luck of `n` putts, a rank-one lattice mapped to normals: probabilities come out to about 0.001 without chance, so
/// nothing held to them can fail by bad luck.
pub(crate) fn lattice(n: u32) -> Vec<Noise> {
    let normal = Normal::standard();
    (0..n)
        .map(|i| {
            let u = (f64::from(i) + 0.5) / f64::from(n);
            let v = (f64::from(i) * 0.618_033_988_749_894_9 + 0.5 / f64::from(n)).fract();
            Noise {
                depth: normal.inverse_cdf(u),
                side: normal.inverse_cdf(v),
                ..Noise::NONE
            }
        })
        .collect()
}
