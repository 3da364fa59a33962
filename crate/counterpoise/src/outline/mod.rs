//! Exact geometry of a letter's shape.
//!
//! An [`Outline`] is a set of closed contours of lines, quadratic and cubic
//! curves, filled by the non-zero winding rule (OpenType specification, glyf
//! and CFF chapters), so that overlapping contours count as one piece of ink.

mod area;
mod behind;
mod boxes;
mod build;
mod crossing;
mod overlap;
mod ray;
mod segment;

pub use area::Ink;
pub(crate) use behind::Behind;
pub use build::OutlineBuilder;
pub use crossing::{Crossing, Span};
pub use ray::Ray;
pub use segment::Segment;

use boxes::Boxes;
use kurbo::{Affine, BezPath, ParamCurve, PathSeg, Rect, Shape};
use std::ops::Range;

/// A letter's shape.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Outline {
    segments: Vec<Segment>,
    /// Where each contour's segments stand in `segments`.
    contours: Vec<Range<usize>>,
    bounds: Option<Rect>,
    boxes: Boxes,
}

impl Outline {
    /// Takes a path; each subpath is closed by a line if it was left open.
    pub fn from_path(path: &BezPath) -> Self {
        use kurbo::PathEl;
        let mut b = OutlineBuilder::default();
        for el in path.elements() {
            match *el {
                PathEl::MoveTo(p) => b.move_to(p),
                PathEl::LineTo(p) => b.line_to(p),
                PathEl::QuadTo(c, p) => b.quad_to(c, p),
                PathEl::CurveTo(c, d, p) => b.curve_to(c, d, p),
                PathEl::ClosePath => b.close(),
            }
        }
        b.finish()
    }

    fn new(segments: Vec<Segment>, contours: Vec<Range<usize>>) -> Self {
        let bounds = segments
            .iter()
            .map(Segment::bounds)
            .reduce(|a, b| a.union(b));
        Self {
            boxes: Boxes::of(&segments),
            segments,
            contours,
            bounds,
        }
    }

    /// Whether there is no ink.
    pub fn is_empty(&self) -> bool {
        self.segments.is_empty()
    }

    /// The exact box of the ink; `None` for an empty outline.
    pub fn bounds(&self) -> Option<Rect> {
        self.bounds
    }

    /// Every segment, contour after contour.
    pub fn segments(&self) -> &[Segment] {
        &self.segments
    }

    /// Where each contour's segments stand in [`Outline::segments`].
    pub fn contours(&self) -> &[Range<usize>] {
        &self.contours
    }

    /// The same shape as a path with every contour closed.
    pub fn to_bez_path(&self) -> BezPath {
        let mut path = BezPath::new();
        for contour in &self.contours {
            for (i, segment) in self.segments[contour.clone()].iter().enumerate() {
                let seg = segment.path_seg();
                if i == 0 {
                    path.move_to(seg.start());
                }
                match seg {
                    PathSeg::Line(l) => path.line_to(l.p1),
                    PathSeg::Quad(q) => path.quad_to(q.p1, q.p2),
                    PathSeg::Cubic(c) => path.curve_to(c.p1, c.p2, c.p3),
                }
            }
            path.close_path();
        }
        path
    }

    /// The shape after an affine map.
    pub fn transformed(&self, map: Affine) -> Self {
        let segments = self
            .segments
            .iter()
            .map(|s| Segment::new(map * s.path_seg()))
            .collect();
        Self::new(segments, self.contours.clone())
    }

    /// Signed area, square units: positive for anticlockwise contours (y up);
    /// overlaps count twice.
    pub fn signed_area(&self) -> f64 {
        self.segments.iter().map(Segment::signed_area).sum()
    }

    /// Signed area of one contour.
    pub fn contour_area(&self, contour: usize) -> f64 {
        self.contours.get(contour).map_or(0.0, |r| {
            self.segments[r.clone()]
                .iter()
                .map(Segment::signed_area)
                .sum()
        })
    }

    /// Winding number at a point.
    pub fn winding(&self, p: kurbo::Point) -> i32 {
        self.segments.iter().map(|s| s.path_seg().winding(p)).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Circle;

    #[test]
    fn open_subpaths_are_closed() {
        let mut path = BezPath::new();
        path.move_to((0.0, 0.0));
        path.line_to((100.0, 0.0));
        path.line_to((100.0, 50.0));
        path.line_to((0.0, 50.0));
        let outline = Outline::from_path(&path);
        assert_eq!(outline.segments().len(), 4);
        assert_eq!(outline.signed_area(), 5000.0);
    }

    #[test]
    fn bounds_are_exact_on_curves() {
        let path = Circle::new((10.0, 20.0), 100.0).to_path(1e-9);
        let b = Outline::from_path(&path).bounds().unwrap();
        assert!((b.x0 + 90.0).abs() < 1e-6 && (b.y1 - 120.0).abs() < 1e-6);
    }

    #[test]
    fn path_and_back_is_the_same() {
        let path = Rect::new(0.0, 0.0, 10.0, 20.0).to_path(0.1);
        let outline = Outline::from_path(&path);
        assert_eq!(Outline::from_path(&outline.to_bez_path()), outline);
    }
}
