//! A line as it is read: which way each of its characters goes, and, of those that
//! go from right to left, the form that each takes among its neighbours.
//!
//! The directions are the Unicode bidirectional algorithm's (Unicode Standard
//! Annex 9); its library is named here alone.

use crate::shaper::{MOST_CHARACTERS, Placed, Shaper};
use std::ops::Range;
use unicode_bidi::ParagraphBidiInfo;

/// A character as it is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Read {
    /// Its embedding level: odd from right to left, even from left to right.
    pub level: u8,
    /// The form that it takes.
    pub form: Form,
}

/// The form that a character takes among its neighbours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// That which the font's map gives: all that are read from left to right.
    Plain,
    /// This glyph, as the font's rules place it.
    Shaped(Placed),
    /// None of its own: the form of a character before it stands for both.
    TakenIn,
}

/// The stretches of a text that go one way, in the text's order: their characters
/// and their levels.
pub fn runs(text: &str) -> Vec<(Range<usize>, u8)> {
    let mut runs: Vec<(Range<usize>, u8)> = Vec::new();
    for (at, level) in levels(text).into_iter().enumerate() {
        match runs.last_mut() {
            Some((range, same)) if *same == level => range.end = at + 1,
            _ => runs.push((at..at + 1, level)),
        }
    }
    runs
}

/// Each character's level.
fn levels(text: &str) -> Vec<u8> {
    let info = ParagraphBidiInfo::new(text, None);
    let levels = info.reordered_levels_per_char(0..text.len());
    levels.into_iter().map(|level| level.number()).collect()
}

/// Runs in the order in which they stand from left to right (rule L2).
pub(crate) fn standing(runs: &[(Range<usize>, u8)]) -> Vec<usize> {
    let levels: Vec<unicode_bidi::Level> = runs
        .iter()
        .filter_map(|(_, level)| unicode_bidi::Level::new(*level).ok())
        .collect();
    ParagraphBidiInfo::reorder_visual(&levels)
}

/// Reads a line: with a font that shapes it, or by its directions alone.
pub fn read(text: &str, shaper: Option<&Shaper>) -> Vec<Read> {
    let text: String = text.chars().take(MOST_CHARACTERS).collect();
    let characters: Vec<char> = text.chars().collect();
    let mut read = Vec::with_capacity(characters.len());
    for (range, level) in runs(&text) {
        let plain = Read {
            level,
            form: Form::Plain,
        };
        let from = read.len();
        read.resize(range.end, plain);
        if level % 2 == 1
            && let Some(shaper) = shaper
        {
            let placed = shaper.run(&characters[range], 0, true, false);
            take_forms(&mut read[from..], &placed);
        }
    }
    read
}

/// Gives each character of a run the glyph that was made of it. A run comes out
/// as it stands from left to right, so its first character is the last of it.
fn take_forms(read: &mut [Read], placed: &[Placed]) {
    let mut glyphs = placed.iter().rev().copied().peekable();
    while let Some(first) = glyphs.next() {
        let mut made = vec![first];
        while let Some(next) = glyphs.next_if(|g| g.character == first.character) {
            made.push(next);
        }
        let start = first.character as usize;
        let end = glyphs.peek().map_or(read.len(), |g| g.character as usize);
        let Some(of) = read.get_mut(start..end.max(start)) else {
            continue;
        };
        // What became more glyphs than it has characters is left as the map has it.
        if made.len() > of.len() {
            continue;
        }
        for (at, one) in of.iter_mut().enumerate() {
            one.form = made.get(at).map_or(Form::TakenIn, |&g| Form::Shaped(g));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn placed(glyph: u32, character: u32) -> Placed {
        Placed {
            glyph,
            character,
            advance: 500,
            right: 0,
            up: 0,
        }
    }

    fn forms(characters: usize, placed: &[Placed]) -> Vec<Option<u32>> {
        let plain = Read {
            level: 1,
            form: Form::Plain,
        };
        let mut read = vec![plain; characters];
        take_forms(&mut read, placed);
        let glyph = |read: &Read| match read.form {
            Form::Shaped(placed) => Some(placed.glyph),
            Form::TakenIn => None,
            Form::Plain => Some(0),
        };
        read.iter().map(glyph).collect()
    }

    #[test]
    fn each_character_takes_the_glyph_that_was_made_of_it() {
        let line = [placed(13, 2), placed(12, 1), placed(11, 0)];
        assert_eq!(forms(3, &line), [Some(11), Some(12), Some(13)]);
    }

    #[test]
    fn a_ligature_takes_in_the_characters_behind_its_first() {
        let line = [placed(13, 3), placed(12, 1), placed(11, 0)];
        assert_eq!(forms(4, &line), [Some(11), Some(12), None, Some(13)]);
    }

    #[test]
    fn one_character_of_two_glyphs_stays_as_it_is() {
        let line = [placed(13, 1), placed(12, 0), placed(11, 0)];
        assert_eq!(forms(2, &line), [Some(0), Some(13)]);
    }

    #[test]
    fn a_mark_and_its_letter_in_one_cluster_keep_their_order() {
        let line = [placed(12, 0), placed(11, 0)];
        assert_eq!(forms(2, &line), [Some(11), Some(12)]);
    }

    /// Directions as Unicode Standard Annex 9 gives them in its examples of rules
    /// P2, W2 and N1: figures among Hebrew go from left to right, at a higher level.
    #[test]
    fn directions_are_those_of_the_bidirectional_algorithm() {
        assert_eq!(levels("abc"), [0, 0, 0]);
        assert_eq!(levels("\u{5d0}\u{5d1}"), [1, 1]);
        assert_eq!(levels("\u{5d0} 12"), [1, 1, 2, 2]);
        assert_eq!(levels("a \u{5d0}\u{5d1} b"), [0, 0, 1, 1, 0, 0]);
        assert_eq!(levels("\u{5d0} a"), [1, 1, 2]);
        let runs = runs("\u{5d0} 12 a");
        assert_eq!(runs, [(0..2, 1), (2..4, 2), (4..5, 1), (5..6, 2)]);
        assert_eq!(standing(&runs), [3, 2, 1, 0]);
    }
}
