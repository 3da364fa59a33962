//! A piece of the refit in quadratic curves, for outlines that are made of them.
//!
//! The cubic curve that draws the piece tells place and direction anywhere along
//! it, free of the outline's own rounding. Along it quadratic curves are laid end
//! to end, each as long as the tolerance lets it be; the handle of each is where
//! its two directions cross, so that the joints are smooth.

use super::run::Run;
use kurbo::{CubicBez, ParamCurve, ParamCurveDeriv, PathSeg, Point, QuadBez, Vec2};

/// Halvings that seek how far a curve reaches: to within a 200th of the piece.
const HALVINGS: u32 = 8;

/// Points that the piece from node `i` to node `j` needs in quadratic curves:
/// each curve has one handle and an end, which may be an implied point.
pub(super) fn points(run: &Run, i: usize, j: usize, curve: &CubicBez, tolerance: f64) -> usize {
    let drawn: usize = run.legs[i..j].iter().map(drawn).sum();
    let (a, b) = (run.nodes[i].sample, run.nodes[j].sample);
    let feet = feet(curve, &run.samples[a..=b], &run.way[a..=b]);
    let (mut from, mut needed) = (0.0, 0);
    while from < 1.0 {
        needed += 2;
        if needed >= drawn {
            return drawn;
        }
        let reaches =
            |to: f64| quad(curve, from, to).is_some_and(|q| passes(&q, from, to, &feet, tolerance));
        if reaches(1.0) {
            break;
        }
        let (mut good, mut bad) = (from, 1.0);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (good + bad);
            if reaches(middle) {
                good = middle;
            } else {
                bad = middle;
            }
        }
        if good <= from {
            return drawn;
        }
        from = good;
    }
    needed
}

/// Points that a leg is drawn with.
pub(super) fn drawn(leg: &PathSeg) -> usize {
    match leg {
        PathSeg::Line(_) => 1,
        PathSeg::Quad(_) => 2,
        PathSeg::Cubic(_) => 3,
    }
}

/// Each sample with its place along the curve.
fn feet(curve: &CubicBez, samples: &[Point], way: &[f64]) -> Vec<(f64, Point)> {
    let slope = curve.deriv();
    let (start, length) = (way[0], way[way.len() - 1] - way[0]);
    samples
        .iter()
        .zip(way)
        .map(|(&p, w)| {
            let mut t = (w - start) / length;
            for _ in 0..4 {
                t = step(curve.eval(t) - p, slope.eval(t).to_vec2(), t);
            }
            (t, p)
        })
        .collect()
}

/// The quadratic curve with the ends and end directions of a stretch.
fn quad(curve: &CubicBez, from: f64, to: f64) -> Option<QuadBez> {
    let part = curve.subsegment(from..to);
    let (u, v) = (part.p1 - part.p0, part.p3 - part.p2);
    let chord = part.p3 - part.p0;
    let across = u.cross(v);
    let straight = u.hypot() * v.hypot() * 1e-3;
    let handle = if across.abs() <= straight {
        part.p0.midpoint(part.p3)
    } else {
        let (s, t) = (chord.cross(v) / across, chord.cross(u) / across);
        // Behind either end the directions cross only beyond an inflection.
        if s <= 0.0 || t >= 0.0 {
            return None;
        }
        part.p0 + s * u
    };
    Some(QuadBez::new(part.p0, handle, part.p3))
}

/// Whether the stretch's quadratic curve passes within the tolerance of its samples.
fn passes(quad: &QuadBez, from: f64, to: f64, feet: &[(f64, Point)], tolerance: f64) -> bool {
    let slope = quad.deriv();
    feet.iter()
        .filter(|(t, _)| *t > from && *t < to)
        .all(|&(t, p)| {
            let mut u = (t - from) / (to - from);
            for _ in 0..3 {
                u = step(quad.eval(u) - p, slope.eval(u).to_vec2(), u);
            }
            (quad.eval(u) - p).hypot() <= tolerance
        })
}

/// A step towards the foot of a point that lies `off` behind.
fn step(off: Vec2, slope: Vec2, t: f64) -> f64 {
    let d = slope.hypot2();
    if d > 0.0 {
        (t - off.dot(slope) / d).clamp(0.0, 1.0)
    } else {
        t
    }
}
