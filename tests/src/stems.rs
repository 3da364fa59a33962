//! Our strokes beside the stems that the reference scan found.

use crate::figures::Stem;
use counterpoise::measure::Letter;
use counterpoise::measure::strokes::{Stroke, StrokeKind};

/// Strokes shorter than this share of the letter's height are serifs and spurs.
const LONG: f64 = 0.4;

/// A letter's long stems. A stem that the letter's bar or arch leaves in two is
/// one for the scan, so what counts is what reaches over much of the letter.
pub fn long_stems(letter: &Letter) -> impl Iterator<Item = &Stroke> {
    long(letter).filter(|s| s.kind == StrokeKind::Stem)
}

/// Our stroke where the scan found a stem. The scan knows no diagonals: rays
/// cross a lambda's leg as they cross a stem.
pub fn beside<'a>(letter: &'a Letter, stem: &Stem) -> Option<&'a Stroke> {
    long(letter)
        .filter(|s| matches!(s.kind, StrokeKind::Stem | StrokeKind::Diagonal))
        .map(|s| (s, (middle(s) - stem.x).abs()))
        .min_by(|a, b| a.1.total_cmp(&b.1))
        // Farther off than its own thickness, it is another stroke.
        .filter(|(_, off)| *off <= stem.median)
        .map(|(s, _)| s)
}

fn long(letter: &Letter) -> impl Iterator<Item = &Stroke> {
    let height = letter.bounds.map_or(0.0, |b| b.height());
    letter
        .strokes
        .iter()
        .filter(move |s| s.length >= LONG * height)
}

fn middle(stroke: &Stroke) -> f64 {
    let n = stroke.axis.len().max(1) as f64;
    stroke.axis.iter().map(|p| p.x).sum::<f64>() / n
}
