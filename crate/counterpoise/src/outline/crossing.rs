//! Where a line crosses an outline, and the ink between.
//!
//! For each segment the signed distance from the line is a polynomial in t. It
//! is cut at its turning points, and a piece crosses if its ends lie on
//! different sides, where "on the line" counts as the left side. That half-open
//! rule needs no tolerance: a line through a corner is crossed once or twice or
//! not at all, as the contour really passes it, an edge along the line counts
//! as lying to its left, and the winding number always returns to nought.

use super::{Outline, Ray, Segment};
use kurbo::{ParamCurve, PathSeg, Point};

/// One crossing of a line with an outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crossing {
    /// Distance along the line from its origin.
    pub s: f64,
    /// Index of the segment crossed, in [`Outline::segments`].
    pub segment: usize,
    /// Where on the segment, in [0, 1].
    pub t: f64,
    /// What it does to the winding number: +1 or -1.
    pub turn: i32,
}

/// A stretch of ink on a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Where the ink begins.
    pub from: Crossing,
    /// Where it ends.
    pub to: Crossing,
}

impl Span {
    /// Its length along the line.
    pub fn length(&self) -> f64 {
        self.to.s - self.from.s
    }
}

/// Puts crossings in order along their line; the one place that sorts them, since
/// each such place makes the module some kilobytes larger.
pub(super) fn along(crossings: &mut [Crossing]) {
    crossings.sort_unstable_by(|a, b| a.s.total_cmp(&b.s));
}

impl Outline {
    /// Every crossing of a line, in order along it. `into` is emptied first; a
    /// caller with many lines keeps it between calls.
    pub fn crossings(&self, ray: &Ray, into: &mut Vec<Crossing>) {
        into.clear();
        self.boxes.met_by(ray, |index, _, _| {
            cross(&self.segments[index], index, ray, into);
        });
        along(into);
    }

    /// The stretches of ink on a line, in order, by the non-zero rule.
    /// `scratch` holds the crossings meanwhile.
    pub fn spans(&self, ray: &Ray, scratch: &mut Vec<Crossing>, into: &mut Vec<Span>) {
        self.crossings(ray, scratch);
        into.clear();
        let mut winding = 0;
        let mut from = None;
        for c in scratch.iter() {
            let before = winding;
            winding += c.turn;
            if before == 0 {
                from = Some(*c);
            } else if winding == 0
                && let Some(from) = from.take()
            {
                // Two contours that share an edge leave no gap between them.
                match into.last_mut() {
                    Some(last) if last.to.s >= from.s => last.to = *c,
                    _ => into.push(Span { from, to: *c }),
                }
            }
        }
    }
}

/// What a segment does to the winding number from end to end.
pub(super) fn net_turn(segment: &Segment, ray: &Ray) -> i32 {
    let left = |p| ray.aside(p) >= 0.0;
    i32::from(left(segment.start())) - i32::from(left(segment.end()))
}

/// Adds the crossings of one segment.
pub(super) fn cross(segment: &Segment, index: usize, ray: &Ray, into: &mut Vec<Crossing>) {
    cross_near(segment, index, ray, None, into);
}

/// As [`cross`], where one crossing is thought to be at `near`: if it is, it need
/// not be searched for.
pub(super) fn cross_near(
    segment: &Segment,
    index: usize,
    ray: &Ray,
    near: Option<f64>,
    into: &mut Vec<Crossing>,
) {
    let mut add = |t: f64, p: Point, left_before: bool| {
        into.push(Crossing {
            s: ray.along(p),
            segment: index,
            t,
            turn: if left_before { 1 } else { -1 },
        });
    };
    match segment.path_seg() {
        PathSeg::Line(l) => {
            let (a, b) = (ray.aside(l.p0), ray.aside(l.p1));
            if (a >= 0.0) != (b >= 0.0) {
                let t = a / (a - b);
                add(t, l.eval(t), a >= 0.0);
            }
        }
        PathSeg::Quad(q) => {
            let d = [ray.aside(q.p0), ray.aside(q.p1), ray.aside(q.p2)];
            if one_side(&d) {
                return;
            }
            let f = Quadratic::of_bernstein(d);
            let turn = f.turning_point();
            pieces(&f, [turn, None], (d[0], d[2]), near, |t, left| {
                add(t, q.eval(t), left);
            });
        }
        PathSeg::Cubic(c) => {
            let d = [
                ray.aside(c.p0),
                ray.aside(c.p1),
                ray.aside(c.p2),
                ray.aside(c.p3),
            ];
            if one_side(&d) {
                return;
            }
            let f = Cubic::of_bernstein(d);
            // Control points that only draw away from the line, or nearer, make
            // a curve that does: most curves, at less cost.
            let turns = if is_monotone(&d) {
                [None, None]
            } else {
                f.turning_points()
            };
            pieces(&f, turns, (d[0], d[3]), near, |t, left| {
                add(t, c.eval(t), left);
            });
        }
    }
}

