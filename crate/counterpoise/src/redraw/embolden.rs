//! Thicker or thinner strokes by moving every edge along its normal.
//!
//! The control polygon is moved, edge by edge, and its corners found again where
//! the moved edges meet, so that curves keep their points and handles.

use crate::outline::Outline;
use kurbo::{BezPath, PathEl, Point, Vec2};

/// Corners sharper than this move no further than this many times the offset.
const MITER: f64 = 2.5;

/// Moves the edges outwards by `across` where they are upright and by `along`
/// where they are level, font units; inwards if negative.
pub fn embolden(outline: &Outline, across: f64, along: f64) -> Outline {
    offset(outline, across, along, |_, moved| moved)
}

/// As [`embolden`], with edges too short for the offset kept as they are: between
/// two corners that pass each other an edge would run backwards, and the outline
/// cross itself.
pub(super) fn embolden_untangled(outline: &Outline, across: f64, along: f64) -> Outline {
    offset(outline, across, along, untangled)
}

fn offset(
    outline: &Outline,
    across: f64,
    along: f64,
    mend: impl Fn(&[Point], Vec<Point>) -> Vec<Point>,
) -> Outline {
    let path = outline.to_bez_path();
    // Ink lies to the left of an anticlockwise contour.
    let side = if outline.signed_area() >= 0.0 {
        1.0
    } else {
        -1.0
    };
    let mut out = BezPath::new();
    for contour in contours(&path) {
        let points = control_points(&contour);
        let moved = mend(&points, moved(&points, side, across, along));
        let mut at = 0;
        let mut next = || {
            at += 1;
            moved[(at - 1) % moved.len()]
        };
        for el in &contour {
            match el {
                PathEl::MoveTo(_) => out.move_to(next()),
                PathEl::LineTo(_) => out.line_to(next()),
                PathEl::QuadTo(..) => out.quad_to(next(), next()),
                PathEl::CurveTo(..) => out.curve_to(next(), next(), next()),
                PathEl::ClosePath => out.close_path(),
            }
        }
    }
    Outline::from_path(&out)
}

fn contours(path: &BezPath) -> Vec<Vec<PathEl>> {
    let mut all: Vec<Vec<PathEl>> = Vec::new();
    for el in path.elements() {
        if matches!(el, PathEl::MoveTo(_)) {
            all.push(Vec::new());
        }
        if let Some(last) = all.last_mut() {
            last.push(*el);
        }
    }
    all
}

/// Every control point in order; the last, which is the first again, left out.
fn control_points(contour: &[PathEl]) -> Vec<Point> {
    let mut points = Vec::new();
    for el in contour {
        match *el {
            PathEl::MoveTo(p) | PathEl::LineTo(p) => points.push(p),
            PathEl::QuadTo(c, p) => points.extend([c, p]),
            PathEl::CurveTo(c, d, p) => points.extend([c, d, p]),
            PathEl::ClosePath => {}
        }
    }
    if points.len() > 1 && points.first() == points.last() {
        points.pop();
    }
    points
}

fn moved(points: &[Point], side: f64, across: f64, along: f64) -> Vec<Point> {
    let n = points.len();
    let direction = |from: usize, step: isize| -> Option<Vec2> {
        // Over points that coincide.
        let mut i = from;
        for _ in 0..n {
            i = (i as isize + step).rem_euclid(n as isize) as usize;
            let d = if step > 0 {
                points[i] - points[from]
            } else {
                points[from] - points[i]
            };
            if d.hypot() > 1e-9 {
                return Some(d / d.hypot());
            }
        }
        None
    };
    (0..n)
        .map(|i| {
            let (Some(a), Some(b)) = (direction(i, -1), direction(i, 1)) else {
                return points[i];
            };
            // Outward normals of the edges before and after.
            let (na, nb) = (Vec2::new(a.y, -a.x) * side, Vec2::new(b.y, -b.x) * side);
            let by = |n: Vec2| across * n.x * n.x + along * n.y * n.y;
            let (da, db) = (by(na), by(nb));
            let det = na.cross(nb);
            let shift = if det.abs() < 0.05 {
                let n = na + nb;
                if n.hypot() < 1e-9 {
                    na * da
                } else {
                    n / n.hypot() * (0.5 * (da + db))
                }
            } else {
                Vec2::new(da * nb.y - db * na.y, db * na.x - da * nb.x) / det
            };
            let most = MITER * da.abs().max(db.abs());
            let length = shift.hypot();
            points[i]
                + if length > most {
                    shift * (most / length)
                } else {
                    shift
                }
        })
        .collect()
}

/// An edge left with less than this share of its length is about to turn over.
const LEAST_LEFT: f64 = 0.1;

/// Rounds of mending: an edge given its length back may take it from the next.
const ROUNDS: usize = 12;

/// The moved points, with both ends of edges that turned over moved alike.
pub(super) fn untangled(points: &[Point], mut moved: Vec<Point>) -> Vec<Point> {
    let n = points.len();
    for _ in 0..ROUNDS {
        let mut mended = false;
        for i in 0..n {
            let j = (i + 1) % n;
            let (was, is) = (points[j] - points[i], moved[j] - moved[i]);
            if was.dot(is) < LEAST_LEFT * was.hypot2() {
                let by = 0.5 * ((moved[i] - points[i]) + (moved[j] - points[j]));
                moved[i] = points[i] + by;
                moved[j] = points[j] + by;
                mended = true;
            }
        }
        if !mended {
            break;
        }
    }
    moved
}
