//! Text set by the font's own rules, for the browser.
//!
//! A module apart from the lab's own, since shaping takes more bytes than all of
//! the lab's measuring: the page fetches it when kerned text is first asked for.
//! The shaping library is named in `shaper` alone.

mod shaper;

pub use shaper::{MOST_CHARACTERS, Placed, Shaper};

use wasm_bindgen::prelude::*;

/// Numbers of each glyph in what [`TextShaper::shape`] gives.
const NUMBERS: usize = 5;

/// A font, ready to set text.
#[wasm_bindgen]
pub struct TextShaper(Shaper);

#[wasm_bindgen]
impl TextShaper {
    /// Opens a face of a font file.
    ///
    /// # Errors
    /// Throws a sentence if the file is no font that text can be set with.
    #[wasm_bindgen(constructor)]
    pub fn new(bytes: Vec<u8>, face: u32) -> Result<TextShaper, JsError> {
        let sentence = "Text cannot be set with this font: its tables cannot be read.";
        Shaper::open(bytes, face)
            .map(Self)
            .ok_or_else(|| JsError::new(sentence))
    }

    /// Sets a line of text. Five numbers for each glyph, in the order drawn: its
    /// index in the font; which character of the text it begins with, counted in
    /// code points; its advance; how far it is moved right, and up. Font units.
    #[must_use]
    pub fn shape(&self, text: &str, kerning: bool) -> Vec<i32> {
        let placed = self.0.shape(text, kerning);
        let mut numbers = Vec::with_capacity(NUMBERS * placed.len());
        for p in placed {
            let (glyph, character) = (p.glyph as i32, p.character as i32);
            numbers.extend([glyph, character, p.advance, p.right, p.up]);
        }
        numbers
    }
}
