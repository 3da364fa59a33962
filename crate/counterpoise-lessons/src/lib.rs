//! Lessons on the open font, for the browser.
//!
//! A module apart from the lab's own: the page fetches it when the room of the
//! lessons is first entered. It opens the font's bytes itself.

use counterpoise::font::Font;
use counterpoise::lesson::eye::Trial;
use counterpoise::lesson::{Asked, Class};
use counterpoise::report::{
    EyeMatter, EyeQuestion, EyeResult, EyeSetup, LessonName, LessonReport, WordReport,
};
use serde::Serialize;
use wasm_bindgen::prelude::*;

/// The names of the types that cross, for the bindings' declarations.
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { EyeQuestion } from '../generated/EyeQuestion'
import type { EyeResult } from '../generated/EyeResult'
import type { EyeSetup } from '../generated/EyeSetup'
import type { LessonReport } from '../generated/LessonReport'
import type { WordReport } from '../generated/WordReport'
"#;

/// As a plain object: what is not there is `null`, as in JSON.
fn give<T: Serialize>(value: &T) -> Result<JsValue, JsError> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    value.serialize(&serializer).map_err(JsError::from)
}

/// A font under instruction, and the trial that is being answered.
#[wasm_bindgen]
pub struct Lessons {
    class: Class,
    trial: Option<(EyeMatter, Asked, Trial)>,
}

#[wasm_bindgen]
impl Lessons {
    /// Opens a font's bytes.
    ///
    /// # Errors
    /// Throws a sentence if the file is no font.
    #[wasm_bindgen(constructor)]
    pub fn new(bytes: Vec<u8>, face: u32) -> Result<Lessons, JsError> {
        let font = Font::open_face(bytes, face).map_err(|e| JsError::new(&e.to_string()))?;
        Ok(Self {
            class: Class::new(font),
            trial: None,
        })
    }

    /// A lesson on a line of text, with so much taken out. Of a name that is none,
    /// `null`.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "LessonReport | null")]
    pub fn lesson(&self, name: &str, text: &str, out: f64) -> Result<JsValue, JsError> {
        let report =
            LessonName::named(name).map(|name| LessonReport::of(&self.class, name, text, out));
        give(&report)
    }

    /// Every word of the trade, drawn from this font.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "WordReport[]")]
    pub fn words(&self) -> Result<JsValue, JsError> {
        give(&WordReport::all(&self.class))
    }

    /// What can be asked of this font; `null` where it has not the letters for it.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "EyeSetup | null")]
    pub fn ask(&self, matter: &str) -> Result<JsValue, JsError> {
        let setup = EyeMatter::named(matter).and_then(|matter| {
            let asked = matter.matter().ask(&self.class)?;
            Some(EyeSetup::of(matter, &asked))
        });
        give(&setup)
    }

    /// Begins a trial, its chance drawn from a seed; tells whether it could.
    #[must_use]
    pub fn begin(&mut self, matter: &str, seed: f64) -> bool {
        self.trial = EyeMatter::named(matter).and_then(|matter| {
            let asked = matter.matter().ask(&self.class)?;
            Some((matter, asked, Trial::new(asked.scale, seed.to_bits())))
        });
        self.trial.is_some()
    }

    /// The next question; `null` after the last.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "EyeQuestion | null")]
    pub fn question(&mut self) -> Result<JsValue, JsError> {
        let class = &self.class;
        let next = self.trial.as_mut().and_then(|(matter, asked, trial)| {
            EyeQuestion::next(trial, class, matter.matter(), asked)
        });
        give(&next)
    }

    /// Answers it: whether the changed letter (the level stroke, the lower half)
    /// looks the larger.
    pub fn answer(&mut self, larger: bool) {
        if let Some((.., trial)) = &mut self.trial {
            trial.answer(larger);
        }
    }

    /// What the trial found; `null` before one was begun.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "EyeResult | null")]
    pub fn result(&self) -> Result<JsValue, JsError> {
        let trial = self.trial.as_ref();
        give(&trial.map(|(_, asked, trial)| EyeResult::of(trial, asked)))
    }
}
