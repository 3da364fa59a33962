//! Two revisions held against each other, for the page and for files.

use super::build::point;
use super::{FindingReport, Point};
use crate::compare::{self, Entry, Fate, Kind, Matched, Motion, Part, Told};
use crate::font::Font;
use crate::judge::{Alphabet, Drawn, Judgement, Matter, Meant, Table};
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// One revision: a font with its alphabet measured.
#[derive(Debug, Clone, Copy)]
pub struct Revision<'a> {
    /// The font.
    pub font: &'a Font,
    /// Its letters, measured.
    pub alphabet: &'a Alphabet,
}

/// What the findings of both revisions are judged by.
#[derive(Debug, Clone, Copy)]
pub struct JudgedBy<'a> {
    /// What was learned of well-made alphabets.
    pub table: &'a Table,
    /// The strictness: so many letters of a sound alphabet are named by mistake.
    pub false_alarms: f64,
    /// What the reviewer says is meant so.
    pub meant: &'a Meant,
}

/// A glyph, by what leads to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct GlyphEntry {
    /// Its index in its own revision.
    pub glyph: u16,
    /// The character that leads to it, if any does.
    pub character: Option<String>,
    /// Its name, if the font has names.
    pub name: Option<String>,
}

impl From<&Entry> for GlyphEntry {
    fn from(e: &Entry) -> Self {
        Self {
            glyph: e.glyph.0,
            character: e.character.map(String::from),
            name: e.name.clone(),
        }
    }
}

/// In what way a letter changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum ChangeKind {
    /// Its shape.
    Shape,
    /// Where it stands on its advance width, or how wide that is.
    Spacing,
    /// The same shape with other points.
    Points,
    /// It can be read in one revision alone.
    Trouble,
}

/// A stretch of an outline that lies where the other revision's does not.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct MovedPart {
    /// Index of its segment in its outline.
    pub segment: u32,
    /// Where it begins on the segment, 0 to 1.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// The stretch as SVG path data, font units, y up.
    pub path: String,
}

impl From<&Part> for MovedPart {
    fn from(p: &Part) -> Self {
        Self {
            segment: p.segment as u32,
            from: p.from,
            to: p.to,
            path: p.path.to_svg(),
        }
    }
}

/// A figure before and after, in the later revision's units.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct FigureChange {
    /// The quantity's id.
    pub id: &'static str,
    /// What it was; `null` where the letter had none.
    pub old: Option<f64>,
    /// What it is.
    pub new: Option<f64>,
}

/// A letter that changed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct LetterChange {
    /// It in the earlier revision.
    pub old: GlyphEntry,
    /// It in the later revision.
    pub new: GlyphEntry,
    /// In what way it changed.
    pub kind: ChangeKind,
    /// The greatest move of its outline, font units, within a fiftieth of one;
    /// 0 where only advance or points changed, `null` where ink came or went.
    pub greatest: Option<f64>,
    /// Where that is.
    pub at: Option<Point>,
    /// Parts of the later outline where the earlier one did not run.
    pub came: Vec<MovedPart>,
    /// Parts of the earlier outline where the later one does not run.
    pub left: Vec<MovedPart>,
    /// The earlier outline as SVG path data, later units, y up.
    pub old_path: String,
    /// The later outline likewise.
    pub new_path: String,
    /// Every figure that either has.
    pub figures: Vec<FigureChange>,
}

impl LetterChange {
    fn of(change: &compare::Change) -> Self {
        let Motion {
            greatest,
            at,
            came,
            left,
        } = &change.motion;
        Self {
            old: (&change.pair.old).into(),
            new: (&change.pair.new).into(),
            kind: match change.kind {
                Kind::Shape => ChangeKind::Shape,
                Kind::Spacing => ChangeKind::Spacing,
                Kind::Points => ChangeKind::Points,
                Kind::Trouble => ChangeKind::Trouble,
            },
            greatest: *greatest,
            at: at.map(point),
            came: came.iter().map(MovedPart::from).collect(),
            left: left.iter().map(MovedPart::from).collect(),
            old_path: change.old.to_bez_path().to_svg(),
            new_path: change.new.to_bez_path().to_svg(),
            figures: change
                .figures
                .iter()
                .map(|f| FigureChange {
                    id: f.id,
                    old: f.old,
                    new: f.new,
                })
                .collect(),
        }
    }
}

/// What became of a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum FindingFate {
    /// It is no longer told.
    Settled,
    /// It is still there, and less.
    Better,
    /// It is as it was.
    Same,
    /// It is still there, and more.
    Worse,
    /// It was not told before.
    New,
}

impl From<Fate> for FindingFate {
    fn from(fate: Fate) -> Self {
        match fate {
            Fate::Settled => Self::Settled,
            Fate::Better => Self::Better,
            Fate::Same => Self::Same,
            Fate::Worse => Self::Worse,
            Fate::New => Self::New,
        }
    }
}