/// A curve lies within its control points' hull: all on one side, no crossing.
fn one_side(d: &[f64]) -> bool {
    let left = d[0] >= 0.0;
    d.iter().all(|&x| (x >= 0.0) == left)
}

fn is_monotone(d: &[f64; 4]) -> bool {
    let (a, b, c) = (d[1] - d[0], d[2] - d[1], d[3] - d[2]);
    (a >= 0.0 && b >= 0.0 && c >= 0.0) || (a <= 0.0 && b <= 0.0 && c <= 0.0)
}

/// A polynomial on [0, 1].
trait Polynomial {
    fn value(&self, t: f64) -> f64;
    fn slope(&self, t: f64) -> f64;
}

/// a t^2 + b t + c
struct Quadratic {
    a: f64,
    b: f64,
    c: f64,
}

impl Quadratic {
    fn of_bernstein([d0, d1, d2]: [f64; 3]) -> Self {
        Self {
            a: d0 - 2.0 * d1 + d2,
            b: 2.0 * (d1 - d0),
            c: d0,
        }
    }

    fn turning_point(&self) -> Option<f64> {
        let t = -self.b / (2.0 * self.a);
        (t > 0.0 && t < 1.0).then_some(t)
    }
}

impl Polynomial for Quadratic {
    fn value(&self, t: f64) -> f64 {
        (self.a * t + self.b) * t + self.c
    }

    fn slope(&self, t: f64) -> f64 {
        2.0 * self.a * t + self.b
    }
}

/// a t^3 + b t^2 + c t + d
struct Cubic {
    a: f64,
    b: f64,
    c: f64,
    d: f64,
}

impl Cubic {
    fn of_bernstein([d0, d1, d2, d3]: [f64; 4]) -> Self {
        Self {
            a: d3 - d0 + 3.0 * (d1 - d2),
            b: 3.0 * (d0 - 2.0 * d1 + d2),
            c: 3.0 * (d1 - d0),
            d: d0,
        }
    }

    /// Roots of the derivative inside (0, 1), in order.
    fn turning_points(&self) -> [Option<f64>; 2] {
        let (a, b, c) = (3.0 * self.a, 2.0 * self.b, self.c);
        let inside = |t: f64| (t > 0.0 && t < 1.0).then_some(t);
        let disc = b * b - 4.0 * a * c;
        if disc < 0.0 {
            return [None, None];
        }
        // The form that loses no digits; where `a` is nought one root is
        // infinite and falls outside by itself.
        let q = -0.5 * (b + b.signum() * disc.sqrt());
        let (r, s) = (q / a, c / q);
        let (r, s) = if r > s { (s, r) } else { (r, s) };
        match (inside(r), inside(s)) {
            (None, s) => [s, None],
            both => [both.0, both.1],
        }
    }
}

impl Polynomial for Cubic {
    fn value(&self, t: f64) -> f64 {
        ((self.a * t + self.b) * t + self.c) * t + self.d
    }

    fn slope(&self, t: f64) -> f64 {
        (3.0 * self.a * t + 2.0 * self.b) * t + self.c
    }
}

/// Calls `found` for each change of side, with the side before it. `first` and
/// `last` are the exact values at the ends, shared with the neighbouring
/// segments, so that both see a common point on the same side.
fn pieces<P: Polynomial>(
    f: &P,
    turns: [Option<f64>; 2],
    (first, last): (f64, f64),
    near: Option<f64>,
    mut found: impl FnMut(f64, bool),
) {
    let (mut t, mut v) = (0.0, first);
    for next in turns.into_iter().flatten().chain([1.0]) {
        let w = if next == 1.0 { last } else { f.value(next) };
        let left = v >= 0.0;
        if left != (w >= 0.0) {
            found(root(f, (t, v), (next, w), near), left);
        }
        (t, v) = (next, w);
    }
}

