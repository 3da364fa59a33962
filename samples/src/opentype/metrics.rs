//! The tables of figures: head, hhea, hmtx, maxp, OS/2.

use kurbo::{Rect, Shape};
use write_fonts::tables::glyf::Bbox;
use write_fonts::tables::head::{Flags, Head, MacStyle};
use write_fonts::tables::hhea::Hhea;
use write_fonts::tables::hmtx::{Hmtx, LongMetric};
use write_fonts::tables::maxp::Maxp;
use write_fonts::tables::os2::{Os2, SelectionFlags};
use write_fonts::types::{FWord, Fixed, LongDateTime, Tag, UfWord};

use super::outline::Outline;
use crate::error::Error;
use crate::face::{Face, Letter};
use crate::style;

/// Lines are set this tight: top and foot of the tallest and deepest letters,
/// rounded to tens.
const ASCENDER: i16 = 760;
const DESCENDER: i16 = -250;
const LINE_GAP: i16 = 190;

/// A fixed date, so that the same recipe gives the same bytes on any day:
/// 2026-11-25 00:00 UTC, in seconds since 1904.
const DRAWN: i64 = 3_878_409_600;

fn unit(value: f64, field: &'static str) -> Result<i16, Error> {
    let value = value.round();
    if (f64::from(i16::MIN)..=f64::from(i16::MAX)).contains(&value) {
        Ok(value as i16)
    } else {
        Err(Error::OutOfRange(field))
    }
}

fn advance(letter: &Letter) -> Result<u16, Error> {
    u16::try_from(unit(letter.advance, "advance width")?)
        .map_err(|_| Error::OutOfRange("advance width"))
}

pub(super) fn head(face: &Face, extent: Bbox, loca: i16) -> Result<Head, Error> {
    let revision: f64 = face
        .version
        .parse()
        .map_err(|_| Error::OutOfRange("version"))?;
    Ok(Head {
        font_revision: Fixed::from_f64(revision),
        // Baseline at 0, left side bearing at the glyph's own xMin.
        flags: Flags::BASELINE_AT_Y_0 | Flags::LSB_AT_X_0,
        units_per_em: style::UNITS_PER_EM,
        created: LongDateTime::new(DRAWN),
        modified: LongDateTime::new(DRAWN),
        x_min: extent.x_min,
        y_min: extent.y_min,
        x_max: extent.x_max,
        y_max: extent.y_max,
        mac_style: MacStyle::empty(),
        lowest_rec_ppem: 8,
        index_to_loc_format: loca,
        ..Head::default()
    })
}

pub(super) fn hhea(glyphs: &[Outline<'_>]) -> Result<Hhea, Error> {
    let mut widest = 0;
    let (mut left, mut right, mut reach) = (i16::MAX, i16::MAX, i16::MIN);
    for glyph in glyphs {
        let advance = advance(glyph.letter)?;
        widest = widest.max(advance);
        if let Some(bounds) = glyph.bounds() {
            left = left.min(bounds.x_min);
            right = right.min(unit(
                f64::from(advance) - f64::from(bounds.x_max),
                "side bearing",
            )?);
            reach = reach.max(bounds.x_max);
        }
    }
    Ok(Hhea {
        ascender: FWord::new(ASCENDER),
        descender: FWord::new(DESCENDER),
        line_gap: FWord::new(LINE_GAP),
        advance_width_max: UfWord::new(widest),
        min_left_side_bearing: FWord::new(left),
        min_right_side_bearing: FWord::new(right),
        x_max_extent: FWord::new(reach),
        caret_slope_rise: 1,
        number_of_h_metrics: count(glyphs.len())?,
        ..Hhea::default()
    })
}

pub(super) fn count(n: usize) -> Result<u16, Error> {
    u16::try_from(n).map_err(|_| Error::OutOfRange("count"))
}

pub(super) fn hmtx(glyphs: &[Outline<'_>]) -> Result<Hmtx, Error> {
    let metrics = glyphs
        .iter()
        .map(|g| {
            let left = g.bounds().map_or(0, |b| b.x_min);
            Ok(LongMetric::new(advance(g.letter)?, left))
        })
        .collect::<Result<_, Error>>()?;
    Ok(Hmtx::new(metrics, Vec::new()))
}

pub(super) fn maxp_truetype(glyphs: &[Outline<'_>]) -> Result<Maxp, Error> {
    let points = glyphs
        .iter()
        .map(|g| g.contours.iter().map(Vec::len).sum())
        .max()
        .unwrap_or(0);
    let contours = glyphs.iter().map(|g| g.contours.len()).max().unwrap_or(0);
    Ok(Maxp {
        num_glyphs: count(glyphs.len())?,
        max_points: Some(count(points)?),
        max_contours: Some(count(contours)?),
        max_composite_points: Some(0),
        max_composite_contours: Some(0),
        max_zones: Some(1),
        max_twilight_points: Some(0),
        max_storage: Some(0),
        max_function_defs: Some(0),
        max_instruction_defs: Some(0),
        max_stack_elements: Some(0),
        max_size_of_instructions: Some(0),
        max_component_elements: Some(0),
        max_component_depth: Some(0),
    })
}

pub(super) fn os2(face: &Face) -> Result<Os2, Error> {
    let inked: Vec<Rect> = face
        .letters
        .iter()
        .filter(|l| !l.path.is_empty())
        .map(|l| l.path.bounding_box())
        .collect();
    let top = inked.iter().fold(0.0_f64, |m, b| m.max(b.y1));
    let foot = inked.iter().fold(0.0_f64, |m, b| m.min(b.y0));
    let wide: Vec<f64> = face
        .letters
        .iter()
        .map(|l| l.advance)
        .filter(|a| *a > 0.0)
        .collect();
    let mean = wide.iter().sum::<f64>() / wide.len().max(1) as f64;
    let codes: Vec<u16> = face
        .letters
        .iter()
        .filter_map(|l| u16::try_from(u32::from(l.code?)).ok())
        .collect();
    Ok(Os2 {
        x_avg_char_width: unit(mean, "average width")?,
        us_weight_class: 400,
        us_width_class: 5,
        fs_type: 0,
        y_subscript_x_size: 650,
        y_subscript_y_size: 600,
        y_subscript_y_offset: 75,
        y_superscript_x_size: 650,
        y_superscript_y_size: 600,
        y_superscript_y_offset: 350,
        y_strikeout_size: 60,
        y_strikeout_position: 270,
        // Basic Latin; the quotes and dashes are general punctuation.
        ul_unicode_range_1: 1 | 1 << 31,
        ach_vend_id: Tag::new(b"NONE"),
        fs_selection: SelectionFlags::REGULAR | SelectionFlags::USE_TYPO_METRICS,
        us_first_char_index: codes.iter().copied().min().unwrap_or(0),
        us_last_char_index: codes.iter().copied().max().unwrap_or(0),
        s_typo_ascender: ASCENDER,
        s_typo_descender: DESCENDER,
        s_typo_line_gap: LINE_GAP,
        us_win_ascent: top.max(f64::from(ASCENDER)).ceil() as u16,
        us_win_descent: (-foot).max(-f64::from(DESCENDER)).ceil() as u16,
        // Latin 1.
        ul_code_page_range_1: Some(1),
        ul_code_page_range_2: Some(0),
        sx_height: Some(unit(style::X, "x-height")?),
        s_cap_height: Some(unit(style::CAP, "cap height")?),
        us_default_char: Some(0),
        us_break_char: Some(32),
        us_max_context: Some(2),
        ..Os2::default()
    })
}
