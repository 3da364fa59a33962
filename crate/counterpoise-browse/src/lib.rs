//! Every letter of a font, for the browser: listed by Unicode block, found by what
//! is typed, drawn as it comes into view.
//!
//! A module apart from the lab's own: the page fetches it when the room of all
//! letters is first entered, and runs it in a worker.

mod find;
mod listing;
mod names;

pub use find::find;
pub use listing::{Letter, Listing, MOST_LETTERS, Section, UNCODED};
pub use names::CharacterNames;

use counterpoise::font::{Font, GlyphId};
use serde::Serialize;
use wasm_bindgen::prelude::*;

/// The names of the types that cross, for the bindings' declarations.
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** Letters that stand under one heading, on to the start of the next. */
export interface Section {
  readonly name: string
  /** First and last code point of the block; null of letters without. */
  readonly block: readonly [number, number] | null
  readonly start: number
}
/** A glyph as it is drawn, in font units, y up. */
export interface Drawing {
  readonly name: string | null
  /** As SVG path data, empty without ink; null if it cannot be drawn. */
  readonly path: string | null
  /** Left and right edge of its ink. */
  readonly ink: readonly [number, number]
}
"#;

/// Bytes of a path that the page draws in a moment. The most elaborate letters
/// of open fonts have a tenth of it.
const MOST_PATH: usize = 400_000;

/// What a line of letters needs above and below the baseline where the font does
/// not say, as shares of the em (common practice, no source).
const USUAL: [f64; 2] = [0.88, 0.24];

/// Room that fonts declare and a line can have, as shares of the em: beyond it a
/// figure is a mistake, or a single sign's.
const ROOM: [(f64, f64); 2] = [(0.6, 1.3), (0.1, 0.6)];

#[derive(Serialize)]
struct Drawing<'a> {
    name: Option<&'a str>,
    path: Option<String>,
    ink: [f64; 2],
}

/// As a plain object: what is not there is `null`, as in JSON.
fn give<T: Serialize>(value: &T) -> Result<JsValue, JsError> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    value.serialize(&serializer).map_err(JsError::from)
}

/// All letters of a font.
#[wasm_bindgen]
pub struct AllLetters(Listing, CharacterNames);

#[wasm_bindgen]
impl AllLetters {
    /// Opens a font's bytes.
    ///
    /// # Errors
    /// Throws a sentence if they are no font.
    #[wasm_bindgen(constructor)]
    pub fn new(bytes: Vec<u8>) -> Result<AllLetters, JsError> {
        let font = Font::open(bytes).map_err(|e| JsError::new(&e.to_string()))?;
        Ok(Self(Listing::of(font), CharacterNames::default()))
    }

    /// Each letter's code point in the list's order; 0xFFFFFFFF without one.
    #[must_use]
    pub fn codes(&self) -> Vec<u32> {
        let code = |letter: &Letter| letter.character.map_or(u32::MAX, u32::from);
        self.0.letters().iter().map(code).collect()
    }

    /// Each letter's glyph.
    #[must_use]
    pub fn glyphs(&self) -> Vec<u16> {
        self.0.letters().iter().map(|letter| letter.glyph).collect()
    }

    /// Each letter's advance width as a share of the em.
    #[must_use]
    pub fn advances(&self) -> Vec<f32> {
        let font = self.0.font();
        let (reader, em) = (font.reader(), f64::from(font.units_per_em()));
        let advance = |letter: &Letter| (reader.advance(GlyphId(letter.glyph)) / em) as f32;
        self.0.letters().iter().map(advance).collect()
    }

    /// The headings, in the letters' order.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "Section[]")]
    pub fn sections(&self) -> Result<JsValue, JsError> {
        give(&self.0.sections())
    }

    /// Letters for which the list had no room.
    #[wasm_bindgen(js_name = leftOut)]
    #[must_use]
    pub fn left_out(&self) -> u32 {
        self.0.left_out() as u32
    }

    /// Units per em; room above the baseline and below it, as shares of the em.
    #[must_use]
    pub fn measure(&self) -> Vec<f64> {
        let font = self.0.font();
        let (em, declared) = (f64::from(font.units_per_em()), font.declared());
        let room = |declared: f64, at: usize| {
            let (least, most) = ROOM[at];
            match declared / em {
                share if share > 0.0 => share.clamp(least, most),
                _ => USUAL[at],
            }
        };
        vec![em, room(declared.ascender, 0), room(-declared.descender, 1)]
    }

    /// Takes in what the Unicode Standard calls characters, as the page's build
    /// writes it; before, letters are found by all else.
    #[wasm_bindgen(js_name = learnNames)]
    pub fn learn_names(&mut self, text: String) {
        self.1 = CharacterNames::read(text);
    }

    /// Places in the list of the letters that what was typed leads to.
    #[must_use]
    pub fn find(&self, typed: &str) -> Vec<u32> {
        find(&self.0, &self.1, typed)
    }

    /// Glyphs as they are drawn.
    ///
    /// # Errors
    /// If the engine refuses to make the objects.
    #[wasm_bindgen(unchecked_return_type = "Drawing[]")]
    pub fn drawings(&self, glyphs: &[u16]) -> Result<JsValue, JsError> {
        let reader = self.0.font().reader();
        let drawn = |&glyph: &u16| {
            let id = GlyphId(glyph);
            let outline = reader.outline(id).ok();
            let ink = outline.as_ref().and_then(|o| o.bounds());
            let path = outline.map(|o| o.to_bez_path().to_svg());
            Drawing {
                name: reader.glyph_name(id),
                path: path.filter(|path| path.len() <= MOST_PATH),
                ink: ink.map_or([0.0; 2], |ink| [ink.x0, ink.x1]),
            }
        };
        give(&glyphs.iter().map(drawn).collect::<Vec<_>>())
    }
}
