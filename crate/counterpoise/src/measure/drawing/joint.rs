//! Where two segments of a contour meet, and how far the outline turns there.

use crate::outline::Segment;
use kurbo::{ParamCurve, PathSeg, Point, Vec2};

/// A turn under this (radians, half a degree) is smooth: no eye sees it, and
/// coordinates rounded to whole units make most smooth joints turn as much
/// (common practice, no source).
pub(super) const SMOOTH: f64 = 0.5 * DEGREE;

/// A turn over this (radians, 8 degrees) is a corner that was meant (common
/// practice, no source).
pub(super) const CORNER: f64 = 8.0 * DEGREE;

pub(super) const DEGREE: f64 = std::f64::consts::PI / 180.0;

/// Rounding moves a point by at most half a unit each way, so a handle and its
/// point may move against each other, square to the handle, by about one unit.
const ROUNDING: f64 = 1.0;

/// However short the handles, a turn beyond this (radians) is a corner: wider,
/// and the two halves of a bevelled corner would pass for rounding.
const MOST_SLACK: f64 = 22.0 * DEGREE;

/// A joint of two segments.
#[derive(Debug, Clone, Copy)]
pub(super) struct Joint {
    pub(super) point: Point,
    /// From the last control point that is not the joint itself, to the joint.
    pub(super) before: Vec2,
    /// From the joint to the next control point that is not the joint itself.
    pub(super) after: Vec2,
    /// How far the outline turns, radians, left positive.
    pub(super) turn: f64,
    /// How much of the turn rounding to whole units may account for, radians.
    pub(super) slack: f64,
}

impl Joint {
    /// The joint at the end of one segment and the start of the next.
    pub(super) fn between(a: &Segment, b: &Segment) -> Self {
        let (before, after) = (handle_in(&a.path_seg()), handle_out(&b.path_seg()));
        Self {
            point: b.path_seg().start(),
            before,
            after,
            turn: turn(before, after),
            slack: (slack(before) + slack(after)).min(MOST_SLACK),
        }
    }

    /// Whether the turn is a corner that was meant, even allowing for rounding.
    pub(super) fn is_corner(&self) -> bool {
        self.turn.abs() > CORNER + self.slack
    }

    /// The direction that a smooth outline has here, of length 1, if the
    /// handles are in line or one of them is long enough to tell it.
    pub(super) fn direction(&self) -> Option<Vec2> {
        /// A handle whose direction rounding leaves uncertain by more than this
        /// (radians) tells no tangent.
        const SURE: f64 = DEGREE;
        if self.turn.abs() <= SMOOTH {
            return unit(self.before / self.before.hypot() + self.after / self.after.hypot());
        }
        let (b, a) = (slack(self.before), slack(self.after));
        if b.min(a) <= SURE && self.turn.abs() <= self.slack {
            return unit(if b < a { self.before } else { self.after });
        }
        None
    }
}

/// How far rounding may turn a handle.
pub(super) fn slack(handle: Vec2) -> f64 {
    let length = handle.hypot();
    if length > ROUNDING {
        (ROUNDING / length).asin()
    } else {
        MOST_SLACK
    }
}

/// The turn from one direction to another, radians, left positive.
pub(super) fn turn(a: Vec2, b: Vec2) -> f64 {
    a.cross(b).atan2(a.dot(b))
}

/// A vector of length 1, unless it has no length.
pub(super) fn unit(v: Vec2) -> Option<Vec2> {
    let length = v.hypot();
    (length > 1e-9).then(|| v / length)
}

/// From a segment's start to its first control point elsewhere.
pub(super) fn handle_out(seg: &PathSeg) -> Vec2 {
    match *seg {
        PathSeg::Line(l) => l.p1 - l.p0,
        PathSeg::Quad(q) => first([q.p1 - q.p0, q.p2 - q.p0]),
        PathSeg::Cubic(c) => first([c.p1 - c.p0, c.p2 - c.p0, c.p3 - c.p0]),
    }
}

/// To a segment's end from its last control point elsewhere.
pub(super) fn handle_in(seg: &PathSeg) -> Vec2 {
    match *seg {
        PathSeg::Line(l) => l.p1 - l.p0,
        PathSeg::Quad(q) => first([q.p2 - q.p1, q.p2 - q.p0]),
        PathSeg::Cubic(c) => first([c.p3 - c.p2, c.p3 - c.p1, c.p3 - c.p0]),
    }
}

fn first<const N: usize>(vectors: [Vec2; N]) -> Vec2 {
    vectors
        .into_iter()
        .find(|v| v.hypot2() > 1e-12)
        .unwrap_or_default()
}
