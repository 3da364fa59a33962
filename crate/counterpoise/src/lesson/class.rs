//! The font that lessons are given on, with the letters that others are held
//! against.

use crate::font::{Font, GlyphId, Kerning, LATIN};
use crate::measure::{self, Context, GuideKind, Letter, main_weight};
use crate::outline::Outline;

/// Letters that show the font's stem, best ones first.
const CAPITAL_STEMS: &str = "HIEFTLNPRDB";
const LOWER_STEMS: &str = "nlihmur";

/// A font under instruction.
#[derive(Debug)]
pub struct Class {
    font: Font,
    context: Context,
    capital_stem: Option<f64>,
    lower_stem: Option<f64>,
    kerning: Kerning,
}

/// A letter as it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// The character.
    pub character: char,
    /// Its glyph.
    pub glyph: GlyphId,
    /// Its outline.
    pub outline: Outline,
    /// What it measures.
    pub letter: Letter,
}

impl Class {
    /// Reads what the lessons need of a font.
    pub fn new(font: Font) -> Self {
        let context = Context::of(&font);
        let kerning = font.kerning(LATIN, None);
        let mut class = Self {
            font,
            context,
            capital_stem: None,
            lower_stem: None,
            kerning,
        };
        let stem = |letters: &str| {
            letters.chars().find_map(|c| {
                let drawn = class.drawn(c)?;
                let upright =
                    |s: &&measure::strokes::Stroke| s.kind == measure::strokes::StrokeKind::Stem;
                let straight = drawn.letter.strokes.iter().filter(upright);
                let longest = straight.clone().map(|s| s.length).fold(0.0, f64::max);
                straight
                    .filter(|s| s.length >= 0.6 * longest)
                    .map(|s| s.median)
                    .reduce(f64::max)
                    .or_else(|| main_weight(&drawn.letter.strokes))
            })
        };
        let (capital, lower) = (stem(CAPITAL_STEMS), stem(LOWER_STEMS));
        class.capital_stem = capital;
        class.lower_stem = lower;
        class
    }

    /// What letters are read against.
    pub fn context(&self) -> &Context {
        &self.context
    }

    /// The font.
    pub fn font(&self) -> &Font {
        &self.font
    }

    /// Its kerning.
    pub fn kerning(&self) -> &Kerning {
        &self.kerning
    }

    /// A letter of the font; `None` where it has none, or one without ink, or one
    /// that cannot be read.
    pub fn drawn(&self, character: char) -> Option<Drawn> {
        let reader = self.font.reader();
        let glyph = reader.glyph(character)?;
        let outline = reader.outline(glyph).ok()?;
        outline.bounds()?;
        let letter = measure::of_outline(&outline, reader.advance(glyph), &self.context);
        Some(Drawn {
            character,
            glyph,
            outline,
            letter,
        })
    }

    /// The thickness of the straight stem that a character's strokes are held
    /// against, font units.
    pub fn stem(&self, character: char) -> Option<f64> {
        if character.is_lowercase() {
            self.lower_stem.or(self.capital_stem)
        } else {
            self.capital_stem.or(self.lower_stem)
        }
    }

    /// The height of the flat letters of a character's case.
    pub fn flat_top(&self, character: char) -> Option<f64> {
        let kind = if character.is_lowercase() {
            GuideKind::XHeight
        } else {
            GuideKind::CapHeight
        };
        self.context.drawn(kind)
    }

    /// The baseline as the flat letters show it.
    pub fn baseline(&self) -> f64 {
        self.context.drawn(GuideKind::Baseline).unwrap_or(0.0)
    }

    /// Measures a changed outline as its letter was.
    pub(super) fn measured(&self, drawn: &Drawn, outline: &Outline) -> Letter {
        measure::of_outline(outline, drawn.letter.advance, &self.context)
    }

    /// The tangent of the font's slant.
    pub(super) fn lean(&self) -> f64 {
        self.context.slant.to_radians().tan()
    }
}
