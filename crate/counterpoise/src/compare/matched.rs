//! Which glyph of one revision is which of the other.

use crate::font::{Font, GlyphId};
use std::collections::{BTreeMap, BTreeSet};

/// A glyph, by what leads to it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its index in its own font.
    pub glyph: GlyphId,
    /// The first character that leads to it, if any does.
    pub character: Option<char>,
    /// Its name, if the font has names.
    pub name: Option<String>,
}

/// A letter in both revisions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pair {
    /// In the earlier one.
    pub old: Entry,
    /// In the later one.
    pub new: Entry,
}

/// The glyphs of two revisions held against each other.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Matched {
    /// In both: those with a character in order of code point, then those with
    /// a name alone.
    pub pairs: Vec<Pair>,
    /// In the later one alone.
    pub added: Vec<Entry>,
    /// In the earlier one alone.
    pub gone: Vec<Entry>,
    /// Glyphs of either that have neither character nor name: nothing says which
    /// one they are, so they are not compared.
    pub nameless: usize,
}

/// Matches by code point, then by name. A glyph is told of once, by the first
/// character that both revisions lead to it by.
pub fn matched(old: &Font, new: &Font) -> Matched {
    let (before, after) = (Known::of(old), Known::of(new));
    let mut found = Matched::default();
    let (mut had, mut has) = (BTreeSet::new(), BTreeSet::new());
    let mut pair = |a: GlyphId, b: GlyphId, by: Option<char>, found: &mut Matched| {
        if had.contains(&a) || has.contains(&b) {
            return;
        }
        had.insert(a);
        has.insert(b);
        let entry = |known: &Known, glyph| Entry {
            character: by.or_else(|| known.first(glyph)),
            ..known.entry(glyph)
        };
        found.pairs.push(Pair {
            old: entry(&before, a),
            new: entry(&after, b),
        });
    };
    for (&c, &a) in &before.by_character {
        if let Some(&b) = after.by_character.get(&c) {
            pair(a, b, Some(c), &mut found);
        }
    }
    for (name, &a) in &before.by_name {
        if let Some(&b) = after.by_name.get(name) {
            pair(a, b, None, &mut found);
        }
    }
    let rest = |known: &Known, taken: &BTreeSet<GlyphId>, nameless: &mut usize| {
        let mut rest = Vec::new();
        for glyph in (0..known.count).map(GlyphId) {
            if taken.contains(&glyph) {
                continue;
            }
            let entry = known.entry(glyph);
            if entry.character.is_none() && entry.name.is_none() {
                *nameless += 1;
            } else {
                rest.push(entry);
            }
        }
        rest
    };
    found.gone = rest(&before, &had, &mut found.nameless);
    found.added = rest(&after, &has, &mut found.nameless);
    found
}

/// What leads to the glyphs of a font.
struct Known {
    count: u16,
    by_character: BTreeMap<char, GlyphId>,
    characters: BTreeMap<GlyphId, char>,
    by_name: BTreeMap<String, GlyphId>,
    names: BTreeMap<GlyphId, String>,
}

impl Known {
    fn of(font: &Font) -> Self {
        let reader = font.reader();
        let mut known = Self {
            count: font.glyph_count(),
            by_character: BTreeMap::new(),
            characters: BTreeMap::new(),
            by_name: BTreeMap::new(),
            names: BTreeMap::new(),
        };
        for (c, glyph) in reader.characters() {
            known.by_character.insert(c, glyph);
            known.characters.entry(glyph).or_insert(c);
        }
        for glyph in (0..known.count).map(GlyphId) {
            if let Some(name) = reader.glyph_name(glyph) {
                // A name that two glyphs bear means the first.
                known.by_name.entry(name.to_owned()).or_insert(glyph);
                known.names.insert(glyph, name.to_owned());
            }
        }
        known
    }

    fn first(&self, glyph: GlyphId) -> Option<char> {
        self.characters.get(&glyph).copied()
    }

    fn entry(&self, glyph: GlyphId) -> Entry {
        Entry {
            glyph,
            character: self.first(glyph),
            name: self.names.get(&glyph).cloned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::font::{Drawn, DrawnLetter};
    use crate::outline::Outline;
    use kurbo::{Rect, Shape};

    fn font(letters: &[(&str, &str)]) -> Font {
        let letters = letters.iter().map(|(name, characters)| DrawnLetter {
            name: (!name.is_empty()).then(|| (*name).to_owned()),
            characters: characters.chars().collect(),
            advance: 100.0,
            outline: Outline::from_path(&Rect::new(0.0, 0.0, 90.0, 700.0).to_path(0.1)),
        });
        Font::drawn(Drawn::new(1000, letters.collect())).unwrap()
    }

    #[test]
    fn by_code_point_then_by_name_and_each_once() {
        // A is renamed, its small cap moved, B is gone, C came; one has no name.
        let old = font(&[("A", "A"), ("B", "B"), ("a.sc", ""), ("", "")]);
        let new = font(&[("a.sc", ""), ("Alpha", "A\u{391}"), ("C", "C")]);
        let m = matched(&old, &new);
        let pairs: Vec<_> = m
            .pairs
            .iter()
            .map(|p| (p.old.glyph.0, p.new.glyph.0, p.new.character))
            .collect();
        assert_eq!(pairs, [(0, 1, Some('A')), (2, 0, None)]);
        let named = |all: &[Entry]| -> Vec<_> { all.iter().map(|e| e.name.clone()).collect() };
        assert_eq!(named(&m.added), [Some("C".to_owned())]);
        assert_eq!(named(&m.gone), [Some("B".to_owned())]);
        assert_eq!(m.nameless, 1);
    }
}
