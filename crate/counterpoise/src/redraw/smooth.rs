//! Joints that were smooth stay smooth.
//!
//! A map that bends, or an offset, moves a point and its two handles by
//! different amounts, and leaves them out of line. Here they are brought back
//! into line with the least that can be moved: the handles turn about their
//! point; where two quadratic curves meet, whose handles belong to two joints
//! each, the point between them moves instead.

use crate::outline::Outline;
use kurbo::{BezPath, PathSeg, Point, Vec2};

/// A joint that turns by less than this (radians, 3 degrees) was meant to be
/// smooth: rounding to whole units turns short handles as far (common practice,
/// no source). Wider, and corners that were meant would be rounded.
pub const SMOOTH: f64 = 3.0 * std::f64::consts::PI / 180.0;

/// A quadratic curve's handle belongs to both of its joints: brought in line at
/// one, it may leave the other. After a few rounds nothing moves any more.
const ROUNDS: usize = 6;

/// Brings the handles of `moved` into line wherever those of `drawn` were. Both
/// must have the same segments in the same order; else `moved` is given back.
pub fn straighten(drawn: &Outline, moved: &Outline) -> Outline {
    if drawn.contours() != moved.contours() {
        return moved.clone();
    }
    let mut segs: Vec<PathSeg> = moved.segments().iter().map(|s| s.path_seg()).collect();
    for contour in moved.contours() {
        let old = &drawn.segments()[contour.clone()];
        let new = &mut segs[contour.clone()];
        let n = new.len();
        for _ in 0..ROUNDS {
            for i in 0..n {
                let before = (i + n - 1) % n;
                let turn = angle(old[before].tangent(1.0), old[i].tangent(0.0));
                if n > 1 && turn < SMOOTH {
                    let ratio = share(&old[before].path_seg(), &old[i].path_seg());
                    let (a, b) = mended(new[before], new[i], ratio);
                    new[before] = a;
                    new[i] = b;
                }
            }
        }
    }
    let mut path = BezPath::new();
    for contour in moved.contours() {
        for (k, seg) in segs[contour.clone()].iter().enumerate() {
            if k == 0 {
                path.move_to(start(seg));
            }
            match *seg {
                PathSeg::Line(l) => path.line_to(l.p1),
                PathSeg::Quad(q) => path.quad_to(q.p1, q.p2),
                PathSeg::Cubic(c) => path.curve_to(c.p1, c.p2, c.p3),
            }
        }
        path.close_path();
    }
    Outline::from_path(&path)
}

/// The angle between two directions, radians.
pub(super) fn angle(a: Vec2, b: Vec2) -> f64 {
    a.cross(b).atan2(a.dot(b)).abs()
}

fn start(seg: &PathSeg) -> Point {
    match seg {
        PathSeg::Line(l) => l.p0,
        PathSeg::Quad(q) => q.p0,
        PathSeg::Cubic(c) => c.p0,
    }
}

/// The control point before a segment's end; `None` of a line.
fn last_handle(seg: &PathSeg) -> Option<Point> {
    match seg {
        PathSeg::Line(_) => None,
        PathSeg::Quad(q) => Some(q.p1),
        PathSeg::Cubic(c) => Some(c.p2),
    }
}

/// The control point after a segment's start; `None` of a line.
fn first_handle(seg: &PathSeg) -> Option<Point> {
    match seg {
        PathSeg::Line(_) => None,
        PathSeg::Quad(q) => Some(q.p1),
        PathSeg::Cubic(c) => Some(c.p1),
    }
}

/// Where between two handles the point lies, as a share of the way.
fn share(a: &PathSeg, b: &PathSeg) -> f64 {
    let p = start(b);
    let (Some(h), Some(g)) = (last_handle(a), first_handle(b)) else {
        return 0.5;
    };
    let (back, on) = (p.distance(h), p.distance(g));
    if back + on > 0.0 {
        back / (back + on)
    } else {
        0.5
    }
}

