//! From drawn curves to the points of a font file, on whole units.

use kurbo::{BezPath, CubicBez, PathEl, Point, QuadBez, Vec2};

use crate::error::Error;

/// How far a quadratic spline may stray from the cubic that was drawn, in font
/// units. Less buys points and no visible gain: rounding to whole units alone
/// moves a point by up to 0.7.
const SPLINE_ERROR: f64 = 0.3;

/// A joint counts as drawn smooth below this turn, in radians (half a degree).
const SMOOTH: f64 = 0.0087;

/// One point of a contour in a font file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Knot {
    /// Distance from the glyph's origin, to the right.
    pub(crate) x: i16,
    /// Height above the baseline.
    pub(crate) y: i16,
    /// Whether the contour passes through the point.
    pub(crate) on: bool,
}

impl Knot {
    fn point(self) -> Point {
        Point::new(f64::from(self.x), f64::from(self.y))
    }
}

/// The curves that an outline format knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Curves {
    /// TrueType: quadratic splines, any number of handles in a row.
    Quadratic,
    /// CFF: cubics, two handles in a row.
    Cubic,
}

#[derive(Clone, Copy, Debug)]
struct Drawn {
    at: Point,
    on: bool,
}

/// The closed contours of a path as points of a font file, each beginning with
/// an on-curve point.
///
/// # Errors
/// When a contour is open, or a curve cannot be brought onto a spline.
pub(crate) fn knots(path: &BezPath, curves: Curves, letter: &str) -> Result<Vec<Vec<Knot>>, Error> {
    let mut contours = Vec::new();
    let mut open: Option<Vec<Drawn>> = None;
    for element in path.elements() {
        match (*element, open.as_mut()) {
            (PathEl::MoveTo(at), None) => open = Some(vec![Drawn { at, on: true }]),
            (PathEl::LineTo(at), Some(points)) => points.push(Drawn { at, on: true }),
            (PathEl::QuadTo(handle, at), Some(points)) => {
                let from = points.last().map_or(at, |p| p.at);
                match curves {
                    Curves::Quadratic => handles(points, &[handle]),
                    Curves::Cubic => {
                        let raised = QuadBez::new(from, handle, at).raise();
                        handles(points, &[raised.p1, raised.p2]);
                    }
                }
                points.push(Drawn { at, on: true });
            }
            (PathEl::CurveTo(a, b, at), Some(points)) => {
                let from = points.last().map_or(at, |p| p.at);
                match curves {
                    Curves::Quadratic => {
                        let inner = spline(CubicBez::new(from, a, b, at))
                            .ok_or_else(|| Error::NoSpline(letter.into()))?;
                        handles(points, &inner);
                    }
                    Curves::Cubic => handles(points, &[a, b]),
                }
                points.push(Drawn { at, on: true });
            }
            (PathEl::ClosePath, Some(points)) => {
                contours.push(whole(closed(points)));
                open = None;
            }
            (_, _) => return Err(Error::OpenContour(letter.into())),
        }
    }
    match open {
        None => Ok(contours),
        Some(_) => Err(Error::OpenContour(letter.into())),
    }
}

/// How many handles a cubic takes as a quadratic spline.
pub(crate) fn handle_count(cubic: CubicBez) -> usize {
    spline(cubic).map_or(0, |handles| handles.len())
}

/// The outline that TrueType points draw: between two handles in a row lies an
/// on-curve point, halfway.
pub(crate) fn outline(contours: &[Vec<Knot>]) -> BezPath {
    let mut path = BezPath::new();
    for contour in contours {
        let Some(first) = contour.first() else {
            continue;
        };
        path.move_to(first.point());
        let mut handle: Option<Point> = None;
        for knot in contour.iter().skip(1).chain([first]) {
            let at = knot.point();
            match (handle, knot.on) {
                (None, true) => path.line_to(at),
                (Some(h), true) => path.quad_to(h, at),
                (None, false) => {}
                (Some(h), false) => path.quad_to(h, h.midpoint(at)),
            }
            handle = (!knot.on).then_some(at);
        }
        path.close_path();
    }
    path
}

