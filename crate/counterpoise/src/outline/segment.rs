//! One line or curve of a contour, with what every question needs of it.

use kurbo::{ParamCurve, ParamCurveArea, ParamCurveDeriv, PathSeg, Point, Rect, Shape, Vec2};

/// A line or curve, and its exact box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    seg: PathSeg,
    bounds: Rect,
}

impl Segment {
    /// Takes a segment of a path.
    pub fn new(seg: PathSeg) -> Self {
        Self {
            seg,
            bounds: seg.bounding_box(),
        }
    }

    /// The segment as kurbo has it.
    pub fn path_seg(&self) -> PathSeg {
        self.seg
    }

    /// Its exact box.
    pub fn bounds(&self) -> Rect {
        self.bounds
    }

    /// Whether it is a straight line.
    pub fn is_line(&self) -> bool {
        matches!(self.seg, PathSeg::Line(_))
    }

    /// Where it begins.
    pub fn start(&self) -> Point {
        match self.seg {
            PathSeg::Line(l) => l.p0,
            PathSeg::Quad(q) => q.p0,
            PathSeg::Cubic(c) => c.p0,
        }
    }

    /// Where it ends.
    pub fn end(&self) -> Point {
        match self.seg {
            PathSeg::Line(l) => l.p1,
            PathSeg::Quad(q) => q.p2,
            PathSeg::Cubic(c) => c.p3,
        }
    }

    /// The point at parameter `t` in [0, 1].
    pub fn at(&self, t: f64) -> Point {
        // Asked of each kind by itself, the answer is worked out on the spot.
        match self.seg {
            PathSeg::Line(l) => l.eval(t),
            PathSeg::Quad(q) => q.eval(t),
            PathSeg::Cubic(c) => c.eval(t),
        }
    }

    /// The derivative at `t`; may be nought where handles coincide with points.
    pub(super) fn derivative(&self, t: f64) -> Vec2 {
        match self.seg {
            PathSeg::Line(l) => l.p1 - l.p0,
            PathSeg::Quad(q) => q.deriv().eval(t).to_vec2(),
            PathSeg::Cubic(c) => c.deriv().eval(t).to_vec2(),
        }
    }

    /// Direction of travel at `t`, of length 1. Where the derivative is nought
    /// (a handle drawn in) the direction is taken from a little further inside.
    pub fn tangent(&self, t: f64) -> Vec2 {
        /// Far enough for the derivative to be told from rounding, near enough
        /// to change no direction that could be seen.
        const INSIDE: f64 = 1e-4;
        let d = self.derivative(t);
        let d = if d.hypot2() > 1e-12 {
            d
        } else {
            self.at((t + INSIDE).min(1.0)) - self.at((t - INSIDE).max(0.0))
        };
        let length = d.hypot();
        if length > 0.0 {
            d / length
        } else {
            Vec2::new(1.0, 0.0)
        }
    }

    /// Its share of the signed area of the contour (Green's theorem), exact.
    pub(super) fn signed_area(&self) -> f64 {
        self.seg.signed_area()
    }

    /// Its length: exact for lines, else that of a polyline of 16 chords, which
    /// is short by less than a hundredth for any quarter turn.
    pub fn length(&self) -> f64 {
        const CHORDS: u32 = 16;
        match self.seg {
            PathSeg::Line(l) => (l.p1 - l.p0).hypot(),
            PathSeg::Quad(_) | PathSeg::Cubic(_) => {
                let mut from = self.start();
                (1..=CHORDS)
                    .map(|i| {
                        let to = self.at(f64::from(i) / f64::from(CHORDS));
                        let d = (to - from).hypot();
                        from = to;
                        d
                    })
                    .sum()
            }
        }
    }
}
