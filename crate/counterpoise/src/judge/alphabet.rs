//! A font's own letters, measured, to hold each against the others.

use super::class::{end_alike, fellows, stands_between_guides};
use super::relations::LETTERS;
use super::traits::{Traits, traits};
use super::{Deviation, Measure};
use crate::font::{Font, GlyphId};
use crate::measure::{self, Context, Letter, main_weight};

/// Fewer fellows than this prove no habit.
const LEAST_FELLOWS: usize = 3;

/// A measured letter of the alphabet.
#[derive(Debug, Clone, PartialEq)]
pub struct Member {
    /// The character.
    pub character: char,
    /// Its glyph.
    pub glyph: GlyphId,
    /// Its measures.
    pub letter: Letter,
    /// Thickness of its main stroke.
    pub weight: Option<f64>,
    /// What it is held against others by.
    pub traits: Traits,
}

/// A font's basic letters, measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Alphabet {
    context: Context,
    members: Vec<Member>,
}

impl Alphabet {
    /// Measures a font's capitals, lower case, figures and &. Letters that it
    /// lacks, or whose outlines are broken, are missing, not zero.
    pub fn of(font: &Font) -> Self {
        Self::against(Context::of(font), font)
    }

    /// As [`Alphabet::of`], for one who has read the font's context already.
    pub fn against(context: Context, font: &Font) -> Self {
        let reader = font.reader();
        let members = LETTERS
            .chars()
            .filter_map(|character| {
                let glyph = reader.glyph(character)?;
                let outline = reader.outline(glyph).ok()?;
                let letter = measure::of_outline(&outline, reader.advance(glyph), &context);
                let weight = main_weight(&letter.strokes);
                letter.bounds.is_some().then(|| Member {
                    character,
                    glyph,
                    traits: traits(&outline, &letter, character, &context),
                    letter,
                    weight,
                })
            })
            .collect();
        Self { context, members }
    }

    /// What the letters were read against.
    pub fn context(&self) -> &Context {
        &self.context
    }

    /// The measured letters, in alphabetical order of each case.
    pub fn members(&self) -> &[Member] {
        &self.members
    }

    /// The member of a character.
    pub fn member(&self, c: char) -> Option<&Member> {
        self.members.iter().find(|m| m.character == c)
    }

    /// How a character of the alphabet stands to the median of its fellows, for
    /// what the model does not know; empty for one outside the alphabet, and
    /// without a measure for which it has too few.
    pub(super) fn by_class(&self, c: char) -> Vec<Deviation> {
        let Some(member) = self.member(c) else {
            return Vec::new();
        };
        Measure::ALL
            .into_iter()
            .filter_map(|m| self.deviation(member, m))
            .collect()
    }

    fn deviation(&self, member: &Member, measure: Measure) -> Option<Deviation> {
        let value = figure(member, measure)?;
        let like: Vec<(&Member, f64)> = fellows(member.character, measure)?
            .filter_map(|c| self.member(c))
            .filter(|m| measure != Measure::Height || end_alike(&m.letter, &member.letter))
            .filter_map(|m| Some((m, figure(m, measure)?)))
            .collect();
        if like.len() < LEAST_FELLOWS {
            return None;
        }
        let mut values: Vec<f64> = like.iter().map(|&(_, v)| v).collect();
        let expected = measure::median(&mut values);
        let mut off: Vec<f64> = values.iter().map(|v| (v - expected).abs()).collect();
        Some(Deviation {
            measure,
            value,
            expected,
            spread: measure::MAD_TO_SD * measure::median(&mut off),
            beside: like.iter().map(|(m, _)| m.character).collect(),
        })
    }
}

fn figure(member: &Member, measure: Measure) -> Option<f64> {
    let bounds = member.letter.bounds?;
    match measure {
        Measure::Weight => member.weight,
        Measure::Width => Some(bounds.width()),
        Measure::Height => stands_between_guides(member.character).then(|| bounds.height()),
    }
}
