//! How many points an outline is drawn with.

use crate::outline::{Outline, Segment};
use kurbo::{PathSeg, Point};

/// A joint this near the middle between its two handles (font units) is where
/// TrueType would put an implied point. Scaled composites miss it by rounding.
const MIDWAY: f64 = 0.01;

/// The points of an outline, as it is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Points {
    /// Points on the curve: every joint once, implied ones among them.
    pub on_curve: usize,
    /// Those of `on_curve` that a TrueType file need not hold, since they lie
    /// midway between two points off the curve.
    pub implied: usize,
    /// Points off the curve: handles, one for a quadratic curve, two for a cubic.
    pub off_curve: usize,
    /// Closed contours.
    pub contours: usize,
    /// Lines and curves.
    pub segments: usize,
}

impl Points {
    /// Counts an outline's points.
    pub fn of(outline: &Outline) -> Self {
        let segments = outline.segments();
        let implied = |contour: &[Segment]| {
            contour
                .iter()
                .zip(contour.iter().cycle().skip(1))
                .filter(|(a, b)| is_implied(a, b))
                .count()
        };
        Self {
            on_curve: segments.len(),
            implied: outline
                .contours()
                .iter()
                .map(|c| implied(&segments[c.clone()]))
                .sum(),
            off_curve: segments.iter().map(handles).sum(),
            contours: outline.contours().len(),
            segments: segments.len(),
        }
    }

    /// All points, on and off the curve.
    pub fn total(&self) -> usize {
        self.on_curve + self.off_curve
    }
}

/// What curves an outline is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Curves {
    /// Lines alone.
    None,
    /// Quadratic curves, as in TrueType.
    Quadratic,
    /// Cubic curves, as in CFF.
    Cubic,
    /// Both: a drawing from elsewhere.
    Both,
}

impl Curves {
    /// Looks an outline through.
    pub fn of(outline: &Outline) -> Self {
        let has = |n: usize| outline.segments().iter().any(|s| handles(s) == n);
        match (has(1), has(2)) {
            (false, false) => Self::None,
            (true, false) => Self::Quadratic,
            (false, true) => Self::Cubic,
            (true, true) => Self::Both,
        }
    }
}

/// The points off the curve that a segment has.
pub(super) fn handles(segment: &Segment) -> usize {
    match segment.path_seg() {
        PathSeg::Line(_) => 0,
        PathSeg::Quad(_) => 1,
        PathSeg::Cubic(_) => 2,
    }
}

fn is_implied(a: &Segment, b: &Segment) -> bool {
    match (a.path_seg(), b.path_seg()) {
        (PathSeg::Quad(a), PathSeg::Quad(b)) => {
            let middle: Point = a.p1.midpoint(b.p1);
            middle.distance(a.p2) < MIDWAY
        }
        _ => false,
    }
}
