//! Diagonal strokes, given by their two edges.

use kurbo::{Line, Point};

/// A diagonal stroke: two parallel edges a given thickness apart, measured
/// across the stroke.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Slant {
    left: Line,
    right: Line,
}

impl Slant {
    /// The stroke whose left edge runs through two points.
    pub(crate) fn from_left(a: (f64, f64), b: (f64, f64), thickness: f64) -> Self {
        let left = Line::new(a, b);
        let level = level_width(left, thickness);
        let right = Line::new((a.0 + level, a.1), (b.0 + level, b.1));
        Self { left, right }
    }

    /// The stroke whose right edge runs through two points.
    pub(crate) fn from_right(a: (f64, f64), b: (f64, f64), thickness: f64) -> Self {
        let right = Line::new(a, b);
        let level = level_width(right, thickness);
        let left = Line::new((a.0 - level, a.1), (b.0 - level, b.1));
        Self { left, right }
    }

    /// Where the left edge stands at a height.
    pub(crate) fn l(&self, y: f64) -> f64 {
        x_at(self.left, y)
    }

    /// Where the right edge stands at a height.
    pub(crate) fn r(&self, y: f64) -> f64 {
        x_at(self.right, y)
    }

    /// The height at which the left edge passes a place.
    pub(crate) fn left_height(&self, x: f64) -> f64 {
        y_at(self.left, x)
    }

    /// The height at which the right edge passes a place.
    pub(crate) fn right_height(&self, x: f64) -> f64 {
        y_at(self.right, x)
    }

    /// The left edge.
    pub(crate) fn left(&self) -> Line {
        self.left
    }

    /// The right edge.
    pub(crate) fn right(&self) -> Line {
        self.right
    }
}

/// Where two edges, prolonged if need be, meet. Parallel edges meet nowhere:
/// the first one's start stands for them, and the outline checks will show it.
pub(crate) fn meet(a: Line, b: Line) -> Point {
    a.crossing_point(b).unwrap_or(a.p0)
}

fn x_at(line: Line, y: f64) -> f64 {
    let d = line.p1 - line.p0;
    line.p0.x + d.x * (y - line.p0.y) / d.y
}

fn y_at(line: Line, x: f64) -> f64 {
    let d = line.p1 - line.p0;
    line.p0.y + d.y * (x - line.p0.x) / d.x
}

/// The level run across a slanted stroke of a thickness.
fn level_width(edge: Line, thickness: f64) -> f64 {
    let d = edge.p1 - edge.p0;
    thickness * d.hypot() / d.y.abs()
}
