//! Moves single edges of an outline, each along its normal, and finds the
//! corners between them again.

use super::embolden::untangled;
use crate::outline::{Outline, Segment};
use kurbo::{BezPath, PathSeg, Point, Vec2};

/// Edges that meet at less than this (sine of about 6 degrees) have no corner to
/// slide along: their point moves square to them.
const PARALLEL: f64 = 0.1;

/// A corner moves no further than this many times the way that its edges move:
/// at a sharp apex it would run away.
const MITER: f64 = 6.0;

/// Moves each segment by its own distance along its right-hand normal (outward
/// for an anticlockwise contour), font units. Handles go with their points.
pub(super) fn shift_edges(outline: &Outline, by: &[f64]) -> Outline {
    let mut path = BezPath::new();
    for contour in outline.contours() {
        let segments = &outline.segments()[contour.clone()];
        let by = &by[contour.clone()];
        let n = segments.len();
        let points: Vec<Point> = segments.iter().map(Segment::start).collect();
        let met = |a: usize, b: usize| corner(&segments[a], by[a], &segments[b], by[b]);
        let mut moved: Vec<Point> = (0..n)
            .map(|i| points[i] + met((i + n - 1) % n, i))
            .collect();
        for i in 0..n {
            let (before, after) = ((i + n - 1) % n, (i + 1) % n);
            let most = by[before].abs().max(by[after].abs());
            if n > 3 && by[i] == 0.0 && segments[i].length() < SHORT * most {
                let way = met(before, after);
                moved[i] = points[i] + way;
                moved[after] = points[after] + way;
            }
        }
        let moved = untangled(&points, moved);
        let moves: Vec<Vec2> = (0..n).map(|i| moved[i] - points[i]).collect();
        for (i, segment) in segments.iter().enumerate() {
            let (a, b) = (moves[i], moves[(i + 1) % n]);
            let to = |p: Point, v: Vec2| p + v;
            match segment.path_seg() {
                PathSeg::Line(l) => {
                    start(&mut path, i, l.p0 + a);
                    path.line_to(l.p1 + b);
                }
                PathSeg::Quad(q) => {
                    start(&mut path, i, q.p0 + a);
                    path.quad_to(to(q.p1, 0.5 * (a + b)), q.p2 + b);
                }
                PathSeg::Cubic(c) => {
                    start(&mut path, i, c.p0 + a);
                    path.curve_to(to(c.p1, a), to(c.p2, b), c.p3 + b);
                }
            }
        }
        path.close_path();
    }
    Outline::from_path(&path)
}

/// An edge shorter than this many times the way that its neighbours move goes as a
/// whole to where they meet: the cut of a notch is no edge for a corner to slide
/// along, and would soon be used up.
const SHORT: f64 = 12.0;

fn start(path: &mut BezPath, i: usize, p: Point) {
    if i == 0 {
        path.move_to(p);
    }
}

/// How the point between two edges moves when they do.
fn corner(a: &Segment, by_a: f64, b: &Segment, by_b: f64) -> Vec2 {
    if by_a == 0.0 && by_b == 0.0 {
        return Vec2::ZERO;
    }
    let (ta, tb) = (a.tangent(1.0), b.tangent(0.0));
    let (na, nb) = (Vec2::new(ta.y, -ta.x), Vec2::new(tb.y, -tb.x));
    let det = na.cross(nb);
    if det.abs() < PARALLEL {
        return 0.5 * (na * by_a + nb * by_b);
    }
    let shift = Vec2::new(by_a * nb.y - by_b * na.y, by_b * na.x - by_a * nb.x) / det;
    let most = MITER * by_a.abs().max(by_b.abs());
    let length = shift.hypot();
    if length > most {
        shift * (most / length)
    } else {
        shift
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Rect, Shape};

    #[test]
    fn one_edge_moves_and_its_corners_slide_along_the_others() {
        let square = Outline::from_path(&Rect::new(0.0, 0.0, 100.0, 100.0).to_path(0.1));
        // The first edge runs right along the foot of an anticlockwise square.
        let moved = shift_edges(&square, &[5.0, 0.0, 0.0, 0.0]);
        let b = moved.bounds().unwrap();
        assert_eq!((b.x0, b.y0, b.x1, b.y1), (0.0, -5.0, 100.0, 100.0));
    }
}
