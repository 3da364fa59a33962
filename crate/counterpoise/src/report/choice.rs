//! Which letters of a font a document tells of.

use crate::font::{Font, GlyphId};
use std::collections::{HashMap, HashSet};

/// What was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Choice<'a> {
    /// Capitals, lower case and numerals of the basic Latin alphabet.
    #[default]
    Basic,
    /// The characters of a text, each once, in the text's order.
    Characters(&'a str),
    /// Every glyph, in the font's order.
    Every,
}

/// A letter to measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Item {
    /// Its glyph.
    pub glyph: GlyphId,
    /// The character that leads to it, the first by code point where several do.
    pub character: Option<char>,
}

/// What a font has of what was asked for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Chosen {
    /// The letters it has, in order.
    pub items: Vec<Item>,
    /// The characters it lacks.
    pub missing: String,
}

impl Chosen {
    /// Looks the choice up in a font.
    pub fn of(font: &Font, choice: Choice<'_>) -> Self {
        match choice {
            Choice::Basic => {
                let basic = ('A'..='Z').chain('a'..='z').chain('0'..='9');
                Self::characters(font, basic)
            }
            Choice::Characters(text) => Self::characters(font, text.chars()),
            Choice::Every => Self::every(font),
        }
    }

    fn characters(font: &Font, asked: impl Iterator<Item = char>) -> Self {
        let reader = font.reader();
        let mut seen = HashSet::new();
        let mut chosen = Self::default();
        for c in asked.filter(|&c| seen.insert(c)) {
            match reader.glyph(c) {
                Some(glyph) => chosen.items.push(Item {
                    glyph,
                    character: Some(c),
                }),
                None => chosen.missing.push(c),
            }
        }
        chosen
    }

    fn every(font: &Font) -> Self {
        let mut first = HashMap::new();
        for (c, glyph) in font.reader().characters() {
            first.entry(glyph).or_insert(c);
        }
        let items = (0..font.glyph_count()).map(GlyphId).map(|glyph| Item {
            glyph,
            character: first.get(&glyph).copied(),
        });
        Self {
            items: items.collect(),
            missing: String::new(),
        }
    }
}
