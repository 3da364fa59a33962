//! Moves parts of a letter and keeps others: a map of one coordinate, linear
//! between its knots, with every straight and curved piece carried along.

use crate::outline::Outline;
use kurbo::{BezPath, PathEl, Point};

/// A rising map of a coordinate, linear between its knots and shifting beyond.
#[derive(Debug, Clone, PartialEq)]
pub struct Warp(Vec<(f64, f64)>);

impl Warp {
    /// A map through knots in rising order.
    pub fn new(knots: Vec<(f64, f64)>) -> Self {
        Self(knots)
    }

    /// Stretches from `lo..hi` to `target` long, from `lo` on, without changing
    /// the length of the intervals kept. `None` where they leave less than
    /// `least` of the whole to be stretched, or the target cannot be reached.
    pub fn keeping(lo: f64, hi: f64, kept: &[(f64, f64)], target: f64, least: f64) -> Option<Self> {
        let merged = merge(lo, hi, kept);
        let length: f64 = merged.iter().map(|k| k.1 - k.0).sum();
        let free = (hi - lo) - length;
        if free < least * (hi - lo) || target <= length {
            return None;
        }
        let stretch = (target - length) / free;
        let mut knots = vec![(lo, lo)];
        let (mut at, mut to) = (lo, lo);
        for (a, b) in merged {
            to += (a - at) * stretch;
            knots.push((a, to));
            to += b - a;
            knots.push((b, to));
            at = b;
        }
        to += (hi - at) * stretch;
        knots.push((hi, to));
        Some(Self(knots))
    }

    /// Where a coordinate goes.
    pub fn at(&self, v: f64) -> f64 {
        let knots = &self.0;
        let (Some(first), Some(last)) = (knots.first(), knots.last()) else {
            return v;
        };
        if v <= first.0 {
            return v - first.0 + first.1;
        }
        if v >= last.0 {
            return v - last.0 + last.1;
        }
        let i = knots
            .partition_point(|k| k.0 <= v)
            .clamp(1, knots.len() - 1);
        let (a, b) = (knots[i - 1], knots[i]);
        if b.0 - a.0 < 1e-12 {
            b.1
        } else {
            a.1 + (v - a.0) * (b.1 - a.1) / (b.0 - a.0)
        }
    }

    /// The outline with its x mapped.
    pub fn across(&self, outline: &Outline) -> Outline {
        map(outline, |p| Point::new(self.at(p.x), p.y))
    }

    /// The outline with its y mapped.
    pub fn along(&self, outline: &Outline) -> Outline {
        map(outline, |p| Point::new(p.x, self.at(p.y)))
    }
}

fn merge(lo: f64, hi: f64, kept: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut all: Vec<(f64, f64)> = kept
        .iter()
        .map(|&(a, b)| (a.clamp(lo, hi), b.clamp(lo, hi)))
        .filter(|k| k.1 > k.0)
        .collect();
    all.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let mut merged: Vec<(f64, f64)> = Vec::new();
    for k in all {
        match merged.last_mut() {
            Some(last) if k.0 <= last.1 => last.1 = last.1.max(k.1),
            _ => merged.push(k),
        }
    }
    merged
}

fn map(outline: &Outline, f: impl Fn(Point) -> Point) -> Outline {
    let mut out = BezPath::new();
    for el in outline.to_bez_path().elements() {
        match *el {
            PathEl::MoveTo(p) => out.move_to(f(p)),
            PathEl::LineTo(p) => out.line_to(f(p)),
            PathEl::QuadTo(c, p) => out.quad_to(f(c), f(p)),
            PathEl::CurveTo(c, d, p) => out.curve_to(f(c), f(d), f(p)),
            PathEl::ClosePath => out.close_path(),
        }
    }
    Outline::from_path(&out)
}
