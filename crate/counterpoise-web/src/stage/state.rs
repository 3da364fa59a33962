//! What the stage answers: its whole state, as a toolbar, a text field and a
//! live region need it. Lengths are font units, y up, unless a comment says CSS
//! pixels.

use super::command::{FindingKey, ItemId, Layers, Spacing, Tool, Within};
use counterpoise::report::Point;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// All that a toolbar, a text field and a live region need to know.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct StageState {
    /// The line's text; U+FFFC for a glyph without a character.
    pub text: String,
    /// The letters, in the order of the line.
    pub items: Vec<ItemState>,
    /// Characters of the text that the font lacks, each once.
    pub missing: Vec<String>,
    /// What the pointer does.
    pub tool: Tool,
    /// Where the view is.
    pub view: ViewState,
    /// How far apart the letters stand.
    pub spacing: Spacing,
    /// Which layers are shown.
    pub layers: Layers,
    /// How near the refit keeps to the outline.
    pub refit_within: Within,
    /// The letter that stands out of the line's texture; `null` if none does,
    /// or while [`Layer::Texture`](super::command::Layer::Texture) is hidden.
    pub standout: Option<Standout>,
    /// How even the white of the line is; `null` while [`Layer::White`](super::command::Layer::White) is hidden.
    pub rhythm: Option<RhythmState>,
    /// The finding that stands on the stage; `null` if none does.
    pub finding: Option<FindingKey>,
    /// Blur as a share of the x-height; 0 if sharp.
    pub blur: f64,
    /// The reading sizes shown, CSS pixels an em.
    pub reading: Vec<f64>,
    /// The calliper and what it reads, if it lies on the stage.
    pub calliper: Option<CalliperState>,
    /// Name of the step that Undo would take back; `null` if there is none.
    pub undo: Option<String>,
    /// Name of the step that Redo would do again; `null` if there is none.
    pub redo: Option<String>,
    /// True while a gesture is under way: Undo and Redo are refused.
    pub in_gesture: bool,
    /// What happened last, in a sentence, for a live region.
    pub status: String,
}

/// One letter on the stage.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct ItemState {
    /// Its number.
    pub id: ItemId,
    /// Its character; `null` for a glyph without one.
    pub character: Option<String>,
    /// Its glyph; `null` if the font lacks the character.
    pub glyph: Option<u16>,
    /// What to call it: the character, else the glyph's name or number.
    pub label: String,
    /// Where its origin stands.
    pub x: f64,
    /// Its advance width.
    pub advance: f64,
    /// How far it has been moved from its own place in the line, to the right
    /// positive; `null` if it stands there.
    pub moved: Option<f64>,
    /// Pinned: cannot be moved, and the others are compared with it.
    pub pinned: bool,
    /// Mirrored left to right.
    pub mirrored: bool,
    /// Turned upside down.
    pub turned: bool,
    /// Chosen.
    pub selected: bool,
}

/// How even the white of the line is.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct RhythmState {
    /// How far apart the eye takes neighbours to be, in the middle of the line.
    pub distance: f64,
    /// How far pairs commonly lie from that, as a share of it; `null` of a line
    /// of too few pairs.
    pub unevenness: Option<f64>,
    /// In words, with the pairs that break it.
    pub sentence: String,
}

/// A letter that stands out of the line's texture.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct Standout {
    /// The letter.
    pub item: ItemId,
    /// How much darker than the line's median it looks, as a share of it;
    /// below nought if it looks lighter.
    pub share: f64,
    /// The same in the spreads of the line.
    pub spreads: f64,
    /// In words.
    pub sentence: String,
}

/// Where the view is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct ViewState {
    /// CSS pixels a font unit.
    pub scale: f64,
    /// CSS pixels an em: the size that the letters are shown at.
    pub em: f64,
    /// Where the point (0, 0) of the line stands, CSS pixels.
    pub origin: [f64; 2],
    /// True while the view shows the whole line and follows the text.
    pub fitted: bool,
}

/// The calliper and what it reads.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct CalliperState {
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// Its length.
    pub length: f64,
    /// Its direction in degrees, anticlockwise from the direction of reading,
    /// in (-180, 180].
    pub angle: f64,
    /// Ink and white that it crosses, alternately, from its start.
    pub intervals: Vec<Interval>,
}

/// A stretch of ink or white under the calliper.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct Interval {
    /// True for ink, false for white.
    pub ink: bool,
    /// Distance of its beginning from the calliper's start.
    pub start: f64,
    /// Its length along the calliper.
    pub length: f64,
    /// True if it runs on past the calliper's end: its length is then where
    /// the calliper was laid, not a measure of the letter.
    pub open: bool,
    /// The letters whose ink it is; those at its two edges if it is white.
    pub letters: Vec<ItemId>,
}
