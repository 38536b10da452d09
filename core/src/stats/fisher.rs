//! How likely chance alone explains so much: the tail of Fisher's F, told by the share explained.

/// The chance that `columns` that have nothing to do with a normal quantity explain a share of its variance of `share` (0 to
/// 1, not adjusted) or more, with `left` degrees of freedom left over. The share then follows the law
/// Beta(columns / 2, left / 2), which is the F test told in another way.
#[must_use]
pub fn chance_explains(share: f64, columns: usize, left: usize) -> f64 {
    if columns == 0 || left == 0 {
        return 1.0;
    }
    #[expect(clippy::cast_precision_loss, reason = "small counts")]
    let (a, b) = (0.5 * columns as f64, 0.5 * left as f64);
    // The continued fraction closes in fast below the mean of its law.
    let x = share.clamp(0.0, 1.0);
    if x > a / (a + b) {
        beta_below(b, a, 1.0 - x)
    } else {
        1.0 - beta_below(a, b, x)
    }
}

/// The chance that a beta variable is below `x`, by the continued fraction of Abramowitz and Stegun 1964, 26.5.8, evaluated
/// from the front (Lentz 1976, Applied Optics 15, 668).
fn beta_below(a: f64, b: f64, x: f64) -> f64 {
    /// More than any number of rows asked for needs.
    const STEPS: u32 = 500;
    const TINY: f64 = 1e-300;
    if x <= 0.0 {
        return 0.0;
    }
    let mut d = 1.0 / keep_off_nought(1.0 - (a + b) / (a + 1.0) * x, TINY);
    let (mut c, mut fraction) = (1.0, d);
    let mut step = |term: f64| {
        d = 1.0 / keep_off_nought(1.0 + term * d, TINY);
        c = keep_off_nought(1.0 + term / c, TINY);
        fraction *= c * d;
        c * d
    };
    for m in (1..STEPS).map(f64::from) {
        let twice = a + 2.0 * m;
        step(m * (b - m) * x / ((twice - 1.0) * twice));
        let change = step(-(a + m) * (a + b + m) * x / (twice * (twice + 1.0)));
        if (change - 1.0).abs() < 1e-15 {
            break;
        }
    }
    let whole = libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b);
    let front = whole + a * libm::log(x) + b * libm::log1p(-x);
    libm::exp(front) * fraction / a
}

fn keep_off_nought(value: f64, tiny: f64) -> f64 {
    if value.abs() < tiny { tiny } else { value }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Oracle: the F distribution of `statrs`.
    #[test]
    fn agrees_with_a_general_library() {
        use statrs::distribution::{ContinuousCDF, FisherSnedecor};
        for (columns, left) in [(1, 14), (5, 14), (6, 14), (6, 33), (6, 993), (2, 2)] {
            let (k, m) = (columns as f64, left as f64);
            let law = FisherSnedecor::new(k, m).expect("degrees of freedom");
            for share in [0.001, 0.05, 0.2, 0.42, 0.7, 0.98] {
                let want = law.sf(share / (1.0 - share) * m / k);
                let got = chance_explains(share, columns, left);
                assert!(
                    (got - want).abs() < 1e-9,
                    "{columns} {left} {share}: {got} {want}"
                );
            }
        }
    }

    #[test]
    fn the_ends_are_certain() {
        assert_eq!(chance_explains(0.0, 6, 14), 1.0);
        assert_eq!(chance_explains(1.0, 6, 14), 0.0);
        assert_eq!(chance_explains(0.9, 0, 14), 1.0);
        assert_eq!(chance_explains(0.9, 6, 0), 1.0);
    }
}
