//! The part of a shape inside a level band, as a shape.
//!
//! What lies outside is laid flat onto the band's nearer edge. No point inside
//! the band is passed over in doing so, so that winding numbers there stay as
//! they are: areas come from the clipped shape as from any other.

use super::Band;
use crate::outline::{Crossing, Outline, OutlineBuilder, Ray, Segment};
use kurbo::{ParamCurve, PathSeg, Point};

/// Pieces shorter than this in the curve's parameter are the rounding of a cut
/// that falls on a segment's end.
const LEAST_PIECE: f64 = 1e-12;

pub(super) fn clipped(outline: &Outline, band: Band) -> Outline {
    let cuts = cuts(outline, band);
    let mut clip = Clip {
        band,
        builder: OutlineBuilder::default(),
    };
    for contour in outline.contours() {
        let segments = &outline.segments()[contour.clone()];
        let Some(first) = segments.first() else {
            continue;
        };
        let start = first.path_seg().start();
        clip.builder
            .move_to(Point::new(start.x, band.nearest(start.y)));
        let mut next = cuts.partition_point(|c| c.segment < contour.start);
        for (index, segment) in contour.clone().zip(segments) {
            let from = next;
            while cuts.get(next).is_some_and(|c| c.segment == index) {
                next += 1;
            }
            clip.segment(segment, &cuts[from..next]);
        }
    }
    clip.builder.finish()
}

/// Where the outline crosses the band's edges, in order along its segments.
fn cuts(outline: &Outline, band: Band) -> Vec<Crossing> {
    let (mut cuts, mut upper) = (Vec::new(), Vec::new());
    outline.crossings(&Ray::level(band.from()), &mut cuts);
    outline.crossings(&Ray::level(band.to()), &mut upper);
    cuts.append(&mut upper);
    cuts.sort_unstable_by(|a, b| a.segment.cmp(&b.segment).then(a.t.total_cmp(&b.t)));
    cuts
}

struct Clip {
    band: Band,
    builder: OutlineBuilder,
}

impl Clip {
    fn segment(&mut self, segment: &Segment, cuts: &[Crossing]) {
        let seg = segment.path_seg();
        if self.band.holds(segment.bounds()) {
            self.draw(seg);
            return;
        }
        let mut from = 0.0;
        for to in cuts.iter().map(|c| c.t).chain([1.0]) {
            if to - from <= LEAST_PIECE {
                continue;
            }
            let middle = seg.eval(0.5 * (from + to)).y;
            if middle == self.band.nearest(middle) {
                self.draw(seg.subsegment(from..to));
            } else {
                self.line_to(seg.eval(to));
            }
            from = to;
        }
    }

    /// Draws a piece inside the band; its end, which rounding may have put a
    /// hair outside, is set onto the edge.
    fn draw(&mut self, seg: PathSeg) {
        let end = self.onto(seg.end());
        match seg {
            PathSeg::Line(_) => self.builder.line_to(end),
            PathSeg::Quad(q) => self.builder.quad_to(q.p1, end),
            PathSeg::Cubic(c) => self.builder.curve_to(c.p1, c.p2, end),
        }
    }

    fn line_to(&mut self, p: Point) {
        self.builder.line_to(self.onto(p));
    }

    fn onto(&self, p: Point) -> Point {
        Point::new(p.x, self.band.nearest(p.y))
    }
}
