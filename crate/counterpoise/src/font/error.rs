//! What can be wrong with a font, told to the person who dropped it.

use super::GlyphId;
use super::cff::Cff;
use super::face::Face;
use std::fmt;
use ttf_parser::{FaceParsingError, RawFace, Tag};

/// Why a file could not be opened as a font.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FontError {
    /// The file has no bytes.
    Empty,
    /// The file is something else, named here with its article.
    NotAFont(&'static str),
    /// The first bytes are of no kind that we know.
    Unknown,
    /// A WOFF or WOFF2 file.
    Packed,
    /// A PostScript Type 1 font.
    Type1,
    /// The collection has fewer faces than asked for.
    NoSuchFace {
        /// The face asked for, from 0.
        asked: u32,
        /// How many there are.
        faces: u32,
    },
    /// The file ends before the tables that its directory lists.
    Truncated,
    /// The table directory or a table that every font needs cannot be read.
    BrokenTable(&'static str),
    /// A table that every font needs is not there.
    MissingTable(&'static str),
    /// The font has pictures of letters, no outlines.
    BitmapOnly,
    /// The font has no outlines of any kind.
    NoOutlines,
    /// No letter was among the drawings.
    NoLetters,
    /// Units per em beyond what a font may have.
    UnitsPerEm(u16),
}

impl FontError {
    /// A name for this kind of error that never changes, for scripts.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::NotAFont(_) => "not-a-font",
            Self::Unknown => "unknown",
            Self::Packed => "packed",
            Self::Type1 => "type1",
            Self::NoSuchFace { .. } => "no-such-face",
            Self::Truncated => "truncated",
            Self::BrokenTable(_) => "broken-table",
            Self::MissingTable(_) => "missing-table",
            Self::BitmapOnly => "bitmap-only",
            Self::NoOutlines => "no-outlines",
            Self::NoLetters => "no-letters",
            Self::UnitsPerEm(_) => "units-per-em",
        }
    }
}

impl fmt::Display for FontError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => {
                f.write_str("This file is empty. Ask for it again: it may not have arrived whole.")
            }
            Self::NotAFont(what) => write!(
                f,
                "This is {what}, not a font. Drop a font file (.otf, .ttf, .otc or .ttc).",
            ),
            Self::Unknown => f.write_str(
                "This is not a font file that the lab knows. \
                 Drop an OpenType or TrueType font (.otf, .ttf, .otc or .ttc).",
            ),
            Self::Packed => f.write_str(
                "This font is packed for the web (WOFF). \
                 Open it on the lab's page, or ask for the .otf or .ttf.",
            ),
            Self::Type1 => f.write_str(
                "This is a PostScript Type 1 font. Ask for it saved as OpenType (.otf).",
            ),
            Self::NoSuchFace { asked, faces: 0 } => write!(
                f,
                "This font collection lists no faces, so face {} cannot be opened. \
                 Ask for the file again.",
                asked + 1,
            ),
            Self::NoSuchFace { asked, faces } => write!(
                f,
                "This font collection has {faces} faces, so there is no face {}.",
                asked + 1,
            ),
            Self::Truncated => f.write_str(
                "This font is cut short: the file ends before its tables do. \
                 Ask for it again: it may not have arrived whole.",
            ),
            Self::BrokenTable(table) => write!(
                f,
                "This font is damaged: its {table} cannot be read. \
                 Ask for it to be generated again.",
            ),
            Self::MissingTable(table) => write!(
                f,
                "This font has no {table}, which every font needs. \
                 Ask for it to be generated again.",
            ),
            Self::BitmapOnly => f.write_str(
                "This font holds pictures of its letters, not outlines, \
                 so there is nothing to measure.",
            ),
            Self::NoOutlines => f.write_str(
                "This font has no outlines (no glyf, CFF or CFF2 table that can be read). \
                 Ask for it to be generated again.",
            ),
            Self::NoLetters => f.write_str(
                "There is no letter among these drawings. Add one that has ink, and name it.",
            ),
            Self::UnitsPerEm(units) => write!(
                f,
                "These drawings are set to {units} units per em; a font has 16 to 16384. \
                 Set another number.",
            ),
        }
    }
}

impl std::error::Error for FontError {}

/// Why one glyph could not be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GlyphError {
    /// The font has no glyph of this index.
    Missing(GlyphId),
    /// The outline is damaged or nested too deep.
    Broken(GlyphId),
    /// The outline has more curves than [`GlyphError::MAX_SEGMENTS`], or takes as
    /// much work to read.
    TooLarge(GlyphId),
    /// The glyph is a composite whose components are placed by matching points.
    MatchedPoints(GlyphId),
    /// The outline has a coordinate that is not a finite number in range.
    NotFinite(GlyphId),
}

