//! The thickness of a letter's main stroke: the one figure that says how bold
//! the letter is drawn. Font units, perpendicular to the stroke.

use super::strokes::{Stroke, StrokeKind};

/// Strokes shorter than this share of the letter's longest are serifs,
/// terminals and tails, and do not carry its weight.
const LONG: f64 = 0.3;

/// Strokes thinner than this share of the thickest are its hairlines.
const THICK: f64 = 0.75;

/// The main stroke's thickness: of the long strokes, bars aside, the thick
/// ones' mean by length. `None` where no stroke could be read.
pub fn main_weight(strokes: &[Stroke]) -> Option<f64> {
    let upright = |s: &&Stroke| s.kind != StrokeKind::Bar;
    let longest = strokes
        .iter()
        .filter(upright)
        .map(|s| s.length)
        .reduce(f64::max);
    let Some(longest) = longest else {
        // A letter of bars alone, such as the hyphen.
        return strokes.iter().map(Stroke::weight).reduce(f64::max);
    };
    let long = || {
        strokes
            .iter()
            .filter(upright)
            .filter(|s| s.length >= LONG * longest)
    };
    let thickest = long().map(Stroke::weight).reduce(f64::max)?;
    let (sum, length) = long()
        .filter(|s| s.weight() >= THICK * thickest)
        .fold((0.0, 0.0), |(sum, length), s| {
            (sum + s.weight() * s.length, length + s.length)
        });
    (length > 0.0).then(|| sum / length)
}
