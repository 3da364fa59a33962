//! The stage's vocabulary: what can be asked of it, and what it answers.
//!
//! Every change to the stage is one [`Command`], whether it comes from a
//! button, a key or a script; a pointer's gesture ends as the same change.
//! Lengths are font units, y up, baseline at 0, unless a name or a comment says
//! CSS pixels, which count from the canvas's upper left corner, y down.

use counterpoise::judge::Drawn;
use counterpoise::report::{Cause, Point};
use serde::{Deserialize, Serialize};
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// A letter on the stage. It keeps its number through every edit of the text,
/// so that what was done to the letter stays with it. Never used twice.
pub type ItemId = u32;

/// What can be asked of the stage.
///
/// Commands that act on "the chosen letters" leave pinned ones where they
/// stand. A command that cannot be done is refused with a [`Refusal`] and
/// changes nothing; one that would change nothing leaves no step to undo.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(
    tag = "type",
    rename_all = "camelCase",
    rename_all_fields = "camelCase"
)]
pub enum Command {
    /// Sets the line's text. Letters that stay in the text keep their number,
    /// and all that was done to them. A glyph without a character stands in the
    /// text as U+FFFC.
    SetText {
        /// The whole new text. Line ends are dropped: the stage has one line.
        text: String,
    },
    /// Adds letters to the line and chooses them.
    Insert {
        /// The letters, in order.
        letters: Vec<Choice>,
        /// The letter that they follow; at the line's end if not given.
        #[serde(default)]
        #[cfg_attr(feature = "typescript", ts(optional = nullable))]
        after: Option<ItemId>,
    },
    /// Adds a copy of each chosen letter behind it, and chooses the copies.
    Duplicate,
    /// Takes the chosen letters off the line, pinned ones too.
    Remove,

    /// Chooses these letters and no others.
    Select {
        /// The letters to choose; none to choose nothing.
        items: Vec<ItemId>,
    },
    /// Chooses every letter.
    SelectAll,
    /// Moves the choice to the next letter of the line, round its end.
    SelectNext {
        /// To the letter before instead.
        #[serde(default)]
        #[cfg_attr(feature = "typescript", ts(optional, as = "Option<bool>"))]
        backwards: bool,
        /// Keeps what is chosen and adds the next letter to it.
        #[serde(default)]
        #[cfg_attr(feature = "typescript", ts(optional, as = "Option<bool>"))]
        extend: bool,
    },

    /// Moves the chosen letters along the baseline.
    Nudge {
        /// How many steps, to the right if positive.
        steps: i32,
        /// How long a step is.
        step: Step,
    },
    /// Stands one letter at a place.
    Place {
        /// The letter.
        item: ItemId,
        /// Where its origin goes.
        x: f64,
    },
    /// Moves the chosen letters so that they line up with the pinned letter,
    /// or, if none is pinned, with the first chosen.
    Align {
        /// What lines up.
        by: Alignment,
    },
    /// Stands the chosen letters (all of them if none is chosen) in their own
    /// places in the line again, upright and the right way round.
    ResetPlaces,
    /// Pins the chosen letters where they stand, or lets them go. A pinned
    /// letter cannot be moved; the others are compared with it.
    Pin {
        /// False to let go.
        pinned: bool,
    },
    /// Mirrors the chosen letters left to right, about the middle of their ink.
    Mirror,
    /// Turns the chosen letters upside down (by 180 degrees), about the middle
    /// of their ink and of the height between the baseline and the x-height
    /// (small letters) or the cap height (others).
    Turn,

    /// Sets the line anew with the letter of a finding between the letters that
    /// it is compared with, and chooses it. Findings that are stood up one after
    /// another are one step: undo brings back the line before the first.
    StandFinding {
        /// Which.
        finding: FindingKey,
    },

