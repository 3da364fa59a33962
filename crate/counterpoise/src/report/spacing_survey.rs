//! A font's spacing and kerning on its way to being read, in slices: whoever
//! holds it asks for a few steps at a time, shows how far it has come, and may
//! give it up. Two hundred letters have forty thousand pairs.

use super::spacing::{
    KernFindingReport, KerningReport, SpacingLetter, SpacingReport, SuggestionReport,
};
use crate::font::{Font, Kerning, LATIN};
use crate::kerning::{Gathering, Needs, findings, suggest};
use crate::measure::Context;
use crate::spacing::{Grid, Model, Spaced, Spacing};

/// Steps of the work: each letter is read, each row of pairs is gathered, and the
/// rest is put together in one.
#[derive(Debug, Clone)]
pub struct SpacingSurvey {
    context: Context,
    grid: Grid,
    characters: Vec<char>,
    letters: Vec<Spaced>,
    kerning: Kerning,
    read: usize,
    spacing: Option<Spacing>,
    gathering: Gathering,
    rows: usize,
    needs: Option<Needs>,
}

/// More characters than this are not compared pair by pair: a million pairs would
/// hold the worker for many seconds.
pub const MOST_LETTERS: usize = 1000;

impl SpacingSurvey {
    /// Begins to read some characters of a font; each is read once.
    pub fn new(font: &Font, context: &Context, characters: impl IntoIterator<Item = char>) -> Self {
        let mut all: Vec<char> = Vec::new();
        for c in characters {
            if all.len() < MOST_LETTERS && !all.contains(&c) {
                all.push(c);
            }
        }
        Self {
            grid: Grid::of(context),
            context: context.clone(),
            characters: all,
            letters: Vec::new(),
            kerning: font.kerning(LATIN, None),
            read: 0,
            spacing: None,
            gathering: Gathering::default(),
            rows: 0,
            needs: None,
        }
    }

    /// Steps done, and steps in all.
    pub fn progress(&self) -> (usize, usize) {
        let finished = usize::from(self.needs.is_some());
        let rows = self
            .spacing
            .as_ref()
            .map_or(self.characters.len(), |s| s.letters.len());
        (
            self.read + self.rows + finished,
            self.characters.len() + rows + 1,
        )
    }

    /// Does some steps; whether any are left. `font` is that of [`SpacingSurvey::new`].
    pub fn step(&mut self, font: &Font, count: usize) -> bool {
        let reader = font.reader();
        for _ in 0..count {
            if let Some(&c) = self.characters.get(self.read) {
                self.letters.extend(Spacing::letter(&reader, c, &self.grid));
                self.read += 1;
                continue;
            }
            let spacing = self.spacing.get_or_insert_with(|| {
                let letters = std::mem::take(&mut self.letters);
                let model = Model::shipped();
                Spacing::put_together(font, &self.context, self.grid, letters, model.as_ref())
            });
            if self.rows < spacing.letters.len() {
                self.gathering.row(spacing, &self.kerning, self.rows);
                self.rows += 1;
            } else if self.needs.is_none() {
                let gathered = std::mem::take(&mut self.gathering);
                self.needs = Some(gathered.finish(spacing));
            } else {
                return false;
            }
        }
        self.needs.is_none()
    }

    /// The letters as read, once the steps are done.
    pub fn spacing(&self) -> Option<&Spacing> {
        self.spacing.as_ref()
    }

    /// The font's kerning.
    pub fn kerning(&self) -> &Kerning {
        &self.kerning
    }

    /// What was found; `None` before the steps are done.
    pub fn report(&self) -> Option<SpacingReport> {
        let (spacing, needs) = (self.spacing.as_ref()?, self.needs.as_ref()?);
        Some(SpacingReport {
            letters: spacing.letters.iter().map(SpacingLetter::from).collect(),
            kerning: KerningReport::of(&self.kerning, spacing),
            findings: findings(spacing, &self.kerning, needs)
                .iter()
                .map(KernFindingReport::from)
                .collect(),
        })
    }

    /// What is suggested within a tolerance, font units; `None` before the steps
    /// are done.
    pub fn suggestion(&self, font: &Font, tolerance: f64) -> Option<SuggestionReport> {
        let (spacing, needs) = (self.spacing.as_ref()?, self.needs.as_ref()?);
        let suggestion = suggest(spacing, needs, tolerance);
        Some(SuggestionReport::of(&suggestion, spacing, &font.reader()))
    }
}
