//! Letters found by what is typed: a character, a code point, a glyph's name, the
//! character's own, a Unicode block, or a glyph's number.

use crate::listing::{Letter, Listing};
use crate::names::{CharacterNames, parts};
use std::ops::RangeInclusive;

/// What names end with before an alternate's own ending: `a.alt`, `one.tnum`
/// (Adobe Glyph List Specification, section 2: all from the first full stop on).
const ENDING: char = '.';

/// Places in the list of all letters that what was typed leads to, in the list's
/// order. Nothing typed leads to every letter.
pub fn find(listing: &Listing, names: &CharacterNames, typed: &str) -> Vec<u32> {
    let typed = typed.trim();
    if typed.is_empty() {
        return (0..listing.letters().len() as u32).collect();
    }
    let mut characters = typed.chars();
    match (characters.next(), characters.next()) {
        (Some(c), None) => character(listing, c),
        _ => words(listing, names, typed),
    }
}

/// One character: its letter, and the letters that are named as alternates of it.
fn character(listing: &Listing, c: char) -> Vec<u32> {
    let is = |letter: &Letter| letter.character == Some(c);
    let Some(found) = listing.letters().iter().find(|letter| is(letter)) else {
        return Vec::new();
    };
    let names = listing.names();
    let name = |glyph: u16| names.get(usize::from(glyph)).map_or("", |name| &**name);
    let own = name(found.glyph);
    // Names were made small: those of A's alternates would be a's as well.
    let alternate = |letter: &Letter| {
        let rest = name(letter.glyph).strip_prefix(own);
        !own.is_empty()
            && letter.character.is_none()
            && rest.is_some_and(|rest| rest.starts_with(ENDING))
            && cased(listing, letter.glyph, found.glyph)
    };
    places(listing, |_, letter| is(letter) || alternate(letter))
}

/// Whether an alternate's name begins with the letter's own, case and all.
fn cased(listing: &Listing, alternate: u16, own: u16) -> bool {
    let reader = listing.font().reader();
    let name = |glyph| reader.glyph_name(counterpoise::font::GlyphId(glyph));
    match (name(alternate), name(own)) {
        (Some(alternate), Some(own)) => alternate.starts_with(own),
        _ => false,
    }
}

/// Several characters may be a code point, some of them, part of a glyph's name,
/// words of the character's, part of a block's name, or the very letters that are
/// looked for.
fn words(listing: &Listing, called: &CharacterNames, typed: &str) -> Vec<u32> {
    let names = listing.names();
    let small = typed.to_lowercase();
    let codes = codes(&small);
    let glyph = typed.strip_prefix('#').and_then(|n| n.parse::<u16>().ok());
    let squeezed = squeeze(&small);
    let headings: Vec<String> = listing
        .sections()
        .iter()
        .map(|s| squeeze(&s.name.to_lowercase()))
        .collect();
    let blocks: Vec<bool> = headings
        .iter()
        .map(|name| !squeezed.is_empty() && name.contains(&squeezed))
        .collect();
    let mut own: Vec<&str> = parts(&small).collect();
    // Fewer letters begin a word of hundreds of names; and a whole block's name
    // asks for the block.
    if own.iter().all(|part| part.len() < 3) || headings.contains(&squeezed) {
        own.clear();
    }
    // A word in Latin letters would otherwise find each of them.
    let text = if typed.is_ascii() { "" } else { typed };
    let mut section = 0;
    places(listing, |at, letter| {
        while listing
            .sections()
            .get(section + 1)
            .is_some_and(|s| s.start <= at)
        {
            section += 1;
        }
        let name = names.get(usize::from(letter.glyph));
        let by_code = |c: char| codes.as_ref().is_some_and(|r| r.contains(&u32::from(c)));
        let by_name = |c: char| !own.is_empty() && called.tell(c, &own);
        let by_character = |c: char| by_code(c) || text.contains(c) || by_name(c);
        blocks.get(section).is_some_and(|found| *found)
            || glyph == Some(letter.glyph)
            || letter.character.is_some_and(by_character)
            || name.is_some_and(|name| name.contains(&*small))
    })
}

fn places(listing: &Listing, mut wanted: impl FnMut(usize, &Letter) -> bool) -> Vec<u32> {
    let letters = listing.letters().iter().enumerate();
    letters
        .filter(|(at, letter)| wanted(*at, letter))
        .map(|(at, _)| at as u32)
        .collect()
}

/// Block names are compared as the standard says, without spaces, hyphens and
/// underscores (UAX #44, matching rule LM3).
fn squeeze(name: &str) -> String {
    name.chars()
        .filter(|c| !c.is_whitespace() && !matches!(c, '-' | '_'))
        .collect()
}

/// A code point as it is written, or a range of them: `u+5b57`, `5b57`,
/// `u+4e00-4eff`. In small letters.
fn codes(small: &str) -> Option<RangeInclusive<u32>> {
    if let Some(code) = code(small) {
        return Some(code..=code);
    }
    let apart = |dash: &str| {
        let (first, last) = small.split_once(dash)?;
        Some(code(first.trim())?..=code(last.trim())?)
    };
    ["..", "-", "\u{2013}"].into_iter().find_map(apart)
}

