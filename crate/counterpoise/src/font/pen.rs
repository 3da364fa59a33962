//! The parser's drawing calls, gathered into an [`Outline`].

use super::{GlyphError, GlyphId};
use crate::outline::{Outline, OutlineBuilder};
use kurbo::Point;

/// Coordinates beyond this lie outside any font's design space (units per em
/// is at most 16384, a coordinate at most 32767 either way; composites may add
/// a few offsets). Past it products of coordinates would lose exactness.
pub(super) const MAX_COORDINATE: f64 = 1e6;

/// Takes down one glyph.
pub(super) struct Pen {
    builder: OutlineBuilder,
    shift: f64,
    segments: usize,
    finite: bool,
}

impl Pen {
    /// A pen that draws everything so far to the right, font units.
    pub(super) fn shifted(shift: f64) -> Self {
        Self {
            builder: OutlineBuilder::default(),
            shift,
            segments: 0,
            finite: true,
        }
    }

    /// What was drawn.
    pub(super) fn finish(self, glyph: GlyphId) -> Result<Outline, GlyphError> {
        if !self.finite {
            return Err(GlyphError::NotFinite(glyph));
        }
        if self.segments > GlyphError::MAX_SEGMENTS {
            return Err(GlyphError::TooLarge(glyph));
        }
        Ok(self.builder.finish())
    }

    fn point(&mut self, x: f32, y: f32) -> Point {
        let p = Point::new(f64::from(x) + self.shift, f64::from(y));
        self.finite &= p.is_finite() && p.x.abs() < MAX_COORDINATE && p.y.abs() < MAX_COORDINATE;
        self.segments += 1;
        p
    }

    // Past the limits the rest is read, since the parser cannot be stopped, but not kept.
    fn keeps(&self) -> bool {
        self.finite && self.segments <= GlyphError::MAX_SEGMENTS
    }
}

impl ttf_parser::OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        let p = self.point(x, y);
        if self.keeps() {
            self.builder.move_to(p);
        }
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let p = self.point(x, y);
        if self.keeps() {
            self.builder.line_to(p);
        }
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let (c, p) = (self.point(x1, y1), self.point(x, y));
        if self.keeps() {
            self.builder.quad_to(c, p);
        }
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (a, b, p) = (self.point(x1, y1), self.point(x2, y2), self.point(x, y));
        if self.keeps() {
            self.builder.curve_to(a, b, p);
        }
    }

    fn close(&mut self) {
        if self.keeps() {
            self.builder.close();
        }
    }
}
