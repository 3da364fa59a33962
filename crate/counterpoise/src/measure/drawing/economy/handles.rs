//! The two handles of a curve under fit: each free, or along a direction.

use super::fit::Ends;
use kurbo::{CubicBez, Point, Vec2};

/// How much the thirds of the chord count beside a point, where the points leave
/// the length of a handle open: too little to move one that they settle.
const TRUST: f64 = 1e-6;

/// A handle that must keep a direction is at least this share of the chord, so
/// that it never turns back.
const SHORTEST: f64 = 0.01;

/// The unknowns of a fit, at most two for each handle.
pub(super) struct Handles {
    from: Point,
    to: Point,
    ends: Ends,
    unknowns: Vec<Unknown>,
    curve: Option<CubicBez>,
}

/// A length along an axis that a handle is made of.
#[derive(Debug, Clone, Copy)]
struct Unknown {
    axis: Vec2,
    /// Of the handle at the start.
    of_start: bool,
}

/// A point under fit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sample {
    pub(super) at: Point,
    /// The parameter of the curve that it is held against.
    pub(super) t: f64,
    pub(super) weight: f64,
}

impl Handles {
    pub(super) fn new(from: Point, to: Point, ends: Ends) -> Self {
        let mut unknowns = Vec::with_capacity(4);
        for (direction, of_start) in [(ends.start, true), (ends.end.map(|d| -d), false)] {
            let mut add = |axis| unknowns.push(Unknown { axis, of_start });
            match direction {
                Some(axis) => add(axis),
                None => {
                    add(Vec2::new(1.0, 0.0));
                    add(Vec2::new(0.0, 1.0));
                }
            }
        }
        Self {
            from,
            to,
            ends,
            unknowns,
            curve: None,
        }
    }

    /// The curve whose handles are those of least squares for the samples'
    /// parameters. `along` is how much a distance along the curve as it was last
    /// counts beside one square to it.
    pub(super) fn solve(&mut self, samples: &[Sample], along: f64) -> Option<CubicBez> {
        let chord = self.to - self.from;
        let n = self.unknowns.len();
        let mut system = System::default();
        for s in samples {
            let (t, r) = (s.t, 1.0 - s.t);
            let (b1, b2) = (3.0 * r * r * t, 3.0 * r * t * t);
            // The curve whose handles have no length, less the point.
            let rest = self.from - s.at + chord * (b2 + t * t * t);
            let tangent = self.tangent(t);
            let project = |v: Vec2| v - tangent * ((1.0 - along) * tangent.dot(v));
            let mut columns = [Vec2::ZERO; 4];
            for (column, u) in columns.iter_mut().zip(&self.unknowns) {
                *column = u.axis * if u.of_start { b1 } else { b2 };
            }
            system.add(&columns[..n], project, rest, s.weight);
        }
        let trust = TRUST * samples.len().max(1) as f64;
        for (k, u) in self.unknowns.iter().enumerate() {
            let third = if u.of_start { chord } else { -chord } / 3.0;
            system.lean(k, trust, u.axis.dot(third));
        }
        let lengths = system.solve(n)?;
        let (mut u, mut v) = (Vec2::ZERO, Vec2::ZERO);
        for (unknown, length) in self.unknowns.iter().zip(lengths) {
            *if unknown.of_start { &mut u } else { &mut v } += unknown.axis * length;
        }
        let least = SHORTEST * chord.hypot();
        if let Some(d) = self.ends.start.filter(|d| u.dot(*d) < least) {
            u = d * least;
        }
        if let Some(d) = self.ends.end.filter(|d| v.dot(-*d) < least) {
            v = -d * least;
        }
        let curve = CubicBez::new(self.from, self.from + u, self.to + v, self.to);
        self.curve = Some(curve);
        Some(curve)
    }

    /// Direction of the last curve at `t`; none before there is one.
    fn tangent(&self, t: f64) -> Vec2 {
        self.curve.map_or(Vec2::ZERO, |c| {
            let r = 1.0 - t;
            let d =
                (c.p1 - c.p0) * (r * r) + (c.p2 - c.p1) * (2.0 * r * t) + (c.p3 - c.p2) * (t * t);
            d / d.hypot().max(1e-9)
        })
    }
}

/// The normal equations: a symmetric matrix, and the right-hand side.
#[derive(Debug, Default)]
struct System {
    matrix: [[f64; 4]; 4],
    right: [f64; 4],
}

impl System {
    /// Adds a point: its distance is `rest` and the columns, each by its unknown,
    /// as `project` weighs them.
    fn add(&mut self, columns: &[Vec2], project: impl Fn(Vec2) -> Vec2, rest: Vec2, weight: f64) {
        for (k, c) in columns.iter().enumerate() {
            let c = project(*c) * weight;
            for (entry, d) in self.matrix[k].iter_mut().zip(columns) {
                *entry += c.dot(*d);
            }
            self.right[k] -= c.dot(rest);
        }
    }

    /// Leans an unknown towards a value.
    fn lean(&mut self, k: usize, weight: f64, value: f64) {
        self.matrix[k][k] += weight;
        self.right[k] += weight * value;
    }

    /// Gauss's elimination of the first `n` unknowns.
    fn solve(mut self, n: usize) -> Option<[f64; 4]> {
        for k in 0..n {
            let (row, right) = (self.matrix[k], self.right[k]);
            if row[k].abs() < 1e-12 {
                return None;
            }
            for r in k + 1..n {
                let f = self.matrix[r][k] / row[k];
                for (entry, above) in self.matrix[r].iter_mut().zip(row).skip(k) {
                    *entry -= f * above;
                }
                self.right[r] -= f * right;
            }
        }
        let mut x = [0.0; 4];
        for k in (0..n).rev() {
            let known: f64 = (k + 1..n).map(|l| self.matrix[k][l] * x[l]).sum();
            x[k] = (self.right[k] - known) / self.matrix[k][k];
        }
        x.iter().all(|v| v.is_finite()).then_some(x)
    }
}
