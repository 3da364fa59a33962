//! An automatic trace's points: the same shape, cut into far too many pieces.

use kurbo::{BezPath, ParamCurve, ParamCurveArclen, PathEl, PathSeg};

use crate::spline::handle_count;

/// The same outline with about `times` as many TrueType points.
pub(crate) fn traced(path: &BezPath, times: usize) -> BezPath {
    let mut out = BezPath::new();
    for contour in contours(path) {
        // A contour that ends where it began closes with an edge of no length.
        let edges = contour.segments().filter(|s| s.arclen(0.1) > 0.5);
        let pieces: Vec<PathSeg> = edges.flat_map(|edge| cut(edge, times)).collect();
        if let Some(first) = pieces.first() {
            out.move_to(first.start());
        }
        for piece in pieces {
            out.push(piece.as_path_el());
        }
        out.close_path();
    }
    out
}

fn contours(path: &BezPath) -> Vec<BezPath> {
    let mut contours: Vec<BezPath> = Vec::new();
    for element in path.elements() {
        match (element, contours.last_mut()) {
            (PathEl::MoveTo(_), _) | (_, None) => {
                contours.push(BezPath::from_vec(vec![*element]));
            }
            (_, Some(contour)) => contour.push(*element),
        }
    }
    contours
}

/// An edge in equal parts of its parameter, as many as make `times` the points.
fn cut(edge: PathSeg, times: usize) -> Vec<PathSeg> {
    let parts = match edge {
        PathSeg::Line(_) => times,
        // A short piece of a curve takes one handle and one point where the
        // whole took several handles and one point.
        PathSeg::Quad(_) => times,
        PathSeg::Cubic(cubic) => (times * (handle_count(cubic) + 1)).div_ceil(2),
    };
    let at = |i: usize| i as f64 / parts as f64;
    (0..parts)
        .map(|i| edge.subsegment(at(i)..at(i + 1)))
        .collect()
}
