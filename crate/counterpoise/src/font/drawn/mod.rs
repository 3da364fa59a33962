//! Letters drawn outside a font file: loose ones that stand together as a font,
//! and new ones that stand in the place of a file's own.

mod file;

pub(super) use file::{Held, MAGIC, read, write};

use super::pen::MAX_COORDINATE;
use super::{Declared, FontError, GlyphError, GlyphId, Names};
use crate::outline::Outline;
use kurbo::PathSeg;
use std::collections::BTreeMap;

/// A letter drawn outside a font.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DrawnLetter {
    /// Its glyph's name, if it has one.
    pub name: Option<String>,
    /// The characters that lead to it.
    pub characters: Vec<char>,
    /// Its advance width, font units.
    pub advance: f64,
    /// Its outline, font units; fractions are kept.
    pub outline: Outline,
}

/// Loose letters that are to stand together as a font.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// Units per em, 16 to 16384 as in a font file.
    pub units_per_em: u16,
    /// What is known of their name and their maker.
    pub names: Names,
    /// Heights that are declared for them.
    pub declared: Declared,
    /// The letters, at most 65,535: what is beyond is left out.
    pub letters: Vec<DrawnLetter>,
}

impl Drawn {
    /// Letters of which nothing else is known.
    pub fn new(units_per_em: u16, letters: Vec<DrawnLetter>) -> Self {
        Self {
            units_per_em,
            names: Names::default(),
            declared: Declared::default(),
            letters,
        }
    }

    pub(super) fn check(&self) -> Result<(), FontError> {
        if !(16..=16384).contains(&self.units_per_em) {
            return Err(FontError::UnitsPerEm(self.units_per_em));
        }
        if self.letters.iter().all(|l| l.outline.is_empty()) {
            return Err(FontError::NoLetters);
        }
        Ok(())
    }
}

fn points(seg: &PathSeg) -> Vec<kurbo::Point> {
    match *seg {
        PathSeg::Line(l) => vec![l.p0, l.p1],
        PathSeg::Quad(q) => vec![q.p0, q.p1, q.p2],
        PathSeg::Cubic(c) => vec![c.p0, c.p1, c.p2, c.p3],
    }
}

/// Drawn letters by the glyph that each stands for.
#[derive(Debug, Clone, Default)]
pub(super) struct Letters {
    by_glyph: BTreeMap<GlyphId, DrawnLetter>,
    by_character: BTreeMap<char, GlyphId>,
}

impl Letters {
    /// Letters in order, from glyph 0 on.
    pub(super) fn new(letters: Vec<DrawnLetter>) -> Self {
        let mut all = Self::default();
        for (id, letter) in (0..u16::MAX).zip(letters) {
            all.redraw(GlyphId(id), letter);
        }
        all
    }

    /// Puts a letter in a glyph's place. Of several letters for a character the
    /// last is meant.
    pub(super) fn redraw(&mut self, glyph: GlyphId, letter: DrawnLetter) {
        for &c in &letter.characters {
            self.by_character.insert(c, glyph);
        }
        self.by_glyph.insert(glyph, letter);
    }

    /// How many there are; 65,535 at most.
    pub(super) fn count(&self) -> u16 {
        u16::try_from(self.by_glyph.len()).unwrap_or(u16::MAX)
    }

    /// All of them, in the order of their glyphs.
    pub(super) fn all(&self) -> impl ExactSizeIterator<Item = &DrawnLetter> {
        self.by_glyph.values()
    }

    pub(super) fn get(&self, glyph: GlyphId) -> Option<&DrawnLetter> {
        self.by_glyph.get(&glyph)
    }

    pub(super) fn glyph(&self, c: char) -> Option<GlyphId> {
        self.by_character.get(&c).copied()
    }

    pub(super) fn characters(&self) -> impl Iterator<Item = (char, GlyphId)> {
        self.by_character.iter().map(|(&c, &id)| (c, id))
    }
}

