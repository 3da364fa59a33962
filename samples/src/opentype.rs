//! The face as an OpenType file with TrueType outlines.

use write_fonts::tables::cmap::Cmap;
use write_fonts::tables::glyf::Glyph;
use write_fonts::tables::glyf::{Bbox, Contour, GlyfLocaBuilder, SimpleGlyph};
use write_fonts::tables::gpos::{
    Gpos, PairPos, PairSet, PairValueRecord, PositionLookup, ValueRecord,
};
use write_fonts::tables::head::{Flags, Head, MacStyle};
use write_fonts::tables::hhea::Hhea;
use write_fonts::tables::hmtx::{Hmtx, LongMetric};
use write_fonts::tables::layout::{
    CoverageTable, Feature, FeatureList, FeatureRecord, LangSys, Lookup, LookupFlag, LookupList,
    Script, ScriptList, ScriptRecord,
};
use write_fonts::tables::maxp::Maxp;
use write_fonts::tables::name::{Name, NameRecord};
use write_fonts::tables::os2::{Os2, SelectionFlags};
use write_fonts::tables::post::Post;
use write_fonts::types::{FWord, Fixed, GlyphId, GlyphId16, LongDateTime, NameId, Tag, UfWord};
use write_fonts::{FontBuilder, OffsetMarker};

use kurbo::{Rect, Shape};
use write_fonts::read::tables::glyf::CurvePoint;

use crate::error::Error;
use crate::face::{Face, Kern, Letter};
use crate::spline::{self, Curves, Knot};
use crate::{cff, names, style};

/// Lines are set this tight: top and foot of the tallest and deepest letters,
/// rounded to tens.
const ASCENDER: i16 = 760;
const DESCENDER: i16 = -250;
const LINE_GAP: i16 = 190;

/// A fixed date, so that the same recipe gives the same bytes on any day:
/// 2026-11-25 00:00 UTC, in seconds since 1904.
const DRAWN: i64 = 3_878_409_600;

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

fn outlines(face: &Face, curves: Curves) -> Result<Vec<Outline<'_>>, Error> {
    face.letters
        .iter()
        .map(|letter| {
            spline::knots(&letter.path, curves, letter.name)
                .map(|contours| Outline { letter, contours })
        })
        .collect()
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

/// A letter with its points.
struct Outline<'a> {
    letter: &'a Letter,
    contours: Vec<Vec<Knot>>,
}

impl Outline<'_> {
    fn glyf(&self) -> Glyph {
        if self.contours.is_empty() {
            return Glyph::Empty;
        }
        let contours = self
            .contours
            .iter()
            .map(|c| {
                c.iter()
                    .map(|k| {
                        if k.on {
                            CurvePoint::on_curve(k.x, k.y)
                        } else {
                            CurvePoint::off_curve(k.x, k.y)
                        }
                    })
                    .collect::<Vec<_>>()
                    .into()
            })
            .collect::<Vec<Contour>>();
        let mut glyph = SimpleGlyph {
            contours,
            ..SimpleGlyph::default()
        };
        glyph.recompute_bounding_box();
        Glyph::Simple(glyph)
    }

    /// The box of the outline. All extremes carry points, so the points' box
    /// is the curves' box.
    fn bounds(&self) -> Option<Bbox> {
        self.glyf().bbox()
    }
}

