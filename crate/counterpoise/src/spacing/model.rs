//! What was learned of how well-spaced open families set their sides: three
//! linear rules, and how far letters commonly stray from them. All lengths in
//! them are shares of the cap height.
//!
//! | rule | holds for | reads |
//! |---|---|---|
//! | of shapes | any glyph | the side's shape, the control letters' shapes |
//! | of controls | any glyph | these, and the bearings of H and O, or n and o |
//! | of letters | A to Z, a to z | the bearings of H and O, or n and o, and a little of the side's shape |
//!
//! Fitted to least absolute deviations on the families that `families.toml`
//! of `counterpoise-trial` lists for it (`cargo lab-trial spacing fit`).

use super::features::{BRIEF_FIGURES, SIDE_FIGURES, brief};

/// The letters that have a rule of their own, each side.
pub const RULED: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";

/// Sides of them.
pub const RULED_SIDES: usize = 104;

/// Inputs of the rule of shapes.
pub const OF_SHAPES: usize = 4 + SIDE_FIGURES;

/// Inputs of the rule of controls.
pub const OF_CONTROLS: usize = 5 + 3 * SIDE_FIGURES;

/// Inputs of the rule of letters.
pub const OF_LETTERS: usize = 2 + BRIEF_FIGURES;

/// Letters of one band, whose control letters they are set from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Case {
    /// Set from n and o.
    Lower,
    /// Set from H and O: all that is not lower case.
    Capital,
}

impl Case {
    /// The case of a character; of none, that of capitals.
    pub fn of(c: Option<char>) -> Self {
        if c.is_some_and(char::is_lowercase) {
            Self::Lower
        } else {
            Self::Capital
        }
    }

    /// The straight and the round control letter.
    pub fn controls(self) -> [char; 2] {
        match self {
            Self::Lower => ['n', 'o'],
            Self::Capital => ['H', 'O'],
        }
    }
}

/// One case's control letters; lengths are shares of the cap height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reference {
    /// Bearings of the straight control, left and right.
    pub straight: [f64; 2],
    /// Bearings of the round control.
    pub round: [f64; 2],
    /// Figures of the straight control's sides.
    pub straight_figures: [[f64; SIDE_FIGURES]; 2],
    /// Figures of the round control's sides.
    pub round_figures: [[f64; SIDE_FIGURES]; 2],
    /// Thickness of the straight control's stems.
    pub stem: f64,
    /// White between its stems.
    pub counter: f64,
    /// White inside the round control.
    pub round_counter: f64,
    /// The x-height.
    pub x_height: f64,
}

impl Reference {
    /// What the rule of shapes reads of a side.
    pub fn of_shapes(&self, figures: &[f64; SIDE_FIGURES]) -> [f64; OF_SHAPES] {
        let mut all = [0.0; OF_SHAPES];
        all[..4].copy_from_slice(&[self.stem, self.counter, self.round_counter, self.x_height]);
        all[4..].copy_from_slice(figures);
        all
    }

    /// What the rule of controls reads of a side: 0 the left, 1 the right.
    pub fn of_controls(&self, figures: &[f64; SIDE_FIGURES], side: usize) -> [f64; OF_CONTROLS] {
        let mut all = [0.0; OF_CONTROLS];
        all[..5].copy_from_slice(&[
            self.straight[side],
            self.round[side],
            self.stem,
            self.counter,
            self.x_height,
        ]);
        let parts = [
            figures,
            &self.round_figures[side],
            &self.straight_figures[side],
        ];
        for (to, from) in all[5..].chunks_exact_mut(SIDE_FIGURES).zip(parts) {
            to.copy_from_slice(from);
        }
        all
    }

    /// What the rule of letters reads of a side.
    pub fn of_letters(&self, figures: &[f64; SIDE_FIGURES], side: usize) -> [f64; OF_LETTERS] {
        let mut all = [0.0; OF_LETTERS];
        all[0] = self.straight[side];
        all[1] = self.round[side];
        all[2..].copy_from_slice(&brief(figures));
        all
    }
}

/// A linear rule: a factor for each input, then what is added.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule(pub Vec<f64>);

impl Rule {
    /// What it says of inputs.
    pub fn says(&self, inputs: &[f64]) -> f64 {
        let added = self.0.get(inputs.len()).copied().unwrap_or(0.0);
        added + self.0.iter().zip(inputs).map(|(a, b)| a * b).sum::<f64>()
    }
}

/// What was learned.
#[derive(Debug, Clone, PartialEq)]
pub struct Model {
    /// The rule of shapes, of the lower case and of capitals.
    pub shapes: [Rule; 2],
    /// The rule of controls, likewise.
    pub controls: [Rule; 2],
    /// The rule of letters: each side of each of [`RULED`].
    pub letters: Vec<Rule>,
    /// How far a side of these commonly strays from what its font's other sides
    /// imply.
    pub spreads: Vec<f64>,
}

const SHIPPED: &[u8] = include_bytes!("learned.bin");

impl Model {
    /// The model that the build carries; `None` if its file is not whole.
    pub fn shipped() -> Option<Self> {
        let mut numbers = SHIPPED
            .chunks_exact(4)
            .map(|b| f64::from(f32::from_le_bytes([b[0], b[1], b[2], b[3]])));
        let mut take = |count: usize| -> Option<Vec<f64>> {
            let taken: Vec<f64> = numbers.by_ref().take(count).collect();
            (taken.len() == count && taken.iter().all(|n| n.is_finite())).then_some(taken)
        };
        let model = Self {
            shapes: [Rule(take(OF_SHAPES + 1)?), Rule(take(OF_SHAPES + 1)?)],
            controls: [Rule(take(OF_CONTROLS + 1)?), Rule(take(OF_CONTROLS + 1)?)],
            letters: (0..RULED_SIDES)
                .map(|_| take(OF_LETTERS + 1).map(Rule))
                .collect::<Option<_>>()?,
            spreads: take(RULED_SIDES)?,
        };
        Some(model)
    }

    /// The bytes that [`Model::shipped`] reads.
    pub fn to_bytes(&self) -> Vec<u8> {
        let rules = self
            .shapes
            .iter()
            .chain(&self.controls)
            .chain(&self.letters);
        rules
            .flat_map(|r| &r.0)
            .chain(&self.spreads)
            .flat_map(|&n| (n as f32).to_le_bytes())
            .collect()
    }

    /// Which side of [`RULED`] a letter's side is: 0 the left, 1 the right.
    pub fn ruled(c: char, side: usize) -> Option<usize> {
        RULED.find(c).map(|at| 2 * at + side)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_build_carries_a_model_and_writes_it_as_it_was() {
        let model = Model::shipped().unwrap();
        assert_eq!(model.to_bytes(), SHIPPED);
        assert!(model.spreads.iter().all(|&s| s > 0.0 && s < 0.1));
    }

    #[test]
    fn a_rule_is_a_sum() {
        assert_eq!(Rule(vec![2.0, -1.0, 10.0]).says(&[3.0, 4.0]), 12.0);
    }

    #[test]
    fn sides_are_numbered_by_letter() {
        assert_eq!(Model::ruled('A', 1), Some(1));
        assert_eq!(Model::ruled('z', 1), Some(RULED_SIDES - 1));
        assert_eq!(Model::ruled('1', 0), None);
    }
}
