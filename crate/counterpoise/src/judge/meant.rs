//! What a reviewer has said is meant so: a swash, an ornate initial, a stem that
//! is thin on purpose.
//!
//! It is no finding any more, and no measure of the others: the figures that it
//! concerns are given no weight in what is expected of other letters, nor in how
//! loosely the font is taken to be drawn.

use super::cause::Cause;
use super::finding::Matter;

/// What is meant so in one font.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Meant(Vec<(char, Option<Matter>)>);

impl Meant {
    /// Nothing is: every letter is judged.
    pub fn nothing() -> Self {
        Self::default()
    }

    /// Whether anything is.
    pub fn is_nothing(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether a matter of a letter is meant so: by itself, or with the whole letter.
    pub fn holds(&self, letter: char, matter: Matter) -> bool {
        self.0
            .iter()
            .any(|&(l, m)| l == letter && m.is_none_or(|m| m == matter))
    }

    /// Whether all of a letter is.
    pub fn whole(&self, letter: char) -> bool {
        self.0.contains(&(letter, None))
    }

    /// What of a letter's shape is, told one by one.
    pub(super) fn causes(&self, letter: char) -> impl Iterator<Item = Cause> {
        self.0.iter().filter_map(move |&(l, m)| match m {
            Some(Matter::Shape(cause)) if l == letter => Some(cause),
            _ => None,
        })
    }
}

/// Letters, each with the matter that is meant so, or none for the whole letter.
impl FromIterator<(char, Option<Matter>)> for Meant {
    fn from_iter<I: IntoIterator<Item = (char, Option<Matter>)>>(all: I) -> Self {
        Self(all.into_iter().collect())
    }
}