    /// Chooses how far apart the letters stand.
    SetSpacing {
        /// By what.
        spacing: Spacing,
    },
    /// Shows or hides one layer.
    ShowLayer {
        /// Which.
        layer: Layer,
        /// Shown or hidden.
        shown: bool,
    },
    /// Chooses how near to the outline the refit keeps that [`Layer::Refit`] shows.
    SetRefit {
        /// How near.
        within: Within,
    },
    /// Blurs the ink, as a reader's eye does.
    SetBlur {
        /// The blur's standard deviation as a share of the x-height, 0 (sharp) to 0.4.
        share: f64,
    },
    /// Sets the line again at reading sizes, in rows above the stage's foot.
    SetReading {
        /// Size of each row in CSS pixels an em, 6 to 96; none to hide the rows. At most 6.
        sizes: Vec<f64>,
    },

    /// Chooses what the pointer does. Leaves no step to undo.
    SetTool {
        /// The tool.
        tool: Tool,
    },
    /// Lays the calliper across the stage, or moves it.
    LayCalliper {
        /// Where it starts.
        from: Point,
        /// Where it ends.
        to: Point,
    },
    /// Moves the calliper or one end of it. Without a calliper, lays one across
    /// the chosen letters (all if none is chosen) at half the x-height.
    MoveCalliper {
        /// What moves.
        part: CalliperPart,
        /// Steps to the right.
        right: i32,
        /// Steps upwards.
        up: i32,
        /// How long a step is.
        step: Step,
    },
    /// Turns the calliper about its middle until it lies level or stands upright.
    TurnCalliper {
        /// Which way it lies then.
        to: Lie,
    },
    /// Takes the calliper away.
    LiftCalliper,

    /// Moves the view.
    Pan {
        /// CSS pixels that the letters move to the right.
        dx: f64,
        /// CSS pixels that the letters move down.
        dy: f64,
    },
    /// Brings the view nearer or farther.
    Zoom {
        /// Above 1 nearer, below 1 farther.
        factor: f64,
        /// The place in CSS pixels that stays put; the stage's middle if not given.
        #[serde(default)]
        #[cfg_attr(feature = "typescript", ts(optional = nullable))]
        at: Option<[f64; 2]>,
    },
    /// Shows the whole line.
    Fit,
    /// Shows the chosen letters as large as they go.
    FitChosen,

    /// Takes back the last step. Refused while a letter is being dragged.
    Undo,
    /// Does the step again that was taken back. Refused likewise.
    Redo,
    /// Gives up the gesture under way and puts everything back as it was
    /// before; without a gesture, chooses nothing. The Escape key.
    Cancel,
}

/// A letter to add: by its character or by its glyph.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum Choice {
    /// Every character of this string.
    Text(String),
    /// The glyph of this index.
    Glyph(u16),
}

/// How far one press of a key moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum Step {
    /// One font unit.
    Unit,
    /// Ten font units.
    TenUnits,
    /// A tenth of the em.
    TenthEm,
}

/// What of two letters is brought to the same place along the baseline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum Alignment {
    /// The left edge of the ink.
    LeftEdge,
    /// The left edge of the main stem; of the left-hand curve of a round letter.
    StemLeft,
    /// The middle of the main stem; of the left-hand curve of a round letter.
    StemCentre,
    /// The middle of the ink.
    InkCentre,
    /// The right edge of the ink.
    RightEdge,
}

/// What can be shown or hidden.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum Layer {
    /// The letters' ink.
    Fill,
    /// The letters' outlines.
    Outline,
    /// The outlines' points and handles.
    Points,
    /// The strokes, with their thickness written on them.
    Strokes,
    /// Baseline, x-height and the other guides, with the overshoot bands.
    Guides,
    /// The deviations under each letter.
    Strip,
    /// How far tops and feet pass their guides or fall short of them.
    Overshoot,
    /// Widths as brackets under each letter.
    Widths,
    /// The refit with the fewest points over the outline, and the points that
    /// it does without.
    Refit,
    /// Flaws of drawing, each at its place.
    Flaws,
    /// The line as a blurred eye sees it, in the ink's place, with the letter
    /// that stands out.
    Texture,
    /// What was measured and what was expected of the letter whose finding
    /// stands on the stage.
    Findings,
    /// The white between neighbours, and where the line's rhythm breaks.
    White,
}

/// How far apart the letters of the line stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum Spacing {
    /// By their own side bearings: the coarse setting comes first.
    #[default]
    Bearings,
    /// With the font's own kerning between them.
    Kerned,
    /// As the lab suggests.
    Suggested,
}

