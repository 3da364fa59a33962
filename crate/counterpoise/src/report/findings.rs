//! The letters that stand out, as the page and scripts read them.

use super::Deviation;
use crate::font::Font;
use crate::judge::{self, Alphabet, Judgement, Table};
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// Findings that a sound alphabet shows more of than this are not worth a list.
const MOST_BY_CHANCE: f64 = 8.0;

/// What is the matter with a letter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum Cause {
    /// It is wide or narrow.
    Width,
    /// Its strokes are thick or thin.
    Strokes,
    /// Its upright strokes alone are.
    Uprights,
    /// Its level strokes alone are.
    Levels,
    /// It passes its lines by too much or too little.
    Overshoot,
    /// White before it.
    Left,
    /// White after it.
    Right,
    /// Its stems are not a pair.
    Pair,
    /// It stands high or low.
    Raised,
    /// It has more points than its shape needs.
    Points,
}

/// A letter that stands out.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct FindingReport {
    /// The letter.
    pub letter: String,
    /// Its glyph.
    pub glyph: u16,
    /// What is the matter.
    pub cause: Cause,
    /// The figure that tells it best: font units, of points how many.
    pub value: f64,
    /// What the other letters make one expect.
    pub expected: f64,
    /// From here ...
    pub low: f64,
    /// ... to here it would sit with the others.
    pub high: f64,
    /// Measured less expected.
    pub difference: f64,
    /// How far off, in spreads.
    pub spreads: f64,
    /// How many letters of a sound alphabet of 52 would show as much.
    pub by_chance: f64,
    /// The letters to hold it against, nearest first.
    pub beside: String,
    /// The finding in a sentence for the artist.
    pub sentence: String,
}

/// How a letter stands, measure by measure.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct LetterStanding {
    /// The letter.
    pub letter: String,
    /// Its glyph.
    pub glyph: u16,
    /// How far it is from what is expected; without a measure of which nothing
    /// can be expected.
    pub deviations: Vec<Deviation>,
}

/// The letters of a font that stand out.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct JudgementReport {
    /// What stands out, worst first.
    pub findings: Vec<FindingReport>,
    /// How every letter stands that was measured, whether it stands out or not.
    pub letters: Vec<LetterStanding>,
    /// Whether the font is like those that the model was fitted on.
    pub familiar: bool,
    /// What to know of the judgement, in a sentence.
    pub note: Option<String>,
}

impl JudgementReport {
    /// Judges a font's letters by what was learned, if it is at hand.
    pub fn of(font: &Font, alphabet: &Alphabet, table: Option<&Table>) -> Self {
        let Some(table) = table else {
            return Self {
                findings: Vec::new(),
                letters: Vec::new(),
                familiar: false,
                note: Some(
                    "The lab could not load what it has learned of well-made alphabets, so it \
                     judges nothing. Load the page again."
                        .into(),
                ),
            };
        };
        let judgement = Judgement::of(font, alphabet, table);
        let note = (!judgement.familiar).then(|| {
            "This font is unlike any that the lab learned from: its own letters differ so much \
             that only coarse findings can be told."
                .into()
        });
        let findings = judgement
            .at(MOST_BY_CHANCE)
            .filter_map(|f| {
                let (low, high) = f.would_sit();
                Some(FindingReport {
                    letter: f.letter.into(),
                    glyph: alphabet.member(f.letter)?.glyph.0,
                    cause: f.cause.into(),
                    value: f.value,
                    expected: f.expected,
                    low,
                    high,
                    difference: f.difference(),
                    spreads: f.spreads,
                    by_chance: f.by_chance,
                    beside: f.beside.clone(),
                    sentence: f.sentence(),
                })
            })
            .collect();
        let letters = judgement
            .letters
            .iter()
            .filter_map(|(letter, deviations)| {
                Some(LetterStanding {
                    letter: (*letter).into(),
                    glyph: alphabet.member(*letter)?.glyph.0,
                    deviations: deviations.iter().map(Deviation::from).collect(),
                })
            })
            .collect();
        Self {
            findings,
            letters,
            familiar: judgement.familiar,
            note,
        }
    }
}

impl From<judge::Matter> for Cause {
    fn from(matter: judge::Matter) -> Self {
        use judge::{Cause as Of, Matter};
        match matter {
            Matter::Points => Self::Points,
            Matter::Shape(cause) => match cause {
                Of::Width => Self::Width,
                Of::Strokes => Self::Strokes,
                Of::Uprights => Self::Uprights,
                Of::Levels => Self::Levels,
                Of::Overshoot => Self::Overshoot,
                Of::Left => Self::Left,
                Of::Right => Self::Right,
                Of::Pair => Self::Pair,
                Of::Raised => Self::Raised,
            },
        }
    }
}
