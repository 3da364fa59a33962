//! Flaws: places where an outline is not drawn as the trade draws, or as the
//! font's format asks.
//!
//! Each file looks for flaws of one sort. Limits are shares of the em, since a
//! thousandth of the em is what artists draw to, but for rounding, which is of
//! whole font units.

mod chords;
mod crossing;
mod curve;
mod direction;
mod flat;
mod joints;
mod kind;
mod overlap;
mod winding;

pub use kind::{Basis, Flaw, FlawKind};

use super::DrawingContext;
use crate::outline::Outline;

/// The most flaws that are told of one letter. A letter with more is no letter
/// that anyone mends flaw by flaw.
const MOST: usize = 500;

/// What was found.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Found {
    pub(super) flaws: Vec<Flaw>,
    pub(super) left_out: usize,
    pub(super) not_looked_for: Vec<FlawKind>,
}

impl Found {
    fn add(&mut self, flaw: Flaw) {
        if self.flaws.len() < MOST {
            self.flaws.push(flaw);
        } else {
            self.left_out += 1;
        }
    }

    fn add_if_larger(&mut self, than: f64, flaw: Flaw) {
        if flaw.size > than {
            self.add(flaw);
        }
    }
}

/// Looks an outline through.
pub(super) fn flaws(outline: &Outline, context: &DrawingContext) -> Found {
    let mut found = Found::default();
    let em = context.units_per_em;
    let crossed = overlap::look(outline, em, &mut found);
    direction::look(outline, context, crossed.as_deref(), &mut found);
    for (contour, range) in outline.contours().iter().enumerate() {
        let segments = &outline.segments()[range.clone()];
        joints::look(segments, contour, em, &mut found);
        flat::look(segments, contour, em, &mut found);
        curve::look(segments, contour, em, &mut found);
    }
    found
}

#[cfg(test)]
mod tests;
