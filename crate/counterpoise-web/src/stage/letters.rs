//! Which letters are on the line, and which of them are chosen.

use super::command::{Choice, ItemId};
use super::history::Run;
use super::line::{self, Edit};
use super::scene::{Item, MOST_LETTERS};
use super::sorts::Sorts;
use super::{Done, Stage};
use crate::refuse::Refuse;
use std::ops::Range;

/// The gap that a character leaves which the font lacks, as a share of the em.
const GAP: f64 = 0.5;

/// A letter fresh from the case.
pub(super) fn item(id: ItemId, character: Option<char>, glyph: Option<u16>, sorts: &Sorts) -> Item {
    Item {
        id,
        character,
        glyph,
        advance: advance(glyph, sorts),
        place: None,
        lift: 0,
        pinned: false,
        mirrored: false,
        turned: false,
        level: 0,
        shift: (0, 0),
    }
}

/// Takes a letter from another font's sorts.
pub(super) fn cast(item: &mut Item, sorts: &Sorts) {
    item.glyph = item.character.and_then(|c| sorts.glyph(c));
    item.advance = advance(item.glyph, sorts);
    item.shift = (0, 0);
}

fn advance(glyph: Option<u16>, sorts: &Sorts) -> f64 {
    glyph
        .and_then(|g| sorts.sort(g))
        .map_or(GAP * sorts.units_per_em(), |s| s.advance)
}

impl Stage {
    pub(super) fn cast_new(
        &mut self,
        character: Option<char>,
        glyph: Option<u16>,
    ) -> Result<Item, Refuse> {
        let id = self.take_id();
        let sorts = self.sorts()?;
        Ok(item(id, character, glyph, sorts))
    }

    pub(super) fn cast_characters(&mut self, characters: &[char]) -> Result<Vec<Item>, Refuse> {
        characters
            .iter()
            .map(|&c| {
                let glyph = self.sorts()?.glyph(c);
                self.cast_new(Some(c), glyph)
            })
            .collect()
    }

    fn splice(&mut self, goes: Range<usize>, comes: Vec<Item>) {
        let added = &self.fittings[self.scene.setting.spacing as usize];
        line::splice(&mut self.scene, added, goes, comes);
    }

    pub(super) fn sorts(&self) -> Result<&Sorts, Refuse> {
        self.sorts.as_ref().ok_or(Refuse::NoFont)
    }

    fn room_for(&self, more: usize) -> Result<(), Refuse> {
        if self.scene.items.len() + more > MOST_LETTERS {
            Err(Refuse::TooManyLetters(MOST_LETTERS))
        } else {
            Ok(())
        }
    }

    pub(super) fn set_text(&mut self, text: &str) -> Result<Done, Refuse> {
        let text: Vec<char> = text.chars().filter(|c| line::stands(*c)).collect();
        if text.len() > MOST_LETTERS {
            return Err(Refuse::TooManyLetters(MOST_LETTERS));
        }
        let Edit { goes, comes } = line::edit(&self.scene, &text);
        let run = match (goes.len(), comes.as_slice()) {
            // A space ends a run, so that undo takes back a word, not a page.
            (0, [c]) if !c.is_whitespace() => Some(Run::Adding),
            (1, []) => Some(Run::Removing),
            _ => None,
        };
        let comes = self.cast_characters(&comes)?;
        self.splice(goes, comes);
        self.keep_chosen();
        self.keep_finding();
        self.refit();
        Ok(Done {
            name: "Change the text".to_owned(),
            run,
            status: self.missing_sentence(),
        })
    }

    /// Says which characters the font lacks; nothing if it lacks none.
    fn missing_sentence(&self) -> String {
        match self.missing().as_slice() {
            [] => String::new(),
            missing => format!("The font has no {}.", missing.join(", ")),
        }
    }

    /// Characters of the line that the font lacks, each once.
    pub(super) fn missing(&self) -> Vec<String> {
        let mut missing: Vec<String> = Vec::new();
        if let Some(sorts) = &self.sorts {
            for item in self.scene.items.iter().filter(|i| i.is_missing()) {
                let label = sorts.label(item.character, None);
                if !missing.contains(&label) {
                    missing.push(label);
                }
            }
        }
        missing
    }