impl GlyphError {
    /// The most curves and lines that one glyph may have. Hand-made letters
    /// have tens, automatic traces thousands; the limit keeps a hostile glyph
    /// from holding the page up.
    pub const MAX_SEGMENTS: usize = 60_000;
}

impl fmt::Display for GlyphError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing(id) => write!(f, "The font has no glyph {}.", id.0),
            Self::Broken(id) => write!(
                f,
                "The outline of glyph {} is damaged and cannot be read.",
                id.0
            ),
            Self::TooLarge(id) => write!(
                f,
                "The outline of glyph {} takes more work than {} curves; it is left out.",
                id.0,
                Self::MAX_SEGMENTS
            ),
            Self::MatchedPoints(id) => write!(
                f,
                "The parts of glyph {} are placed by matching points, which the lab \
                 does not read yet; it is left out.",
                id.0
            ),
            Self::NotFinite(id) => write!(
                f,
                "The outline of glyph {} has points that lie nowhere; it is left out.",
                id.0
            ),
        }
    }
}

impl std::error::Error for GlyphError {}

/// Refuses what the parser would choke on while it opens the font: it adds up the
/// lengths that these tables claim without a check, and reads every dictionary.
pub(super) fn check_before_parser(data: &[u8], index: u32) -> Result<(), FontError> {
    let Ok(raw) = RawFace::parse(data, index) else {
        // The parser will say the same.
        return Ok(());
    };
    let table = |tag| raw.table(Tag::from_bytes(tag));
    let broken = if table(b"CFF ").is_some_and(|t| Cff::one(t).is_none()) {
        "CFF table"
    } else if table(b"CFF2").is_some_and(|t| Cff::two(t).is_none()) {
        "CFF2 table"
    } else {
        return Ok(());
    };
    Err(if is_cut(&raw) {
        FontError::Truncated
    } else {
        FontError::BrokenTable(broken)
    })
}

/// The parser's error, told more exactly: it says "malformed" of a cut file too.
pub(super) fn from_parser(e: FaceParsingError, data: &[u8], index: u32) -> FontError {
    if is_truncated(data, index) {
        return FontError::Truncated;
    }
    match e {
        FaceParsingError::MalformedFont => FontError::BrokenTable("table directory"),
        FaceParsingError::UnknownMagic => FontError::Unknown,
        FaceParsingError::FaceIndexOutOfBounds => FontError::NoSuchFace {
            asked: index,
            faces: 0,
        },
        FaceParsingError::NoHeadTable => which(data, index, b"head", "head table"),
        FaceParsingError::NoHheaTable => which(data, index, b"hhea", "hhea table"),
        FaceParsingError::NoMaxpTable => which(data, index, b"maxp", "maxp table"),
    }
}

/// A font without outlines that could be read: cut, bitmaps only, broken or bare.
pub(super) fn no_outlines(face: &Face<'_>) -> FontError {
    let raw = face.raw_face();
    if is_cut(raw) {
        return FontError::Truncated;
    }
    let has = |tag: &[u8; 4]| raw.table(Tag::from_bytes(tag)).is_some();
    if has(b"CFF ") {
        FontError::BrokenTable("CFF table")
    } else if has(b"CFF2") {
        FontError::BrokenTable("CFF2 table")
    } else if has(b"glyf") {
        FontError::BrokenTable("loca table, which says where each outline is,")
    } else if has(b"EBDT") || has(b"CBDT") || has(b"sbix") || has(b"bdat") {
        FontError::BitmapOnly
    } else {
        FontError::NoOutlines
    }
}

/// Whether a table is there but broken, or not there.
fn which(data: &[u8], index: u32, tag: &[u8; 4], name: &'static str) -> FontError {
    let there = RawFace::parse(data, index)
        .ok()
        .and_then(|raw| raw.table(Tag::from_bytes(tag)))
        .is_some();
    if there {
        FontError::BrokenTable(name)
    } else {
        FontError::MissingTable(name)
    }
}

fn is_truncated(data: &[u8], index: u32) -> bool {
    match RawFace::parse(data, index) {
        Ok(raw) => is_cut(&raw),
        // A sound signature with no room for the directory that it announces.
        Err(FaceParsingError::MalformedFont) => directory_is_cut(data),
        Err(_) => false,
    }
}

fn is_cut(raw: &RawFace<'_>) -> bool {
    raw.table_records
        .into_iter()
        .any(|r| u64::from(r.offset) + u64::from(r.length) > raw.data.len() as u64)
}

/// The directory of a single font: 12 bytes, then 16 for each table.
fn directory_is_cut(data: &[u8]) -> bool {
    match data.get(4..6) {
        Some(&[hi, lo]) => data.len() < 12 + 16 * usize::from(u16::from_be_bytes([hi, lo])),
        _ => true,
    }
}
