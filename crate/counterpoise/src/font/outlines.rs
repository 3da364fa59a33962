//! Outlines, read by way of the format's own table: each has its own way to say
//! that a glyph is blank, and its own way to ask for too much.

use super::budget::{Refusal, charstring, composite};
use super::cff::Cff;
use super::face::Face;
use super::glyf::{Entry, Glyf, Glyph};
use super::pen::Pen;
use super::{GlyphError, GlyphId};
use crate::outline::Outline;
use ttf_parser::CFFError;

/// Where a face's outlines are.
pub(super) enum Outlines<'a> {
    /// The glyf table, and the parser's view of it.
    TrueType(Glyf<'a>, ttf_parser::glyf::Table<'a>),
    /// The CFF table.
    Cff(Cff<'a>, ttf_parser::cff::Table<'a>),
    /// The CFF2 table.
    Cff2(Cff<'a>, ttf_parser::cff2::Table<'a>),
}

impl<'a> Outlines<'a> {
    /// The outlines of a face; `None` if it has none that can be read.
    pub(super) fn of(face: &Face<'a>) -> Option<Self> {
        let tables = face.tables();
        if let Some(table) = tables.glyf {
            Some(Self::TrueType(Glyf::of(face)?, table))
        } else if let Some(table) = tables.cff {
            Some(Self::Cff(Cff::of(face)?, table))
        } else {
            Some(Self::Cff2(Cff::of(face)?, tables.cff2?))
        }
    }

    /// Reads a glyph's outline; one without ink is an empty outline.
    pub(super) fn read(&self, face: &Face<'_>, glyph: GlyphId) -> Result<Outline, GlyphError> {
        let id = ttf_parser::GlyphId(glyph.0);
        let mut pen = Pen::shifted(0.0);
        let drawn = match self {
            Self::TrueType(table, parser) => {
                return match table.entry(glyph.0) {
                    Entry::Blank => Ok(Outline::default()),
                    Entry::Broken => Err(GlyphError::Broken(glyph)),
                    Entry::Drawn(data) => true_type(table, parser, glyph, &data),
                };
            }
            Self::Cff(table, parser) => {
                charstring::rehearse(table, glyph.0).map_err(|r| refused(r, glyph))?;
                parser.outline(id, &mut pen)
            }
            Self::Cff2(table, parser) => {
                charstring::rehearse(table, glyph.0).map_err(|r| refused(r, glyph))?;
                parser.outline(face.variation_coordinates(), id, &mut pen)
            }
        };
        let outline = pen.finish(glyph)?;
        match drawn {
            Ok(_) | Err(CFFError::ZeroBBox) => Ok(outline),
            Err(_) => Err(GlyphError::Broken(glyph)),
        }
    }
}

/// Reads a glyph of the glyf table, by the table itself: variations (gvar) change
/// nothing where the font stands as it was opened.
fn true_type(
    table: &Glyf<'_>,
    parser: &ttf_parser::glyf::Table<'_>,
    glyph: GlyphId,
    data: &Glyph<'_>,
) -> Result<Outline, GlyphError> {
    let survey = composite::survey(table, glyph.0, data).map_err(|r| refused(r, glyph))?;
    if !survey.has_ink {
        return Ok(Outline::default());
    }
    // hmtx says where the ink begins; the points stand where they were drawn.
    let mut pen = Pen::shifted(f64::from(-survey.origin));
    let drawn = parser.outline(ttf_parser::GlyphId(glyph.0), &mut pen);
    let outline = pen.finish(glyph)?;
    match drawn {
        Some(_) => Ok(outline),
        None => Err(GlyphError::Broken(glyph)),
    }
}

fn refused(refusal: Refusal, glyph: GlyphId) -> GlyphError {
    match refusal {
        Refusal::Broken => GlyphError::Broken(glyph),
        Refusal::TooLarge => GlyphError::TooLarge(glyph),
        Refusal::MatchedPoints => GlyphError::MatchedPoints(glyph),
    }
}
