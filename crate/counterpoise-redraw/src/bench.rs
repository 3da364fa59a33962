//! A font with another revision of it beside, and sketches of a change.

use crate::boundary::{give, refuse, take};
use counterpoise::font::{Drawn, DrawnLetter, Font, FontError};
use counterpoise::judge::{Alphabet, Table, read_table};
use counterpoise::measure::{GuideKind, QUANTITIES, Unit};
use counterpoise::outline::Outline;
use counterpoise::redraw::{Change, SvgSheet, Unable, Which, sketch, svg};
use counterpoise::report::{
    CompareReport, FatedFinding, FindingReport, JudgedBy, LooseLetter, MeantSo, NoPath, Revision,
    SketchReport,
};
use kurbo::Affine;
use serde::{Deserialize, Serialize};
#[cfg(feature = "typescript")]
use ts_rs::TS;
use wasm_bindgen::prelude::*;

/// What is to be tried on a letter.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(tag = "type", rename_all = "camelCase")]
pub enum SketchChange {
    /// Make its ink so wide, stems kept.
    Width {
        /// The width, font units.
        to: f64,
    },
    /// Make its strokes thicker, or thinner, its size kept.
    Weight {
        /// By what share of their thickness; thinner if negative.
        by: f64,
        /// Which strokes.
        which: SketchStrokes,
    },
    /// Move its top up and its foot down.
    Reach {
        /// The top, upwards, font units.
        top: f64,
        /// The foot, downwards, font units.
        foot: f64,
    },
}

/// Which strokes a change is tried on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum SketchStrokes {
    /// All.
    All,
    /// Those that run upright.
    Uprights,
    /// Those that run level.
    Levels,
}

impl From<SketchChange> for Change {
    fn from(change: SketchChange) -> Self {
        match change {
            SketchChange::Width { to } => Self::Width(to),
            SketchChange::Weight { by, which } => Self::Weight(
                by,
                match which {
                    SketchStrokes::All => Which::All,
                    SketchStrokes::Uprights => Which::Uprights,
                    SketchStrokes::Levels => Which::Levels,
                },
            ),
            SketchChange::Reach { top, foot } => Self::Reach { top, foot },
        }
    }
}

/// A figure that letters are compared by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct QuantityName {
    /// Its name in reports.
    pub id: &'static str,
    /// Its name on screen.
    pub name: &'static str,
    /// Whether it is a share, of 1, and no count of units or points.
    pub share: bool,
}

/// A letter of a line of text.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct LineLetter {
    /// The character.
    pub character: char,
    /// Where its origin stands, font units.
    pub x: f64,
    /// Its advance width, font units.
    pub advance: f64,
    /// From where to where its ink reaches from its origin, font units.
    pub ink: Option<[f64; 2]>,
    /// Its outline as SVG path data, font units, y up; empty without ink.
    pub path: String,
    /// Whether it is another letter than the earlier revision's.
    pub changed: bool,
}

/// Letters set on one line. A longer line would not be looked at letter by letter.
const MOST: usize = 400;

#[derive(Debug)]
struct Held {
    font: Font,
    alphabet: Alphabet,
}

impl Held {
    fn of(font: Font) -> Self {
        let alphabet = Alphabet::of(&font);
        Self { font, alphabet }
    }

    fn open(bytes: Vec<u8>) -> Result<Self, FontError> {
        Font::open(bytes).map(Self::of)
    }

    fn revision(&self) -> Revision<'_> {
        Revision {
            font: &self.font,
            alphabet: &self.alphabet,
        }
    }

    /// A character's outline and advance width.
    fn letter(&self, c: char) -> Option<(Outline, f64)> {
        let reader = self.font.reader();
        let glyph = reader.glyph(c)?;
        let outline = reader.outline(glyph).unwrap_or_default();
        Some((outline, reader.advance(glyph)))
    }
}

/// A font, another revision of it beside, and what a change would look like.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Redraw {
    font: Held,
    later: Option<Held>,
    table: Option<Table>,
}

#[wasm_bindgen]
impl Redraw {
    /// Opens the font that letters are drawn anew for. `learned` is the file of
    /// what the lab judges by; without it nothing is judged.
    ///
    /// # Errors
    /// Throws what is wrong with the file.
    #[wasm_bindgen(constructor)]
    pub fn open(bytes: Vec<u8>, learned: &[u8]) -> Result<Redraw, JsValue> {
        console_error_panic_hook::set_once();
        Ok(Self {
            font: Held::open(bytes).map_err(|e| refuse(e.code(), &e))?,
            later: None,
            table: read_table(learned),
        })
    }

