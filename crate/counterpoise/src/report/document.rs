//! Every measure of fonts and their letters in one document, for files.
//!
//! Whoever writes it, a command or the page, hands in opened fonts: nothing here
//! reads a file or a clock, so the same fonts give the same document.
//!
//! [`Document`] and [`FontEntry`] are generic over their lists, so that a list
//! too long to hold can be written while it is measured.

use super::{Choice, Chosen, FontFigures, FontReport, LetterReport};
use crate::font::{Font, FontError};
use crate::judge::Alphabet;
use crate::measure::{self, QUANTITIES};
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// The name of the document's form.
pub const SCHEMA_NAME: &str = "counterpoise-measures";

/// The version of the document's form. It grows when a field goes away or
/// changes its name, type, unit or meaning; not when one is added.
pub const SCHEMA_VERSION: u32 = 2;

/// Measures of fonts. Lengths are font units, y up, baseline at 0; angles are
/// degrees. A figure that could not be taken is `null` or not there, never 0.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export, rename = "MeasuresDocument", concrete(F = Vec<FontEntry>)))]
#[cfg_attr(
    feature = "schema",
    derive(JsonSchema),
    schemars(rename = "Document", title = "counterpoise-measures, version 1")
)]
#[serde(rename_all = "camelCase")]
pub struct Document<F = Vec<FontEntry>> {
    /// Which form the document has.
    pub schema: SchemaMark,
    /// What wrote it.
    pub program: Program,
    /// What the figures of letters and fonts are, in the order of the lab's tables.
    pub quantities: Vec<QuantityReport>,
    /// One entry for each font or file, in the order asked for.
    pub fonts: F,
}

impl<F> Document<F> {
    /// A document of these fonts.
    pub fn of(fonts: F) -> Self {
        Self {
            schema: SchemaMark {
                name: SCHEMA_NAME,
                version: SCHEMA_VERSION,
            },
            program: Program {
                name: "counterpoise",
                version: env!("CARGO_PKG_VERSION"),
            },
            quantities: QUANTITIES.iter().map(QuantityReport::from).collect(),
            fonts,
        }
    }
}

/// Which form a document has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct SchemaMark {
    /// The form's name.
    #[cfg_attr(feature = "schema", schemars(extend("const" = SCHEMA_NAME)))]
    pub name: &'static str,
    /// Its version: another number means that a field went away or changed its
    /// meaning. Fields may be added without one.
    #[cfg_attr(feature = "schema", schemars(extend("const" = SCHEMA_VERSION)))]
    pub version: u32,
}

/// The program that measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Program {
    /// Its name.
    pub name: &'static str,
    /// Its version.
    pub version: &'static str,
}

/// What a figure is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum Unit {
    /// Font units.
    Units,
    /// Square font units.
    SquareUnits,
    /// A share of something named in the definition: 1 is all of it.
    Share,
    /// Degrees.
    Degrees,
    /// How many.
    Count,
}

impl From<measure::Unit> for Unit {
    fn from(unit: measure::Unit) -> Self {
        match unit {
            measure::Unit::Units => Self::Units,
            measure::Unit::SquareUnits => Self::SquareUnits,
            measure::Unit::Share => Self::Share,
            measure::Unit::Degrees => Self::Degrees,
            measure::Unit::Count => Self::Count,
        }
    }
}

/// What a figure is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct QuantityReport {
    /// Its name in files, which never changes.
    pub id: &'static str,
    /// Its name for people.
    pub name: &'static str,
    /// What it is counted in.
    pub unit: Unit,
    /// What it is, in a sentence.
    pub definition: &'static str,
}

impl From<&measure::Quantity> for QuantityReport {
    fn from(q: &measure::Quantity) -> Self {
        Self {
            id: q.id,
            name: q.name,
            unit: q.unit.into(),
            definition: q.definition,
        }
    }
}

/// A font with its letters, or a file that could not be read.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export, concrete(L = Vec<LetterReport>)))]
#[cfg_attr(feature = "schema", derive(JsonSchema), schemars(rename = "FontEntry"))]
#[serde(rename_all = "camelCase")]
pub struct FontEntry<L = Vec<LetterReport>> {
    /// The file's name, with its folder where that is known.
    pub file: String,
    /// What kept the file from being measured; empty if it was.
    pub errors: Vec<FileError>,
    /// What the font says of itself; `null` of a file that could not be opened.
    pub font: Option<FontReport>,
    /// The figures of its basic letters, summed up.
    pub figures: FontFigures,
    /// The characters that were asked for and that the font lacks.
    pub missing: String,
    /// Its letters, in the order asked for.
    pub letters: L,
}

impl<L> FontEntry<L> {
    /// An opened font with its letters, which may be still to measure.
    pub fn opened(file: &str, font: &Font, alphabet: &Alphabet, missing: &str, letters: L) -> Self {
        Self {
            file: file.to_owned(),
            errors: Vec::new(),
            font: Some(FontReport::new(font, alphabet.context(), file)),
            figures: FontFigures::of(alphabet),
            missing: missing.to_owned(),
            letters,
        }
    }
}

impl<L: Default> FontEntry<L> {
    /// A file that could not be opened.
    pub fn refused(file: &str, error: FileError) -> Self {
        Self {
            file: file.to_owned(),
            errors: vec![error],
            font: None,
            figures: FontFigures::default(),
            missing: String::new(),
            letters: L::default(),
        }
    }
}

impl FontEntry {
    /// Measures the chosen letters of an opened font.
    pub fn measured(file: &str, font: &Font, alphabet: &Alphabet, choice: Choice<'_>) -> Self {
        let chosen = Chosen::of(font, choice);
        let reader = font.reader();
        let letters = chosen.items.iter();
        let letters = letters.map(|&item| LetterReport::read(&reader, alphabet, item));
        Self::opened(file, font, alphabet, &chosen.missing, letters.collect())
    }
}

/// Why a file could not be measured.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct FileError {
    /// A name for this kind of error, which never changes.
    pub code: &'static str,
    /// What is wrong and what to do, in a sentence.
    pub sentence: String,
}

impl From<&FontError> for FileError {
    fn from(e: &FontError) -> Self {
        Self {
            code: e.code(),
            sentence: e.to_string(),
        }
    }
}
