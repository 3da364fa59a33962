//! The parser's drawing calls, gathered into an [`Outline`].

use super::{GlyphError, GlyphId};
use crate::outline::{Outline, OutlineBuilder};
use kurbo::Point;
use ttf_parser::Face;

/// Coordinates beyond this lie outside any font's design space (units per em
/// is at most 16384, a coordinate at most 32767 either way; composites may add
/// a few offsets). Past it products of coordinates would lose exactness.
const MAX_COORDINATE: f64 = 1e6;

struct Pen {
    builder: OutlineBuilder,
    segments: usize,
    finite: bool,
}

impl Pen {
    fn point(&mut self, x: f32, y: f32) -> Point {
        let p = Point::new(f64::from(x), f64::from(y));
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

/// Reads a glyph's outline; one without ink is an empty outline.
pub(super) fn read(face: &Face<'_>, glyph: GlyphId) -> Result<Outline, GlyphError> {
    let mut pen = Pen {
        builder: OutlineBuilder::default(),
        segments: 0,
        finite: true,
    };
    let drawn = face.outline_glyph(ttf_parser::GlyphId(glyph.0), &mut pen);
    if !pen.finite {
        return Err(GlyphError::NotFinite(glyph));
    }
    if pen.segments > GlyphError::MAX_SEGMENTS {
        return Err(GlyphError::TooLarge(glyph));
    }
    let outline = pen.builder.finish();
    // `None` is said of a blank glyph and of a broken one alike. A glyph that
    // failed half-way has drawn something; one that failed at once can be told
    // from a blank one by its bounding box or its data.
    if drawn.is_none() && (!outline.is_empty() || claims_ink(face, glyph)) {
        return Err(GlyphError::Broken(glyph));
    }
    Ok(outline)
}

/// Whether the glyf table has data for a glyph that could not be drawn.
fn claims_ink(face: &Face<'_>, glyph: GlyphId) -> bool {
    use ttf_parser::{GlyphId as Id, Tag};
    let raw = face.raw_face();
    let Some(loca) = raw.table(Tag::from_bytes(b"loca")) else {
        return false;
    };
    let long = matches!(
        face.tables().head.index_to_location_format,
        ttf_parser::head::IndexToLocationFormat::Long
    );
    let offset = |i: usize| -> Option<usize> {
        if long {
            let b = loca.get(4 * i..4 * i + 4)?;
            Some(u32::from_be_bytes([b[0], b[1], b[2], b[3]]) as usize)
        } else {
            let b = loca.get(2 * i..2 * i + 2)?;
            Some(2 * usize::from(u16::from_be_bytes([b[0], b[1]])))
        }
    };
    let Id(id) = Id(glyph.0);
    let i = usize::from(id);
    match (offset(i), offset(i + 1)) {
        (Some(from), Some(to)) if to > from => {
            // Nought contours is a blank that takes up room.
            let contours = raw
                .table(Tag::from_bytes(b"glyf"))
                .and_then(|g| g.get(from..from + 2));
            contours != Some(&[0, 0])
        }
        (Some(from), Some(to)) => to < from,
        _ => true,
    }
}
