//! Each font in turn, and each of its letters, whatever fails on the way.
//!
//! Nothing is held longer than it takes to write it: as many fonts are open at a
//! time as there are processors, and of their letters one batch.

use crate::arguments::{Letters, Measure};
use crate::open::{self, Opened};
use crate::progress::Progress;
use crate::walk::Found;
use crate::words::{self, plain};
use crate::{guard, parallel};
use counterpoise::report::{FontEntry, Item, LetterReport};
use std::cell::Cell;
use std::io::{self, IsTerminal};

/// Letters measured before any of them is written: enough to keep processors
/// busy, few enough to hold however many strokes they have.
const BATCH: usize = 256;

/// Troubles that are named on one line.
const NAMED: usize = 5;

/// A run over fonts.
#[derive(Debug)]
pub(crate) struct Run {
    found: Vec<Found>,
    letters: Letters,
    face: u32,
    workers: usize,
    progress: Progress,
    incomplete: Cell<bool>,
}

impl Run {
    /// A run over what was found.
    pub(crate) fn new(asked: &Measure, found: Vec<Found>) -> Self {
        Self {
            found,
            letters: asked.letters.clone(),
            face: asked.face,
            workers: parallel::workers(),
            progress: Progress::new(asked.output.is_some() || !io::stdout().is_terminal()),
            incomplete: Cell::new(false),
        }
    }

    /// The line that tells how far the run is.
    pub(crate) fn progress(&self) -> &Progress {
        &self.progress
    }

    /// Whether anything could not be read.
    pub(crate) fn is_incomplete(&self) -> bool {
        self.incomplete.get()
    }

    /// How many entries there will be.
    pub(crate) fn len(&self) -> usize {
        self.found.len()
    }

    /// Hands over an entry for each file, in order, its letters still to measure.
    ///
    /// # Errors
    /// The first error that `take` gives; it ends the run.
    pub(crate) fn each<E>(
        &self,
        mut take: impl FnMut(FontEntry<Line<'_>>) -> Result<(), E>,
    ) -> Result<(), E> {
        let mut number = 0;
        for some in self.found.chunks(self.workers) {
            // The cells of a run are its own thread's, so the others see these two alone.
            let (face, letters) = (self.face, &self.letters);
            let opened = parallel::map(
                some,
                self.workers,
                || (),
                |(), found| match found {
                    Found::File(path) => open::open(path, face, letters),
                    Found::Refused(_, error) => Err(error.clone()),
                },
            );
            for (found, opened) in some.iter().zip(opened) {
                number += 1;
                let file = found.path().to_string_lossy();
                let entry = match &opened {
                    Ok(opened) => FontEntry::opened(
                        &file,
                        &opened.font,
                        &opened.alphabet,
                        &opened.chosen.missing,
                        Line(Some(Setting {
                            run: self,
                            opened,
                            file: &file,
                            number,
                        })),
                    ),
                    Err(error) => {
                        self.fail(&file, &error.sentence);
                        FontEntry::refused(&file, error.clone())
                    }
                };
                if let Letters::Of(_) = self.letters
                    && !entry.missing.is_empty()
                {
                    let missing = words::characters(&entry.missing);
                    self.say(&file, &format!("The font has no {missing}."));
                }
                take(entry)?;
            }
        }
        Ok(())
    }

    fn say(&self, file: &str, sentence: &str) {
        self.progress.clear();
        crate::say(&format!("{}: {sentence}", plain(file)));
    }

    fn fail(&self, file: &str, sentence: &str) {
        self.incomplete.set(true);
        self.say(file, sentence);
    }
}

/// The chosen letters of a font, measured when they are asked for; none of a
/// file that could not be opened.
#[derive(Debug, Default)]
pub(crate) struct Line<'a>(Option<Setting<'a>>);

#[derive(Debug)]
struct Setting<'a> {
    run: &'a Run,
    opened: &'a Opened,
    file: &'a str,
    number: usize,
}

impl Line<'_> {
    /// How many letters there will be.
    pub(crate) fn len(&self) -> usize {
        self.0.as_ref().map_or(0, |s| s.opened.chosen.items.len())
    }

    /// Whether there are letters that no character leads to.
    pub(crate) fn has_nameless(&self) -> bool {
        let mut items = self.0.iter().flat_map(|s| &s.opened.chosen.items);
        items.any(|item| item.character.is_none())
    }

    /// Hands over each letter, in order.
    ///
    /// # Errors
    /// The first error that `take` gives; it ends the line.
    pub(crate) fn each<E>(
        &self,
        mut take: impl FnMut(&LetterReport) -> Result<(), E>,
    ) -> Result<(), E> {
        let Some(setting) = &self.0 else {
            return Ok(());
        };
        let mut troubled = Vec::new();
        let mut done = 0;
        for batch in setting.opened.chosen.items.chunks(BATCH) {
            setting.tell(done);
            for letter in setting.measure(batch) {
                if letter.trouble.is_some() {
                    troubled.push(words::name(&letter));
                }
                take(&letter)?;
            }
            done += batch.len();
        }
        setting.tell(done);
        setting.tell_of(&troubled);
        Ok(())
    }
}

impl Setting<'_> {
    fn measure(&self, batch: &[Item]) -> Vec<LetterReport> {
        let Opened { font, alphabet, .. } = self.opened;
        parallel::map(
            batch,
            self.run.workers,
            || font.reader(),
            |reader, &item| {
                guard::call(|| LetterReport::read(reader, alphabet, item)).unwrap_or_else(|| {
                    let glyph = item.glyph.0;
                    let sentence = format!("Glyph {glyph} could not be measured. {}", guard::FAULT);
                    LetterReport::troubled(reader, item, sentence)
                })
            },
        )
    }

    fn tell(&self, done: usize) {
        self.run.progress.tell(&|| {
            format!(
                "font {} of {}, letter {done} of {}",
                self.number,
                self.run.len(),
                self.opened.chosen.items.len()
            )
        });
    }

    fn tell_of(&self, troubled: &[String]) {
        if troubled.is_empty() {
            return;
        }
        let mut names = troubled[..troubled.len().min(NAMED)].join(" ");
        if troubled.len() > NAMED {
            names += &format!(" and {} more", troubled.len() - NAMED);
        }
        let count = troubled.len();
        let letters = if count == 1 { "letter" } else { "letters" };
        let sentence = format!("{count} {letters} could not be measured: {names}.");
        self.run.fail(self.file, &sentence);
    }
}