    pub(super) fn insert(
        &mut self,
        letters: &[Choice],
        after: Option<ItemId>,
    ) -> Result<Done, Refuse> {
        let at = match after {
            None => self.scene.items.len(),
            Some(id) => 1 + line::index_of(&self.scene, id).ok_or(Refuse::NoSuchLetter)?,
        };
        let mut comes = Vec::new();
        for choice in letters {
            match choice {
                Choice::Text(text) => {
                    let characters: Vec<char> = text.chars().filter(|c| line::stands(*c)).collect();
                    self.room_for(comes.len() + characters.len())?;
                    comes.extend(self.cast_characters(&characters)?);
                }
                Choice::Glyph(glyph) => {
                    self.room_for(comes.len() + 1)?;
                    self.sorts()?
                        .sort(*glyph)
                        .ok_or(Refuse::NoSuchGlyph(*glyph))?;
                    comes.push(self.cast_new(None, Some(*glyph))?);
                }
            }
        }
        self.chosen = comes.iter().map(|i| i.id).collect();
        self.splice(at..at, comes);
        self.refit();
        let names = self.names(&self.chosen);
        Ok(Done::new(format!("Add {names}"), format!("{names} added.")))
    }

    pub(super) fn duplicate(&mut self) -> Result<Done, Refuse> {
        self.some_chosen()?;
        self.room_for(self.chosen.len())?;
        let names = self.names(&self.chosen);
        let originals = std::mem::take(&mut self.chosen);
        for id in originals {
            let Some(at) = line::index_of(&self.scene, id) else {
                continue;
            };
            let copy = Item {
                id: self.take_id(),
                place: None,
                lift: 0,
                pinned: false,
                ..self.scene.items[at]
            };
            self.chosen.push(copy.id);
            self.splice(at + 1..at + 1, vec![copy]);
        }
        self.refit();
        Ok(Done::new(
            format!("Double {names}"),
            format!("{names} doubled; the copy is chosen."),
        ))
    }

    pub(super) fn remove(&mut self) -> Result<Done, Refuse> {
        self.some_chosen()?;
        let names = self.names(&self.chosen);
        for id in std::mem::take(&mut self.chosen) {
            if let Some(at) = line::index_of(&self.scene, id) {
                self.splice(at..at + 1, Vec::new());
            }
        }
        self.refit();
        Ok(Done::new(
            format!("Take {names} off"),
            format!("{names} taken off the line."),
        ))
    }

    pub(super) fn select(&mut self, items: Vec<ItemId>) -> Result<Done, Refuse> {
        let mut chosen = Vec::with_capacity(items.len().min(MOST_LETTERS));
        for id in items {
            self.scene.item(id).ok_or(Refuse::NoSuchLetter)?;
            if !chosen.contains(&id) {
                chosen.push(id);
            }
        }
        self.chosen = chosen;
        Ok(self.chose())
    }

    pub(super) fn select_all(&mut self) -> Result<Done, Refuse> {
        self.chosen = self.scene.items.iter().map(|i| i.id).collect();
        Ok(self.chose())
    }

    pub(super) fn select_next(&mut self, backwards: bool, extend: bool) -> Result<Done, Refuse> {
        let count = self.scene.items.len();
        if count == 0 {
            return Ok(self.chose());
        }
        let last = self
            .chosen
            .last()
            .and_then(|id| line::index_of(&self.scene, *id));
        let next = match (last, backwards) {
            (Some(i), false) => (i + 1) % count,
            (Some(i), true) => (i + count - 1) % count,
            (None, false) => 0,
            (None, true) => count - 1,
        };
        let id = self.scene.items[next].id;
        if extend {
            self.chosen.retain(|c| *c != id);
        } else {
            self.chosen.clear();
        }
        self.chosen.push(id);
        Ok(self.chose())
    }

    /// Choosing is no change of the stage: it leaves no step.
    fn chose(&self) -> Done {
        Done::new("", self.chosen_sentence())
    }

    pub(super) fn some_chosen(&self) -> Result<(), Refuse> {
        if self.chosen.is_empty() {
            Err(Refuse::NothingChosen)
        } else {
            Ok(())
        }
    }
}
