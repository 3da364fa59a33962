//! The band in which a letter's darkness is read.

use super::{is_place, is_size};
use crate::measure::{Context, GuideKind};
use kurbo::Rect;

/// A level band between two heights, font units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    from: f64,
    to: f64,
}

impl Band {
    /// The band between two heights; `None` unless the second is the higher and
    /// a letter could reach both.
    pub fn new(from: f64, to: f64) -> Option<Self> {
        (is_place(from) && is_place(to) && is_size(to - from)).then_some(Self { from, to })
    }

    /// A character's band as its font draws it: from the baseline to the
    /// x-height for lower case, to the cap height for capitals and figures.
    /// `None` for other signs, and where the font does not show the heights.
    pub fn of(c: char, context: &Context) -> Option<Self> {
        let top = if c.is_lowercase() {
            GuideKind::XHeight
        } else if c.is_uppercase() || c.is_ascii_digit() {
            GuideKind::CapHeight
        } else {
            return None;
        };
        Self::new(context.drawn(GuideKind::Baseline)?, context.drawn(top)?)
    }

    /// Its lower edge.
    pub fn from(self) -> f64 {
        self.from
    }

    /// Its upper edge.
    pub fn to(self) -> f64 {
        self.to
    }

    /// From edge to edge.
    pub fn height(self) -> f64 {
        self.to - self.from
    }

    /// Whether a box lies inside.
    pub(super) fn holds(self, bounds: Rect) -> bool {
        bounds.y0 >= self.from && bounds.y1 <= self.to
    }
}
