//! Quantiles of Student's t, for means of few numbers.
use super::normal_quantile;

/// The quantile of Student's t with so many degrees of freedom.
///
/// The expansion of Abramowitz and Stegun 1964, 26.7.5, to the fourth order: for 20 degrees of freedom and more it is
/// right to 1e-4 up to a probability of 0.9999.
#[must_use]
pub fn student_quantile(probability: f64, freedom: f64) -> f64 {
    let x = normal_quantile(probability);
    let s = x * x;
    let terms = [
        (s + 1.0) / 4.0,
        ((5.0 * s + 16.0) * s + 3.0) / 96.0,
        (((3.0 * s + 19.0) * s + 17.0) * s - 15.0) / 384.0,
        ((((79.0 * s + 776.0) * s + 1482.0) * s - 1920.0) * s - 945.0) / 92_160.0,
    ];
    let sum = terms.iter().rev().fold(0.0, |sum, t| (sum + t) / freedom);
    x * (1.0 + sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Oracle: the Student's t of `statrs`.
    #[test]
    fn agrees_with_a_general_library() {
        use statrs::distribution::{ContinuousCDF, StudentsT};
        for freedom in [20.0, 31.0, 100.0] {
            let oracle = StudentsT::new(0.0, 1.0, freedom).expect("degrees of freedom");
            for probability in [0.5, 0.6, 0.9, 0.975, 0.999, 0.9999] {
                let (got, want) = (
                    student_quantile(probability, freedom),
                    oracle.inverse_cdf(probability),
                );
                assert!(
                    (got - want).abs() < 1e-4,
                    "{freedom} {probability}: {got} {want}"
                );
            }
        }
    }
}