fn extent(glyphs: &[Outline<'_>]) -> Bbox {
    glyphs
        .iter()
        .filter_map(Outline::bounds)
        .reduce(Bbox::union)
        .unwrap_or_default()
}

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

fn head(face: &Face, extent: Bbox, loca: i16) -> Result<Head, Error> {
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

fn hhea(glyphs: &[Outline<'_>]) -> Result<Hhea, Error> {
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

fn count(n: usize) -> Result<u16, Error> {
    u16::try_from(n).map_err(|_| Error::OutOfRange("count"))
}

fn hmtx(glyphs: &[Outline<'_>]) -> Result<Hmtx, Error> {
    let metrics = glyphs
        .iter()
        .map(|g| {
            let left = g.bounds().map_or(0, |b| b.x_min);
            Ok(LongMetric::new(advance(g.letter)?, left))
        })
        .collect::<Result<_, Error>>()?;
    Ok(Hmtx::new(metrics, Vec::new()))
}

fn maxp_truetype(glyphs: &[Outline<'_>]) -> Result<Maxp, Error> {
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

fn os2(face: &Face) -> Result<Os2, Error> {
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

fn cmap(face: &Face) -> Result<Cmap, Error> {
    let mapped = face
        .letters
        .iter()
        .zip(0_u32..)
        .filter_map(|(letter, id)| Some((letter.code?, GlyphId::new(id))));
    Cmap::from_mappings(mapped).map_err(refused)
}

fn post(face: &Face) -> Post {
    let mut post = Post::new_v2(face.letters.iter().map(|l| l.name));
    post.underline_position = FWord::new(-120);
    post.underline_thickness = FWord::new(60);
    post
}

fn name(face: &Face) -> Name {
    let version = format!("Version {}", face.version);
    let unique = format!("{}; {}", face.version, names::FULL);
    // In order of their numbers, as the table wants them.
    let entries: [(NameId, &str); 12] = [
        (NameId::COPYRIGHT_NOTICE, names::COPYRIGHT),
        (NameId::FAMILY_NAME, names::FAMILY),
        (NameId::SUBFAMILY_NAME, names::STYLE),
        (NameId::UNIQUE_ID, &unique),
        (NameId::FULL_NAME, names::FULL),
        (NameId::VERSION_STRING, &version),
        (NameId::POSTSCRIPT_NAME, names::POSTSCRIPT),
        (NameId::MANUFACTURER, names::FOUNDRY),
        (NameId::DESIGNER, names::ARTIST),
        (NameId::DESCRIPTION, face.description),
        (NameId::LICENSE_DESCRIPTION, names::LICENCE),
        (NameId::SAMPLE_TEXT, names::SAMPLE),
    ];
    Name::new(
        entries
            .into_iter()
            .map(|(id, text)| NameRecord::new(3, 1, 0x409, id, OffsetMarker::new(text.to_owned())))
            .collect(),
    )
}

fn gpos(face: &Face) -> Result<Gpos, Error> {
    let id = |name: &str| {
        face.letters
            .iter()
            .position(|l| l.name == name)
            .and_then(|i| u16::try_from(i).ok())
            .map(GlyphId16::new)
            .ok_or_else(|| Error::NoLetter(name.into()))
    };
    let mut pairs = face
        .kerning
        .iter()
        .map(|&Kern { left, right, by }| Ok((id(left)?, id(right)?, by)))
        .collect::<Result<Vec<_>, Error>>()?;
    pairs.sort_unstable();
    let mut firsts: Vec<GlyphId16> = pairs.iter().map(|p| p.0).collect();
    firsts.dedup();
    let sets = firsts
        .iter()
        .map(|first| {
            PairSet::new(
                pairs
                    .iter()
                    .filter(|p| p.0 == *first)
                    .map(|&(_, second, by)| {
                        PairValueRecord::new(
                            second,
                            ValueRecord::new().with_x_advance(by),
                            ValueRecord::new(),
                        )
                    })
                    .collect(),
            )
        })
        .collect();
    let lookup = Lookup::new(
        LookupFlag::empty(),
        vec![PairPos::format_1(CoverageTable::from_iter(firsts), sets)],
    );
    let language = || LangSys::new(vec![0]);
    let script =
        |tag: &[u8; 4]| ScriptRecord::new(Tag::new(tag), Script::new(Some(language()), Vec::new()));
    Ok(Gpos::new(
        ScriptList::new(vec![script(b"DFLT"), script(b"latn")]),
        FeatureList::new(vec![FeatureRecord::new(
            Tag::new(b"kern"),
            Feature::new(None, vec![0]),
        )]),
        LookupList::new(vec![PositionLookup::Pair(lookup)]),
    ))
}
