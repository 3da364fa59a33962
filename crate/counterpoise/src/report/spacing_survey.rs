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

/// Steps of the work: each letter is read, then the pairs are held against each
/// other row by row.
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
            needs: None,
        }
    }

    /// Steps done, and steps in all.
    pub fn progress(&self) -> (usize, usize) {
        let letters = match &self.spacing {
            Some(spacing) => spacing.letters.len(),
            None => self.characters.len(),
        };
        let (done, all) = self.gathering.progress(letters);
        let finished = usize::from(self.needs.is_some());
        (self.read + done + finished, self.characters.len() + all)
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
            if self.needs.is_some() {
                return false;
            }
            self.needs = self.gathering.step(spacing, &self.kerning);
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
    /// are done. `bases` tells of accented letters which letter each is made of:
    /// they are kerned with it.
    pub fn suggestion(
        &self,
        font: &Font,
        tolerance: f64,
        bases: &[(char, char)],
    ) -> Option<SuggestionReport> {
        let (spacing, needs) = (self.spacing.as_ref()?, self.needs.as_ref()?);
        let suggestion = suggest(spacing, needs, tolerance, bases);
        Some(SuggestionReport::of(&suggestion, spacing, &font.reader()))
    }
}
