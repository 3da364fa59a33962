//! Names of glyphs that stand in the font's own post table (OpenType
//! specification, post chapter, version 2.0).
//!
//! They lie one behind another, each after its length, so that the parser walks
//! past all that come before to reach one: for every name of a large font, as
//! many steps as the square of its glyphs. Here their places are found once.

use super::bytes::{u16_at, u32_at};
use super::face::Face;
use ttf_parser::{GlyphId, Tag};

const VERSION_2: u32 = 0x0002_0000;

/// Where the number of glyphs stands, and behind it the index of each one's name.
const COUNT: usize = 32;
const INDICES: usize = 34;

/// Indices below this are of names that every reader of fonts knows.
const KNOWN: u16 = 258;

/// Where each of the font's own names begins in the post table: at its length.
#[derive(Debug, Clone, Default)]
pub(super) struct GlyphNames {
    starts: Vec<usize>,
}

impl GlyphNames {
    pub(super) fn read(face: &Face<'_>) -> Self {
        let Some((post, count)) = table(face) else {
            return Self::default();
        };
        let mut starts = Vec::new();
        let mut at = INDICES + 2 * usize::from(count);
        while let Some(&length) = post.get(at) {
            starts.push(at);
            at += 1 + usize::from(length);
        }
        Self { starts }
    }

    /// The glyph's name.
    pub(super) fn of<'f>(&self, face: &'f Face<'_>, glyph: u16) -> Option<&'f str> {
        let id = GlyphId(glyph);
        let Some((post, index)) = own_index(face, glyph) else {
            return face.glyph_name(id);
        };
        let own = || {
            let start = *self.starts.get(index)?;
            let length = usize::from(*post.get(start)?);
            std::str::from_utf8(post.get(start + 1..start + 1 + length)?).ok()
        };
        own().or_else(|| face.tables().cff.as_ref()?.glyph_name(id))
    }
}

/// The post table and its number of glyphs, if it is of the kind that has names.
fn table<'a>(face: &Face<'a>) -> Option<(&'a [u8], u16)> {
    let post = face.raw_face().table(Tag::from_bytes(b"post"))?;
    (u32_at(post, 0)? == VERSION_2).then_some(())?;
    Some((post, u16_at(post, COUNT)?))
}

/// The post table, and which of the font's own names the glyph has; `None` if it
/// has none of them.
fn own_index<'a>(face: &Face<'a>, glyph: u16) -> Option<(&'a [u8], usize)> {
    let (post, count) = table(face)?;
    (glyph < count).then_some(())?;
    let index = u16_at(post, INDICES + 2 * usize::from(glyph))?.checked_sub(KNOWN)?;
    Some((post, usize::from(index)))
}
