//! Polynomials through given points, for the tables.

/// Coefficients (constant first) of the polynomial of degree N - 1 through N points of distinct `x`: Newton's
/// divided differences, multiplied out.
pub(super) fn through<const N: usize>(x: [f64; N], y: [f64; N]) -> [f64; N] {
    let mut divided = y;
    for order in 1..N {
        for i in (order..N).rev() {
            divided[i] = (divided[i] - divided[i - 1]) / (x[i] - x[i - order]);
        }
    }
    let mut coefficients = [0.0; N];
    for i in (0..N).rev() {
        // Horner: what there is times (u - x_i), plus the difference.
        for j in (1..N).rev() {
            coefficients[j] = coefficients[j - 1] - x[i] * coefficients[j];
        }
        coefficients[0] = divided[i] - x[i] * coefficients[0];
    }
    coefficients
}

/// The N roots of the Chebyshev polynomial on -1 to 1: where a polynomial through a smooth function strays
/// least from it.
pub(super) fn chebyshev_roots<const N: usize>() -> [f64; N] {
    #[expect(clippy::cast_precision_loss, reason = "small integers")]
    std::array::from_fn(|i| libm::cos(std::f64::consts::PI * (i as f64 + 0.5) / N as f64))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cubic_is_found_again() {
        let cubic = |u: f64| 2.0 - u + 3.0 * u * u - 0.5 * u * u * u;
        let x = [-1.0, 0.25, 0.5, 2.0];
        let found = through(x, x.map(cubic));
        for (a, b) in found.iter().zip([2.0, -1.0, 3.0, -0.5]) {
            assert!((a - b).abs() < 1e-12, "{found:?}");
        }
    }

    #[test]
    fn roots_are_where_the_polynomial_is_zero() {
        // T5(x) = 16 x^5 - 20 x^3 + 5 x
        for x in chebyshev_roots::<5>() {
            assert!((16.0 * x.powi(5) - 20.0 * x.powi(3) + 5.0 * x).abs() < 1e-14);
        }
    }
}
