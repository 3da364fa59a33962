//! What stands on the stage. Plain data: everything here can be undone.

use super::command::{FindingKey, ItemId, Layer, Layers, Spacing, Within};
use kurbo::{Point, Rect};

/// The farthest that anything may stand from the line's beginning, font units:
/// some sixty ems of the largest fonts. Far enough for any line, near enough
/// that sums of places keep their last digit.
pub(crate) const FAR: f64 = 1e6;

/// The nearest point that is not too far: lengths there are exact.
pub(crate) fn near(p: Point) -> Point {
    Point::new(p.x.clamp(-FAR, FAR), p.y.clamp(-FAR, FAR))
}

/// The most letters on the line. A stage is for comparing; past this, each
/// frame would take longer than the eye allows.
pub(crate) const MOST_LETTERS: usize = 2000;

/// A letter of the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Item {
    pub(crate) id: ItemId,
    /// `None` for a glyph that was chosen by its index.
    pub(crate) character: Option<char>,
    /// `None` if the font lacks the character.
    pub(crate) glyph: Option<u16>,
    pub(crate) advance: f64,
    /// Where its origin stands, if not in its own place in the line.
    pub(crate) place: Option<f64>,
    /// Letters that were moved later lie over those moved earlier.
    pub(crate) lift: u32,
    pub(crate) pinned: bool,
    pub(crate) mirrored: bool,
    pub(crate) turned: bool,
    /// Its embedding level: odd ones are read from right to left.
    pub(crate) level: u8,
    /// How far it stands right of its place and above the baseline by the font's
    /// rules, as a mark does over its letter.
    pub(crate) shift: (i32, i32),
}

/// Stands in the text for a glyph without a character.
pub(crate) const OBJECT: char = '\u{FFFC}';

impl Item {
    /// Whether the font lacks it. What a ligature has taken in has no glyph either,
    /// and no room.
    pub(crate) fn is_missing(&self) -> bool {
        self.glyph.is_none() && self.advance > 0.0
    }

    /// The character that stands for it in the text.
    pub(crate) fn sign(&self) -> char {
        self.character.unwrap_or(OBJECT)
    }
}

/// The line and how it is looked at.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Scene {
    pub(crate) items: Vec<Item>,
    pub(crate) setting: Setting,
}

/// All of the scene but its letters.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Setting {
    /// Where the line begins. Nought, unless letters were added before ones
    /// that have places of their own.
    pub(crate) start: f64,
    pub(crate) view: View,
    pub(crate) spacing: Spacing,
    pub(crate) layers: Layers,
    pub(crate) refit_within: Within,
    /// Standard deviation as a share of the x-height.
    pub(crate) blur: f64,
    /// CSS pixels an em, a row each.
    pub(crate) reading: Vec<f64>,
    pub(crate) calliper: Option<Calliper>,
    /// The finding that was stood up.
    pub(crate) finding: Option<FindingKey>,
}

/// What of the stage is seen, whatever the canvas's size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum View {
    /// This part of the stage, as large as it goes. It follows the text.
    Fit(Rect),
    /// Chosen by hand: CSS pixels a font unit, and the place at the middle.
    At { scale: f64, centre: Point },
}

/// The calliper's line, from end to end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Calliper {
    pub(crate) from: Point,
    pub(crate) to: Point,
}

impl Default for Scene {
    fn default() -> Self {
        Self {
            items: Vec::new(),
            setting: Setting {
                start: 0.0,
                view: View::Fit(Rect::ZERO),
                spacing: Spacing::default(),
                layers: Layers {
                    fill: true,
                    outline: false,
                    points: false,
                    strokes: true,
                    guides: true,
                    strip: true,
                    overshoot: false,
                    widths: false,
                    refit: false,
                    flaws: false,
                    texture: false,
                    findings: true,
                    white: false,
                },
                refit_within: Within::Half,
                blur: 0.0,
                reading: Vec::new(),
                calliper: None,
                finding: None,
            },
        }
    }
}

impl Scene {
    /// The letter of this number.
    pub(crate) fn item(&self, id: ItemId) -> Option<&Item> {
        self.items.iter().find(|i| i.id == id)
    }

    /// The highest lift on the line.
    pub(crate) fn highest_lift(&self) -> u32 {
        self.items.iter().map(|i| i.lift).max().unwrap_or(0)
    }
}

impl Layers {
    /// Shows or hides one layer.
    pub(crate) fn set(&mut self, layer: Layer, shown: bool) {
        let field = match layer {
            Layer::Fill => &mut self.fill,
            Layer::Outline => &mut self.outline,
            Layer::Points => &mut self.points,
            Layer::Strokes => &mut self.strokes,
            Layer::Guides => &mut self.guides,
            Layer::Strip => &mut self.strip,
            Layer::Overshoot => &mut self.overshoot,
            Layer::Widths => &mut self.widths,
            Layer::Refit => &mut self.refit,
            Layer::Flaws => &mut self.flaws,
            Layer::Texture => &mut self.texture,
            Layer::Findings => &mut self.findings,
            Layer::White => &mut self.white,
        };
        *field = shown;
    }
}