    /// Takes a later revision, as bytes of a font.
    ///
    /// # Errors
    /// Throws what is wrong with the file; the later revision before it stays.
    pub fn bring(&mut self, bytes: Vec<u8>) -> Result<(), JsValue> {
        self.later = Some(Held::open(bytes).map_err(|e| refuse(e.code(), &e))?);
        Ok(())
    }

    /// Takes single letters drawn anew as the later revision. Those that come
    /// with no bearings of their own keep the font's.
    ///
    /// # Errors
    /// Throws if a letter's outline cannot be read.
    #[wasm_bindgen(js_name = bringLetters)]
    pub fn bring_letters(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "LooseLetter[]")] letters: JsValue,
        with_bearings: bool,
    ) -> Result<(), JsValue> {
        let letters: Vec<LooseLetter> = take(letters)?;
        let later = self.with(&letters, with_bearings);
        self.later = Some(Held::of(later.map_err(|e| refuse("no-path", &e))?));
        Ok(())
    }

    /// What changed from the font to the later revision; `null` without one.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "CompareReport | null")]
    pub fn compare(
        &self,
        #[wasm_bindgen(unchecked_param_type = "MeantSo[]")] meant: JsValue,
        false_alarms: f64,
    ) -> Result<JsValue, JsValue> {
        let Some(later) = &self.later else {
            return Ok(JsValue::NULL);
        };
        let meant: Vec<MeantSo> = take(meant)?;
        let meant = MeantSo::gathered(&meant);
        let judged_by = self.table.as_ref().map(|table| JudgedBy {
            table,
            false_alarms,
            meant: &meant,
        });
        give(&CompareReport::of(
            self.font.revision(),
            later.revision(),
            judged_by,
        ))
    }

    /// A line of text by side bearings alone, in the font or in the later
    /// revision; characters that it has no glyph for are left out.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "LineLetter[]")]
    pub fn line(&self, text: &str, later: bool) -> Result<JsValue, JsValue> {
        give(&self.set(text, later))
    }

    /// The later revision's bytes, to be opened as any font; empty without one.
    #[must_use]
    pub fn later(&self) -> Vec<u8> {
        let later = self.later.as_ref();
        later.map(|l| l.font.data().to_vec()).unwrap_or_default()
    }

    /// Tries a change on the letter of a character.
    ///
    /// # Errors
    /// Throws why it cannot be sketched.
    #[wasm_bindgen(unchecked_return_type = "SketchReport")]
    pub fn sketch(
        &self,
        character: char,
        #[wasm_bindgen(unchecked_param_type = "SketchChange")] change: JsValue,
    ) -> Result<JsValue, JsValue> {
        let change: SketchChange = take(change)?;
        let sketched = self.tried(character, change);
        give(&sketched.map_err(|e| refuse(e.code(), &e))?)
    }

    /// An outline as an SVG file to draw over. `advance` in font units; a sketch
    /// says that it is one.
    ///
    /// # Errors
    /// Throws if the outline cannot be read.
    pub fn sheet(
        &self,
        title: &str,
        path: &str,
        advance: f64,
        is_sketch: bool,
    ) -> Result<String, JsValue> {
        let letter = LooseLetter {
            name: None,
            characters: String::new(),
            advance,
            path: path.to_owned(),
        };
        let letter = letter.drawn().map_err(|e| refuse("no-path", &e))?;
        let context = self.font.alphabet.context();
        let em = context.units_per_em;
        let height = |kind| {
            let guide = context.guides.iter().find(|g| g.kind == kind)?;
            guide.drawn.or(guide.declared)
        };
        let sheet = SvgSheet {
            title,
            advance,
            units_per_em: em,
            top: height(GuideKind::Ascender)
                .or(height(GuideKind::CapHeight))
                .unwrap_or(0.75 * em),
            foot: height(GuideKind::Descender).unwrap_or(-0.25 * em),
            sketch: is_sketch,
        };
        Ok(svg(&letter.outline, &sheet))
    }
}

