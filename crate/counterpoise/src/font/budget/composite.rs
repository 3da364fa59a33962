//! Composite glyphs, whose components may be composites in turn.

use super::Refusal;
use crate::font::GlyphError;
use crate::font::glyf::{Entry, Glyf, Glyph};

/// How deep components may be nested: the parser draws no deeper.
const MAX_DEPTH: u8 = 32;

/// The most points and components that a glyph may come to. Every point is drawn
/// with one curve or line at least, so that more points are too many curves; a
/// component counts as a point, or those that draw nothing would cost nothing.
const MAX_WORK: usize = GlyphError::MAX_SEGMENTS;

/// What a glyph comes to.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(in crate::font) struct Survey {
    /// Whether there is anything to draw.
    pub(in crate::font) has_ink: bool,
    /// How far the outline lies to the right of where hmtx puts it, font units.
    pub(in crate::font) origin: i32,
}

/// Walks a glyph and those that it draws.
pub(in crate::font) fn survey(
    table: &Glyf<'_>,
    glyph: u16,
    data: &Glyph<'_>,
) -> Result<Survey, Refusal> {
    let mut work = 0;
    walk(table, glyph, data, 0, &mut work)
}

fn walk(
    table: &Glyf<'_>,
    glyph: u16,
    data: &Glyph<'_>,
    depth: u8,
    work: &mut usize,
) -> Result<Survey, Refusal> {
    if depth >= MAX_DEPTH {
        return Err(Refusal::Broken);
    }
    *work += 1;
    let mut survey = Survey {
        has_ink: false,
        origin: table
            .left_bearing(glyph)
            .map_or(0, |b| i32::from(data.x_min()) - i32::from(b)),
    };
    if !data.is_composite() {
        let points = data.points().ok_or(Refusal::Broken)?;
        *work += usize::from(points);
        // A lone point is an anchor, not a contour.
        survey.has_ink = points > 1;
    }
    if *work > MAX_WORK {
        return Err(Refusal::TooLarge);
    }
    for component in data.components() {
        if !component.by_offset {
            return Err(Refusal::MatchedPoints);
        }
        let Entry::Drawn(part) = table.entry(component.glyph) else {
            // Blank or beyond the table: the parser passes over it.
            *work += 1;
            continue;
        };
        let part = walk(table, component.glyph, &part, depth + 1, work)?;
        survey.has_ink |= part.has_ink;
        if component.lends_metrics {
            survey.origin = part.origin;
        }
    }
    Ok(survey)
}
