//! A letter made wider or narrower with its strokes kept.
//!
//! # Method, limits and source
//! Once the letter stands upright (a slanted one is set upright first), every
//! upright stroke takes a stretch of x that must keep its length; what lies
//! between gives way, all of it by the same share, so that the widest ink is as
//! wide as asked. The map of x is linear between those places, and joints that
//! were smooth are brought back into line. Diagonals grow thicker as their
//! letter grows wider: their two edges are moved towards each other until the
//! stroke is as thick as it was, and the map is laid again. A sketch: where the
//! curve of a bowl leaves its kept side, the map bends and the curve with it.

use super::shift::shift_edges;
use super::smooth::straighten;
use super::{Unable, Warp, across, shear};
use crate::measure::strokes::{Stroke, StrokeKind, Thickness};
use crate::measure::{Context, Letter};
use crate::outline::Outline;
use kurbo::{Point, Vec2};

/// Of a letter's width at least this share must be other than upright strokes:
/// with less there is nothing that could give way.
const LEAST_FREE: f64 = 0.2;

/// Rounds of mending diagonals and laying the map again: each leaves some
/// hundredths of what the one before left.
const ROUNDS: usize = 4;

/// Widens an outline to an ink width, font units, keeping its left edge.
///
/// # Errors
/// If it has no ink, or too little that could give way.
pub fn widen(
    outline: &Outline,
    letter: &Letter,
    context: &Context,
    to: f64,
) -> Result<Outline, Unable> {
    let lean = context.slant.to_radians().tan();
    let upright = outline.transformed(shear(-lean));
    let b = upright.bounds().ok_or(Unable::NoInk)?;
    // The target is told of the letter as it stands, which leans.
    let own = outline.bounds().ok_or(Unable::NoInk)?;
    let target = b.width() + to - own.width();
    let kept = uprights(letter, lean);
    let lay = |from: &Outline, kept: &[(f64, f64)]| {
        let b = from.bounds().ok_or(Unable::NoInk)?;
        let warp = Warp::keeping(b.x0, b.x1, kept, target, LEAST_FREE).ok_or(Unable::NoRoom)?;
        let laid = straighten(from, &warp.across(from));
        Ok((laid, warp))
    };
    let edges = diagonals(&upright, letter, lean);
    let (mut wide, warp) = lay(&upright, &kept)?;
    let kept: Vec<_> = kept
        .iter()
        .map(|&(a, b)| (warp.at(a), warp.at(b)))
        .collect();
    for _ in 0..ROUNDS {
        if edges.is_empty() {
            break;
        }
        let mut by = vec![0.0; wide.segments().len()];
        for pair in &edges {
            let more = pair.thickness - pair.measured(&wide);
            for edge in [pair.near, pair.far] {
                by[edge] = 0.5 * more * pair.side;
            }
        }
        wide = lay(&shift_edges(&wide, &by), &kept)?.0;
    }
    let leaning = wide.transformed(shear(lean));
    let now = leaning.bounds().ok_or(Unable::NoInk)?;
    // The left edge stays; a slanted letter's may have moved with its foot.
    Ok(leaning.transformed(kurbo::Affine::translate((own.x0 - now.x0, 0.0))))
}

/// The stretches of x that upright strokes take, once the letter stands upright.
fn uprights(letter: &Letter, lean: f64) -> Vec<(f64, f64)> {
    letter
        .strokes
        .iter()
        .flat_map(|s| -> Vec<(f64, f64)> {
            let marks = s.marks.iter().filter(|m| crosses_side(m, lean));
            let marked = marks.map(|m| across(m, lean));
            match s.kind {
                StrokeKind::Stem => marked.chain(along_all(s, lean)).collect(),
                StrokeKind::Curve => marked.chain(along_sides(s, lean)).collect(),
                // A splayed stem is a stem that leans.
                StrokeKind::Diagonal if s.marks.iter().all(|m| crosses_side(m, lean)) => {
                    along_all(s, lean).into_iter().collect()
                }
                StrokeKind::Bar | StrokeKind::Diagonal => Vec::new(),
            }
        })
        .collect()
}