/// A code point in hexadecimal; without a prefix it has four to six digits, as
/// the Unicode Standard writes it.
fn code(small: &str) -> Option<u32> {
    let prefixes = ["u+", "0x", "\\u", "&#x", "uni"];
    let prefixed = prefixes.iter().find_map(|p| small.strip_prefix(p));
    let digits = prefixed.unwrap_or(small).trim_end_matches(';');
    let least = if prefixed.is_some() { 1 } else { 4 };
    let written = digits.bytes().all(|b| b.is_ascii_hexdigit());
    (written && (least..=6).contains(&digits.len()))
        .then(|| u32::from_str_radix(digits, 16).ok())
        .flatten()
        .filter(|code| *code <= u32::from(char::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;
    use counterpoise::font::{Declared, Drawn, DrawnLetter, Font, Names};
    use counterpoise::outline::Outline;
    use kurbo::{Rect, Shape};

    /// A font of letters by character and name, a glyph each.
    fn listing(letters: &[(Option<char>, &str)]) -> Listing {
        let drawn = |(character, name): &(Option<char>, &str)| DrawnLetter {
            characters: character.iter().copied().collect(),
            name: (!name.is_empty()).then(|| (*name).to_owned()),
            advance: 500.0,
            outline: Outline::from_path(&Rect::new(0.0, 0.0, 400.0, 700.0).to_path(0.1)),
        };
        let font = Font::drawn(Drawn {
            units_per_em: 1000,
            letters: letters.iter().map(drawn).collect(),
            names: Names::default(),
            declared: Declared::default(),
        });
        Listing::of(font.unwrap())
    }

    fn some() -> Listing {
        listing(&[
            (Some('A'), "A"),
            (Some('a'), "a"),
            (Some('\u{e9}'), "eacute"),
            (Some('\u{3042}'), "uni3042"),
            (Some('\u{5b57}'), ""),
            (Some('\u{5b66}'), ""),
            (None, "a.alt"),
            (None, "A.sc"),
            (None, "f_i"),
        ])
    }

    fn found(listing: &Listing, typed: &str) -> String {
        let name = |at: u32| {
            let letter = listing.letters()[at as usize];
            let reader = listing.font().reader();
            let name = reader.glyph_name(counterpoise::font::GlyphId(letter.glyph));
            letter
                .character
                .map_or_else(|| name.unwrap_or("?").to_owned(), String::from)
        };
        let found = find(listing, &CharacterNames::default(), typed);
        let found: Vec<String> = found.into_iter().map(name).collect();
        found.join(" ")
    }

    #[test]
    fn nothing_typed_leads_to_every_letter() {
        assert_eq!(find(&some(), &CharacterNames::default(), "  ").len(), 9);
    }

    #[test]
    fn a_character_leads_to_its_letter_and_its_alternates() {
        let some = some();
        assert_eq!(found(&some, "\u{5b57}"), "\u{5b57}");
        assert_eq!(found(&some, "a"), "a a.alt");
        assert_eq!(found(&some, "A"), "A A.sc");
        assert_eq!(found(&some, "\u{6f22}"), "", "which the font lacks");
    }

    #[test]
    fn a_code_point_is_taken_as_it_is_written() {
        let some = some();
        for typed in [
            "U+5B57", "u+5b57", "5b57", "5B57", "05b57", "0x5b57", "\\u5b57", "&#x5b57;",
        ] {
            assert_eq!(found(&some, typed), "\u{5b57}", "{typed}");
        }
        assert_eq!(found(&some, "U+41"), "A");
        assert_eq!(found(&some, "U+5B00-5BFF"), "\u{5b57} \u{5b66}");
        assert_eq!(found(&some, "5b00..5b60"), "\u{5b57}");
        assert_eq!(found(&some, "U+110000"), "", "which is beyond Unicode");
        assert_eq!(found(&some, "U+FFFFFFFFFF"), "");
    }

    #[test]
    fn a_name_or_a_part_of_it_leads_to_its_letter() {
        let some = some();
        assert_eq!(found(&some, "eacute"), "\u{e9}");
        assert_eq!(found(&some, "EACU"), "\u{e9}");
        assert_eq!(found(&some, ".alt"), "a.alt");
        assert_eq!(found(&some, "uni3042"), "\u{3042}");
    }

    #[test]
    fn a_block_is_found_without_its_spaces_and_hyphens() {
        let some = some();
        assert_eq!(found(&some, "hiragana"), "\u{3042}");
        assert_eq!(found(&some, "CJK unified"), "\u{5b57} \u{5b66}");
        assert_eq!(found(&some, "latin 1"), "\u{e9}");
        assert_eq!(found(&some, "Latin-1 Supplement"), "\u{e9}");
        assert_eq!(found(&some, "without a code"), "a.alt A.sc f_i");
    }

    #[test]
    fn letters_pasted_together_are_each_found() {
        assert_eq!(found(&some(), "\u{5b66}\u{5b57}"), "\u{5b57} \u{5b66}");
    }

    #[test]
    fn a_number_leads_to_its_glyph() {
        assert_eq!(found(&some(), "#8"), "f_i");
        assert_eq!(found(&some(), "#800"), "");
        assert_eq!(found(&some(), "#"), "");
    }

    #[test]
    fn the_words_of_a_character_s_name_lead_to_it() {
        let text = "@41\nlatin capital letter a\n@61\nlatin small letter a\n@e9\nlatin small \
                    letter e with acute\n@3042\nhiragana letter a";
        let names = CharacterNames::read(text.to_owned());
        let some = some();
        let codes = |typed: &str| -> String {
            let letter = |at: u32| some.letters()[at as usize].character;
            let found = find(&some, &names, typed).into_iter();
            found.filter_map(letter).collect()
        };
        assert_eq!(codes("e with acute"), "\u{e9}");
        assert_eq!(codes("Small Letter"), "a\u{e9}");
        assert_eq!(
            codes("letter a"),
            "Aa\u{3042}",
            "though acute begins with a"
        );
        assert_eq!(codes("acute e"), "\u{e9}");
        assert_eq!(codes("e a"), "", "which every other name would answer");
        assert_eq!(codes("hiragana"), "\u{3042}", "the block");
        assert_eq!(codes("hiragana a"), "\u{3042}", "the name");
    }
}
