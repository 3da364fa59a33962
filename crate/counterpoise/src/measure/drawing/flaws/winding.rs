//! How often a contour runs round a point.

use crate::outline::Segment;
use kurbo::{ParamCurve, PathSeg, Point, Rect};

/// Halvings of a curve whose box holds the point: after these it is shorter than
/// a millionth of itself.
const HALVINGS: u32 = 20;

/// How often a contour runs round a point, anticlockwise positive.
///
/// A level ray to the left counts what it crosses. A curve that lies wholly to
/// the left counts by its ends alone, however it bends; only one whose box holds
/// the point is looked at more closely.
pub(super) fn winding(segments: &[Segment], p: Point) -> i32 {
    segments
        .iter()
        .map(|s| of_curve(s.path_seg(), s.bounds(), p, HALVINGS))
        .sum()
}

fn of_curve(seg: PathSeg, bounds: Rect, p: Point, halvings: u32) -> i32 {
    if p.y < bounds.y0 || p.y > bounds.y1 || p.x < bounds.x0 {
        0
    } else if p.x > bounds.x1 || halvings == 0 {
        // A point level with an end lies above it, so that a joint counts once.
        i32::from(seg.end().y <= p.y) - i32::from(seg.start().y <= p.y)
    } else {
        let (a, b) = seg.subdivide();
        of_curve(a, hull(&a), p, halvings - 1) + of_curve(b, hull(&b), p, halvings - 1)
    }
}

/// The box of a curve's control points, which holds the curve.
fn hull(seg: &PathSeg) -> Rect {
    let b = Rect::from_points(seg.start(), seg.end());
    match *seg {
        PathSeg::Line(_) => b,
        PathSeg::Quad(q) => b.union_pt(q.p1),
        PathSeg::Cubic(c) => b.union_pt(c.p1).union_pt(c.p2),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::Outline;
    use kurbo::{Circle, Rect, Shape};

    fn of(path: &kurbo::BezPath, p: (f64, f64)) -> i32 {
        winding(Outline::from_path(path).segments(), p.into())
    }

    #[test]
    fn a_circle_winds_once_inside_and_not_outside() {
        let ring = Circle::new((0.0, 0.0), 100.0).to_path(1e-6);
        for (p, inside) in [
            ((0.0, 0.0), 1),
            ((99.9, 0.0), 1),
            ((-99.9, 0.0), 1),
            ((100.1, 0.0), 0),
            ((-100.1, 0.0), 0),
            ((70.0, 70.0), 1),
            ((71.5, 71.5), 0),
            // Level with the joints.
            ((-120.0, 0.0), 0),
            ((120.0, 0.0), 0),
            ((120.0, 100.0), 0),
        ] {
            assert_eq!(of(&ring, p), inside, "{p:?}");
            assert_eq!(of(&ring.reverse_subpaths(), p), -inside, "{p:?}");
        }
    }

    #[test]
    fn corners_count_once() {
        let diamond = {
            let mut p = kurbo::BezPath::new();
            p.move_to((0.0, -50.0));
            p.line_to((50.0, 0.0));
            p.line_to((0.0, 50.0));
            p.line_to((-50.0, 0.0));
            p.close_path();
            p
        };
        assert_eq!(of(&diamond, (0.0, 0.0)), 1);
        assert_eq!(of(&diamond, (60.0, 0.0)), 0);
        assert_eq!(of(&diamond, (-60.0, 0.0)), 0);
        assert_eq!(
            of(&Rect::new(0.0, 0.0, 9.0, 9.0).to_path(0.1), (4.0, 0.0)),
            1
        );
    }
}