/// The root of a monotone piece: Newton's step, halving wherever it would leave
/// the bracket.
fn root<P: Polynomial>(f: &P, mut low: (f64, f64), mut high: (f64, f64), near: Option<f64>) -> f64 {
    /// In font units: a crossing this near its true place is exact for us.
    const CLOSE: f64 = 1e-10;
    /// Halving alone needs 50 to exhaust the parameter; Newton needs about 4.
    const MOST_STEPS: u32 = 60;
    let chord = || low.0 + (high.0 - low.0) * (low.1 / (low.1 - high.1)).clamp(0.0, 1.0);
    let mut t = near
        .filter(|&t| low.0 < t && t < high.0)
        .unwrap_or_else(chord);
    for _ in 0..MOST_STEPS {
        let v = f.value(t);
        if v.abs() <= CLOSE {
            break;
        }
        if (v >= 0.0) == (low.1 >= 0.0) {
            low = (t, v);
        } else {
            high = (t, v);
        }
        let newton = t - v / f.slope(t);
        let next = if newton > low.0 && newton < high.0 {
            newton
        } else {
            0.5 * (low.0 + high.0)
        };
        if next == t {
            break;
        }
        t = next;
    }
    t
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{BezPath, Circle, Rect, Shape, Vec2};

    fn spans(outline: &Outline, ray: &Ray) -> Vec<(f64, f64)> {
        let mut out = Vec::new();
        outline.spans(ray, &mut Vec::new(), &mut out);
        out.iter().map(|s| (s.from.s, s.to.s)).collect()
    }

    fn diamond() -> Outline {
        let mut p = BezPath::new();
        p.move_to((0.0, -10.0));
        p.line_to((10.0, 0.0));
        p.line_to((0.0, 10.0));
        p.line_to((-10.0, 0.0));
        p.close_path();
        Outline::from_path(&p)
    }

    #[test]
    fn a_line_through_two_corners_crosses_twice() {
        assert_eq!(spans(&diamond(), &Ray::level(0.0)), [(-10.0, 10.0)]);
        assert_eq!(spans(&diamond(), &Ray::upright(0.0)), [(-10.0, 10.0)]);
    }

    #[test]
    fn a_line_that_touches_a_corner_finds_no_ink_of_any_length() {
        for y in [-10.0, 10.0] {
            let touched: f64 = spans(&diamond(), &Ray::level(y))
                .iter()
                .map(|s| s.1 - s.0)
                .sum();
            assert_eq!(touched, 0.0);
        }
    }

    #[test]
    fn overlaps_count_once_and_shared_edges_leave_no_gap() {
        let mut p = Rect::new(0.0, 0.0, 60.0, 10.0).to_path(0.1);
        p.extend(Rect::new(40.0, 0.0, 100.0, 10.0).to_path(0.1));
        p.extend(Rect::new(100.0, 0.0, 130.0, 10.0).to_path(0.1));
        assert_eq!(
            spans(&Outline::from_path(&p), &Ray::level(5.0)),
            [(0.0, 130.0)]
        );
    }

    #[test]
    fn a_counter_drawn_the_other_way_is_white() {
        let mut p = Circle::new((0.0, 0.0), 100.0).to_path(1e-6);
        p.extend(
            Circle::new((0.0, 0.0), 60.0)
                .to_path(1e-6)
                .reverse_subpaths(),
        );
        let o = Outline::from_path(&p);
        for turn in 0..24 {
            let ray = Ray::new(
                Point::ORIGIN,
                Vec2::from_angle(f64::from(turn) * std::f64::consts::TAU / 24.0),
            )
            .unwrap();
            let s = spans(&o, &ray);
            assert_eq!(s.len(), 2, "turn {turn}");
            assert!((s[0].1 - s[0].0 - 40.0).abs() < 1e-3);
        }
    }

    #[test]
    fn a_curve_crossed_three_times_is_found_whole() {
        let mut p = BezPath::new();
        p.move_to((0.0, 0.0));
        p.curve_to((100.0, 60.0), (-60.0, 60.0), (40.0, 120.0));
        p.line_to((200.0, 120.0));
        p.line_to((200.0, 0.0));
        p.close_path();
        let mut c = Vec::new();
        Outline::from_path(&p).crossings(&Ray::upright(20.0), &mut c);
        assert_eq!(c.iter().map(|c| c.turn).sum::<i32>(), 0);
        assert_eq!(c.len(), 4);
    }

    #[test]
    fn winding_always_returns_to_nought() {
        // A hash of the index as a plain source of directions; no two runs differ.
        let o = diamond();
        let mut c = Vec::new();
        for i in 0..2000_u32 {
            let a = f64::from(i) * 0.7548776662;
            let ray = Ray::new(
                Point::new((a * 3.0).sin() * 10.0, (a * 5.0).cos() * 10.0),
                Vec2::from_angle(a),
            )
            .unwrap();
            o.crossings(&ray, &mut c);
            assert_eq!(c.iter().map(|c| c.turn).sum::<i32>(), 0);
        }
    }
}