/// Two segments with what meets between them in line.
fn mended(a: PathSeg, b: PathSeg, ratio: f64) -> (PathSeg, PathSeg) {
    let p = start(&b);
    match (a, b) {
        (PathSeg::Line(_), PathSeg::Line(_)) => (a, b),
        // A line leads: the handle follows it.
        (PathSeg::Line(l), _) => (a, with_first(b, along(p, l.p1 - l.p0, first_handle(&b)))),
        (_, PathSeg::Line(l)) => (with_last(a, along(p, l.p0 - l.p1, last_handle(&a))), b),
        // Between two quadratic curves the point is what can move.
        (PathSeg::Quad(mut q), PathSeg::Quad(mut r)) => {
            let p = q.p1.lerp(r.p1, ratio);
            q.p2 = p;
            r.p0 = p;
            (PathSeg::Quad(q), PathSeg::Quad(r))
        }
        (PathSeg::Quad(q), PathSeg::Cubic(_)) => {
            (a, with_first(b, along(p, p - q.p1, first_handle(&b))))
        }
        (PathSeg::Cubic(_), PathSeg::Quad(r)) => {
            (with_last(a, along(p, p - r.p1, last_handle(&a))), b)
        }
        (PathSeg::Cubic(c), PathSeg::Cubic(d)) => {
            let way = d.p1 - c.p2;
            (
                with_last(a, along(p, -way, Some(c.p2))),
                with_first(b, along(p, way, Some(d.p1))),
            )
        }
    }
}

/// A handle of the same length as before, in a direction from its point.
fn along(p: Point, direction: Vec2, handle: Option<Point>) -> Option<Point> {
    let (handle, length) = (handle?, direction.hypot());
    (length > 1e-9).then(|| p + direction / length * p.distance(handle))
}

fn with_first(seg: PathSeg, handle: Option<Point>) -> PathSeg {
    match (seg, handle) {
        (PathSeg::Quad(mut q), Some(h)) => {
            q.p1 = h;
            PathSeg::Quad(q)
        }
        (PathSeg::Cubic(mut c), Some(h)) => {
            c.p1 = h;
            PathSeg::Cubic(c)
        }
        _ => seg,
    }
}

fn with_last(seg: PathSeg, handle: Option<Point>) -> PathSeg {
    match (seg, handle) {
        (PathSeg::Quad(mut q), Some(h)) => {
            q.p1 = h;
            PathSeg::Quad(q)
        }
        (PathSeg::Cubic(mut c), Some(h)) => {
            c.p2 = h;
            PathSeg::Cubic(c)
        }
        _ => seg,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_joint_bent_open_is_brought_into_line_and_a_corner_left() {
        let mut drawn = BezPath::new();
        drawn.move_to((0.0, 0.0));
        drawn.curve_to((10.0, 0.0), (40.0, 30.0), (50.0, 50.0));
        drawn.curve_to((60.0, 70.0), (80.0, 100.0), (100.0, 100.0));
        drawn.close_path();
        let drawn = Outline::from_path(&drawn);
        let mut bent = BezPath::new();
        bent.move_to((0.0, 0.0));
        bent.curve_to((10.0, 0.0), (40.0, 30.0), (55.0, 50.0));
        bent.curve_to((75.0, 70.0), (95.0, 100.0), (115.0, 100.0));
        bent.close_path();
        let bent = Outline::from_path(&bent);
        let mended = straighten(&drawn, &bent);
        let turn = |o: &Outline, i: usize| {
            angle(
                o.segments()[i].tangent(1.0),
                o.segments()[i + 1].tangent(0.0),
            )
        };
        assert!(turn(&bent, 0) > 0.1);
        assert!(turn(&mended, 0) < 1e-9);
        // The corner at the far end is as it was.
        assert!((turn(&mended, 1) - turn(&bent, 1)).abs() < 1e-9);
    }

    #[test]
    fn between_quadratic_curves_the_point_moves() {
        let mut path = BezPath::new();
        path.move_to((0.0, 0.0));
        path.quad_to((50.0, 0.0), (75.0, 25.0));
        path.quad_to((100.0, 50.0), (100.0, 100.0));
        path.close_path();
        let drawn = Outline::from_path(&path);
        let mut path = BezPath::new();
        path.move_to((0.0, 0.0));
        path.quad_to((60.0, 0.0), (95.0, 25.0));
        path.quad_to((120.0, 50.0), (120.0, 100.0));
        path.close_path();
        let mended = straighten(&drawn, &Outline::from_path(&path));
        assert_eq!(mended.segments()[0].end(), Point::new(90.0, 25.0));
    }
}
