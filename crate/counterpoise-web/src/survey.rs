//! A whole font, measured glyph by glyph, for the worker.
//!
//! It has no clock and no thread of its own: whoever holds it asks for a few
//! glyphs at a time, and takes away what has been written of the document since,
//! so that nothing is held for longer than a slice. The pieces put together are
//! the same document as the command line writes.

use crate::boundary::{give, throw};
use crate::refuse::Refuse;
use counterpoise::font::{Font, FontError};
use counterpoise::judge::Alphabet;
use counterpoise::report::{Choice, Chosen, Document, FontEntry, Item, LetterReport};
use serde::Serialize;
use std::collections::HashMap;
#[cfg(feature = "typescript")]
use ts_rs::TS;
use wasm_bindgen::prelude::*;

/// How far a survey has come, and what it has found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct SurveyProgress {
    /// Glyphs measured.
    pub done: u32,
    /// Glyphs of the font.
    pub total: u32,
    /// Of those measured, the ones that could not be.
    pub troubled: u32,
    /// Flaws of drawing found.
    pub flaws: u32,
    /// Points drawn, on and off the curve.
    pub drawn: u32,
    /// Points that refits within half a thousandth of the em need.
    pub needed: u32,
}

/// A whole font on its way to being measured.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Survey {
    font: Font,
    alphabet: Alphabet,
    file_name: String,
    items: Vec<Item>,
    /// Where the document has come to, among the items.
    next: usize,
    /// Letters that were measured before their turn.
    early: HashMap<u16, String>,
    written: String,
    progress: SurveyProgress,
}

/// The end of a document of one font, whose letters are the last of it.
const TAIL: &str = "]}]}";

impl Survey {
    /// Opens a font file by its first face.
    ///
    /// # Errors
    /// If the file is no font that the lab can open.
    pub(crate) fn open(bytes: Vec<u8>, file_name: &str) -> Result<Self, FontError> {
        let font = Font::open(bytes)?;
        let alphabet = Alphabet::of(&font);
        let items = Chosen::of(&font, Choice::Every).items;
        Ok(Self {
            progress: SurveyProgress {
                total: u32::try_from(items.len()).unwrap_or(u32::MAX),
                ..SurveyProgress::default()
            },
            font,
            alphabet,
            file_name: file_name.to_owned(),
            items,
            next: 0,
            early: HashMap::new(),
            written: String::new(),
        })
    }

    /// Measures a letter and writes it as the document does.
    fn told(&mut self, item: Item) -> String {
        let letter = LetterReport::read(&self.font.reader(), &self.alphabet, item);
        let p = &mut self.progress;
        p.done += 1;
        p.troubled += u32::from(letter.trouble.is_some());
        if let Some(d) = &letter.drawing {
            let flaws = u32::try_from(d.flaws.len()).unwrap_or(u32::MAX);
            p.flaws = p
                .flaws
                .saturating_add(flaws)
                .saturating_add(d.flaws_left_out);
            p.drawn = p.drawn.saturating_add(d.drawn);
            p.needed = p.needed.saturating_add(d.within_half.points);
        }
        // A report is plain numbers and words: it can be written.
        serde_json::to_string(&letter).unwrap_or_default()
    }

    /// The document before its first letter.
    fn head_text(&self) -> String {
        let nothing: Vec<LetterReport> = Vec::new();
        let entry = FontEntry::opened(&self.file_name, &self.font, &self.alphabet, "", nothing);
        let mut text = serde_json::to_string(&Document::of([entry])).unwrap_or_default();
        text.truncate(text.len().saturating_sub(TAIL.len()));
        text
    }
}

#[wasm_bindgen]
impl Survey {
    /// Opens a font file by its first face.
    ///
    /// # Errors
    /// Throws what is wrong with the file.
    #[wasm_bindgen(constructor)]
    pub fn new(bytes: Vec<u8>, file_name: &str) -> Result<Survey, JsValue> {
        Self::open(bytes, file_name).map_err(|e| throw(&Refuse::from(e)))
    }

