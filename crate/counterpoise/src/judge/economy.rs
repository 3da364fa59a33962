//! Letters drawn with more points than the font's own economy would take.

use super::alphabet::Alphabet;
use super::finding::{Finding, Matter};
use crate::font::Font;
use crate::measure::{MAD_TO_SD, drawing_of, median};
use crate::order::by_number;

/// A letter has too many points if, beside what a refit needs, it has this many
/// times what the font's other letters have ...
const TIMES: f64 = 1.8;

/// ... and at least so many more: fewer are no labour to place (common practice,
/// no source).
const LEAST_MORE: f64 = 16.0;

/// Fewer letters than this show no habit.
const LEAST_LETTERS: usize = 8;

/// How many points a letter has, and how many its shape needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Drawn {
    /// The letter.
    pub letter: char,
    /// On and off the curve, as drawn.
    pub points: u32,
    /// As few as draw the same shape within half a thousandth of the em.
    pub needed: u32,
}

impl Drawn {
    /// Counts those of every letter of an alphabet: a fraction of a millisecond
    /// a letter, which is more than all other measures take. Whoever has
    /// reports of the letters has the numbers already.
    pub fn of(font: &Font, alphabet: &Alphabet) -> Vec<Self> {
        let reader = font.reader();
        alphabet
            .members()
            .iter()
            .filter_map(|m| {
                let drawing = drawing_of(&reader, m.glyph, alphabet.context()).ok()?;
                let need = drawing.within_half;
                Some(Self {
                    letter: m.character,
                    points: drawing.points.total() as u32,
                    needed: need.quadratic.unwrap_or(need.cubic) as u32,
                })
            })
            .collect()
    }
}

/// Letters with too many points for their shape, the worst first.
pub fn spendthrifts(letters: &[Drawn]) -> Vec<Finding> {
    let drawn: Vec<(char, f64, f64)> = letters
        .iter()
        .filter(|d| d.needed > 0)
        .map(|d| (d.letter, f64::from(d.points), f64::from(d.needed)))
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
    let mut found: Vec<Finding> = drawn
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
        .collect();
    by_number(&mut found, |f| -f.spreads);
    found
}
