//! The glyf table as it lies in the file.
//!
//! The parser draws from it but tells nothing else of a glyph: not its header,
//! not its components, not how much there is of it.

use super::bytes::{i16_at, u16_at, u32_at};
use super::face::Face;
use ttf_parser::head::IndexToLocationFormat;
use ttf_parser::{Tag, hmtx};

/// Bytes of a glyph before its contours or components: their number and a box.
const HEADER: usize = 10;

/// Glyph data, where each glyph's lies, and the side bearings.
#[derive(Clone, Copy)]
pub(super) struct Glyf<'a> {
    glyf: &'a [u8],
    loca: &'a [u8],
    long: bool,
    glyph_count: u16,
    bearings: Option<hmtx::Table<'a>>,
}

/// What the file holds for a glyph.
#[derive(Clone, Copy)]
pub(super) enum Entry<'a> {
    /// Nothing: a glyph without ink.
    Blank,
    /// An outline, or a composite of others.
    Drawn(Glyph<'a>),
    /// Its place is not in the table.
    Broken,
}

impl<'a> Glyf<'a> {
    /// A table of so many glyphs, with long offsets, and hmtx where it matters.
    #[cfg(test)]
    pub(super) fn new(glyf: &'a [u8], loca: &'a [u8], bearings: Option<hmtx::Table<'a>>) -> Self {
        Self {
            glyf,
            loca,
            long: true,
            glyph_count: u16::try_from(loca.len() / 4 - 1).unwrap(),
            bearings,
        }
    }

    /// The table of a face whose outlines are TrueType.
    pub(super) fn of(face: &Face<'a>) -> Option<Self> {
        let table = |tag| face.raw_face().table(Tag::from_bytes(tag));
        Some(Self {
            glyf: table(b"glyf")?,
            loca: table(b"loca")?,
            long: face.tables().head.index_to_location_format == IndexToLocationFormat::Long,
            glyph_count: face.number_of_glyphs(),
            bearings: face.tables().hmtx,
        })
    }

    /// The glyph's data.
    pub(super) fn entry(&self, glyph: u16) -> Entry<'a> {
        let i = usize::from(glyph);
        if glyph >= self.glyph_count {
            return Entry::Broken;
        }
        match (self.offset(i), self.offset(i + 1)) {
            (Some(from), Some(to)) if from == to => Entry::Blank,
            (Some(from), Some(to)) => self
                .glyf
                .get(from..to)
                .and_then(Glyph::new)
                .map_or(Entry::Broken, Entry::Drawn),
            _ => Entry::Broken,
        }
    }

    /// The left side bearing that hmtx gives, font units.
    pub(super) fn left_bearing(&self, glyph: u16) -> Option<i16> {
        self.bearings?.side_bearing(ttf_parser::GlyphId(glyph))
    }

    fn offset(&self, i: usize) -> Option<usize> {
        if self.long {
            u32_at(self.loca, 4 * i).and_then(|o| usize::try_from(o).ok())
        } else {
            u16_at(self.loca, 2 * i).map(|o| 2 * usize::from(o))
        }
    }
}

/// One glyph's data.
#[derive(Clone, Copy)]
pub(super) struct Glyph<'a> {
    data: &'a [u8],
    contours: i16,
}

impl<'a> Glyph<'a> {
    fn new(data: &'a [u8]) -> Option<Self> {
        let contours = i16_at(data, 0)?;
        // Nought contours is a blank that takes up room; nothing else is read of it.
        (contours == 0 || data.len() >= HEADER).then_some(Self { data, contours })
    }

    /// The left of the box in the header, font units.
    pub(super) fn x_min(&self) -> i16 {
        i16_at(self.data, 2).unwrap_or(0)
    }

    /// Whether the glyph draws others.
    pub(super) fn is_composite(&self) -> bool {
        self.contours < 0
    }

    /// Number of points of a glyph that draws no others; `None` if that is cut off.
    pub(super) fn points(&self) -> Option<u16> {
        let contours = usize::try_from(self.contours).ok()?;
        match contours.checked_sub(1) {
            None => Some(0),
            // The index of the last contour's last point.
            Some(last) => u16_at(self.data, HEADER + 2 * last)?.checked_add(1),
        }
    }

    /// The glyphs that this one draws.
    pub(super) fn components(&self) -> Components<'a> {
        Components {
            rest: self.data.get(HEADER..).filter(|_| self.is_composite()),
        }
    }
}

/// One glyph drawn as part of another.
pub(super) struct Component {
    /// Which.
    pub(super) glyph: u16,
    /// Whether it is placed by an offset, not by a point of its own that comes to
    /// lie on a point of the others.
    pub(super) by_offset: bool,
    /// Whether the composite has this component's metrics.
    pub(super) lends_metrics: bool,
}

/// Reads the components in order; ends where the data does.
pub(super) struct Components<'a> {
    rest: Option<&'a [u8]>,
}

impl Iterator for Components<'_> {
    type Item = Component;

    fn next(&mut self) -> Option<Component> {
        let data = self.rest.take()?;
        let flags = u16_at(data, 0)?;
        let has = |flag: u16| flags & flag != 0;
        let arguments = if has(0x0001) { 4 } else { 2 };
        let scale = if has(0x0080) {
            8
        } else if has(0x0040) {
            4
        } else if has(0x0008) {
            2
        } else {
            0
        };
        let component = Component {
            glyph: u16_at(data, 2)?,
            by_offset: has(0x0002),
            lends_metrics: has(0x0200),
        };
        let rest = data.get(4 + arguments + scale..)?;
        self.rest = has(0x0020).then_some(rest);
        Some(component)
    }
}
