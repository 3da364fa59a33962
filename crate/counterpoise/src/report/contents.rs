//! What a font holds, as the page reads it beside what is planned of it.

use crate::font::Font;
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// What one feature puts in place of letters.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct FeatureReport {
    /// Its four letters ("liga", "ss01").
    pub tag: String,
    /// Ligatures that it makes.
    pub ligatures: u32,
    /// Other forms that it offers of single glyphs.
    pub alternates: u32,
    /// Rules that depend on the letters around.
    pub contextual: u32,
}

/// What a font holds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct ContentsReport {
    /// Every character that it has a glyph for, in order of code points.
    pub characters: String,
    /// Its features that put glyphs in place of others, by tag.
    pub features: Vec<FeatureReport>,
}

impl ContentsReport {
    /// Reads them.
    pub fn of(font: &Font) -> Self {
        let reader = font.reader();
        let features = reader.features().into_iter().map(|f| FeatureReport {
            tag: f.tag,
            ligatures: f.ligatures,
            alternates: f.alternates,
            contextual: f.contextual,
        });
        Self {
            characters: reader.characters().into_iter().map(|(c, _)| c).collect(),
            features: features.collect(),
        }
    }
}
