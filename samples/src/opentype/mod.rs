//! The face as an OpenType file, with TrueType or with CFF outlines.

mod cff;
mod metrics;
mod outline;
mod pairs;
mod words;

use write_fonts::FontBuilder;
use write_fonts::tables::glyf::GlyfLocaBuilder;
use write_fonts::tables::maxp::Maxp;
use write_fonts::types::Tag;

use crate::error::Error;
use crate::face::Face;
use crate::spline::Curves;
use metrics::{count, head, hhea, hmtx, maxp_truetype, os2};
use outline::{Outline, extent, outlines};
use pairs::gpos;
use words::{cmap, name, post};

/// The bytes of a font file with TrueType outlines.
///
/// # Errors
/// When a contour is open or a value does not fit its table.
pub fn truetype(face: &Face) -> Result<Vec<u8>, Error> {
    let glyphs = outlines(face, Curves::Quadratic)?;
    let mut builder = GlyfLocaBuilder::new();
    for glyph in &glyphs {
        builder.add_glyph(&glyph.glyf()).map_err(refused)?;
    }
    let (glyf, loca, format) = builder.build();
    let mut font = FontBuilder::new();
    font.add_table(&glyf).map_err(refused)?;
    font.add_table(&loca).map_err(refused)?;
    font.add_table(&maxp_truetype(&glyphs)?).map_err(refused)?;
    shared(&mut font, face, &glyphs, format as i16)?;
    Ok(font.build())
}

/// The bytes of a font file with CFF outlines: the same face, its cubics as
/// they were drawn.
///
/// # Errors
/// When a contour is open or a value does not fit its table.
pub fn postscript(face: &Face) -> Result<Vec<u8>, Error> {
    let glyphs = outlines(face, Curves::Cubic)?;
    let mut font = FontBuilder::new();
    font.add_raw(Tag::new(b"CFF "), cff::table(face)?);
    let maxp = Maxp::new(count(glyphs.len())?);
    font.add_table(&maxp).map_err(refused)?;
    shared(&mut font, face, &glyphs, 0)?;
    Ok(font.build())
}

/// The tables that both outline formats have.
fn shared(
    font: &mut FontBuilder<'_>,
    face: &Face,
    glyphs: &[Outline<'_>],
    loca: i16,
) -> Result<(), Error> {
    font.add_table(&head(face, extent(glyphs), loca)?)
        .map_err(refused)?;
    font.add_table(&hhea(glyphs)?).map_err(refused)?;
    font.add_table(&hmtx(glyphs)?).map_err(refused)?;
    font.add_table(&os2(face)?).map_err(refused)?;
    font.add_table(&cmap(face)?).map_err(refused)?;
    font.add_table(&name(face)).map_err(refused)?;
    font.add_table(&post(face)).map_err(refused)?;
    if !face.kerning.is_empty() {
        font.add_table(&gpos(face)?).map_err(refused)?;
    }
    Ok(())
}

fn refused(why: impl std::fmt::Display) -> Error {
    Error::Table(why.to_string())
}
