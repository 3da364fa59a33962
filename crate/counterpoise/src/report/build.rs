//! From the rooms' own types to the boundary's.

use super::figures::{figures, member};
use super::finite::Finite;
use super::{
    Bounds, Deviation, Drawing, Embedding, Extremity, Figures, FontReport, Form, Guide, GuideKind,
    Item, LetterReport, Measure, Point, Sides, Stroke, StrokeKind, Thickness,
};
use crate::font::{EmbeddingLevel, Font, GlyphError, Reader};
use crate::judge::{self, Alphabet};
use crate::measure::{self, Context, End, Letter, Subject, strokes};

impl FontReport {
    /// What an opened font says of itself, and what its letters say.
    /// `file_name` stands in where the font gives no family name.
    pub fn new(font: &Font, context: &Context, file_name: &str) -> Self {
        let names = font.names();
        Self {
            family: names.family.clone().unwrap_or_else(|| file_name.to_owned()),
            style: names.style.clone().unwrap_or_default(),
            version: names.version.clone(),
            designer: names.designer.clone(),
            manufacturer: names.manufacturer.clone(),
            copyright: names.copyright.clone(),
            licence: names.licence.clone(),
            licence_url: names.licence_url.clone(),
            embedding: font.embedding().map(|e| Embedding {
                bits: e.bits,
                sentence: e.sentence(),
                restricted: e.level == EmbeddingLevel::Restricted,
            }),
            outlines: font.format().name().to_owned(),
            face_index: font.face_index(),
            face_count: font.face_count(),
            units_per_em: font.units_per_em(),
            glyph_count: u32::from(font.glyph_count()),
            character_count: font.reader().characters().len() as u32,
            guides: context.guides.iter().map(Guide::from).collect(),
            slant: context.slant,
            notes: notes(font, context),
        }
    }
}

/// A declared height further than this from the drawn one, as a share of the
/// em, is worth a word (common practice, no source).
const DECLARED_WITHIN: f64 = 0.002;

fn notes(font: &Font, context: &Context) -> Vec<String> {
    let mut notes = Vec::new();
    let em = f64::from(font.units_per_em());
    if font.face_count() > 1 {
        notes.push(format!(
            "The file holds {} faces; this is face {}.",
            font.face_count(),
            font.face_index() + 1
        ));
    }
    if font.embedding().is_none() {
        notes.push(
            "The file has no OS/2 table that can be read, so it states no embedding rights."
                .to_owned(),
        );
    }
    for g in &context.guides {
        let name = match g.kind {
            measure::GuideKind::XHeight => "x-height",
            measure::GuideKind::CapHeight => "cap height",
            // The others are declared for the setting of lines, not as drawn.
            _ => continue,
        };
        if let (Some(drawn), Some(declared)) = (g.drawn, g.declared)
            && (drawn - declared).abs() > DECLARED_WITHIN * em
        {
            notes.push(format!(
                "The file declares its {name} as {declared:.0}; the letters reach {drawn:.0}."
            ));
        }
    }
    if (context.slant - font.declared().slant).abs() > 1.0 {
        notes.push(format!(
            "The file declares a slant of {:.1} degrees; the stems lean {:.1}.",
            // Nought must not be told as minus nought.
            font.declared().slant + 0.0,
            context.slant
        ));
    }
    notes
}

impl LetterReport {
    /// Every measure of a glyph of a font, read against the font's `context`.
    /// `item` tells how the reader came to it; a glyph that cannot be read
    /// comes with its `trouble` instead.
    pub fn new(font: &Font, context: &Context, item: Item) -> Self {
        let reader = font.reader();
        let measured = measure::letter(&reader, item.glyph, context);
        Self::told(&reader, context, item, measured)
    }

    /// As [`LetterReport::new`], with one reader for many letters; of the
    /// alphabet's own none is measured twice.
    pub fn read(reader: &Reader<'_>, alphabet: &Alphabet, item: Item) -> Self {
        let context = alphabet.context();
        let measured = match member(alphabet, item.character, item.glyph) {
            Some(member) => Ok(member.letter.clone()),
            None => measure::letter(reader, item.glyph, context),
        };
        Self::told(reader, context, item, measured)
    }

    fn told(
        reader: &Reader<'_>,
        context: &Context,
        item: Item,
        measured: Result<Letter, GlyphError>,
    ) -> Self {
        let whole = measured.and_then(|letter| {
            let drawing = Some(measure::drawing_of(reader, item.glyph, context)?);
            Ok(Letter { drawing, ..letter })
        });
        let letter = match whole {
            Ok(letter) => letter,
            Err(e) => return Self::troubled(reader, item, e.to_string()),
        };
        let report = Self::untroubled(reader, context, item, &letter);
        if report.finite() {
            return report;
        }
        let sentence = format!(
            "The measures of glyph {} are out of the range of numbers; it is left out.",
            item.glyph.0
        );
        Self::troubled(reader, item, sentence)
    }

