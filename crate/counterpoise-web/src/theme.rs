//! The stage's colours and type, all handed over by the page, which knows
//! whether it is dark or light and what the person asked of the system.

use serde::{Deserialize, Serialize};
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// Colours as CSS strings (any that a canvas takes) and the type of the labels.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct Theme {
    /// The stage's ground.
    pub paper: String,
    /// Letters.
    pub ink: String,
    /// A letter laid over another: its outline, hatching and tint. Must stand
    /// out from `ink` and from `paper`.
    pub over: String,
    /// Frame and name of a chosen letter.
    pub chosen: String,
    /// Mark of a pinned letter.
    pub pinned: String,
    /// Guides as drawn, with their names.
    pub guide: String,
    /// Guides as declared, where they differ.
    pub declared: String,
    /// Overshoot bands.
    pub band: String,
    /// Middle lines and thickness marks on strokes. Must stand out from `ink`.
    pub stroke: String,
    /// Points and handles of outlines.
    pub point: String,
    /// Amounts of overshoot, with their ticks.
    pub overshoot: String,
    /// Brackets of widths.
    pub width: String,
    /// Refits, with the points that they keep and set. Must stand out from
    /// `ink` and from `paper`.
    pub refit: String,
    /// Flaws of drawing.
    pub flaw: String,
    /// The calliper.
    pub calliper: String,
    /// A deviation above what is expected.
    pub above: String,
    /// A deviation below it.
    pub below: String,
    /// Zero lines and other fine rules.
    pub rule: String,
    /// Text of labels.
    pub label: String,
    /// Ground behind labels, so that they read over ink: usually `paper`.
    pub halo: String,
    /// The gap that a missing letter leaves.
    pub missing: String,
    /// CSS font families of the labels.
    pub font: String,
    /// Size of the labels, CSS pixels, 9 to 24.
    pub font_size: f64,
}

impl Theme {
    /// Every colour.
    pub(crate) fn colours(&self) -> [&str; 21] {
        [
            &self.paper,
            &self.ink,
            &self.over,
            &self.chosen,
            &self.pinned,
            &self.guide,
            &self.declared,
            &self.band,
            &self.stroke,
            &self.point,
            &self.overshoot,
            &self.width,
            &self.refit,
            &self.flaw,
            &self.calliper,
            &self.above,
            &self.below,
            &self.rule,
            &self.label,
            &self.halo,
            &self.missing,
        ]
    }
}

impl Default for Theme {
    /// Ink on paper, until the page has said what it wears.
    fn default() -> Self {
        let [ink, paper] = ["#000", "#fff"].map(str::to_owned);
        Self {
            paper: paper.clone(),
            ink: ink.clone(),
            over: ink.clone(),
            chosen: ink.clone(),
            pinned: ink.clone(),
            guide: ink.clone(),
            declared: ink.clone(),
            band: "transparent".to_owned(),
            stroke: paper.clone(),
            point: ink.clone(),
            overshoot: ink.clone(),
            width: ink.clone(),
            refit: ink.clone(),
            flaw: ink.clone(),
            calliper: ink.clone(),
            above: ink.clone(),
            below: ink.clone(),
            rule: ink.clone(),
            label: ink.clone(),
            halo: paper,
            missing: ink,
            font: "sans-serif".to_owned(),
            font_size: 12.0,
        }
    }
}
