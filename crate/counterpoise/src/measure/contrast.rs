//! Contrast: how much thicker a letter's thick strokes are than its thin ones.
//! A ratio, 1 for a letter of one thickness.

use super::strokes::{Stroke, StrokeKind};

/// Strokes shorter than this share of the letter's longest are serifs and
/// terminals, whose thickness is their own affair.
const LONG: f64 = 0.3;

/// Thickest over thinnest of a letter's long strokes: medians of straight ones,
/// the marked places of curves. `None` without strokes.
pub fn contrast(strokes: &[Stroke]) -> Option<f64> {
    let longest = strokes.iter().map(|s| s.length).reduce(f64::max)?;
    let values = strokes
        .iter()
        .filter(|s| s.length >= LONG * longest)
        .flat_map(|s| match s.kind {
            StrokeKind::Curve => s.marks.iter().map(|m| m.value).collect(),
            _ => vec![s.median],
        });
    let (mut thin, mut thick) = (f64::INFINITY, 0.0_f64);
    for v in values {
        (thin, thick) = (thin.min(v), thick.max(v));
    }
    (thin > 0.0 && thick > 0.0).then(|| thick / thin)
}