impl Redraw {
    fn with(&self, letters: &[LooseLetter], with_bearings: bool) -> Result<Font, NoPath> {
        let drawn = letters.iter().map(LooseLetter::drawn);
        let mut drawn: Vec<DrawnLetter> = drawn.collect::<Result<_, _>>()?;
        if !with_bearings {
            for letter in &mut drawn {
                self.keep_bearings(letter);
            }
        }
        Ok(self.font.font.with(drawn))
    }

    /// Stands a letter where the font's own stands, with as much white after it.
    fn keep_bearings(&self, letter: &mut DrawnLetter) {
        let own = letter.characters.first().and_then(|&c| self.font.letter(c));
        let Some((own, advance)) = own else {
            return;
        };
        let (Some(old), Some(new)) = (own.bounds(), letter.outline.bounds()) else {
            return;
        };
        letter.outline = letter
            .outline
            .transformed(Affine::translate((old.x0 - new.x0, 0.0)));
        letter.advance = advance + new.width() - old.width();
    }

    fn set(&self, text: &str, later: bool) -> Vec<LineLetter> {
        let mut x = 0.0;
        let letters = text.chars().take(MOST).filter_map(|character| {
            let own = self.font.letter(character);
            let other = self.later.as_ref().map(|held| held.letter(character));
            let changed = other.as_ref().is_some_and(|other| *other != own);
            let (outline, advance) = other.filter(|_| later).unwrap_or(own)?;
            let letter = LineLetter {
                character,
                x,
                advance,
                ink: outline.bounds().map(|b| [b.x0, b.x1]),
                path: outline.to_bez_path().to_svg(),
                changed,
            };
            x += advance;
            Some(letter)
        });
        letters.collect()
    }

    fn tried(&self, character: char, change: SketchChange) -> Result<SketchReport, Unable> {
        let context = self.font.alphabet.context();
        let (outline, advance) = self.font.letter(character).ok_or(Unable::NoInk)?;
        let sketched = sketch(&outline, advance, context, change.into())?;
        Ok(SketchReport::of(&sketched, Some(character), context))
    }
}

/// Every figure that letters are compared by, in the order in which they are shown.
///
/// # Errors
/// If the engine refuses to make the object.
#[wasm_bindgen(unchecked_return_type = "QuantityName[]")]
pub fn quantities() -> Result<JsValue, JsValue> {
    let all = QUANTITIES.iter().map(|q| QuantityName {
        id: q.id,
        name: q.name,
        share: matches!(q.unit, Unit::Share),
    });
    give(&all.collect::<Vec<_>>())
}

/// What became of findings that were kept as they were told: `FatedFinding[]`.
/// Of the later revision all are needed, also those too faint to be told.
///
/// # Errors
/// If they are no findings.
#[wasm_bindgen(unchecked_return_type = "FatedFinding[]")]
pub fn fates(
    #[wasm_bindgen(unchecked_param_type = "FindingReport[]")] old: JsValue,
    #[wasm_bindgen(unchecked_param_type = "FindingReport[]")] new: JsValue,
    false_alarms: f64,
) -> Result<JsValue, JsValue> {
    let (old, new): (Vec<FindingReport>, Vec<FindingReport>) = (take(old)?, take(new)?);
    give(&FatedFinding::all(&old, &new, false_alarms))
}

/// The bytes of a font of loose letters.
///
/// # Errors
/// Throws if there is no letter, or an outline cannot be read.
#[wasm_bindgen(js_name = looseFont)]
pub fn loose_font(
    #[wasm_bindgen(unchecked_param_type = "LooseLetter[]")] letters: JsValue,
    units_per_em: u16,
    family: &str,
) -> Result<Vec<u8>, JsValue> {
    let letters: Vec<LooseLetter> = take(letters)?;
    let font = loose(&letters, units_per_em, family);
    font.map(|f| f.data().to_vec())
}

fn loose(letters: &[LooseLetter], units_per_em: u16, family: &str) -> Result<Font, JsValue> {
    let drawn = letters.iter().map(LooseLetter::drawn);
    let drawn: Vec<DrawnLetter> = drawn
        .collect::<Result<_, _>>()
        .map_err(|e| refuse("no-path", &e))?;
    let mut drawn = Drawn::new(units_per_em, drawn);
    drawn.names.family = Some(family.to_owned()).filter(|f| !f.is_empty());
    Font::drawn(drawn).map_err(|e| refuse(e.code(), &e))
}

