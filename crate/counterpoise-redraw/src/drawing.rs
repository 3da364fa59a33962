//! Letters out of drawings, for the page.

use crate::boundary::{give, refuse};
use crate::named::named;
use counterpoise::font::loose::{Guides, Placed, estimate, place, split};
use counterpoise::report::LooseLetter;
use counterpoise_drawings::svg::{self, Sheet};
use counterpoise_drawings::{DrawingError, Note, ufo};
use kurbo::Affine;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;
use wasm_bindgen::prelude::*;

/// A drawing whose letters still have to be placed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct DrawingReport {
    /// The letters found, from left to right, as SVG path data in the drawing's
    /// own units, y up.
    pub letters: Vec<String>,
    /// Where the baseline seems to be, in those units.
    pub baseline: f64,
    /// Where the capitals, or the tallest letters, seem to reach.
    pub height: f64,
    /// Units per em of one of the lab's own sheets, which needs no placing.
    pub units_per_em: Option<f64>,
    /// What was left out, each a sentence.
    pub notes: Vec<String>,
}

/// Letters in font units, ready to be a font or to stand in one.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct LooseLetters {
    /// Units per em that they are drawn for; `null` of a glyph file, which does
    /// not say.
    pub units_per_em: Option<f64>,
    /// The family's name, if a UFO gives one.
    pub family: Option<String>,
    /// The letters.
    pub letters: Vec<LooseLetter>,
    /// What was left out, each a sentence.
    pub notes: Vec<String>,
}

fn throw(e: &DrawingError) -> JsValue {
    refuse(e.code(), e)
}

fn sentences(notes: &[Note]) -> Vec<String> {
    notes.iter().map(Note::to_string).collect()
}

/// An SVG drawing, opened.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Drawing {
    sheet: Sheet,
    letters: Vec<counterpoise::outline::Outline>,
}

#[wasm_bindgen]
impl Drawing {
    /// Opens SVG text, of a file or pasted.
    ///
    /// # Errors
    /// `{ code, sentence }` if it is none, or holds no letter.
    #[wasm_bindgen(constructor)]
    pub fn open(text: &str) -> Result<Drawing, JsValue> {
        let sheet = svg::read(text).map_err(|e| throw(&e))?;
        let letters = match sheet.own {
            // The lab's own sheets hold one letter, whatever its parts.
            Some(_) => vec![whole(&sheet)],
            None => split(&sheet.shapes),
        };
        Ok(Self { sheet, letters })
    }

    /// What was found: a `DrawingReport`.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "DrawingReport")]
    pub fn report(&self) -> Result<JsValue, JsValue> {
        let guides = self.guides();
        give(&DrawingReport {
            letters: self
                .letters
                .iter()
                .map(|l| l.to_bez_path().to_svg())
                .collect(),
            baseline: guides.baseline,
            height: guides.height,
            units_per_em: self.sheet.own.map(|o| o.units_per_em),
            notes: sentences(&self.sheet.notes),
        })
    }

    /// The letters in font units, the guides being `capHeight` of them apart:
    /// `LooseLetters`, named by the characters of `names` in order, those
    /// without one left out. One of the lab's own sheets stands as it stood, at
    /// `unitsPerEm`.
    ///
    /// # Errors
    /// `{ code, sentence }` if the guides lie in one place.
    #[wasm_bindgen(unchecked_return_type = "LooseLetters")]
    pub fn place(
        &self,
        names: &str,
        baseline: f64,
        height: f64,
        cap_height: f64,
        units_per_em: f64,
    ) -> Result<JsValue, JsValue> {
        let placed = match self.sheet.own {
            Some(own) => {
                let scale = units_per_em / own.units_per_em;
                let map = Affine::scale(scale);
                let letters = self.letters.iter();
                let advance = own.advance * scale;
                letters
                    .map(|l| Placed {
                        outline: l.transformed(map),
                        advance,
                    })
                    .collect()
            }
            None => place(&self.letters, Guides { baseline, height }, cap_height)
                .ok_or_else(|| throw(&DrawingError::NoHeight))?,
        };
        give(&LooseLetters {
            units_per_em: Some(units_per_em),
            family: None,
            letters: named(placed, names),
            notes: sentences(&self.sheet.notes),
        })
    }
}

impl Drawing {
    fn guides(&self) -> Guides {
        if self.sheet.own.is_some() {
            let top = self.letters.iter().filter_map(|l| l.bounds()).map(|b| b.y1);
            return Guides {
                baseline: 0.0,
                height: top.fold(1.0, f64::max),
            };
        }
        // A drawing without a letter was refused when it was opened.
        estimate(&self.letters).unwrap_or(Guides {
            baseline: 0.0,
            height: 1.0,
        })
    }
}

fn whole(sheet: &Sheet) -> counterpoise::outline::Outline {
    let mut path = kurbo::BezPath::new();
    for shape in &sheet.shapes {
        path.extend(shape.to_bez_path());
    }
    counterpoise::outline::Outline::from_path(&path)
}

/// The letters of a zipped UFO: `LooseLetters`.
///
/// # Errors
/// `{ code, sentence }` if it is none.
#[wasm_bindgen(js_name = openUfo, unchecked_return_type = "LooseLetters")]
pub fn open_ufo(bytes: Vec<u8>) -> Result<JsValue, JsValue> {
    let ufo = ufo::read(bytes).map_err(|e| throw(&e))?;
    give(&LooseLetters {
        units_per_em: Some(f64::from(ufo.drawn.units_per_em)),
        family: ufo.drawn.names.family.clone(),
        letters: ufo.drawn.letters.iter().map(LooseLetter::from).collect(),
        notes: sentences(&ufo.notes),
    })
}

/// The letter of a single glyph file: `LooseLetters`.
///
/// # Errors
/// `{ code, sentence }` if it is none.
#[wasm_bindgen(js_name = openGlif, unchecked_return_type = "LooseLetters")]
pub fn open_glif(text: &str) -> Result<JsValue, JsValue> {
    let (letter, notes) = ufo::read_glif(text).map_err(|e| throw(&e))?;
    give(&LooseLetters {
        units_per_em: None,
        family: None,
        letters: vec![LooseLetter::from(&letter)],
        notes: sentences(&notes),
    })
}
