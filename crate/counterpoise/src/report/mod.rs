//! Findings of the lab as plain structs: the API boundary.
//!
//! The page, scripts and exported files read these; the rooms below keep their
//! own types. Lengths are font units, y up, baseline at 0; angles are degrees,
//! anticlockwise from the direction of reading. A figure that could not be
//! taken is `null` or not there, never 0; none is NaN or infinite.

mod build;
mod choice;
mod compare;
mod contents;
mod document;
mod drawing;
mod eye;
mod figures;
mod findings;
mod finite;
mod lessons;
mod rules;
#[cfg(feature = "schema")]
mod schema;
mod sketched;
mod spacing;
mod spacing_document;
mod spacing_survey;
mod words;

pub use choice::{Choice, Chosen, Item};
pub use compare::{
    ChangeKind, CompareReport, FatedFinding, FigureChange, FindingFate, GlyphEntry, JudgedBy,
    LetterChange, MovedPart, Revision,
};
pub use contents::{ContentsReport, FeatureReport};
pub use document::{
    Document, FileError, FontEntry, Program, QuantityReport, SCHEMA_NAME, SCHEMA_VERSION,
    SchemaMark, Unit,
};
pub use drawing::{Drawing, Flaw, FlawBasis, FlawKind, Need};
pub use eye::{
    EyeAnswer, EyeFit, EyeLetter, EyeLevel, EyeMatter, EyeQuestion, EyeResult, EyeSetup,
};
pub use figures::{Figures, FontFigures, Summary};
pub use findings::{Cause, FindingReport, JudgementReport, MeantSo};
pub use lessons::{
    LessonFigure, LessonGuide, LessonLetter, LessonName, LessonPairs, LessonReport, LessonState,
    LessonUnit,
};
pub use rules::{Rule, RuleReport, RuledLetter, RulesReport, Stance};
#[cfg(feature = "schema")]
pub use schema::schema;
pub use sketched::{LooseLetter, NoPath, SketchReport};
pub use spacing::{
    KernFindingReport, KernMatter, KernPair, KernRule, KernSource, KerningReport, NewBearing,
    SideKind, SpacingLetter, SpacingReport, SpacingSide, SuggestedKern, SuggestionReport,
};
pub use spacing_document::SpacingDocument;
pub use spacing_survey::{MOST_LETTERS, SpacingSurvey};

pub use words::{WordMark, WordPicture, WordReport};

#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// A point in font units.
pub type Point = [f64; 2];

/// What a font file says of itself, and what its letters say.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct FontReport {
    /// Family name, as the file gives it; the file's name if it gives none.
    pub family: String,
    /// Style name ("Regular", "Bold Italic").
    pub style: String,
    /// The file's version string.
    pub version: Option<String>,
    /// Who drew it.
    pub designer: Option<String>,
    /// Who published it.
    pub manufacturer: Option<String>,
    /// Copyright line.
    pub copyright: Option<String>,
    /// Licence text or its first words.
    pub licence: Option<String>,
    /// Where the licence can be read.
    pub licence_url: Option<String>,
    /// Embedding rights (OS/2 fsType), in words; `null` if the file has no OS/2 table.
    pub embedding: Option<Embedding>,
    /// `"TrueType"`, `"CFF"` or `"CFF2"`.
    pub outlines: String,
    /// Which face of a collection this is, from 0.
    pub face_index: u32,
    /// How many faces the file holds.
    pub face_count: u32,
    /// Units per em.
    pub units_per_em: u16,
    /// Number of glyphs.
    pub glyph_count: u32,
    /// Number of characters that the font maps to a glyph.
    pub character_count: u32,
    /// Baseline, x-height, cap height, ascender, descender: as drawn and as declared.
    pub guides: Vec<Guide>,
    /// Slant of the upright strokes from the vertical, degrees, leaning right positive.
    pub slant: f64,
    /// Things about the file that its owner should know.
    pub notes: Vec<String>,
}

/// Embedding rights: OS/2 fsType (OpenType specification, OS/2 chapter).
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Embedding {
    /// The raw bits.
    pub bits: u16,
    /// The rights in a plain sentence.
    pub sentence: String,
    /// True where the font must not be embedded in a document at all.
    pub restricted: bool,
}

/// The horizontal lines that letters stand on or reach to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum GuideKind {
    /// Where flat-footed letters stand.
    Baseline,
    /// Top of flat lower-case letters without ascender.
    XHeight,
    /// Top of flat capitals.
    CapHeight,
    /// Top of the lower-case ascenders.
    Ascender,
    /// Foot of the lower-case descenders.
    Descender,
}

