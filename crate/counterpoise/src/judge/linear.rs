//! The little linear algebra that the model needs: symmetric positive definite
//! systems of a few dozen unknowns, by Cholesky's factor.

/// A symmetric positive definite matrix, ready to be solved: the inverse of its
/// lower factor, row by row. Solving with the factor itself would have each
/// unknown wait for the one before; with its inverse, none waits.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Factor {
    n: usize,
    inverse: Vec<f64>,
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
                let rest = a[i * n + j] - dot(&row_i[..j], &row_j[..j]);
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
        let mut row = vec![0.0; n];
        for i in 0..n {
            let (above, own) = a.split_at_mut(i * n);
            row[..=i].copy_from_slice(&own[..=i]);
            own[..i].fill(0.0);
            own[i] = 1.0 / row[i];
            for (j, &l) in row[..i].iter().enumerate() {
                add(own, -l / row[i], &above[j * n..=j * n + j]);
            }
        }
        Some(Self { n, inverse: a })
    }

    fn rows(&self) -> impl Iterator<Item = &[f64]> {
        (0..self.n).map(|i| &self.inverse[i * self.n..=i * self.n + i])
    }

    /// Solves `L x = b`, `L` being the lower factor.
    pub(super) fn forward(&self, b: &[f64]) -> Vec<f64> {
        self.rows().map(|row| dot(row, &b[..row.len()])).collect()
    }

    /// Solves `A x = b`.
    pub(super) fn solve(&self, b: &[f64]) -> Vec<f64> {
        let mut x = vec![0.0; self.n];
        for (row, y) in self.rows().zip(self.forward(b)) {
            add(&mut x, y, row);
        }
        x
    }

    /// `bᵀ A⁻¹ b`.
    pub(super) fn form(&self, b: &[f64]) -> f64 {
        self.rows()
            .map(|row| dot(row, &b[..row.len()]).powi(2))
            .sum()
    }
}

/// Adds so many times a vector to the head of another.
fn add(to: &mut [f64], times: f64, other: &[f64]) {
    for (x, y) in to.iter_mut().zip(other) {
        *x += times * y;
    }
}

/// The product of two vectors of one length. Four sums run side by side: one
/// alone would have each addition wait for the last, which is most of the time
/// that judging takes.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    let mut sums = [0.0; 4];
    let (fours_a, fours_b) = (a.chunks_exact(4), b.chunks_exact(4));
    let rest = fours_a.remainder().iter().zip(fours_b.remainder());
    let rest: f64 = rest.map(|(x, y)| x * y).sum();
    for (x, y) in fours_a.zip(fours_b) {
        for (at, sum) in sums.iter_mut().enumerate() {
            *sum += x[at] * y[at];
        }
    }
    (sums[0] + sums[1]) + (sums[2] + sums[3]) + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_known_system() {
        // [[4, 2], [2, 3]] x = [8, 7] has the solution [1.25, 1.5].
        let factor = Factor::of(vec![4.0, 2.0, 2.0, 3.0], 2).unwrap();
        let b = factor.solve(&[8.0, 7.0]);
        assert!((b[0] - 1.25).abs() < 1e-12 && (b[1] - 1.5).abs() < 1e-12);
        assert!((factor.form(&[8.0, 7.0]) - (8.0 * 1.25 + 7.0 * 1.5)).abs() < 1e-12);
    }

    #[test]
    fn a_matrix_that_is_not_definite_is_refused() {
        assert!(Factor::of(vec![1.0, 2.0, 2.0, 1.0], 2).is_none());
        assert!(Factor::of(vec![f64::NAN], 1).is_none());
    }
}
