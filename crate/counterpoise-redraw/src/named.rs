//! Placed letters, named by the characters of a text.

use counterpoise::font::DrawnLetter;
use counterpoise::font::loose::Placed;
use counterpoise::report::LooseLetter;

/// Each letter with its character, in order; those whose character is white
/// space, or which the text has none for, are left out.
pub(crate) fn named(placed: Vec<Placed>, names: &str) -> Vec<LooseLetter> {
    placed
        .into_iter()
        .zip(names.chars())
        .filter(|(_, c)| !c.is_whitespace())
        .map(|(p, c)| {
            LooseLetter::from(&DrawnLetter {
                name: None,
                characters: vec![c],
                advance: p.advance,
                outline: p.outline,
            })
        })
        .collect()
}