/// What a spacing adds to the font's own side bearings, font units.
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct Fitting {
    /// Glyphs, with what is added at the left side and at the right.
    pub sides: Vec<(u16, f64, f64)>,
    /// Pairs of glyphs, left and right, with what is added between them.
    pub pairs: Vec<(u16, u16, f64)>,
}

/// A finding by what it says, whatever else is found beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct FindingKey {
    /// The letter's glyph.
    pub glyph: u16,
    /// What is the matter with it.
    pub cause: Cause,
}

/// How many points a letter has, and how many its shape needs.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct PointCount {
    /// The letter.
    pub letter: String,
    /// On and off the curve, as drawn.
    pub points: u32,
    /// What draws the same shape within half a thousandth of the em.
    pub needed: u32,
}

impl PointCount {
    /// As the judgement takes it; `None` of what is no single letter.
    pub(crate) fn drawn(&self) -> Option<Drawn> {
        let mut letters = self.letter.chars();
        let (letter, None) = (letters.next()?, letters.next()) else {
            return None;
        };
        let (points, needed) = (self.points, self.needed);
        Some(Drawn {
            letter,
            points,
            needed,
        })
    }
}

/// How near a refit keeps to the outline.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum Within {
    /// Half a thousandth of the em.
    #[default]
    Half,
    /// Two thousandths of the em.
    Two,
}

/// Which layers are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct Layers {
    /// See [`Layer::Fill`].
    pub fill: bool,
    /// See [`Layer::Outline`].
    pub outline: bool,
    /// See [`Layer::Points`].
    pub points: bool,
    /// See [`Layer::Strokes`].
    pub strokes: bool,
    /// See [`Layer::Guides`].
    pub guides: bool,
    /// See [`Layer::Strip`].
    pub strip: bool,
    /// See [`Layer::Overshoot`].
    pub overshoot: bool,
    /// See [`Layer::Widths`].
    pub widths: bool,
    /// See [`Layer::Refit`].
    pub refit: bool,
    /// See [`Layer::Flaws`].
    pub flaws: bool,
    /// See [`Layer::Texture`].
    pub texture: bool,
    /// See [`Layer::Findings`].
    pub findings: bool,
    /// See [`Layer::White`].
    pub white: bool,
}

/// What the pointer does on the stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum Tool {
    /// Drags letters along the baseline; drags the view from an empty place.
    Letters,
    /// Draws the calliper, or moves it by its line or by one end.
    Calliper,
}

/// What of the calliper moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum CalliperPart {
    /// The whole line.
    Whole,
    /// The end where it starts.
    From,
    /// The end where it ends.
    To,
}

/// How a line lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum Lie {
    /// Along the baseline.
    Level,
    /// At right angles to it.
    Upright,
}

/// A pointer's event on the canvas.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct PointerInput {
    /// What happened.
    pub phase: PointerPhase,
    /// The pointer's number: `PointerEvent.pointerId`.
    pub id: i32,
    /// CSS pixels from the canvas's left edge.
    pub x: f64,
    /// CSS pixels from the canvas's upper edge.
    pub y: f64,
    /// What kind of pointer.
    pub kind: PointerKind,
    /// `PointerEvent.button`: 0 the main one, 1 the middle one, 2 the other.
    pub button: i16,
    /// Shift is held: adds to the choice; keeps the calliper level or upright.
    pub shift: bool,
    /// Control or Command is held: adds to the choice.
    pub ctrl: bool,
    /// Alt is held: nothing snaps.
    pub alt: bool,
}

/// What a pointer did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum PointerPhase {
    /// Pressed.
    Down,
    /// Moved, pressed or not.
    Move,
    /// Let go.
    Up,
    /// Taken away by the system.
    Cancel,
}

/// What kind of pointer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum PointerKind {
    /// A mouse.
    Mouse,
    /// A pen.
    Pen,
    /// A finger.
    Touch,
}

/// Why something was not done. Thrown to JavaScript as this plain object.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct Refusal {
    /// A name for this kind of refusal that never changes, for scripts.
    pub code: String,
    /// What is wrong and what to do next, for the person.
    pub sentence: String,
}
