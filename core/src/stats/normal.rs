//! The quantile function of the standard normal distribution.

/// The value below which a standard normal falls with probability `p`.
///
/// Algorithm AS 241, variant PPND16 (Wichura 1988, Applied Statistics 37, 477-484): relative error
/// about 1e-16. Returns infinities at 0 and 1 and NaN outside.
#[must_use]
pub fn normal_quantile(p: f64) -> f64 {
    let q = p - 0.5;
    if q.abs() <= 0.425 {
        return q * ratio(0.180_625 - q * q, &CENTRE);
    }
    if !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    let tail = if q < 0.0 { p } else { 1.0 - p };
    if tail == 0.0 {
        return f64::INFINITY.copysign(q);
    }
    let r = libm::sqrt(-libm::log(tail));
    let magnitude = if r <= 5.0 {
        ratio(r - 1.6, &SHOULDER)
    } else {
        ratio(r - 5.0, &TAIL)
    };
    magnitude.copysign(q)
}

/// Coefficients of a numerator and a denominator, constant term first.
type Rational = ([f64; 8], [f64; 8]);

fn ratio(x: f64, (numerator, denominator): &Rational) -> f64 {
    let horner = |c: &[f64; 8]| c.iter().rev().fold(0.0, |sum, a| sum * x + a);
    horner(numerator) / horner(denominator)
}

const CENTRE: Rational = (
    [
        3.387_132_872_796_366_5,
        1.331_416_678_917_843_8e2,
        1.971_590_950_306_551_3e3,
        1.373_169_376_550_946e4,
        4.592_195_393_154_987e4,
        6.726_577_092_700_87e4,
        3.343_057_558_358_813e4,
        2.509_080_928_730_122_7e3,
    ],
    [
        1.0,
        4.231_333_070_160_091e1,
        6.871_870_074_920_579e2,
        5.394_196_021_424_751e3,
        2.121_379_430_158_659_7e4,
        3.930_789_580_009_271e4,
        2.872_908_573_572_194_3e4,
        5.226_495_278_852_854e3,
    ],
);

const SHOULDER: Rational = (
    [
        1.423_437_110_749_683_5,
        4.630_337_846_156_546,
        5.769_497_221_460_691,
        3.647_848_324_763_204_5,
        1.270_458_252_452_368_4,
        2.417_807_251_774_506e-1,
        2.272_384_498_926_918_4e-2,
        7.745_450_142_783_414e-4,
    ],
    [
        1.0,
        2.053_191_626_637_759,
        1.676_384_830_183_803_8,
        6.897_673_349_851e-1,
        1.481_039_764_274_800_8e-1,
        1.519_866_656_361_645_7e-2,
        5.475_938_084_995_345e-4,
        1.050_750_071_644_416_9e-9,
    ],
);

const TAIL: Rational = (
    [
        6.657_904_643_501_103,
        5.463_784_911_164_114,
        1.784_826_539_917_291_3,
        2.965_605_718_285_048_7e-1,
        2.653_218_952_657_612_4e-2,
        1.242_660_947_388_078_4e-3,
        2.711_555_568_743_487_6e-5,
        2.010_334_399_292_288_1e-7,
    ],
    [
        1.0,
        5.998_322_065_558_88e-1,
        1.369_298_809_227_358e-1,
        1.487_536_129_085_061_5e-2,
        7.868_691_311_456_133e-4,
        1.846_318_317_510_054_8e-5,
        1.421_511_758_316_446e-7,
        2.044_263_103_389_939_8e-15,
    ],
);

#[cfg(test)]
mod tests {
    use super::*;
    use statrs::distribution::{ContinuousCDF, Normal};

    #[test]
    fn agrees_with_a_reference_library() {
        // Oracle: the normal distribution function of statrs, inverted by our quantile.
        let normal = Normal::standard();
        for i in 1..2000 {
            let p = f64::from(i) / 2000.0;
            assert!(
                (normal.cdf(normal_quantile(p)) - p).abs() < 1e-10,
                "p = {p}"
            );
        }
        for p in [1e-3, 1e-6, 1e-9] {
            assert!(
                (normal.cdf(normal_quantile(p)) / p - 1.0).abs() < 1e-5,
                "p = {p}"
            );
            assert!((normal_quantile(p) + normal_quantile(1.0 - p)).abs() < 1e-6);
        }
    }

    #[test]
    fn published_points() {
        // Wichura 1988, table of check values.
        assert!((normal_quantile(0.25) + 0.674_489_750_196_081_7).abs() < 1e-15);
        assert!((normal_quantile(0.001) + 3.090_232_306_167_813_5).abs() < 1e-14);
        assert!((normal_quantile(1e-20) + 9.262_340_089_798_409).abs() < 1e-13);
        assert!(normal_quantile(f64::NAN).is_nan() && normal_quantile(1.1).is_nan());
        assert!(normal_quantile(0.0) == f64::NEG_INFINITY && normal_quantile(1.0) == f64::INFINITY);
    }
}
