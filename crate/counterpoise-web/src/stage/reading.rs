//! Lines that are read from right to left.
//!
//! Which way a character goes and which form it takes among its neighbours is for
//! a shaping library, which is a module of its own: the page fetches it when such
//! a character first comes, and hands it in as a reader. Until then the line
//! stands from left to right, as the font's map has it.

use super::scene::Item;
use super::sorts::Sorts;
use super::{Stage, letters, line};

/// Tells of each character of a text [`NUMBERS`] numbers: its embedding level; the
/// glyph that it takes, [`PLAIN`] or [`TAKEN_IN`]; the glyph's advance; how far it
/// is moved right, and up.
type Read = dyn Fn(&str) -> Vec<i32>;

const NUMBERS: usize = 5;

/// The glyph that the font's map gives.
const PLAIN: i32 = -1;

/// No glyph of its own: a ligature has taken it in.
const TAKEN_IN: i32 = -2;

/// What reads the line, once it is there.
#[derive(Default)]
pub(crate) struct Reader(Option<Box<Read>>);

impl std::fmt::Debug for Reader {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Reader")
    }
}

/// Characters of scripts that are written from right to left, by the ranges that
/// Unicode keeps for them (Unicode Standard Annex 9, default values of Bidi_Class).
fn turns(c: char) -> bool {
    matches!(c, '\u{590}'..='\u{8FF}' | '\u{FB1D}'..='\u{FDFF}' | '\u{FE70}'..='\u{FEFE}'
        | '\u{10800}'..='\u{10FFF}' | '\u{1E800}'..='\u{1EFFF}')
}

impl Stage {
    /// Takes what reads the line until another font is opened, and reads it.
    pub(crate) fn set_reader(&mut self, read: Box<Read>) {
        self.reader = Reader(Some(read));
        self.read_line();
        self.touch();
    }

    /// Stands the letters as they are read, if any of them is read from right to
    /// left, or was.
    pub(super) fn read_line(&mut self) {
        let (Some(read), Some(sorts)) = (&self.reader.0, &self.sorts) else {
            return;
        };
        let concerns = |i: &Item| i.level > 0 || i.character.is_some_and(turns);
        if !self.scene.items.iter().any(concerns) {
            return;
        }
        let told = read(&line::text(&self.scene));
        let mut changed = false;
        for (item, told) in self.scene.items.iter_mut().zip(told.chunks_exact(NUMBERS)) {
            let was = *item;
            take(item, told, sorts);
            changed |= *item != was;
        }
        if changed {
            self.refit();
        }
    }
}

fn take(item: &mut Item, told: &[i32], sorts: &Sorts) {
    item.level = u8::try_from(told[0]).unwrap_or(0);
    if item.character.is_none() {
        return;
    }
    letters::cast(item, sorts);
    match told[1] {
        PLAIN => {}
        TAKEN_IN => (item.glyph, item.advance) = (None, 0.0),
        glyph => {
            item.glyph = u16::try_from(glyph).ok().filter(|&g| g > 0);
            if item.glyph.is_some() {
                item.advance = f64::from(told[2]);
                item.shift = (told[3], told[4]);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::command::Command;
    use crate::stage::testing::stage;

    /// Reads capitals from right to left; a V behind an O is taken in.
    fn read(text: &str) -> Vec<i32> {
        let mut before = ' ';
        let mut told = Vec::new();
        for c in text.chars() {
            let level = i32::from(c.is_uppercase());
            told.extend(match (before, c) {
                ('O', 'V') => [level, TAKEN_IN, 0, 0, 0],
                (_, 'n') => [level, 1, 250, 30, 40],
                _ => [level, PLAIN, 0, 0, 0],
            });
            before = c;
        }
        told
    }

    fn places(stage: &Stage) -> Vec<f64> {
        stage.state().items.iter().map(|i| i.x).collect()
    }

    #[test]
    fn a_line_is_read_when_it_has_a_character_that_turns() {
        let mut stage = stage("HO");
        stage.set_reader(Box::new(read));
        assert_eq!(places(&stage), [0.0, 600.0], "no such character");
        let text = "HO\u{5d0}".to_owned();
        stage.run(Command::SetText { text }).unwrap();
        let state = stage.state();
        assert!(state.items[0].x > state.items[1].x);
        assert_eq!(state.text, "HO\u{5d0}", "in the order of reading");
        stage.run(Command::Undo).unwrap();
        assert_eq!(places(&stage), [0.0, 600.0]);
        stage.run(Command::Redo).unwrap();
        assert!(places(&stage)[0] > places(&stage)[1]);
    }

    #[test]
    fn forms_marks_and_ligatures_stand_as_they_are_told() {
        let mut stage = stage("HOVn\u{5d0}");
        assert!(stage.state().missing.contains(&"V".to_owned()));
        stage.set_reader(Box::new(read));
        let items = stage.scene.items.clone();
        assert_eq!((items[2].glyph, items[2].advance), (None, 0.0));
        assert!(!stage.state().missing.contains(&"V".to_owned()));
        assert_eq!((items[3].glyph, items[3].advance), (Some(1), 250.0));
        let standings = stage.standings();
        let own = standings[3].sort.as_ref().unwrap().ink().unwrap();
        let ink = standings[3].ink.unwrap();
        assert_eq!(ink.y0 - own.y0, 40.0);
        assert_eq!(ink.x0 - own.x0 - standings[3].x, 30.0);
    }

    #[test]
    fn another_font_is_not_read_by_the_rules_of_the_last() {
        let mut stage = stage("Hn\u{5d0}");
        stage.set_reader(Box::new(read));
        let other = crate::stage::testing::sorts();
        stage.set_sorts(other);
        assert_eq!(stage.scene.items[1].shift, (0, 0));
        assert!(stage.reader.0.is_none());
    }

    #[test]
    fn a_reader_that_tells_nonsense_does_no_harm() {
        let mut stage = stage("HO\u{5d0}");
        for told in [vec![], vec![1; 7], vec![i32::MAX; 15], vec![i32::MIN; 15]] {
            stage.set_reader(Box::new(move |_| told.clone()));
            assert!(places(&stage).iter().all(|x| x.is_finite()));
        }
    }
}
