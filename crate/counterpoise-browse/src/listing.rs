//! Every letter of a font in one order: those with a code point by Unicode block,
//! then those without.

use counterpoise::font::{Font, GlyphId};
use serde::Serialize;
use std::cell::OnceCell;
use std::ops::Range;

/// Letters that are listed. Every glyph of the largest font with three characters
/// each; only a damaged map has more, and a list of a million would be a list of
/// the same few letters.
pub const MOST_LETTERS: usize = 200_000;

/// Code points outside all blocks of Unicode.
const NO_BLOCK: &str = "No block";

/// What no character leads to: alternates, ligatures, parts of letters.
pub const UNCODED: &str = "Without a code point";

/// One letter of the list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Letter {
    /// The character that leads to it, if one does. A glyph of several characters
    /// is listed under each.
    pub character: Option<char>,
    /// Its glyph.
    pub glyph: u16,
}

/// Letters that stand under one heading.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Section {
    /// The Unicode block's name, or what else they have in common.
    pub name: String,
    /// The block's first code point and its last; none of letters without.
    pub block: Option<(u32, u32)>,
    /// Index of its first letter; they go on to the next section's.
    pub start: usize,
}

/// Every letter of a font, in the list's order.
#[derive(Debug)]
pub struct Listing {
    font: Font,
    letters: Vec<Letter>,
    sections: Vec<Section>,
    left_out: usize,
    names: OnceCell<Vec<Box<str>>>,
}

impl Listing {
    /// Lists a font's letters.
    pub fn of(font: Font) -> Self {
        let characters = font.reader().characters();
        let mut coded = vec![false; usize::from(font.glyph_count())];
        for (_, glyph) in &characters {
            if let Some(seen) = coded.get_mut(usize::from(glyph.0)) {
                *seen = true;
            }
        }
        let (letters, sections, left_out) = gathered(&characters, &coded);
        Self {
            font,
            letters,
            sections,
            left_out,
            names: OnceCell::new(),
        }
    }

    /// The font.
    pub fn font(&self) -> &Font {
        &self.font
    }

    /// The letters.
    pub fn letters(&self) -> &[Letter] {
        &self.letters
    }

    /// The headings, in the letters' order.
    pub fn sections(&self) -> &[Section] {
        &self.sections
    }

    /// Which letters stand under a heading.
    pub fn under(&self, section: usize) -> Range<usize> {
        let start = |at: usize| self.sections.get(at).map(|s| s.start);
        let end = self.letters.len();
        start(section).unwrap_or(end)..start(section + 1).unwrap_or(end)
    }

    /// Letters for which the list has no room.
    pub fn left_out(&self) -> usize {
        self.left_out
    }

    /// Names of all glyphs in small letters, gathered when the first is looked
    /// for; empty of a glyph without one.
    pub(crate) fn names(&self) -> &[Box<str>] {
        self.names.get_or_init(|| {
            let reader = self.font.reader();
            let name = |id| reader.glyph_name(GlyphId(id)).unwrap_or_default();
            let glyphs = 0..self.font.glyph_count();
            glyphs.map(|id| name(id).to_lowercase().into()).collect()
        })
    }
}

/// The letters of these characters and of the glyphs that none of them leads to,
/// their headings, and how many found no room.
fn gathered(characters: &[(char, GlyphId)], coded: &[bool]) -> (Vec<Letter>, Vec<Section>, usize) {
    let mut sections: Vec<Section> = Vec::new();
    let mut letters = Vec::new();
    for &(c, glyph) in characters.iter().take(MOST_LETTERS) {
        let code = u32::from(c);
        let here = |section: &Section| {
            let inside = |(first, last)| (first..=last).contains(&code);
            section.block.is_some_and(inside)
        };
        if !sections.last().is_some_and(here) {
            let block = unicode_blocks::find_unicode_block(c);
            // Outside all blocks each code point would be a heading of its own.
            let stray = block.is_none() && sections.last().is_some_and(|s| s.name == NO_BLOCK);
            if !stray {
                sections.push(Section {
                    name: block.map_or(NO_BLOCK, |b| b.name()).to_owned(),
                    block: block.map(|b| (b.start(), b.end())),
                    start: letters.len(),
                });
            }
        }
        letters.push(Letter {
            character: Some(c),
            glyph: glyph.0,
        });
    }
    let start = letters.len();
    let uncoded = (0..=u16::MAX)
        .zip(coded)
        .filter(|(_, coded)| !**coded)
        .map(|(glyph, _)| Letter {
            character: None,
            glyph,
        });
    letters.extend(uncoded.clone().take(MOST_LETTERS - start));
    if letters.len() > start {
        sections.push(Section {
            name: UNCODED.to_owned(),
            block: None,
            start,
        });
    }
    let all = characters.len() + uncoded.count();
    let left_out = all - letters.len();
    (letters, sections, left_out)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headings(characters: &str, glyphs: usize) -> (Vec<(String, usize)>, usize) {
        let characters: Vec<(char, GlyphId)> = (1..)
            .zip(characters.chars())
            .map(|(glyph, c)| (c, GlyphId(glyph)))
            .collect();
        let mut coded = vec![false; glyphs];
        for (_, glyph) in &characters {
            coded[usize::from(glyph.0)] = true;
        }
        let (letters, sections, _) = gathered(&characters, &coded);
        let named = sections.into_iter().map(|s| (s.name, s.start)).collect();
        (named, letters.len())
    }

    /// Names and limits of blocks by Blocks.txt of the Unicode Character Database.
    #[test]
    fn letters_stand_under_their_blocks_and_those_without_a_code_point_last() {
        let (named, count) = headings("AZ\u{e9}\u{5b57}\u{1f600}", 8);
        let expected = [
            ("Basic Latin", 0),
            ("Latin-1 Supplement", 2),
            ("CJK Unified Ideographs", 3),
            ("Emoticons", 4),
            (UNCODED, 5),
        ];
        let expected: Vec<_> = expected.map(|(n, at)| (n.to_owned(), at)).into();
        assert_eq!(named, expected);
        assert_eq!(count, 8, "glyphs 0, 6 and 7 come last");
    }

    #[test]
    fn code_points_outside_all_blocks_share_a_heading() {
        let (named, _) = headings("\u{2fe0}\u{2fe1}\u{2fe5}", 4);
        assert_eq!(
            named,
            [(NO_BLOCK.to_owned(), 0), (UNCODED.to_owned(), 3)],
            "2FE0 to 2FEF are in no block"
        );
    }

    #[test]
    fn a_map_of_everything_to_one_letter_is_cut_short() {
        let all: Vec<(char, GlyphId)> = ('\u{0}'..=char::MAX).map(|c| (c, GlyphId(1))).collect();
        let (letters, _, left_out) = gathered(&all, &[false, true]);
        assert_eq!(letters.len(), MOST_LETTERS);
        assert_eq!(left_out, all.len() + 1 - MOST_LETTERS);
    }

    #[test]
    fn a_section_goes_on_to_the_next() {
        let bytes = counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap();
        let listing = Listing::of(Font::open(bytes).unwrap());
        let counts: usize = (0..listing.sections().len())
            .map(|at| listing.under(at).len())
            .sum();
        assert_eq!(counts, listing.letters().len());
        assert_eq!(listing.sections()[0].name, "Basic Latin");
        assert_eq!(listing.left_out(), 0);
        assert!(listing.names().contains(&"h".into()));
    }
}
