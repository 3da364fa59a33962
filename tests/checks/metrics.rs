//! Advance widths, side bearings, bounds and areas of every glyph, against fontTools.

use crate::{Fonts, open};
use counterpoise::font::{Font, GlyphId};
use counterpoise_checks::compare::Comparison;
use counterpoise_checks::figures::{self, Glyph};
use counterpoise_checks::manifest::{Face, Use};
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

/// Lengths must agree to this, font units.
const LENGTH: f64 = 0.01;

/// Areas must agree to this share. The reference itself is good to a fifth of it.
const AREA: f64 = 0.001;

/// Areas this small (square units) are not compared by share: a hair of a stray
/// contour has an area near nothing.
const SMALLEST_AREA: f64 = 10.0;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    fonts.each("metrics", Use::Glyphs, every_glyph)
}

fn every_glyph(face: &Face) -> Result<(), Failed> {
    let font = open(face)?;
    let reference = figures::glyphs(&face.path())?.glyphs;
    let (mut lengths, mut areas) = (Comparison::default(), Comparison::default());
    lengths.same(
        "number of glyphs",
        usize::from(font.glyph_count()),
        reference.len(),
    );
    for (id, theirs) in (0..font.glyph_count()).zip(&reference) {
        one_glyph(&font, GlyphId(id), theirs, &mut lengths, &mut areas);
    }
    println!(
        "{}: {} lengths, worst {:.4} units; {} areas, worst {:.5}",
        face.id,
        lengths.compared(),
        lengths.worst(),
        areas.compared(),
        areas.worst()
    );
    lengths.verdict()?;
    areas.verdict()?;
    Ok(())
}

fn one_glyph(
    font: &Font,
    glyph: GlyphId,
    theirs: &Glyph,
    lengths: &mut Comparison,
    areas: &mut Comparison,
) {
    let reader = font.reader();
    let outline = match reader.outline(glyph) {
        Ok(outline) => outline,
        Err(e) => return lengths.fail(format!("glyph {}: {e}", glyph.0)),
    };
    let (advance, bounds) = (reader.advance(glyph), outline.bounds());
    let mut near = |what: &str, ours: Option<f64>, theirs: Option<f64>| {
        lengths.near(format!("glyph {} {what}", glyph.0), ours, theirs, LENGTH);
    };
    near("advance", Some(advance), Some(theirs.advance));
    near("left bearing", bounds.map(|b| b.x0), theirs.left_bearing);
    near(
        "right bearing",
        bounds.map(|b| advance - b.x1),
        theirs.right_bearing,
    );
    near("left", bounds.map(|b| b.x0), theirs.bounds.map(|b| b[0]));
    near("foot", bounds.map(|b| b.y0), theirs.bounds.map(|b| b[1]));
    near("right", bounds.map(|b| b.x1), theirs.bounds.map(|b| b[2]));
    near("top", bounds.map(|b| b.y1), theirs.bounds.map(|b| b[3]));
    area(
        areas,
        &format!("glyph {} signed area", glyph.0),
        outline.signed_area(),
        theirs.signed_area,
    );
    area(
        areas,
        &format!("glyph {} area", glyph.0),
        outline.ink_area(),
        theirs.filled_area,
    );
}

/// Compares areas as shares of the reference's.
fn area(areas: &mut Comparison, what: &str, ours: f64, theirs: f64) {
    let scale = theirs.abs().max(SMALLEST_AREA);
    areas.near(what, Some(ours / scale), Some(theirs / scale), AREA);
}
