//! The letters that stand out, as the page and scripts read them.

use super::{Deviation, LetterReport};
use crate::judge::{self, Alphabet, Drawn, Finding, Judgement, Matter, Meant, Table, spendthrifts};
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// Findings that a sound alphabet shows more of than this are not worth a list.
const MOST_BY_CHANCE: f64 = 8.0;

/// What is the matter with a letter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
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
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
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
    /// What was said to be meant so, as it stands to the other letters.
    pub meant: Vec<FindingReport>,
    /// Whether the font is like those that the model was fitted on.
    pub familiar: bool,
    /// What to know of the judgement, in a sentence.
    pub note: Option<String>,
}

impl JudgementReport {
    /// Judges the shapes of a font's letters by what was learned, if it is at
    /// hand.
    pub fn of(alphabet: &Alphabet, table: Option<&Table>, meant: &Meant) -> Self {
        let Some(table) = table else {
            return Self {
                findings: Vec::new(),
                letters: Vec::new(),
                meant: Vec::new(),
                familiar: false,
                note: Some(
                    "The lab could not load what it has learned of well-made alphabets, so it \
                     judges nothing. Load the page again."
                        .into(),
                ),
            };
        };
        let judgement = Judgement::of(alphabet, table, meant);
        let note = (!judgement.familiar).then(|| {
            "This font is unlike any that the lab learned from. Its letters are held against the \
             medians of like letters of its own, and only what lies far beyond their scatter is told."
                .into()
        });
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
            findings: judgement
                .at(MOST_BY_CHANCE)
                .filter_map(|f| FindingReport::of(f, alphabet))
                .collect(),
            letters,
            meant: reports(&judgement.meant, alphabet),
            familiar: judgement.familiar,
            note,
        }
    }

    /// Adds the letters that have more points than the font's own economy
    /// takes, from how many each has and needs. They come first: such a habit
    /// is no lottery.
    #[must_use]
    pub fn with_points(mut self, alphabet: &Alphabet, letters: &[Drawn], meant: &Meant) -> Self {
        let (so, not): (Vec<Finding>, Vec<Finding>) = spendthrifts(letters)
            .into_iter()
            .partition(|f| meant.holds(f.letter, f.cause));
        self.findings.splice(..0, reports(&not, alphabet));
        self.meant.splice(..0, reports(&so, alphabet));
        self
    }
}

fn reports(findings: &[Finding], alphabet: &Alphabet) -> Vec<FindingReport> {
    let of = |f| FindingReport::of(f, alphabet);
    findings.iter().filter_map(of).collect()
}

impl FindingReport {
    /// A finding of an alphabet; `None` if it has no such letter.
    pub(super) fn of(f: &Finding, alphabet: &Alphabet) -> Option<Self> {
        let (low, high) = f.would_sit();
        Some(Self {
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
    }
}

/// What the reviewer says is meant so.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct MeantSo {
    /// The letter.
    pub letter: String,
    /// The matter of it, or `null` for the whole letter.
    pub cause: Option<Cause>,
}

impl MeantSo {
    /// A list of them as the judgement takes it; what is no letter is passed over.
    pub fn gathered(all: &[Self]) -> Meant {
        all.iter()
            .filter_map(|m| {
                let mut letters = m.letter.chars();
                let (letter, None) = (letters.next()?, letters.next()) else {
                    return None;
                };
                Some((letter, m.cause.map(Matter::from)))
            })
            .collect()
    }
}

impl LetterReport {
    /// How many points the letter has and needs, for
    /// [`JudgementReport::with_points`].
    pub fn drawn(&self) -> Option<Drawn> {
        let drawing = self.drawing.as_ref()?;
        Some(Drawn {
            letter: self.character.as_ref()?.chars().next()?,
            points: drawing.drawn,
            needed: drawing.within_half.points,
        })
    }
}

impl From<Cause> for Matter {
    fn from(cause: Cause) -> Self {
        use judge::Cause as Of;
        Self::Shape(match cause {
            Cause::Points => return Self::Points,
            Cause::Width => Of::Width,
            Cause::Strokes => Of::Strokes,
            Cause::Uprights => Of::Uprights,
            Cause::Levels => Of::Levels,
            Cause::Overshoot => Of::Overshoot,
            Cause::Left => Of::Left,
            Cause::Right => Of::Right,
            Cause::Pair => Of::Pair,
            Cause::Raised => Of::Raised,
        })
    }
}

impl From<Matter> for Cause {
    fn from(matter: Matter) -> Self {
        use judge::Cause as Of;
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