    /// Measures some glyphs before their turn, and gives their reports as a JSON
    /// array. Numbers that no glyph has, or that were measured already, are
    /// passed over.
    #[wasm_bindgen(js_name = measureFirst)]
    pub fn measure_first(&mut self, glyphs: &[u16]) -> String {
        let mut told = Vec::new();
        for glyph in glyphs {
            let measured = usize::from(*glyph) < self.next || self.early.contains_key(glyph);
            let Some(item) = self.items.get(usize::from(*glyph)).copied() else {
                continue;
            };
            if measured {
                continue;
            }
            let one = self.told(item);
            told.push(one.clone());
            self.early.insert(*glyph, one);
        }
        format!("[{}]", told.join(","))
    }

    /// Measures the next glyphs in the font's order, those measured before their
    /// turn passed over; whether any are left.
    pub fn measure(&mut self, count: u32) -> bool {
        let mut left = count;
        while left > 0 && self.next < self.items.len() {
            let item = self.items[self.next];
            let told = match self.early.remove(&item.glyph.0) {
                Some(told) => told,
                None => {
                    left -= 1;
                    self.told(item)
                }
            };
            if self.next > 0 {
                self.written.push(',');
            }
            self.written.push_str(&told);
            self.next += 1;
        }
        self.next < self.items.len()
    }

    /// What has been written of the document since it was last taken.
    pub fn take(&mut self) -> String {
        std::mem::take(&mut self.written)
    }

    /// The document before its first letter.
    #[must_use]
    pub fn head(&self) -> String {
        self.head_text()
    }

    /// The document after its last letter.
    #[must_use]
    pub fn tail(&self) -> String {
        TAIL.to_owned()
    }

    /// How far it has come.
    ///
    /// # Errors
    /// Never, unless the engine is out of memory.
    #[wasm_bindgen(unchecked_return_type = "SurveyProgress")]
    pub fn progress(&self) -> Result<JsValue, JsValue> {
        give(&self.progress)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sample() -> Vec<u8> {
        counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap()
    }

    fn document() -> String {
        let font = Font::open(sample()).unwrap();
        let alphabet = Alphabet::of(&font);
        let entry = FontEntry::measured("a.ttf", &font, &alphabet, Choice::Every);
        serde_json::to_string(&Document::of(vec![entry])).unwrap()
    }

    #[test]
    fn the_pieces_are_the_document_whatever_was_measured_first() {
        let whole = document();
        for first in [&[][..], &[40, 3, 3, u16::MAX, 0]] {
            let mut survey = Survey::open(sample(), "a.ttf").unwrap();
            survey.measure_first(first);
            let mut text = survey.head();
            while survey.measure(7) {
                text += &survey.take();
            }
            text += &survey.take();
            text += &survey.tail();
            assert_eq!(text, whole);
            let p = survey.progress;
            assert_eq!((p.done, p.total, p.troubled), (p.total, p.total, 0));
            assert!(p.drawn > p.total && p.needed > 0);
        }
    }

    #[test]
    fn letters_measured_first_are_told_and_counted_once() {
        let mut survey = Survey::open(sample(), "a.ttf").unwrap();
        let told = survey.measure_first(&[5, 6, 5]);
        let told: Vec<serde_json::Value> = serde_json::from_str(&told).unwrap();
        let glyphs: Vec<_> = told.iter().map(|l| l["glyph"].as_u64()).collect();
        assert_eq!(glyphs, [Some(5), Some(6)]);
        assert_eq!(survey.progress.done, 2);
        survey.measure(4);
        // Glyphs 0 to 3 and no more, so the two are still ahead.
        assert_eq!(survey.progress.done, 6);
        assert_eq!(survey.measure_first(&[2, 5]), "[]");
    }

    #[test]
    fn a_slice_is_forgotten_when_it_is_taken() {
        let mut survey = Survey::open(sample(), "a.ttf").unwrap();
        survey.measure(3);
        assert!(survey.take().len() > 100);
        assert_eq!(survey.take(), "");
    }

    #[test]
    fn what_is_no_font_is_refused() {
        assert!(Survey::open(b"Dear foundry".to_vec(), "a.txt").is_err());
    }
}
