//! Flaws within one curve: extremes without a point, handles that are too long,
//! wobbles.

use super::{Flaw, FlawKind, Found};
use crate::measure::drawing::economy::BULGE;
use crate::outline::Segment;
use kurbo::{CubicBez, Line, ParamCurve, ParamCurveExtrema, PathSeg, Point};

/// An extreme this near to an end (of the parameter) is the end's own, missed by
/// rounding.
const AT_END: f64 = 0.01;

/// A handle is too long if its end lies this far past the other's line (of the
/// em; common practice, no source).
const OVERRUN: f64 = 0.001;

/// A bend lower than this (of the em) is not seen (common practice, no source).
const LOWEST_BEND: f64 = 0.001;

/// A curve whose lesser bend is under this share of the greater wobbles; one
/// that bends alike both ways, as the spine of an s, was meant so.
const LOPSIDED: f64 = 0.2;

pub(super) fn look(segments: &[Segment], contour: usize, em: f64, found: &mut Found) {
    for segment in segments {
        let seg = segment.path_seg();
        if segment.is_line() {
            continue;
        }
        extremes(segment, em, |at, size| {
            found.add(Flaw {
                kind: FlawKind::NoPointAtExtreme,
                at,
                size,
                contour,
            });
        });
        let PathSeg::Cubic(c) = seg else { continue };
        if let Some((at, size)) = long_handle(&c).filter(|l| l.1 > OVERRUN * em) {
            found.add(Flaw {
                kind: FlawKind::LongHandle,
                at,
                size,
                contour,
            });
        }
        if let Some((at, size)) = wobble(&c).filter(|w| w.1 > LOWEST_BEND * em) {
            found.add(Flaw {
                kind: FlawKind::Wobble,
                at,
                size,
                contour,
            });
        }
    }
}

fn extremes(segment: &Segment, em: f64, mut tell: impl FnMut(Point, f64)) {
    let seg = segment.path_seg();
    let (a, b) = (seg.start(), seg.end());
    for t in seg.extrema() {
        if !(AT_END..=1.0 - AT_END).contains(&t) {
            continue;
        }
        let (p, along) = (seg.eval(t), segment.tangent(t));
        let past = |v: f64, a: f64, b: f64| (v - a.max(b)).max(a.min(b) - v);
        let size = if along.x.abs() < along.y.abs() {
            past(p.x, a.x, b.x)
        } else {
            past(p.y, a.y, b.y)
        };
        if size > BULGE * em {
            tell(p, size);
        }
    }
}

/// The end of the handle that lies furthest past the other's line, if that line
/// is one that it should stop short of.
fn long_handle(c: &CubicBez) -> Option<(Point, f64)> {
    let (u, v, chord) = (c.p1 - c.p0, c.p3 - c.p2, c.p3 - c.p0);
    let across = u.cross(v);
    if across == 0.0 {
        return None;
    }
    // Their crossing is at p0 + s u and at p3 - t v.
    let (s, t) = (chord.cross(v) / across, -chord.cross(u) / across);
    if s <= 0.0 || t <= 0.0 {
        return None;
    }
    let (first, second) = (
        (1.0 - s) * across.abs() / v.hypot(),
        (1.0 - t) * across.abs() / u.hypot(),
    );
    Some(if first > second {
        (c.p1, first)
    } else {
        (c.p2, second)
    })
}

/// The inflection and the height of the lesser bend of a curve that wobbles.
fn wobble(c: &CubicBez) -> Option<(Point, f64)> {
    let mut cuts = vec![0.0];
    cuts.extend(c.inflections().into_iter().filter(|t| *t > 0.0 && *t < 1.0));
    if cuts.len() == 1 {
        return None;
    }
    cuts.push(1.0);
    let bends: Vec<f64> = cuts
        .windows(2)
        .map(|w| height(&c.subsegment(w[0]..w[1])))
        .collect();
    let greatest = bends.iter().copied().fold(0.0, f64::max);
    let least = (0..bends.len()).min_by(|&a, &b| bends[a].total_cmp(&bends[b]))?;
    // Between the lesser bend and its neighbour.
    let at = cuts[if least == 0 { 1 } else { least }];
    (bends[least] < LOPSIDED * greatest).then(|| (c.eval(at), bends[least]))
}

/// How far a curve that bends one way stands off its chord.
fn height(c: &CubicBez) -> f64 {
    const PLACES: u32 = 8;
    let chord = Line::new(c.p0, c.p3);
    let across = chord.p1 - chord.p0;
    let length = across.hypot();
    if length == 0.0 {
        return 0.0;
    }
    (1..PLACES)
        .map(|i| {
            let p = c.eval(f64::from(i) / f64::from(PLACES));
            (across.cross(p - c.p0) / length).abs()
        })
        .fold(0.0, f64::max)
}
