//! How far a point, or all of a curve, lies from an outline.

use crate::outline::{Outline, Segment};
use kurbo::{ParamCurve, ParamCurveNearest, PathSeg, Point, Rect};

/// Distances are told within this, font units: a fiftieth of the unit that
/// coordinates are rounded to.
pub const ACCURACY: f64 = 0.02;

/// A curve is halved no more often than this: by then its pieces are shorter
/// than a thousandth of a unit in any font.
const MOST_HALVINGS: u32 = 24;

/// Places looked at before an outline's distance is told as found so far: enough
/// for some thousand curves, and an end to what is made of more.
const MOST_PLACES: usize = 40_000;

/// Distance of a point from the nearest place of an outline; infinite from an
/// empty one. What lies farther than `within` may be told as `within`.
pub(super) fn to(outline: &Outline, p: Point, within: f64) -> f64 {
    let mut best = within * within;
    for segment in outline.segments() {
        if to_box(segment.bounds(), p) >= best {
            continue;
        }
        let near = match segment.path_seg() {
            PathSeg::Line(l) => l.nearest(p, ACCURACY),
            PathSeg::Quad(q) => q.nearest(p, ACCURACY),
            PathSeg::Cubic(c) => c.nearest(p, 0.5 * ACCURACY),
        };
        best = best.min(near.distance_sq);
    }
    best.sqrt()
}

fn to_box(b: Rect, p: Point) -> f64 {
    let dx = (b.x0 - p.x).max(p.x - b.x1).max(0.0);
    let dy = (b.y0 - p.y).max(p.y - b.y1).max(0.0);
    dx * dx + dy * dy
}

/// The place of some segments that lies farthest from an outline, and how far.
///
/// A distance changes no faster than its point moves. So a piece of curve whose
/// middle lies `d` away reaches no farther than `d` and half its length; pieces
/// that cannot pass the best place found so far by [`ACCURACY`] are let go, the
/// others are halved.
pub(super) fn farthest(segments: &[&Segment], from: &Outline) -> Option<(Point, f64)> {
    if from.is_empty() {
        return None;
    }
    let mut best: Option<(Point, f64)> = None;
    let mut open: Vec<(PathSeg, u32)> = segments.iter().map(|s| (s.path_seg(), 0)).collect();
    let mut places = 0;
    while let Some((seg, depth)) = open.pop() {
        places += 1;
        let p = seg.eval(0.5);
        let d = to(from, p, f64::INFINITY);
        if best.is_none_or(|(_, b)| d > b) {
            best = Some((p, d));
        }
        let reach = d + 0.5 * length_at_most(&seg);
        let passed = best.is_some_and(|(_, b)| reach <= b + ACCURACY);
        if !passed && depth < MOST_HALVINGS && places < MOST_PLACES {
            let (a, b) = (seg.subsegment(0.0..0.5), seg.subsegment(0.5..1.0));
            open.push((a, depth + 1));
            open.push((b, depth + 1));
        }
    }
    best
}

/// A bound on a curve's length: its control polygon's.
fn length_at_most(seg: &PathSeg) -> f64 {
    match seg {
        PathSeg::Line(l) => l.p0.distance(l.p1),
        PathSeg::Quad(q) => q.p0.distance(q.p1) + q.p1.distance(q.p2),
        PathSeg::Cubic(c) => c.p0.distance(c.p1) + c.p1.distance(c.p2) + c.p2.distance(c.p3),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, Shape};

    #[test]
    fn the_farthest_place_between_two_rings_is_found_wherever_it_lies() {
        let a = Outline::from_path(&Circle::new((0.0, 0.0), 300.0).to_path(1e-3));
        // Shifted and larger: the farthest place lies along the shift.
        let (r, shift) = (310.0, kurbo::Vec2::new(7.0, 4.0));
        let b = Outline::from_path(&Circle::new(shift.to_point(), r).to_path(1e-3));
        let all: Vec<&Segment> = b.segments().iter().collect();
        let (p, d) = farthest(&all, &a).unwrap();
        let exact = r + shift.hypot() - 300.0;
        assert!((d - exact).abs() < 0.03, "{d} for {exact}");
        assert!((p.to_vec2().normalize() - shift.normalize()).hypot() < 0.1);
        assert_eq!(farthest(&all, &Outline::default()), None);
    }
}