    /// A letter that could not be measured.
    pub fn troubled(reader: &Reader<'_>, item: Item, sentence: String) -> Self {
        Self {
            glyph: item.glyph.0,
            name: reader.glyph_name(item.glyph).map(str::to_owned),
            character: item.character.map(String::from),
            advance: reader.advance(item.glyph),
            left_bearing: None,
            right_bearing: None,
            bounds: None,
            area: 0.0,
            top: None,
            foot: None,
            strokes: Vec::new(),
            sides: None,
            drawing: None,
            figures: Figures::new(),
            trouble: Some(sentence),
        }
    }

    fn untroubled(reader: &Reader<'_>, context: &Context, item: Item, letter: &Letter) -> Self {
        let character = item.character;
        let end = |end, e: Option<measure::Extremity>| {
            e.map(|e| Extremity {
                form: e.form.into(),
                y: e.y,
                x: e.x,
                breadth: e.breadth,
                overshoot: character.and_then(|c| context.overshoot(c, end, &e)),
            })
        };
        Self {
            glyph: item.glyph.0,
            name: reader.glyph_name(item.glyph).map(str::to_owned),
            character: character.map(String::from),
            advance: letter.advance,
            left_bearing: letter.left_bearing(),
            right_bearing: letter.right_bearing(),
            bounds: letter.bounds.map(|b| Bounds {
                x_min: b.x0,
                y_min: b.y0,
                x_max: b.x1,
                y_max: b.y1,
            }),
            area: letter.area,
            top: end(End::Top, letter.top),
            foot: end(End::Foot, letter.foot),
            strokes: letter.strokes.iter().map(Stroke::from).collect(),
            sides: measure::sides(&letter.strokes, context.slant).map(|s| Sides {
                outer: [s.first.0, s.last.1],
                inner: s.counter.map(|_| [s.first.1, s.last.0]),
            }),
            drawing: letter.drawing.as_ref().map(Drawing::from),
            figures: figures(&Subject {
                letter,
                character,
                context,
            }),
            trouble: None,
        }
    }
}

pub(super) fn point(p: kurbo::Point) -> Point {
    [p.x, p.y]
}

impl From<&measure::Guide> for Guide {
    fn from(g: &measure::Guide) -> Self {
        Self {
            kind: g.kind.into(),
            drawn: g.drawn,
            from: g.from.clone(),
            declared: g.declared,
            round: g.round,
        }
    }
}

impl From<measure::Form> for Form {
    fn from(f: measure::Form) -> Self {
        match f {
            measure::Form::Flat => Self::Flat,
            measure::Form::Round => Self::Round,
            measure::Form::Pointed => Self::Pointed,
        }
    }
}

impl From<&strokes::Thickness> for Thickness {
    fn from(t: &strokes::Thickness) -> Self {
        Self {
            value: t.value,
            from: point(t.from),
            to: point(t.to),
        }
    }
}

impl From<&strokes::Stroke> for Stroke {
    fn from(s: &strokes::Stroke) -> Self {
        Self {
            kind: match s.kind {
                strokes::StrokeKind::Stem => StrokeKind::Stem,
                strokes::StrokeKind::Bar => StrokeKind::Bar,
                strokes::StrokeKind::Diagonal => StrokeKind::Diagonal,
                strokes::StrokeKind::Curve => StrokeKind::Curve,
            },
            median: s.median,
            least: (&s.least).into(),
            greatest: (&s.greatest).into(),
            marks: s.marks.iter().map(Thickness::from).collect(),
            length: s.length,
            angle: s.angle,
            axis: s.axis.iter().copied().map(point).collect(),
        }
    }
}

impl From<&judge::Deviation> for Deviation {
    fn from(d: &judge::Deviation) -> Self {
        Self {
            measure: match d.measure {
                judge::Measure::Weight => Measure::Weight,
                judge::Measure::Width => Measure::Width,
                judge::Measure::Height => Measure::Height,
            },
            value: d.value,
            expected: d.expected,
            spread: d.spread,
            beside: d.beside.clone(),
        }
    }
}

impl From<measure::GuideKind> for GuideKind {
    fn from(kind: measure::GuideKind) -> Self {
        match kind {
            measure::GuideKind::Baseline => Self::Baseline,
            measure::GuideKind::XHeight => Self::XHeight,
            measure::GuideKind::CapHeight => Self::CapHeight,
            measure::GuideKind::Ascender => Self::Ascender,
            measure::GuideKind::Descender => Self::Descender,
        }
    }
}
