//! How much of what differs between players one club's figures explain: linear least squares.
use crate::stats::chance_explains;

/// A column that the others explain to this share of its own squares has nothing to add.
const NOTHING_LEFT: f64 = 1e-9;

/// What some columns tell of a quantity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Explained {
    /// The share of its variance, adjusted for the number of columns (Ezekiel 1930, Methods of Correlation Analysis), 0 to 1.
    pub(super) share: f64,
    /// The chance that columns which have nothing to do with it would explain as much (F test).
    pub(super) by_chance: f64,
}

/// What `columns` explain of the variance of `y`; None with fewer than three rows to a column, or if `y` does not vary.
pub(super) fn explained(y: &[f64], columns: &[Vec<f64>]) -> Option<Explained> {
    if y.len() < 3 * (columns.len() + 1) {
        return None;
    }
    let y = centred(y);
    let squares = dot(&y, &y);
    if !(squares > 0.0) {
        return None;
    }
    // Each column less what the earlier ones already tell (modified Gram-Schmidt).
    let mut basis: Vec<Vec<f64>> = Vec::with_capacity(columns.len());
    let mut told = 0.0;
    for column in columns {
        let mut left = centred(column);
        let whole = dot(&left, &left);
        for earlier in &basis {
            let share = dot(&left, earlier);
            left.iter_mut()
                .zip(earlier)
                .for_each(|(l, e)| *l -= share * e);
        }
        let rest = dot(&left, &left);
        if !(rest > NOTHING_LEFT * whole) {
            continue;
        }
        let length = rest.sqrt();
        left.iter_mut().for_each(|l| *l /= length);
        told += dot(&left, &y).powi(2);
        basis.push(left);
    }
    let left = y.len() - 1 - basis.len();
    let plain = (told / squares).min(1.0);
    #[expect(clippy::cast_precision_loss, reason = "at most a thousand")]
    let unexplained = (1.0 - plain) * (y.len() - 1) as f64 / left as f64;
    Some(Explained {
        share: (1.0 - unexplained).clamp(0.0, 1.0),
        by_chance: chance_explains(plain, basis.len(), left),
    })
}

fn centred(values: &[f64]) -> Vec<f64> {
    #[expect(clippy::cast_precision_loss, reason = "at most a thousand")]
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    values.iter().map(|v| v - mean).collect()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Oracle: the residual of nalgebra's least squares by singular values.
    #[test]
    fn agrees_with_a_general_library() {
        let n = 40;
        let column = |k: f64| -> Vec<f64> { (0..n).map(|i| (f64::from(i) * k).sin()).collect() };
        let columns = [column(0.7), column(1.9), column(2.3)];
        let y: Vec<f64> = (0..n as usize)
            .map(|i| 2.0 * columns[0][i] - columns[2][i] + (i as f64 * 3.1).cos())
            .collect();
        let design =
            nalgebra::DMatrix::from_fn(
                n as usize,
                4,
                |i, j| {
                    if j == 0 { 1.0 } else { columns[j - 1][i] }
                },
            );
        let target = nalgebra::DVector::from_column_slice(&y);
        let solved = design
            .clone()
            .svd(true, true)
            .solve(&target, 1e-12)
            .expect("solved");
        let residual = (&target - design * solved).norm_squared();
        let mean = target.mean();
        let total: f64 = y.iter().map(|v| (v - mean).powi(2)).sum();
        let want = 1.0 - residual / total * 39.0 / 36.0;
        let share = |columns: &[Vec<f64>]| explained(&y, columns).expect("enough rows").share;
        let got = share(&columns);
        assert!((got - want).abs() < 1e-12, "{got} {want}");
        // A column told twice adds nothing, and costs nothing.
        let twice = [&columns[..], &[column(0.7)]].concat();
        assert!((share(&twice) - want).abs() < 1e-9);
    }

    #[test]
    fn says_nothing_where_there_is_nothing_to_say() {
        let column = vec![1.0, 2.0, 4.0, 3.0, 7.0, 5.0];
        assert_eq!(explained(&[1.0; 6], std::slice::from_ref(&column)), None);
        assert_eq!(explained(&column[..5], &[column[..5].to_vec()]), None);
        let all = explained(&column, std::slice::from_ref(&column)).expect("enough rows");
        assert!((all.share - 1.0).abs() < 1e-12 && all.by_chance < 1e-12);
        // Constant figures explain nothing.
        let nothing = Explained {
            share: 0.0,
            by_chance: 1.0,
        };
        assert_eq!(explained(&column, &[vec![2.0; 6]]), Some(nothing));
    }
}
