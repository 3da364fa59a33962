//! Text set by the font's own rules, for the browser.
//!
//! A module apart from the lab's own, since shaping takes more bytes than all of
//! the lab's measuring: the page fetches it when kerned text is first asked for.
//! The shaping library is named in `shaper` alone.

mod reading;
mod shaper;

pub use reading::{Form, Read, read, runs};
pub use shaper::{MOST_CHARACTERS, Placed, Shaper};

use wasm_bindgen::prelude::*;

/// Numbers of each glyph in what [`TextShaper::shape`] gives.
const NUMBERS: usize = 5;

/// Stands in what is read for a character's form: as the font's map has it, and
/// none of its own.
const PLAIN: i32 = -1;
const TAKEN_IN: i32 = -2;

/// Reads a line by its directions alone, where no font can shape it: as
/// [`TextShaper::read`].
#[wasm_bindgen]
#[must_use]
pub fn directions(text: &str) -> Vec<i32> {
    numbers(&read(text, None))
}

fn numbers(read: &[Read]) -> Vec<i32> {
    let one = |read: &Read| {
        let level = i32::from(read.level);
        match read.form {
            Form::Plain => [level, PLAIN, 0, 0, 0],
            Form::TakenIn => [level, TAKEN_IN, 0, 0, 0],
            Form::Shaped(p) => [level, p.glyph as i32, p.advance, p.right, p.up],
        }
    };
    read.iter().flat_map(one).collect()
}

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

    /// Reads a line. Five numbers for each character of the text: its embedding
    /// level, odd from right to left; the glyph that it takes among its
    /// neighbours, -1 for the one that the font's map gives, -2 for none of its
    /// own; the glyph's advance; how far it is moved right, and up. Font units.
    #[must_use]
    pub fn read(&self, text: &str) -> Vec<i32> {
        numbers(&read(text, Some(&self.0)))
    }
}