fn handles(points: &mut Vec<Drawn>, at: &[Point]) {
    points.extend(at.iter().map(|&at| Drawn { at, on: false }));
}

/// The handles of the quadratic spline that stands for a cubic.
fn spline(cubic: CubicBez) -> Option<Vec<Point>> {
    let quads = cubic.approx_spline(SPLINE_ERROR)?;
    let points = quads.points();
    Some(points.get(1..points.len().checked_sub(1)?)?.to_vec())
}

/// Without the last point when it repeats the first.
fn closed(points: &mut Vec<Drawn>) -> &[Drawn] {
    if let (Some(first), Some(last)) = (points.first(), points.last())
        && points.len() > 1
        && (first.at - last.at).hypot() < 0.5
    {
        points.pop();
    }
    points
}

/// The points on whole units, with smooth joints kept smooth.
fn whole(points: &[Drawn]) -> Vec<Knot> {
    let mut at: Vec<Point> = points.iter().map(|p| p.at.round()).collect();
    for i in 0..points.len() {
        let before = (i + points.len() - 1) % points.len();
        let after = (i + 1) % points.len();
        if points[i].on && oblique_smooth(points[before].at, points[i].at, points[after].at) {
            settle(points, &mut at, [before, i, after]);
        }
    }
    std::iter::zip(points, at)
        .map(|(p, at)| Knot {
            x: at.x as i16,
            y: at.y as i16,
            on: p.on,
        })
        .collect()
}

/// Whether a joint is smooth and lies neither level nor upright. The level and
/// upright ones stay smooth when rounded, since their points share a unit.
fn oblique_smooth(before: Point, at: Point, after: Point) -> bool {
    let (a, b) = (at - before, after - at);
    let axis = (a.x.abs() < 0.01 && b.x.abs() < 0.01) || (a.y.abs() < 0.01 && b.y.abs() < 0.01);
    turn(a, b) < SMOOTH && !axis
}

fn turn(a: Vec2, b: Vec2) -> f64 {
    a.cross(b).atan2(a.dot(b)).abs()
}

/// Chooses whole units for a joint and its two handles so that it bends least,
/// and moves least among those that bend alike.
fn settle(points: &[Drawn], at: &mut [Point], [before, joint, after]: [usize; 3]) {
    let choices = |i: usize, free: bool| -> Vec<Point> {
        if !free {
            return vec![at[i]];
        }
        let near = |v: f64| [v.floor() - 1.0, v.floor(), v.ceil(), v.ceil() + 1.0];
        let p = points[i].at;
        near(p.x)
            .into_iter()
            .flat_map(|x| near(p.y).map(|y| Point::new(x, y)))
            .filter(|q| (*q - p).hypot() < 1.2)
            .collect()
    };
    let cost = |a: Point, j: Point, b: Point| {
        let bend = turn(j - a, b - j).to_degrees();
        let moved = (a - points[before].at).hypot2()
            + 2.0 * (j - points[joint].at).hypot2()
            + (b - points[after].at).hypot2();
        bend * bend * 40.0 + moved
    };
    let mut best = (
        cost(at[before], at[joint], at[after]),
        [at[before], at[joint], at[after]],
    );
    for a in choices(before, handle_is_free(points, before, joint)) {
        for j in choices(joint, true) {
            for b in choices(after, handle_is_free(points, after, joint)) {
                let c = cost(a, j, b);
                if c < best.0 {
                    best = (c, [a, j, b]);
                }
            }
        }
    }
    at[before] = best.1[0];
    at[joint] = best.1[1];
    at[after] = best.1[2];
}

/// A handle may move unless it also serves another on-curve point: there it
/// keeps that joint level or upright.
fn handle_is_free(points: &[Drawn], handle: usize, joint: usize) -> bool {
    let n = points.len();
    let other = if (handle + 1) % n == joint {
        (handle + n - 1) % n
    } else {
        (handle + 1) % n
    };
    !points[handle].on && !points[other].on
}