/// A drawn outline held to the bounds that a file's outlines are held to.
pub(super) fn sound(outline: &Outline, glyph: GlyphId) -> Result<Outline, GlyphError> {
    if outline.segments().len() > GlyphError::MAX_SEGMENTS {
        return Err(GlyphError::TooLarge(glyph));
    }
    let lies =
        |p: kurbo::Point| p.is_finite() && p.x.abs() < MAX_COORDINATE && p.y.abs() < MAX_COORDINATE;
    let segments = outline.segments().iter();
    if !segments.flat_map(|s| points(&s.path_seg())).all(lies) {
        return Err(GlyphError::NotFinite(glyph));
    }
    Ok(outline.clone())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::font::{Font, OutlineFormat};
    use kurbo::{Rect, Shape};

    fn bar(c: char, width: f64) -> DrawnLetter {
        DrawnLetter {
            name: Some(format!("bar{c}")),
            characters: vec![c],
            advance: width + 100.25,
            outline: Outline::from_path(
                &Rect::new(50.125, 0.0, 50.125 + width, 700.0).to_path(0.1),
            ),
        }
    }

    #[test]
    fn loose_letters_are_a_font_with_their_fractions() {
        let font = Font::drawn(Drawn::new(1000, vec![bar('I', 90.5), bar('l', 80.0)])).unwrap();
        assert_eq!(
            (font.format(), font.glyph_count()),
            (OutlineFormat::Drawn, 2)
        );
        let reader = font.reader();
        // The first glyph of drawings is a letter, not a box for what is missing.
        assert_eq!(reader.glyph('I'), Some(GlyphId(0)));
        assert_eq!(reader.characters(), [('I', GlyphId(0)), ('l', GlyphId(1))]);
        assert_eq!(reader.glyph_name(GlyphId(1)), Some("barl"));
        assert_eq!(reader.advance(GlyphId(0)), 190.75);
        assert_eq!(
            reader.outline(GlyphId(0)).unwrap().bounds().unwrap().x0,
            50.125
        );
        assert!(reader.outline(GlyphId(2)).is_err());
        assert_eq!(reader.glyph('H'), None);
    }

    #[test]
    fn a_letter_drawn_anew_stands_in_the_old_ones_place() {
        let font = Font::drawn(Drawn::new(1000, vec![bar('I', 90.5), bar('l', 80.0)])).unwrap();
        let other = font.with(vec![bar('l', 95.0), bar('j', 70.0)]);
        let reader = other.reader();
        assert_eq!(other.glyph_count(), 3);
        assert_eq!(reader.glyph('l'), Some(GlyphId(1)));
        assert_eq!(reader.advance(GlyphId(1)), 195.25);
        assert_eq!(reader.glyph('j'), Some(GlyphId(2)));
        assert_eq!(font.reader().advance(GlyphId(1)), 180.25);
    }

    #[test]
    fn drawings_open_again_from_their_bytes() {
        let mut drawn = Drawn::new(2048, vec![bar('I', 90.5), bar('l', 80.0)]);
        drawn.names.family = Some("Drawn".into());
        drawn.declared.cap_height = Some(1400.5);
        drawn.declared.slant = 4.0;
        let font = Font::drawn(drawn).unwrap();
        let again = Font::open(font.data().to_vec()).unwrap();
        assert_eq!(again.data(), font.data());
        assert_eq!(again.names(), font.names());
        assert_eq!(again.declared(), font.declared());
        let (a, b) = (font.reader(), again.reader());
        assert_eq!(a.characters(), b.characters());
        for glyph in [GlyphId(0), GlyphId(1)] {
            assert_eq!(a.outline(glyph), b.outline(glyph));
            assert_eq!(a.advance(glyph), b.advance(glyph));
            assert_eq!(a.glyph_name(glyph), b.glyph_name(glyph));
        }
        assert!(again.file().is_empty());
    }

    #[test]
    fn a_drawn_file_that_was_cut_or_spoiled_is_refused_or_read_and_never_more() {
        let font = Font::drawn(Drawn::new(1000, vec![bar('I', 90.5), bar('l', 80.0)])).unwrap();
        let whole = font.data();
        for end in 4..whole.len() {
            assert!(Font::open(whole[..end].to_vec()).is_err(), "{end}");
        }
        for at in 4..whole.len() {
            for bit in [0x01, 0x80, 0xFF] {
                let mut spoiled = whole.to_vec();
                spoiled[at] ^= bit;
                if let Ok(font) = Font::open(spoiled) {
                    let reader = font.reader();
                    for id in 0..font.glyph_count() {
                        let _ = reader.outline(GlyphId(id));
                    }
                }
            }
        }
        // A drawing inside a drawing could be nested without end.
        let (mut nested, _) = write(
            whole,
            1000,
            &Declared::default(),
            &Names::default(),
            [].iter(),
        );
        assert_eq!(
            Font::open(nested.clone()).unwrap_err(),
            FontError::BrokenTable("drawn letters")
        );
        nested.truncate(4);
        assert_eq!(Font::open(nested).unwrap_err(), FontError::Truncated);
    }

    #[test]
    fn drawings_that_are_no_font_are_refused() {
        let refused = |units, letters| Font::drawn(Drawn::new(units, letters)).unwrap_err();
        assert_eq!(refused(1000, Vec::new()), FontError::NoLetters);
        assert_eq!(refused(8, vec![bar('I', 90.0)]), FontError::UnitsPerEm(8));
        let far = DrawnLetter {
            outline: Outline::from_path(&Rect::new(0.0, 0.0, 1e9, 1.0).to_path(0.1)),
            ..bar('I', 1.0)
        };
        let font = Font::drawn(Drawn::new(1000, vec![far])).unwrap();
        assert!(matches!(
            font.reader().outline(GlyphId(0)),
            Err(GlyphError::NotFinite(_))
        ));
    }
}
