//! Fits the factor model by expectation and maximisation, each figure weighed
//! by a t-distribution (sources in `counterpoise::judge`).

use crate::middle::median;
use crate::specimen::Specimen;
use counterpoise::judge::{
    FREEDOM, Group, Kind, LETTERS, Relations, Row, Together, Trait, Variable,
};
use counterpoise::measure::MAD_TO_SD;
use nalgebra::{DMatrix, DVector, SymmetricEigen};

/// A figure enters the model if so many of the faces have it. A rare form of a
/// top or foot is better known from a few faces than held against a common one;
/// a pair of stems is one wherever it is.
fn least_share(of: Trait) -> f64 {
    match of {
        Trait::Pair => 0.004,
        _ if Kind::of(of) == Kind::Heights => 0.02,
        _ => 0.05,
    }
}

/// Noise is never taken to be less than this share of a figure's scatter over
/// faces: figures that agree exactly in most faces would count without bound.
const LEAST_NOISE: f64 = 0.04;

/// Loadings are held towards nought as if so many faces had shown none.
const RIDGE: f64 = 2.0;

/// Fits a model: for each group of figures so many factors, in so many rounds.
pub(crate) fn fit(
    faces: &[&Specimen],
    factors: [usize; Together::ALL.len()],
    rounds: usize,
) -> Relations {
    let mut relations = Relations {
        variables: variables(faces),
        ..Relations::default()
    };
    let rows: Vec<Row> = faces.iter().map(|f| relations.row(&f.letters)).collect();
    let scatter = scatter(&relations, &rows);
    for (together, factors) in Together::ALL.into_iter().zip(factors) {
        let members: Vec<usize> = (0..relations.variables.len())
            .filter(|&i| Together::of(relations.variables[i].of) == together)
            .collect();
        let mut part = Part {
            variables: members.iter().map(|&i| relations.variables[i]).collect(),
            rows: rows
                .iter()
                .map(|r| members.iter().map(|&i| r[i]).collect())
                .collect(),
            scatter: members.iter().map(|&i| scatter[i]).collect(),
            loadings: DMatrix::zeros(members.len(), factors),
            weights: DMatrix::from_element(rows.len(), members.len(), 1.0),
        };
        part.start();
        for _ in 0..rounds {
            part.round();
        }
        for (&i, v) in members.iter().zip(&part.variables) {
            relations.variables[i] = *v;
        }
        relations.groups[together as usize] = Group {
            factors,
            variables: members,
            loadings: part.loadings.transpose().as_slice().to_vec(),
        };
    }
    relations
}

/// One group while it is fitted.
struct Part {
    variables: Vec<Variable>,
    rows: Vec<Row>,
    /// Median and scatter of each figure over faces.
    scatter: Vec<(f64, f64)>,
    loadings: DMatrix<f64>,
    /// The weight of each figure of each face.
    weights: DMatrix<f64>,
}

/// Every trait of every letter that enough faces have.
fn variables(faces: &[&Specimen]) -> Vec<Variable> {
    let mut all = Vec::new();
    for (letter, c) in LETTERS.chars().enumerate() {
        for of in Trait::ALL {
            let n = faces
                .iter()
                .filter(|f| f.traits(c).is_some_and(|t| t.get(of).is_some()))
                .count();
            if n as f64 > least_share(of) * faces.len() as f64 {
                all.push(Variable {
                    letter,
                    of,
                    mean: 0.0,
                    noise: 1.0,
                });
            }
        }
    }
    all
}

/// Sets each figure's mean to its median, and gives its scatter over faces.
fn scatter(relations: &Relations, rows: &[Row]) -> Vec<(f64, f64)> {
    (0..relations.variables.len())
        .map(|i| {
            let mut x: Vec<f64> = rows.iter().filter_map(|r| r[i]).collect();
            let middle = median(&mut x).unwrap_or(0.0);
            let mut off: Vec<f64> = x.iter().map(|v| (v - middle).abs()).collect();
            let mad = MAD_TO_SD * median(&mut off).unwrap_or(0.0);
            let sd = (off.iter().map(|v| v * v).sum::<f64>() / off.len().max(1) as f64).sqrt();
            (middle, (if mad > 1e-4 { mad } else { sd }).max(1e-3))
        })
        .collect()
}

