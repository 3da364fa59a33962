//! Gathers drawing calls into an [`Outline`], closing what was left open.

use super::{Outline, Segment};
use kurbo::{CubicBez, Line, PathSeg, Point, QuadBez};
use std::ops::Range;

/// Builds an outline call by call. A drawing call before any `move_to` starts
/// at the origin, as a pen does; contours of a single point leave no trace.
#[derive(Debug, Default)]
pub struct OutlineBuilder {
    segments: Vec<Segment>,
    contours: Vec<Range<usize>>,
    contour_from: usize,
    first: Point,
    at: Point,
}

impl OutlineBuilder {
    /// Starts a contour, closing the one before it.
    pub fn move_to(&mut self, p: Point) {
        self.close();
        self.first = p;
        self.at = p;
    }

    /// Draws a line.
    pub fn line_to(&mut self, p: Point) {
        self.push(PathSeg::Line(Line::new(self.at, p)), p);
    }

    /// Draws a quadratic curve.
    pub fn quad_to(&mut self, c: Point, p: Point) {
        self.push(PathSeg::Quad(QuadBez::new(self.at, c, p)), p);
    }

    /// Draws a cubic curve.
    pub fn curve_to(&mut self, c: Point, d: Point, p: Point) {
        self.push(PathSeg::Cubic(CubicBez::new(self.at, c, d, p)), p);
    }

    /// Closes the contour with a line, unless it ends where it began.
    pub fn close(&mut self) {
        if self.at != self.first {
            self.line_to(self.first);
        }
        if self.segments.len() > self.contour_from {
            self.contours.push(self.contour_from..self.segments.len());
            self.contour_from = self.segments.len();
        }
        self.at = self.first;
    }

    /// The outline.
    pub fn finish(mut self) -> Outline {
        self.close();
        Outline::new(self.segments, self.contours)
    }

    fn push(&mut self, seg: PathSeg, end: Point) {
        // A segment with all points in one place has no direction and no ink.
        let still = match seg {
            PathSeg::Line(l) => l.p0 == l.p1,
            PathSeg::Quad(q) => q.p0 == q.p1 && q.p1 == q.p2,
            PathSeg::Cubic(c) => c.p0 == c.p1 && c.p1 == c.p2 && c.p2 == c.p3,
        };
        if !still {
            self.segments.push(Segment::new(seg));
        }
        self.at = end;
    }
}
