//! Square matrices of moderate size and the triangle that a positive definite one splits into.
//!
//! Own loops in a fixed order: a fit must not depend on which kernel a processor offers.

/// A square matrix, row by row.
#[derive(Clone, Debug)]
pub(super) struct Square {
    size: usize,
    cells: Vec<f64>,
}

impl Square {
    /// The matrix whose cells `f` gives.
    pub(super) fn of(size: usize, f: impl Fn(usize, usize) -> f64) -> Self {
        let cells = (0..size * size).map(|at| f(at / size, at % size)).collect();
        Square { size, cells }
    }

    pub(super) fn size(&self) -> usize {
        self.size
    }

    pub(super) fn at(&self, row: usize, column: usize) -> f64 {
        self.cells[row * self.size + column]
    }

    pub(super) fn add(&mut self, row: usize, column: usize, value: f64) {
        self.cells[row * self.size + column] += value;
    }

    pub(super) fn row(&self, row: usize) -> &[f64] {
        &self.cells[row * self.size..(row + 1) * self.size]
    }

    /// The rows and columns of some indices.
    pub(super) fn part(&self, kept: &[usize]) -> Square {
        Square::of(kept.len(), |i, j| self.at(kept[i], kept[j]))
    }

    /// The lower triangle `L` with `L Lᵀ` equal to this; None unless it is positive definite.
    pub(super) fn triangle(&self) -> Option<Triangle> {
        let mut lower = Square::of(self.size, |_, _| 0.0);
        for i in 0..self.size {
            for j in 0..=i {
                let gone = dot(&lower.row(i)[..j], &lower.row(j)[..j]);
                let left = self.at(i, j) - gone;
                let cell = if i == j {
                    // Negated, so that NaN is refused too.
                    if !(left > 1e-12 * self.at(i, i).abs()) {
                        return None;
                    }
                    left.sqrt()
                } else {
                    left / lower.at(j, j)
                };
                lower.add(i, j, cell);
            }
        }
        Some(Triangle(lower))
    }
}

/// The lower triangle of a positive definite matrix.
#[derive(Clone, Debug)]
pub(super) struct Triangle(Square);

impl Triangle {
    /// Replaces `b` by the `x` of `L x = b`.
    pub(super) fn forward(&self, b: &mut [f64]) {
        for i in 0..b.len() {
            let gone = dot(&self.0.row(i)[..i], &b[..i]);
            b[i] = (b[i] - gone) / self.0.at(i, i);
        }
    }

    /// Replaces `b` by the `x` of `Lᵀ x = b`.
    pub(super) fn backward(&self, b: &mut [f64]) {
        for i in (0..b.len()).rev() {
            b[i] /= self.0.at(i, i);
            let x = b[i];
            for (below, cell) in b[..i].iter_mut().zip(self.0.row(i)) {
                *below -= cell * x;
            }
        }
    }

    /// The `x` of `L Lᵀ x = b`.
    pub(super) fn solve(&self, b: &[f64]) -> Vec<f64> {
        let mut x = b.to_vec();
        self.forward(&mut x);
        self.backward(&mut x);
        x
    }

    /// `L z`: standard normals become draws with the covariance.
    pub(super) fn times(&self, z: &[f64]) -> Vec<f64> {
        (0..z.len())
            .map(|i| dot(&self.0.row(i)[..=i], &z[..=i]))
            .collect()
    }

    /// The inverse of `L Lᵀ`.
    pub(super) fn inverse(&self) -> Square {
        let size = self.0.size();
        let columns: Vec<Vec<f64>> = (0..size)
            .map(|j| {
                let mut unit = vec![0.0; size];
                unit[j] = 1.0;
                self.solve(&unit)
            })
            .collect();
        Square::of(size, |i, j| columns[j][i])
    }
}

/// Sum of products, in order.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn agrees_with_a_general_library() {
        // Oracle: nalgebra's Cholesky factor and inverse of a random positive definite matrix.
        let size = 7;
        let raw = |i: usize, j: usize| ((i * 31 + j * 17) as f64 * 0.7).sin();
        let of = |i: usize, j: usize| {
            (0..size).map(|k| raw(i, k) * raw(j, k)).sum::<f64>() + f64::from(u8::from(i == j))
        };
        let theirs = nalgebra::DMatrix::from_fn(size, size, of);
        let ours = Square::of(size, of).triangle().expect("positive definite");
        let inverse = theirs.clone().try_inverse().expect("regular");
        let factor = theirs.cholesky().expect("positive definite").l();
        for i in 0..size {
            for j in 0..size {
                assert!((ours.0.at(i, j) - factor[(i, j)]).abs() < 1e-12);
                assert!((ours.inverse().at(i, j) - inverse[(i, j)]).abs() < 1e-12);
            }
        }
        let z: Vec<f64> = (0..size).map(|i| i as f64 - 2.0).collect();
        let mut back = ours.times(&z);
        ours.forward(&mut back);
        assert!(back.iter().zip(&z).all(|(a, b)| (a - b).abs() < 1e-12));
    }

    #[test]
    fn what_is_not_positive_definite_has_no_triangle() {
        assert!(
            Square::of(2, |i, j| if i == j { 1.0 } else { 2.0 })
                .triangle()
                .is_none()
        );
        assert!(Square::of(1, |_, _| f64::NAN).triangle().is_none());
    }
}
