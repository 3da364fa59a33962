//! How far a letter stands from what the other letters make one expect of it,
//! measure by measure: what is shown of every letter, whether it stands out or
//! not.

use super::alphabet::{Alphabet, Member};
use super::cause::Cause;
use super::judgement::beside;
use super::traits::{Trait, scale};
use super::weigh::Weighed;

/// What is held against the other letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measure {
    /// Thickness of the main stroke.
    Weight,
    /// Ink width.
    Width,
    /// Ink height.
    Height,
}

impl Measure {
    /// Every measure, in the order shown.
    pub const ALL: [Self; 3] = [Self::Weight, Self::Width, Self::Height];
}

/// How far a letter stands from what is expected of it. Lengths in font units.
#[derive(Debug, Clone, PartialEq)]
pub struct Deviation {
    /// What was measured.
    pub measure: Measure,
    /// This letter's figure.
    pub value: f64,
    /// What the other letters of the font make one expect.
    pub expected: f64,
    /// How far letters of this font commonly lie from that: one standard
    /// deviation.
    pub spread: f64,
    /// The letters that say most of it.
    pub beside: String,
}

impl Deviation {
    /// The difference as a share of what was expected; 0 where that is 0.
    pub fn share(&self) -> f64 {
        if self.expected == 0.0 {
            0.0
        } else {
            (self.value - self.expected) / self.expected
        }
    }
}

/// The main stroke's thickness: the stems' if it has any, else the greatest of
/// its curves, else of its diagonals.
const MAIN: [Trait; 4] = [Trait::Stem, Trait::Bowl, Trait::Thick, Trait::Mean];

const TOPS: [Trait; 3] = [Trait::TopFlat, Trait::TopRound, Trait::TopPointed];
const FEET: [Trait; 3] = [Trait::FootFlat, Trait::FootRound, Trait::FootPointed];

/// How a letter that the model knows stands, by the model. `letter` is its place
/// in [`super::LETTERS`].
pub(super) fn by_model(
    weighed: &Weighed<'_>,
    letter: usize,
    member: &Member,
    alphabet: &Alphabet,
) -> Vec<Deviation> {
    let height = scale(alphabet.context());
    let told = |measure, value: f64, expected: f64, spread: f64, cause| Deviation {
        measure,
        value,
        expected,
        spread,
        beside: beside(weighed, letter, cause, alphabet),
    };
    // A logarithm's departure is a ratio.
    let ratio = |measure, of: Trait, cause| {
        let off = weighed.departure(letter, of)?;
        let value = height * off.value.exp();
        let expected = value * (-off.by).exp();
        Some(told(measure, value, expected, expected * off.spread, cause))
    };
    let weight = MAIN
        .into_iter()
        .find_map(|main| ratio(Measure::Weight, main, Cause::Strokes));
    let width = ratio(Measure::Width, Trait::Width, Cause::Width);
    let bounds = member.letter.bounds;
    let tall = bounds.and_then(|b| {
        let end = |ends: [Trait; 3]| ends.into_iter().find_map(|t| weighed.departure(letter, t));
        let (top, foot) = (end(TOPS)?, end(FEET)?);
        let expected = b.height() - (top.by + foot.by) * height;
        let spread = top.spread.hypot(foot.spread) * height;
        Some(told(
            Measure::Height,
            b.height(),
            expected,
            spread,
            Cause::Overshoot,
        ))
    });
    [weight, width, tall].into_iter().flatten().collect()
}
