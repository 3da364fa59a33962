//! The little linear algebra that the model needs: symmetric positive definite
//! systems of a few dozen unknowns, by Cholesky's factor.

/// The lower factor of a symmetric positive definite matrix, row by row.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Factor {
    n: usize,
    lower: Vec<f64>,
}

impl Factor {
    /// Factors a matrix of which the lower triangle is read; `None` if it is not
    /// positive definite.
    pub(super) fn of(mut a: Vec<f64>, n: usize) -> Option<Self> {
        for i in 0..n {
            for j in 0..=i {
                let (head, tail) = a.split_at(i * n);
                let row_i = &tail[..n];
                let row_j = if i == j {
                    row_i
                } else {
                    &head[j * n..j * n + n]
                };
                let dot: f64 = row_i[..j].iter().zip(&row_j[..j]).map(|(x, y)| x * y).sum();
                let rest = a[i * n + j] - dot;
                a[i * n + j] = if i == j {
                    if rest.is_nan() || rest <= 0.0 {
                        return None;
                    }
                    rest.sqrt()
                } else {
                    rest / a[j * n + j]
                };
            }
        }
        Some(Self { n, lower: a })
    }

    /// Solves `L x = b` in place.
    pub(super) fn forward(&self, b: &mut [f64]) {
        for i in 0..self.n {
            let row = &self.lower[i * self.n..i * self.n + i];
            let dot: f64 = row.iter().zip(b.iter()).map(|(x, y)| x * y).sum();
            b[i] = (b[i] - dot) / self.lower[i * self.n + i];
        }
    }

    /// Solves `A x = b` in place.
    pub(super) fn solve(&self, b: &mut [f64]) {
        self.forward(b);
        for i in (0..self.n).rev() {
            b[i] /= self.lower[i * self.n + i];
            for j in 0..i {
                b[j] -= self.lower[i * self.n + j] * b[i];
            }
        }
    }

    /// `bᵀ A⁻¹ b`.
    pub(super) fn form(&self, mut b: Vec<f64>) -> f64 {
        self.forward(&mut b);
        b.iter().map(|x| x * x).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_known_system() {
        // [[4, 2], [2, 3]] x = [8, 7] has the solution [1.25, 1.5].
        let factor = Factor::of(vec![4.0, 2.0, 2.0, 3.0], 2).unwrap();
        let mut b = vec![8.0, 7.0];
        factor.solve(&mut b);
        assert!((b[0] - 1.25).abs() < 1e-12 && (b[1] - 1.5).abs() < 1e-12);
        assert!((factor.form(vec![8.0, 7.0]) - (8.0 * 1.25 + 7.0 * 1.5)).abs() < 1e-12);
    }

    #[test]
    fn a_matrix_that_is_not_definite_is_refused() {
        assert!(Factor::of(vec![1.0, 2.0, 2.0, 1.0], 2).is_none());
        assert!(Factor::of(vec![f64::NAN], 1).is_none());
    }
}
