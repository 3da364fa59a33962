//! Letters drawn with more points than the font's own economy would take.

use super::alphabet::Alphabet;
use super::finding::{Finding, Matter};
use crate::font::Font;
use crate::measure::{MAD_TO_SD, drawing_of, median};

/// A letter has too many points if, beside what a refit needs, it has this many
/// times what the font's other letters have ...
const TIMES: f64 = 1.8;

/// ... and at least so many more: fewer are no labour to place (common practice,
/// no source).
const LEAST_MORE: f64 = 16.0;

/// Fewer letters than this show no habit.
const LEAST_LETTERS: usize = 8;

/// Letters with too many points for their shape.
pub(super) fn findings(font: &Font, alphabet: &Alphabet) -> Vec<Finding> {
    let reader = font.reader();
    let drawn: Vec<(char, f64, f64)> = alphabet
        .members()
        .iter()
        .filter_map(|m| {
            let drawing = drawing_of(&reader, m.glyph, alphabet.context()).ok()?;
            let needed = drawing
                .within_half
                .quadratic
                .unwrap_or(drawing.within_half.cubic);
            (needed > 0).then_some((m.character, drawing.points.total() as f64, needed as f64))
        })
        .collect();
    if drawn.len() < LEAST_LETTERS {
        return Vec::new();
    }
    let logs = || {
        drawn
            .iter()
            .map(|(_, points, needed)| (points / needed).ln())
    };
    let habit = median(&mut logs().collect::<Vec<_>>());
    let scatter = MAD_TO_SD * median(&mut logs().map(|l| (l - habit).abs()).collect::<Vec<_>>());
    drawn
        .iter()
        .filter_map(|&(letter, value, needed)| {
            let expected = needed * habit.exp();
            let over = (value / expected).ln();
            (over >= TIMES.ln() && value - expected >= LEAST_MORE).then(|| Finding {
                letter,
                cause: Matter::Points,
                value,
                expected,
                spread: expected * scatter,
                spreads: over / scatter.max(0.05),
                // Habits of drawing are no lottery: it is so, or it is not.
                by_chance: 0.0,
                beside: String::new(),
            })
        })
        .collect()
}