/// From where to where a stem reaches over its whole length: one that leans a
/// little, or swells, takes more than it does in its middle.
fn along_all(stem: &Stroke, lean: f64) -> Option<(f64, f64)> {
    let half = 0.5 * stem.greatest.value;
    stem.axis
        .iter()
        .map(|p| p.x - p.y * lean)
        .map(|x| (x - half, x + half))
        .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

/// A curve that departs from upright by less than this (run over rise, 15 degrees)
/// is at its side.
const SIDE: f64 = 0.27;

/// Whether a mark lies across a side.
fn crosses_side(m: &Thickness, lean: f64) -> bool {
    let v = m.to - m.from;
    (v.y + v.x * lean).abs() <= SIDE * v.x.abs()
}

/// Where a curve is at its sides: from its mark as far as it stays near upright.
/// Of a stem with curved edges that is all of it.
fn along_sides(curve: &Stroke, lean: f64) -> Vec<(f64, f64)> {
    let stand = |p: &Point| Point::new(p.x - p.y * lean, p.y);
    let at = |i: usize| {
        let (x, half) = (stand(&curve.axis[i]).x, 0.5 * curve.profile[i]);
        (x - half, x + half)
    };
    (1..curve.axis.len().min(curve.profile.len()))
        .filter(|&i| {
            let way = stand(&curve.axis[i]) - stand(&curve.axis[i - 1]);
            way.x.abs() <= SIDE * way.y.abs()
        })
        .flat_map(|i| [at(i - 1), at(i)])
        .collect()
}

/// The two edges of a diagonal stroke.
#[derive(Debug)]
struct Pair {
    near: usize,
    far: usize,
    /// How far along the near edge the stroke was marked.
    t: f64,
    /// As thick as it was drawn.
    thickness: f64,
    /// 1 if the ink lies left of the edges, else -1.
    side: f64,
}

impl Pair {
    /// The thickness between the same edges of an outline of the same segments.
    fn measured(&self, outline: &Outline) -> f64 {
        let segments = outline.segments();
        let p = segments[self.near].at(self.t);
        let (a, b) = (segments[self.far].start(), segments[self.far].end());
        let chord = b - a;
        // Square to the bisector of the edges, as a stroke is measured.
        let near = segments[self.near].tangent(self.t);
        let far = chord / chord.hypot();
        let along = near - far;
        let bisector = along / along.hypot();
        let normal = Vec2::new(-bisector.y, bisector.x);
        let denominator = far.cross(normal);
        if denominator.abs() < 1e-9 {
            return self.thickness;
        }
        (far.cross(a - p) / denominator).abs()
    }
}

/// Two edges that part by more than this (radians, 12 degrees) are a wedge: what
/// its thickness was has no place to be kept.
const WEDGE: f64 = 0.21;

/// A curve's middle line this near its chord (share of its length) is a diagonal
/// drawn with a little life.
const STRAIGHT: f64 = 0.99;

fn is_straight(curve: &Stroke) -> bool {
    let ends = curve.axis.first().zip(curve.axis.last());
    let chord = ends.map_or(0.0, |(a, b)| a.distance(*b));
    !curve.closed && chord >= STRAIGHT * curve.length
}

fn diagonals(upright: &Outline, letter: &Letter, lean: f64) -> Vec<Pair> {
    let stand = |p: Point| shear(-lean) * p;
    let mut taken = vec![false; upright.segments().len()];
    letter
        .strokes
        .iter()
        .filter(|s| s.kind == StrokeKind::Diagonal || is_straight(s))
        .filter_map(|s| {
            let m = s.marks.first().filter(|m| !crosses_side(m, lean))?;
            // A bar moves with nothing: what is above and below it keeps its height.
            if m.runs_level(lean) {
                return None;
            }
            let (near, t) = edge_at(upright, stand(m.from))?;
            let (far, _) = edge_at(upright, stand(m.to))?;
            let segments = upright.segments();
            let opposite = segments[near]
                .tangent(t)
                .dot(segments[far].end() - segments[far].start());
            // Each edge can be moved for one stroke alone.
            if near == far || taken[near] || taken[far] || opposite >= 0.0 {
                return None;
            }
            let mut pair = Pair {
                near,
                far,
                t,
                thickness: 0.0,
                side: 1.0,
            };
            let chord = segments[far].end() - segments[far].start();
            if super::smooth::angle(segments[near].tangent(t), -chord) > WEDGE {
                return None;
            }
            (taken[near], taken[far]) = (true, true);
            pair.thickness = pair.measured(upright);
            let inward = stand(m.to) - stand(m.from);
            if segments[near].tangent(t).cross(inward) < 0.0 {
                pair.side = -1.0;
            }
            Some(pair)
        })
        .collect()
}

/// The segment that a point of the outline lies on, and where on it.
fn edge_at(outline: &Outline, p: Point) -> Option<(usize, f64)> {
    use kurbo::ParamCurveNearest;
    outline
        .segments()
        .iter()
        .enumerate()
        .map(|(i, s)| (i, s.path_seg().nearest(p, 0.01)))
        .min_by(|a, b| a.1.distance_sq.total_cmp(&b.1.distance_sq))
        .map(|(i, n)| (i, n.t))
}
