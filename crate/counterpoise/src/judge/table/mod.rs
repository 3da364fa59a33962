//! What was learned of well-made alphabets.

mod file;

pub use file::{read, write};

use super::cause::Cause;
use super::relations::{LETTERS, Relations};
use super::rules::Rule;
use super::weigh::SHOWN;

/// The fitted model with the noise that it leaves.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// How letters relate.
    pub relations: Relations,
    /// For each figure, how far fonts that were not fitted depart from what is
    /// expected, beside the spread that the model gives itself.
    pub noise: Vec<f64>,
    /// Correlation of the departures of one letter's figures: for each figure,
    /// with those of its letter up to itself.
    pub correlations: Vec<Vec<f64>>,
    /// For each cause, how far one unit of it moves each figure.
    pub effects: [Vec<f64>; Cause::ALL.len()],
    /// For each cause, how strongly it shows in the letters of a font: what the
    /// shares [`SHOWN`] of them pass, on average over fonts.
    pub shown: [[f64; SHOWN.len()]; Cause::ALL.len()],
    /// Of each letter, what the strength of a sign that it is wide or narrow is
    /// multiplied by, so that those whose width designers choose freely stand out no
    /// more often than others. Tried on families held back, other causes gained
    /// nothing by it.
    pub evened: [f64; LETTERS.len()],
    /// Of letters and then of figures: for each cause, how strongly it shows in
    /// sound ones, tabled by rarity.
    pub strengths: [[Vec<f64>; Cause::ALL.len()]; 2],
    /// How rare a sound letter's rarest sign is: minus the logarithm of its
    /// share, tabled by rarity.
    pub rarest: Vec<f64>,
    /// What open families commonly do of each optical rule: quartiles of their
    /// habits.
    pub usual: [[f64; 3]; Rule::ALL.len()],
}

/// Learned by `cargo lab-trial fit` from the families that
/// `crate/counterpoise-trial/families.toml` lists.
static LEARNED: &[u8] = include_bytes!("learned.bin");

impl Table {
    /// The table that the lab judges by; `None` only if the build is broken.
    pub fn shipped() -> Option<Self> {
        read(LEARNED)
    }

    /// Correlation of two figures' departures: nought between letters.
    pub fn correlation(&self, i: usize, j: usize) -> f64 {
        let (later, earlier) = (i.max(j), i.min(j));
        let own = &self.correlations[later];
        let from = later + 1 - own.len();
        if earlier < from {
            0.0
        } else {
            own[earlier - from]
        }
    }

    /// The figures of a letter that a cause moves by more than a trifle.
    pub(super) fn touched(&self, letter: usize, cause: Cause) -> impl Iterator<Item = usize> {
        /// Of the most that it moves any.
        const TRIFLE: f64 = 0.1;
        let effect = &self.effects[cause as usize];
        let own = self.relations.of_letter(letter);
        let most = own.clone().fold(0.0, |m: f64, i| m.max(effect[i].abs()));
        own.filter(move |&i| effect[i].abs() > TRIFLE * most)
    }
}