#[cfg(test)]
mod tests {
    use super::*;
    use counterpoise::font::GlyphId;
    use kurbo::{BezPath, Rect, Shape};

    fn sample() -> Redraw {
        let bytes = counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap();
        Redraw::open(bytes, &[]).unwrap()
    }

    fn box_letter(c: char, left: f64, width: f64) -> LooseLetter {
        LooseLetter::from(&DrawnLetter {
            name: None,
            characters: vec![c],
            advance: left + width + 100.25,
            outline: Outline::from_path(&Rect::new(left, 0.0, left + width, 700.0).to_path(0.1)),
        })
    }

    fn left(letter: &LineLetter) -> f64 {
        BezPath::from_svg(&letter.path).unwrap().bounding_box().x0
    }

    #[test]
    fn a_letter_without_bearings_keeps_the_fonts() {
        let mut redraw = sample();
        let own = redraw.set("H", false).remove(0);
        let width = BezPath::from_svg(&own.path).unwrap().bounding_box().width();
        for (with_bearings, at, advance) in [
            (false, left(&own), own.advance + 90.5 - width),
            (true, 3.25, 3.25 + 90.5 + 100.25),
        ] {
            let later = redraw.with(&[box_letter('H', 3.25, 90.5)], with_bearings);
            redraw.later = Some(Held::of(later.unwrap()));
            let line = redraw.set("HO", true);
            assert!((left(&line[0]) - at).abs() < 1e-9, "{line:?}");
            assert!((line[0].advance - advance).abs() < 1e-9);
            assert_eq!(line[1].x, line[0].advance);
            assert_eq!((line[0].changed, line[1].changed), (true, false));
            // Seen from the earlier revision it is the same letters that changed.
            assert!(redraw.set("H", false)[0].changed);
        }
    }

    #[test]
    fn what_is_tried_is_sketched_or_refused() {
        let redraw = sample();
        let own = redraw.letter_width('H');
        let to = own * 1.08;
        let report = redraw.tried('H', SketchChange::Width { to }).unwrap();
        let figure = |id| report.figures.iter().find(|f| f.id == id).unwrap();
        assert!((figure("inkWidth").new.unwrap() - to).abs() < 0.01 * to);
        let none = redraw.tried(' ', SketchChange::Width { to });
        assert_eq!(none, Err(Unable::NoInk));
        let none = redraw.tried('\u{6f22}', SketchChange::Width { to });
        assert_eq!(none, Err(Unable::NoInk));
    }

    impl Redraw {
        fn letter_width(&self, c: char) -> f64 {
            let (outline, _) = self.font.letter(c).unwrap();
            outline.bounds().unwrap().width()
        }
    }

    fn bar(c: char, width: f64) -> DrawnLetter {
        box_letter(c, 50.0, width).drawn().unwrap()
    }

    #[test]
    fn a_file_with_a_letter_drawn_anew_opens_again_and_again() {
        let bytes = counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap();
        let font = Font::open(bytes.clone()).unwrap();
        let once = font.with(vec![bar('H', 95.0)]);
        let twice = Font::open(once.data().to_vec())
            .unwrap()
            .with(vec![bar('\u{2603}', 70.0)]);
        let again = Font::open(twice.data().to_vec()).unwrap();
        assert_eq!(again.file(), bytes);
        assert_eq!(again.glyph_count(), font.glyph_count() + 1);
        let reader = again.reader();
        let glyph = font.reader().glyph('H').unwrap();
        assert_eq!(reader.glyph('H'), Some(glyph));
        assert_eq!(reader.advance(glyph), 245.25);
        assert_eq!(reader.glyph('\u{2603}'), Some(GlyphId(font.glyph_count())));
        let other = reader.glyph('O').unwrap();
        assert_eq!(reader.outline(other), font.reader().outline(other));
        assert_eq!(again.format(), font.format());
        assert_eq!(again.names(), font.names());
        // As a bare file it has its own H again.
        assert_ne!(font.data(), again.data());
    }

    #[test]
    fn loose_letters_are_bytes_that_open_as_a_font() {
        let font = loose(&[box_letter('I', 40.0, 90.0)], 1000, "Drawn").unwrap();
        let again = Font::open(font.data().to_vec()).unwrap();
        assert_eq!(again.names().family.as_deref(), Some("Drawn"));
        assert_eq!(again.reader().advance(GlyphId(0)), 230.25);
    }
}
