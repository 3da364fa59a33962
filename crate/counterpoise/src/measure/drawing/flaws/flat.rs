//! Flats that are not: lines a little off level or upright.

use super::{Flaw, FlawKind, Found};
use crate::outline::Segment;
use kurbo::PathSeg;

/// A line off by less is rounding, by more is drawn so (both of the em; common
/// practice, no source).
const OFF: (f64, f64) = (0.001, 0.003);

/// A line that leans by more than this (tangent of 3 degrees) is short enough
/// for its lean to be meant.
const LEAN: f64 = 0.052_4;

pub(super) fn look(segments: &[Segment], contour: usize, em: f64, found: &mut Found) {
    for segment in segments {
        let PathSeg::Line(l) = segment.path_seg() else {
            continue;
        };
        let (dx, dy) = ((l.p1.x - l.p0.x).abs(), (l.p1.y - l.p0.y).abs());
        let near = |off: f64, along: f64| {
            off >= OFF.0 * em - 1e-9 && off <= OFF.1 * em + 1e-9 && off <= LEAN * along
        };
        let (kind, size) = if near(dy, dx) {
            (FlawKind::NearlyLevel, dy)
        } else if near(dx, dy) {
            (FlawKind::NearlyUpright, dx)
        } else {
            continue;
        };
        found.add(Flaw {
            kind,
            at: l.p0.midpoint(l.p1),
            size,
            contour,
        });
    }
}
