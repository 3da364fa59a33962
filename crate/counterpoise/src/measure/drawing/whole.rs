//! An outline without specks.

use crate::outline::{Outline, Segment};
use kurbo::{BezPath, ParamCurve, PathSeg};
use std::borrow::Cow;

/// A segment smaller than this (font units) was not drawn: arithmetic in single
/// precision leaves it, where a contour closes a ten-thousandth of a unit off
/// its start. It has no direction that means anything.
const SPECK: f64 = 0.01;

/// The outline, its specks taken out. Contours keep their order; one that is
/// nothing but a speck keeps it.
pub(super) fn whole(outline: &Outline) -> Cow<'_, Outline> {
    if !outline.segments().iter().any(is_speck) {
        return Cow::Borrowed(outline);
    }
    let mut path = BezPath::new();
    for contour in outline.contours() {
        let segments = &outline.segments()[contour.clone()];
        let drawn: Vec<PathSeg> = if segments.iter().all(is_speck) {
            segments.iter().map(Segment::path_seg).collect()
        } else {
            segments
                .iter()
                .filter(|s| !is_speck(s))
                .map(Segment::path_seg)
                .collect()
        };
        let Some(last) = drawn.last() else { continue };
        // Each segment starts where the one before it ends, the first where the
        // last does, so that nothing is left to close.
        path.move_to(last.end());
        for seg in &drawn {
            match *seg {
                PathSeg::Line(l) => path.line_to(l.p1),
                PathSeg::Quad(q) => path.quad_to(q.p1, q.p2),
                PathSeg::Cubic(c) => path.curve_to(c.p1, c.p2, c.p3),
            }
        }
        path.close_path();
    }
    Cow::Owned(Outline::from_path(&path))
}

fn is_speck(segment: &Segment) -> bool {
    let b = segment.bounds();
    b.width().max(b.height()) < SPECK
}
