//! A font's spacing as a document for scripts and for the artist to take home.

use super::{SpacingReport, SpacingSurvey, SuggestionReport};
use crate::font::Font;
use crate::measure::Context;
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;

/// What of the document's form may change without another number: additions.
const VERSION: u32 = 1;

/// A font's spacing and kerning, and what is suggested. Lengths are font units.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(
    feature = "schema",
    derive(JsonSchema),
    schemars(title = "counterpoise-spacing, version 1")
)]
#[serde(rename_all = "camelCase")]
pub struct SpacingDocument {
    /// Version of this form.
    pub version: u32,
    /// The family's name, if the font has one.
    pub family: Option<String>,
    /// Units per em.
    pub units_per_em: u16,
    /// What was read.
    pub spacing: SpacingReport,
    /// What is suggested.
    pub suggestion: SuggestionReport,
}

impl SpacingDocument {
    /// Reads the spacing of some characters, each once, and suggests what brings
    /// the white between them within a tolerance, font units; `bases` as in
    /// [`SpacingSurvey::suggestion`].
    pub fn of(
        font: &Font,
        characters: &str,
        tolerance: f64,
        bases: &[(char, char)],
    ) -> Option<Self> {
        let mut survey = SpacingSurvey::new(font, &Context::of(font), characters.chars());
        while survey.step(font, 64) {}
        Some(Self {
            version: VERSION,
            family: font.names().family.clone(),
            units_per_em: font.units_per_em(),
            spacing: survey.report()?,
            suggestion: survey.suggestion(font, tolerance, bases)?,
        })
    }
}
