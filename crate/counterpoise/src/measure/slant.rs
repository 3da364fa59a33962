//! How far the uprights lean, degrees, leaning right positive: read from the
//! letters' own stems, since what a file declares is often not what was drawn.

use super::strokes::{StrokeContext, strokes};
use crate::font::Font;
use crate::outline::Outline;

/// Letters with stems.
const LETTERS: &str = "HIEFLTBDPRNhnlmikbdpqru";

/// No upright leans more than this; a stroke that does is a diagonal.
const MOST: f64 = 35.0;

/// Fewer letters than this prove no habit.
const LEAST_LETTERS: usize = 3;

/// The median lean of the longest near-upright stroke of each letter; what the
/// file declares if too few letters have one.
pub(super) fn slant(font: &Font) -> f64 {
    let reader = font.reader();
    let mut leans: Vec<f64> = LETTERS
        .chars()
        .filter_map(|c| reader.outline(reader.glyph(c)?).ok())
        .filter_map(|o| lean(&o, f64::from(font.units_per_em())))
        .collect();
    if leans.len() < LEAST_LETTERS {
        return font.declared().slant;
    }
    leans.sort_unstable_by(f64::total_cmp);
    leans[leans.len() / 2]
}

fn lean(outline: &Outline, units_per_em: f64) -> Option<f64> {
    let context = StrokeContext {
        units_per_em,
        slant: 0.0,
    };
    // Strokes come longest first.
    strokes(outline, &context)
        .iter()
        .filter_map(|s| s.angle)
        .map(|angle| 90.0 - angle)
        .find(|lean| lean.abs() <= MOST)
}