/// A finding of either revision, with what became of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct FatedFinding {
    /// What became of it.
    pub fate: FindingFate,
    /// As the earlier revision had it; `null` of a new one.
    pub old: Option<FindingReport>,
    /// As the later one has it; `null` where nothing like it is found.
    pub new: Option<FindingReport>,
}

impl Told for FindingReport {
    fn letter(&self) -> char {
        // A finding is of a letter: a record without one is of none that is known.
        self.letter.chars().next().unwrap_or('\u{fffd}')
    }

    fn cause(&self) -> Matter {
        self.cause.into()
    }

    fn difference(&self) -> f64 {
        self.difference
    }

    fn spreads(&self) -> f64 {
        self.spreads
    }

    fn by_chance(&self) -> f64 {
        self.by_chance
    }
}

impl FatedFinding {
    /// What became of findings that were kept as they were told, at a strictness.
    /// Of the later revision all are needed, also those too faint to be told.
    pub fn all(old: &[FindingReport], new: &[FindingReport], false_alarms: f64) -> Vec<Self> {
        compare::fates(old, new, false_alarms)
            .into_iter()
            .map(|fated| Self {
                fate: fated.fate.into(),
                old: fated.old.cloned(),
                new: fated.new.cloned(),
            })
            .collect()
    }
}

/// What changed between two revisions. Lengths are the later revision's units.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct CompareReport {
    /// Units per em of the later revision.
    pub units_per_em: u16,
    /// Letters in both that changed.
    pub changed: Vec<LetterChange>,
    /// How many letters in both are the same.
    pub same: u32,
    /// Letters in the later revision alone.
    pub added: Vec<GlyphEntry>,
    /// Letters in the earlier revision alone.
    pub gone: Vec<GlyphEntry>,
    /// What became of the findings: the earlier ones in their order, then new ones.
    pub findings: Vec<FatedFinding>,
    /// Things to know of the comparison, each a sentence.
    pub notes: Vec<String>,
}

impl CompareReport {
    /// Holds a later revision against an earlier one. Without what was learned
    /// nothing is judged.
    pub fn of(old: Revision<'_>, new: Revision<'_>, judged_by: Option<JudgedBy<'_>>) -> Self {
        let matched = compare::matched(old.font, new.font);
        let changed: Vec<LetterChange> = compare::letters(
            (old.font, old.alphabet.context()),
            (new.font, new.alphabet.context()),
            &matched,
        )
        .iter()
        .map(LetterChange::of)
        .collect();
        Self {
            units_per_em: new.font.units_per_em(),
            same: (matched.pairs.len() - changed.len()) as u32,
            changed,
            added: matched.added.iter().map(GlyphEntry::from).collect(),
            gone: matched.gone.iter().map(GlyphEntry::from).collect(),
            findings: judged_by
                .map(|by| findings(old, new, by))
                .unwrap_or_default(),
            notes: notes(old.font, new.font, &matched, judged_by.is_some()),
        }
    }
}

fn findings(old: Revision<'_>, new: Revision<'_>, by: JudgedBy<'_>) -> Vec<FatedFinding> {
    let judged = |r: Revision<'_>| {
        let drawn = Drawn::of(r.font, r.alphabet);
        Judgement::of(r.alphabet, by.table, by.meant)
            .with_points(&drawn, by.meant)
            .findings
    };
    let (before, after) = (judged(old), judged(new));
    compare::fates(&before, &after, by.false_alarms)
        .into_iter()
        .map(|fated| FatedFinding {
            fate: fated.fate.into(),
            old: fated.old.and_then(|f| FindingReport::of(f, old.alphabet)),
            new: fated.new.and_then(|f| FindingReport::of(f, new.alphabet)),
        })
        .collect()
}

fn notes(old: &Font, new: &Font, matched: &Matched, judged: bool) -> Vec<String> {
    let mut notes = Vec::new();
    let family = |font: &Font| font.names().family.clone();
    if let (Some(a), Some(b)) = (family(old), family(new))
        && a != b
    {
        notes.push(format!(
            "The two files name themselves differently: {a} and {b}. They may not be \
             revisions of one font."
        ));
    }
    let (a, b) = (old.units_per_em(), new.units_per_em());
    if a != b {
        notes.push(format!(
            "The earlier revision has {a} units per em, the later one {b}; its figures are \
             brought to the later one's."
        ));
    }
    if matched.nameless > 0 {
        notes.push(format!(
            "{} glyphs have neither a character nor a name, so the lab cannot tell which is \
             which; they are not compared.",
            matched.nameless
        ));
    }
    if !judged {
        notes.push(
            "The lab could not load what it has learned of well-made alphabets, so no finding \
             is told. Load the page again."
                .to_owned(),
        );
    }
    notes
}