/// One guide: where the letters put it, and where the file says it is.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Guide {
    /// Which line.
    pub kind: GuideKind,
    /// Height as the letters are drawn; `null` if no letter shows it.
    pub drawn: Option<f64>,
    /// The letters that it was taken from.
    pub from: String,
    /// Height as the file declares it.
    pub declared: Option<f64>,
    /// Where round letters reach past it: the median overshoot's height.
    pub round: Option<f64>,
}

/// Shape of a letter's top or foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum Form {
    /// Ends in an edge that lies along the line.
    Flat,
    /// Ends in a curve that touches the line.
    Round,
    /// Ends in a corner.
    Pointed,
}

/// A letter's top or foot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Extremity {
    /// Flat, round or pointed.
    pub form: Form,
    /// Its height.
    pub y: f64,
    /// Where along the letter, at its middle.
    pub x: f64,
    /// Length of the flat edge; 0 for round and pointed ends.
    pub breadth: f64,
    /// How far past its guide (outward positive); `null` if the font shows no such guide.
    pub overshoot: Option<f64>,
}

/// A thickness at one place on a stroke.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Thickness {
    /// Perpendicular to the stroke.
    pub value: f64,
    /// One edge.
    pub from: Point,
    /// The other edge.
    pub to: Point,
}

/// How a stroke runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum StrokeKind {
    /// Straight and upright (along the font's slant).
    Stem,
    /// Straight and level.
    Bar,
    /// Straight and neither.
    Diagonal,
    /// Curved.
    Curve,
}

/// One stroke of a letter.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Stroke {
    /// How it runs.
    pub kind: StrokeKind,
    /// Median thickness along it.
    pub median: f64,
    /// Least thickness and where.
    pub least: Thickness,
    /// Greatest thickness and where.
    pub greatest: Thickness,
    /// Places that an artist would mark: the middle of a straight stroke; a
    /// curve's sides, top and foot, and its thickest places.
    pub marks: Vec<Thickness>,
    /// Length along the middle line.
    pub length: f64,
    /// Direction in degrees, 0 level, 90 upright, in [0, 180); `null` for a curve.
    pub angle: Option<f64>,
    /// The middle line.
    pub axis: Vec<Point>,
}

/// Bounding box of the ink.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Bounds {
    /// Left.
    pub x_min: f64,
    /// Foot.
    pub y_min: f64,
    /// Right.
    pub x_max: f64,
    /// Top.
    pub y_max: f64,
}

/// What can be held against the other letters of the font.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum Measure {
    /// Thickness of the main stroke.
    Weight,
    /// Ink width.
    Width,
    /// Ink height.
    Height,
}

/// How far a letter stands from what the font's other letters make one expect.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Deviation {
    /// What was measured.
    pub measure: Measure,
    /// This letter's figure.
    pub value: f64,
    /// What the other letters make one expect.
    pub expected: f64,
    /// How far letters of this font commonly lie from that.
    pub spread: f64,
    /// The letters that say most of it.
    pub beside: String,
}

/// The sides of a letter without its serifs: the uprights that bound it. In a
/// slanted face, where they stand on the baseline.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Sides {
    /// Left edge of the first upright and right edge of the last.
    pub outer: [f64; 2],
    /// Right edge of the first upright and left edge of the last, with the
    /// counter between them; `null` of a letter with one.
    pub inner: Option<[f64; 2]>,
}

/// Every measure of one letter.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct LetterReport {
    /// Glyph index in the font.
    pub glyph: u16,
    /// Glyph name, if the font has one.
    pub name: Option<String>,
    /// The character that leads to this glyph, if any.
    pub character: Option<String>,
    /// Advance width.
    pub advance: f64,
    /// White before the ink; `null` for a glyph without ink.
    pub left_bearing: Option<f64>,
    /// White after the ink.
    pub right_bearing: Option<f64>,
    /// Extent of the ink.
    pub bounds: Option<Bounds>,
    /// Area of the ink, overlaps counted once, square font units.
    pub area: f64,
    /// Its top.
    pub top: Option<Extremity>,
    /// Its foot.
    pub foot: Option<Extremity>,
    /// Its strokes, longest first.
    pub strokes: Vec<Stroke>,
    /// Its sides; `null` if it has no upright.
    pub sides: Option<Sides>,
    /// How its outline is drawn; `null` of a letter that could not be measured.
    pub drawing: Option<Drawing>,
    /// Its figures by the ids of the document's `quantities`, without those
    /// that it does not have.
    pub figures: Figures,
    /// What kept this glyph from being measured, in a sentence.
    pub trouble: Option<String>,
}