impl Part {
    /// Begins with the principal directions of the standardised figures.
    fn start(&mut self) {
        let (p, k) = self.loadings.shape();
        for (v, s) in self.variables.iter_mut().zip(&self.scatter) {
            v.mean = s.0;
            v.noise = 0.3 * s.1 * s.1;
        }
        let z = DMatrix::from_fn(self.rows.len(), p, |n, i| {
            let (middle, scatter) = self.scatter[i];
            self.rows[n][i].map_or(0.0, |x| ((x - middle) / scatter).clamp(-4.0, 4.0))
        });
        let covariance = z.transpose() * &z / self.rows.len() as f64;
        let eigen = SymmetricEigen::new(covariance);
        let mut order: Vec<usize> = (0..p).collect();
        order.sort_by(|&a, &b| eigen.eigenvalues[b].total_cmp(&eigen.eigenvalues[a]));
        for (f, &e) in order.iter().take(k).enumerate() {
            let size = eigen.eigenvalues[e].max(0.0).sqrt();
            for i in 0..p {
                self.loadings[(i, f)] = eigen.eigenvectors[(i, e)] * size * self.scatter[i].1;
            }
        }
    }

    /// One round of expectation and maximisation, as products of large
    /// matrices: a row of products for each face and for each figure.
    fn round(&mut self) {
        let (n, (p, k)) = (self.rows.len(), self.loadings.shape());
        let loadings = &self.loadings;
        let rows = &self.rows;
        let noise = |i: usize| self.variables[i].noise;
        let off_mean = DMatrix::from_fn(n, p, |r, i| {
            rows[r][i].map_or(0.0, |x| x - self.variables[i].mean)
        });
        let present = DMatrix::from_fn(n, p, |r, i| if rows[r][i].is_some() { 1.0 } else { 0.0 });

        // Expectation: each face's factors, their mean and covariance.
        let by = DMatrix::from_fn(n, p, |r, i| {
            present[(r, i)] * self.weights[(r, i)] / noise(i)
        });
        let precisions = &by * outers(loadings);
        let pulls = by.component_mul(&off_mean) * loadings;
        let mut means = DMatrix::zeros(n, k);
        let mut covariances = DMatrix::zeros(n, k * k);
        for r in 0..n {
            let mut precision = DMatrix::from_fn(k, k, |a, b| precisions[(r, a * k + b)]);
            for a in 0..k {
                precision[(a, a)] += 1.0;
            }
            let covariance = precision
                .cholesky()
                .expect("a precision with the identity in it is definite")
                .inverse();
            means.row_mut(r).copy_from(&(pulls.row(r) * &covariance));
            for (to, from) in covariances.row_mut(r).iter_mut().zip(covariance.iter()) {
                *to = *from;
            }
        }

        // Each figure's weight, by how far it is off.
        let unsure = &covariances * outers(loadings).transpose();
        let off = &off_mean - &means * loadings.transpose();
        let weights = DMatrix::from_fn(n, p, |r, i| {
            let square = off[(r, i)].powi(2) + unsure[(r, i)];
            (FREEDOM + 1.0) / (FREEDOM + square / noise(i))
        });

        // Maximisation: each figure's weighed regression on the factors and 1.
        let w = weights.component_mul(&present);
        let covariance_sums = w.transpose() * &covariances;
        let square_sums = w.transpose() * outers(&means);
        let mean_sums = w.transpose() * &means;
        let x = DMatrix::from_fn(n, p, |r, i| rows[r][i].unwrap_or(0.0));
        let wx = w.component_mul(&x);
        let pull_sums = wx.transpose() * &means;
        for i in 0..p {
            let square =
                |a: usize, b: usize| square_sums[(i, a * k + b)] + covariance_sums[(i, a * k + b)];
            let a = DMatrix::from_fn(k + 1, k + 1, |a, b| match (a == k, b == k) {
                (false, false) => square(a, b) + if a == b { RIDGE } else { 0.0 },
                (true, true) => w.column(i).sum(),
                _ => mean_sums[(i, a.min(b))],
            });
            let b = DVector::from_fn(k + 1, |a, _| {
                if a == k {
                    wx.column(i).sum()
                } else {
                    pull_sums[(i, a)]
                }
            });
            let Some(solver) = a.cholesky() else { continue };
            let solved = solver.solve(&b);
            let (loading, mean) = (solved.rows(0, k).into_owned(), solved[k]);
            let fitted = &means * &loading;
            let squares: f64 = (0..n)
                .map(|r| w[(r, i)] * (x[(r, i)] - mean - fitted[r]).powi(2))
                .sum();
            let mut spare = 0.0;
            for a in 0..k {
                for b in 0..k {
                    spare += loading[a] * loading[b] * covariance_sums[(i, a * k + b)];
                }
            }
            let count: f64 = present.column(i).sum();
            let least = (LEAST_NOISE * self.scatter[i].1).powi(2);
            self.loadings.row_mut(i).copy_from(&loading.transpose());
            self.variables[i].mean = mean;
            self.variables[i].noise = ((squares + spare) / count.max(1.0)).max(least);
        }
        self.weights = weights;
    }
}

/// For each row, the products of its every two entries.
fn outers(m: &DMatrix<f64>) -> DMatrix<f64> {
    let k = m.ncols();
    DMatrix::from_fn(m.nrows(), k * k, |r, ab| m[(r, ab / k)] * m[(r, ab % k)])
}
