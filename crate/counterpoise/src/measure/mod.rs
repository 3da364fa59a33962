//! One file a measure. Each says its definition, unit, method and limits.
//!
//! [`Context`] is what letters are read against, taken once for a font;
//! [`letter`] takes every measure of one glyph.

mod contrast;
pub mod darkness;
pub mod drawing;
mod figures;
mod guides;
mod heights;
mod quantity;
mod slant;
mod stress;
pub mod strokes;
mod weight;
mod widths;

pub use contrast::contrast;
pub use figures::FigureLines;
pub use guides::{Guide, GuideKind};
pub use heights::{End, Extremity, Form, extremity};
pub use quantity::{QUANTITIES, Quantity, Subject, Unit};
pub use stress::stress;
pub use weight::main_weight;
pub use widths::{Sides, sides};

use crate::font::{Font, GlyphError, GlyphId, OutlineFormat, Reader};
use crate::outline::{Ink, Outline};
use darkness::{Band, Darkness, darkness};
use drawing::{Drawing, DrawingContext, drawing};
use kurbo::Rect;
use strokes::{Stroke, StrokeContext};

/// What every letter of a font is read against.
#[derive(Debug, Clone, PartialEq)]
pub struct Context {
    /// Units per em.
    pub units_per_em: f64,
    /// Lean of the uprights as drawn, degrees, leaning right positive.
    pub slant: f64,
    /// The alphabet's lines, from the lowest up.
    pub guides: Vec<Guide>,
    /// The lines of its figures.
    pub figures: FigureLines,
    /// Widths of the letters that others are held against.
    pub widths: ReferenceWidths,
    /// The font's format, whose rules its contours must keep; `None` of
    /// drawings that stand in no font.
    pub format: Option<OutlineFormat>,
}

/// Ink widths of the control letters, font units; `None` of one that the font
/// lacks or draws without ink.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ReferenceWidths {
    /// H.
    pub h: Option<f64>,
    /// O.
    pub cap_o: Option<f64>,
    /// n.
    pub n: Option<f64>,
    /// o.
    pub o: Option<f64>,
}

impl ReferenceWidths {
    fn of(reader: &Reader<'_>) -> Self {
        let width = |c| {
            let bounds = reader.outline(reader.glyph(c)?).ok()?.bounds()?;
            (bounds.width() > 0.0).then(|| bounds.width())
        };
        Self {
            h: width('H'),
            cap_o: width('O'),
            n: width('n'),
            o: width('o'),
        }
    }
}

impl Context {
    /// Reads the letters that show a font's lines and slant.
    pub fn of(font: &Font) -> Self {
        let units_per_em = f64::from(font.units_per_em());
        Self {
            units_per_em,
            slant: slant::slant(font),
            guides: guides::guides(&font.reader(), font.declared(), units_per_em),
            figures: FigureLines::of(&font.reader(), units_per_em),
            widths: ReferenceWidths::of(&font.reader()),
            format: Some(font.format()),
        }
    }

    /// A guide's height as drawn.
    pub fn drawn(&self, kind: GuideKind) -> Option<f64> {
        self.guides.iter().find(|g| g.kind == kind)?.drawn
    }

    /// How far a character's top or foot passes its guide, outward positive;
    /// `None` where no guide applies.
    pub fn overshoot(&self, c: char, end: End, extremity: &Extremity) -> Option<f64> {
        let line = self.drawn(GuideKind::of(c, end)?)?;
        Some(match end {
            End::Top => extremity.y - line,
            End::Foot => line - extremity.y,
        })
    }

    /// How far a character's top or foot passes the line that it is judged by: its
    /// guide or, of a figure, the figures' own line.
    pub fn past(&self, c: char, end: End, extremity: &Extremity) -> Option<f64> {
        self.figures
            .past(c, end, extremity.y)
            .or_else(|| self.overshoot(c, end, extremity))
    }
}

/// Every measure of one glyph. Lengths in font units.
#[derive(Debug, Clone, PartialEq)]
pub struct Letter {
    /// Advance width.
    pub advance: f64,
    /// Extent of the ink; `None` of a glyph without ink.
    pub bounds: Option<Rect>,
    /// Area of the ink, overlaps counted once, square units.
    pub area: f64,
    /// Its top.
    pub top: Option<Extremity>,
    /// Its foot.
    pub foot: Option<Extremity>,
    /// Its strokes, longest first.
    pub strokes: Vec<Stroke>,
    /// Its darkness in the band of the lower case, up to the x-height.
    pub lower_darkness: Darkness,
    /// Its darkness in the band of the capitals, up to the cap height.
    pub capital_darkness: Darkness,
    /// How it is drawn; `None` where that was not asked for ([`drawing_of`]):
    /// it takes longer than all the rest.
    pub drawing: Option<Drawing>,
}

impl Letter {
    /// White before the ink: left side bearing.
    pub fn left_bearing(&self) -> Option<f64> {
        self.bounds.map(|b| b.x0)
    }

    /// White after the ink: right side bearing.
    pub fn right_bearing(&self) -> Option<f64> {
        self.bounds.map(|b| self.advance - b.x1)
    }
}

/// Takes every measure of a glyph.
///
/// # Errors
/// If the font has no such glyph or its outline cannot be read.
pub fn letter(
    reader: &Reader<'_>,
    glyph: GlyphId,
    context: &Context,
) -> Result<Letter, GlyphError> {
    let outline = reader.outline(glyph)?;
    Ok(of_outline(&outline, reader.advance(glyph), context))
}

/// Reads how a glyph is drawn, for [`Letter::drawing`].
///
/// # Errors
/// As [`letter`].
pub fn drawing_of(
    reader: &Reader<'_>,
    glyph: GlyphId,
    context: &Context,
) -> Result<Drawing, GlyphError> {
    let drawn = DrawingContext {
        units_per_em: context.units_per_em,
        format: context.format,
    };
    Ok(drawing(&reader.outline(glyph)?, &drawn))
}

/// Takes every measure of a shape that may stand in no font.
pub fn of_outline(outline: &Outline, advance: f64, context: &Context) -> Letter {
    let em = context.units_per_em;
    let ink = Ink::of(outline);
    let dark = |top| {
        let drawn = |kind| context.drawn(kind);
        let band = drawn(GuideKind::Baseline)
            .zip(drawn(top))
            .and_then(|(from, to)| Band::new(from, to));
        darkness(&ink, advance, band)
    };
    Letter {
        lower_darkness: dark(GuideKind::XHeight),
        capital_darkness: dark(GuideKind::CapHeight),
        drawing: None,
        advance,
        bounds: outline.bounds(),
        area: ink.area(),
        top: extremity(outline, End::Top, em),
        foot: extremity(outline, End::Foot, em),
        strokes: strokes::strokes(
            outline,
            &StrokeContext {
                units_per_em: em,
                slant: context.slant,
            },
        ),
    }
}

/// Scales a median absolute deviation to the standard deviation of a normal
/// scatter: 1 / the 75th percentile of the standard normal distribution.
pub const MAD_TO_SD: f64 = 1.4826;

/// The median; the mean of the middle two of an even number; 0 of none.
pub(crate) fn median(values: &mut [f64]) -> f64 {
    values.sort_unstable_by(f64::total_cmp);
    match values.len() {
        0 => 0.0,
        n if n % 2 == 1 => values[n / 2],
        n => 0.5 * (values[n / 2 - 1] + values[n / 2]),
    }
}
