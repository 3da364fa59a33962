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

#[cfg(test)]
mod tests {
    use super::*;
    use ttf_parser::{GlyphId, hmtx};

    const BY_OFFSET: u16 = 0x0002;
    const MORE: u16 = 0x0020;
    const LENDS_METRICS: u16 = 0x0200;

    fn header(contours: i16, x_min: i16) -> Vec<u8> {
        let box_ = [x_min, 0, 0, 0];
        std::iter::once(contours)
            .chain(box_)
            .flat_map(i16::to_be_bytes)
            .collect()
    }

    /// A glyph of one contour with so many points, which lie nowhere yet.
    fn drawn(points: u16, x_min: i16) -> Vec<u8> {
        [header(1, x_min), (points - 1).to_be_bytes().to_vec()].concat()
    }

    fn composite(parts: &[(u16, u16)], x_min: i16) -> Vec<u8> {
        let mut data = header(-1, x_min);
        for (i, &(glyph, flags)) in parts.iter().enumerate() {
            let more = if i + 1 < parts.len() { MORE } else { 0 };
            data.extend((flags | more).to_be_bytes());
            data.extend(glyph.to_be_bytes());
            data.extend([0, 0]);
        }
        data
    }

    /// Surveys the last of some glyphs, each of which hmtx gives a bearing of 10.
    fn last(glyphs: &[Vec<u8>]) -> Result<Survey, Refusal> {
        let mut loca = vec![0; 4];
        let mut end = 0_u32;
        for glyph in glyphs {
            end += u32::try_from(glyph.len()).unwrap();
            loca.extend(end.to_be_bytes());
        }
        let metrics = [0, 100, 0, 10].repeat(glyphs.len());
        let count = u16::try_from(glyphs.len()).unwrap();
        let bearings = hmtx::Table::parse(count, count.try_into().unwrap(), &metrics);
        assert_eq!(bearings.unwrap().side_bearing(GlyphId(0)), Some(10));
        let glyf = glyphs.concat();
        let table = Glyf::new(&glyf, &loca, bearings);
        let Entry::Drawn(data) = table.entry(count - 1) else {
            panic!("the last glyph is there");
        };
        survey(&table, count - 1, &data)
    }

    #[test]
    fn composite_of_blanks_is_blank() {
        let blanks = [
            vec![],
            header(0, 0),
            composite(&[(0, BY_OFFSET), (1, BY_OFFSET)], 10),
        ];
        assert_eq!(last(&blanks), Ok(Survey::default()));
    }

    #[test]
    fn origin_is_the_composites_own_unless_lent() {
        let origin = |flags| {
            last(&[drawn(4, 13), composite(&[(0, flags)], 11)]).map(|s| (s.has_ink, s.origin))
        };
        assert_eq!(origin(BY_OFFSET), Ok((true, 1)));
        assert_eq!(origin(BY_OFFSET | LENDS_METRICS), Ok((true, 3)));
    }

    #[test]
    fn parts_placed_by_points_are_refused() {
        let glyphs = [drawn(4, 0), composite(&[(0, 0)], 0)];
        assert_eq!(last(&glyphs), Err(Refusal::MatchedPoints));
    }

    #[test]
    fn work_is_counted_as_often_as_it_is_done() {
        let doubled = |levels: u16| {
            let mut glyphs = vec![drawn(100, 0)];
            glyphs.extend((0..levels).map(|i| composite(&[(i, BY_OFFSET); 2], 0)));
            last(&glyphs).map(|s| s.has_ink)
        };
        assert_eq!(doubled(9), Ok(true));
        assert_eq!(doubled(10), Err(Refusal::TooLarge));
        assert_eq!(doubled(31), Err(Refusal::TooLarge));
    }

    #[test]
    fn nothing_drawn_is_work_too() {
        let mut glyphs = vec![header(0, 0)];
        glyphs.extend((0..30).map(|i| composite(&[(i, BY_OFFSET); 2], 0)));
        assert_eq!(last(&glyphs), Err(Refusal::TooLarge));
    }

    #[test]
    fn a_glyph_that_draws_itself_is_broken() {
        assert_eq!(
            last(&[composite(&[(0, BY_OFFSET)], 0)]),
            Err(Refusal::Broken)
        );
    }
}
