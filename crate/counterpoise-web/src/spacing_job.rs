//! A font's spacing and kerning, read in slices, for the worker.
//!
//! As with the survey of all measures, whoever holds it asks for a few steps at
//! a time: it has no clock of its own.

use crate::boundary::{give, throw};
use crate::refuse::{Refuse, within};
use counterpoise::font::{Font, FontError};
use counterpoise::measure::Context;
use counterpoise::report::SpacingSurvey;
use wasm_bindgen::prelude::*;

/// The widest and narrowest tolerance of a suggestion, font units: none so wide
/// that it suggests nothing in any font, none so fine that each pair is kerned.
const TOLERANCES: (f64, f64) = (1.0, 1000.0);

/// A font whose spacing is on its way to being read.
#[wasm_bindgen]
#[derive(Debug)]
pub struct SpacingJob {
    font: Font,
    survey: SpacingSurvey,
}

impl SpacingJob {
    /// Opens a font file by its first face, to read the spacing of some letters.
    ///
    /// # Errors
    /// If the file is no font that the lab can open.
    pub(crate) fn open(bytes: Vec<u8>, characters: &str) -> Result<Self, FontError> {
        let font = Font::open(bytes)?;
        let survey = SpacingSurvey::new(&font, &Context::of(&font), characters.chars());
        Ok(Self { font, survey })
    }
}

#[wasm_bindgen]
impl SpacingJob {
    /// Opens a font file by its first face, to read the spacing of some letters.
    ///
    /// # Errors
    /// Throws what is wrong with the file.
    #[wasm_bindgen(constructor)]
    pub fn new(bytes: Vec<u8>, characters: &str) -> Result<SpacingJob, JsValue> {
        Self::open(bytes, characters).map_err(|e| throw(&Refuse::from(e)))
    }

    /// Does some steps; whether any are left.
    pub fn step(&mut self, count: u32) -> bool {
        self.survey.step(&self.font, count as usize)
    }

    /// The share of the steps that are done.
    #[must_use]
    pub fn share(&self) -> f64 {
        let (done, all) = self.survey.progress();
        done as f64 / all.max(1) as f64
    }

    /// What was found; `null` before the steps are done.
    ///
    /// # Errors
    /// Never, unless the engine is out of memory.
    #[wasm_bindgen(unchecked_return_type = "SpacingReport | null")]
    pub fn report(&self) -> Result<JsValue, JsValue> {
        self.survey
            .report()
            .map_or(Ok(JsValue::NULL), |report| give(&report))
    }

    /// What is suggested so that every pair's white is within a tolerance of the
    /// middle, font units; `null` before the steps are done. `bases` holds accented
    /// letters, each followed by the letter that it is made of.
    ///
    /// # Errors
    /// Throws if the tolerance is none that could be meant.
    #[wasm_bindgen(unchecked_return_type = "SuggestionReport | null")]
    pub fn suggestion(&self, tolerance: f64, bases: &str) -> Result<JsValue, JsValue> {
        let (least, most) = TOLERANCES;
        let tolerance =
            within("tolerance in units", tolerance, least, most).map_err(|e| throw(&e))?;
        let letters = bases.chars().step_by(2);
        let bases: Vec<(char, char)> = letters.zip(bases.chars().skip(1).step_by(2)).collect();
        self.survey
            .suggestion(&self.font, tolerance, &bases)
            .map_or(Ok(JsValue::NULL), |suggestion| give(&suggestion))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_steps_come_to_an_end_and_then_there_is_a_report() {
        let font = counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap();
        let mut job = SpacingJob::open(font, "HOnoTo").unwrap();
        assert!(job.survey.report().is_none());
        let mut before = 0.0;
        while job.step(1) {
            assert!(job.share() > before);
            before = job.share();
        }
        assert_eq!(job.share(), 1.0);
        // Each letter once.
        assert_eq!(job.survey.report().unwrap().letters.len(), 5);
    }

    #[test]
    fn what_is_no_font_is_refused() {
        assert!(SpacingJob::open(b"no font".to_vec(), "HO").is_err());
    }
}
