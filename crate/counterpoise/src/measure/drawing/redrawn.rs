//! A refit held against the outline that it was made from: which of the drawn
//! points it keeps, does without, and sets anew.
//!
//! The refit's points on the curve are points of the outline, or extremes that it
//! lacks, in the outline's own order; so between two that both have, the points
//! that only one has can be counted against each other. Handles are redrawn
//! whatever becomes of the points, so they have no part in this.

use super::economy::{self, Tolerance};
use super::points::handles;
use super::whole::whole;
use super::{Curves, DrawingContext};
use crate::outline::{Outline, Segment};
use kurbo::{BezPath, Point};

/// Points of outline and refit this near each other (font units) are one: the
/// refit takes them from the outline as they are, but for single precision.
const SAME: f64 = 0.01;

/// An outline redrawn with the fewest points.
#[derive(Debug, Clone, PartialEq)]
pub struct Redrawn {
    /// The refit, in lines and cubic curves.
    pub path: BezPath,
    /// Drawn points on the curve that it keeps.
    pub kept: Vec<Point>,
    /// Drawn points on the curve that it does without. Of an outline in
    /// quadratic curves, whose points between two kept ones may all be needed
    /// in curves of its own kind, only where it has more than these take.
    pub spare: Vec<Point>,
    /// Points that it sets where the outline has none, at extremes.
    pub added: Vec<Point>,
}

/// Redraws an outline with the fewest points, and says what became of its own.
pub fn redrawn(outline: &Outline, context: &DrawingContext, tolerance: Tolerance) -> Redrawn {
    let outline = &*whole(outline);
    let path = economy::refit(outline, context, tolerance);
    let refit = Outline::from_path(&path);
    let quadratic = Curves::of(outline) == Curves::Quadratic;
    let mut told = Redrawn {
        path,
        kept: Vec::new(),
        spare: Vec::new(),
        added: Vec::new(),
    };
    for (drawn, new) in outline.contours().iter().zip(refit.contours()) {
        let drawn = &outline.segments()[drawn.clone()];
        let new = &refit.segments()[new.clone()];
        let within = tolerance.units(context.units_per_em);
        let cost = |s: &Segment| match quadratic {
            true => in_quadratics(s, within),
            false => 1 + handles(s),
        };
        compare(drawn, new, cost, &mut told);
    }
    told
}

/// Points that a segment of the refit takes in quadratic curves.
fn in_quadratics(segment: &Segment, within: f64) -> usize {
    match segment.path_seg() {
        kurbo::PathSeg::Cubic(c) => 2 * c.to_quads(within).count(),
        _ => 1 + handles(segment),
    }
}

/// Walks both contours from a point that they share to the next.
fn compare(
    drawn: &[Segment],
    new: &[Segment],
    cost: impl Fn(&Segment) -> usize,
    told: &mut Redrawn,
) {
    let (n, m) = (drawn.len(), new.len());
    let start = |segments: &[Segment], i: usize| segments[i % segments.len()].at(0.0);
    let same = |i: usize, j: usize| start(drawn, i).distance(start(new, j)) < SAME;
    // Somewhere to begin: a contour may be redrawn from another point on.
    let shared = (0..m).find_map(|j| (0..n).find(|&i| same(i, j)).map(|i| (i, j)));
    let Some((first, second)) = shared else {
        told.spare.extend((0..n).map(|i| start(drawn, i)));
        told.added.extend((0..m).map(|j| start(new, j)));
        return;
    };
    let (mut i, mut j) = (first, second);
    while i < first + n {
        // The nearest pair further on that both have; the beginning at the latest.
        let (next_i, next_j) = (j + 1..second + m)
            .find_map(|b| (i + 1..first + n).find(|&a| same(a, b)).map(|a| (a, b)))
            .unwrap_or((first + n, second + m));
        told.kept.push(start(drawn, i));
        let had: usize = (i..next_i).map(|a| 1 + handles(&drawn[a % n])).sum();
        let takes: usize = (j..next_j).map(|b| cost(&new[b % m])).sum();
        if had > takes {
            told.spare.extend((i + 1..next_i).map(|a| start(drawn, a)));
        } else {
            told.kept.extend((i + 1..next_i).map(|a| start(drawn, a)));
        }
        told.added.extend((j + 1..next_j).map(|b| start(new, b)));
        (i, j) = (next_i, next_j);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::drawing::traced;
    use kurbo::{Circle, Shape};

    const CONTEXT: DrawingContext = DrawingContext {
        units_per_em: 1000.0,
        format: None,
    };

    fn of(path: &BezPath) -> Redrawn {
        redrawn(&Outline::from_path(path), &CONTEXT, Tolerance::Half)
    }

    #[test]
    fn a_well_drawn_ring_keeps_every_point() {
        let mut ring = Circle::new((300.0, 300.0), 300.0).to_path(0.1);
        ring.extend(Circle::new((300.0, 300.0), 200.0).to_path(0.1));
        let r = of(&ring);
        assert_eq!((r.kept.len(), r.spare.len(), r.added.len()), (8, 0, 0));
    }

    #[test]
    fn a_point_halfway_along_a_quarter_is_spare() {
        let mut path = BezPath::new();
        let circle = Circle::new((0.0, 0.0), 250.0).to_path(0.1);
        let mut expected = Vec::new();
        for (k, seg) in circle.segments().enumerate() {
            use kurbo::ParamCurve;
            let kurbo::PathSeg::Cubic(c) = seg else {
                continue;
            };
            if k == 0 {
                path.move_to(c.p0);
            }
            let (a, b) = c.subdivide();
            expected.push(a.p3);
            path.curve_to(a.p1, a.p2, a.p3);
            path.curve_to(b.p1, b.p2, b.p3);
        }
        path.close_path();
        let r = of(&path);
        assert_eq!((r.kept.len(), r.added.len()), (4, 0));
        for p in expected {
            assert!(r.spare.iter().any(|s| s.distance(p) < 1e-6), "{p:?}");
        }
        assert_eq!(r.spare.len(), 4);
    }

    #[test]
    fn a_turned_circle_lacks_its_extremes() {
        let turned = kurbo::Affine::rotate(0.6) * Circle::new((0.0, 0.0), 250.0).to_path(0.1);
        let r = of(&turned);
        assert_eq!(r.added.len(), 4, "{r:?}");
    }

    #[test]
    fn of_a_trace_hardly_any_point_is_kept_and_each_is_told_of_once() {
        let circle = Circle::new((0.0, 0.0), 300.0).to_path(0.1);
        let trace = traced(&Outline::from_path(&circle), &CONTEXT, 40.0);
        let points = Outline::from_path(&trace).segments().len();
        let r = of(&trace);
        assert_eq!(r.kept.len() + r.spare.len(), points);
        assert!(r.spare.len() > 4 * r.kept.len(), "{r:?}");
    }

    #[test]
    fn quadratic_curves_that_are_needed_are_not_spare() {
        let mut path = BezPath::new();
        // A ring as TrueType draws it: two quadratic curves a quarter.
        let circle = Circle::new((0.0, 0.0), 300.0).to_path(0.1);
        path.move_to((300.0, 0.0));
        for seg in circle.segments() {
            let kurbo::PathSeg::Cubic(c) = seg else {
                continue;
            };
            for (_, _, q) in c.to_quads(0.6) {
                path.quad_to(q.p1, q.p2);
            }
        }
        path.close_path();
        assert!(of(&path).spare.is_empty());
    }
}
