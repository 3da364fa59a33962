//! How letters relate in well-made alphabets: a factor model of every letter's
//! traits, fitted on open fonts, and what it expects of one letter given the
//! others of its font.
//!
//! # Method
//! Factor analysis (Rubin and Thayer, EM algorithms for ML factor analysis,
//! Psychometrika 47, 1982, from memory): a font's traits `x` are `mean + loadings z + noise`,
//! with a few dozen factors `z` (how wide, how bold, how much contrast, how
//! serifed ...) of unit spread, and each trait's own noise. Given a font, the
//! factors are estimated from all letters but the one in question, so that no
//! letter vouches for itself; each trait counts by the weight of a t-distribution,
//! so that a few bad letters do not bend the rest (Lange, Little and Taylor,
//! Robust statistical modeling using the t distribution, JASA 84, 1989, from memory).
//! Letters that a font lacks are missing, not nought.

use super::linear::Factor;
use super::traits::{Trait, Traits};
use super::weigh::Kind;
use std::ops::Range;

/// The letters that the model knows, figures and the many-stroked & among them.
pub const LETTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789&";

/// Where in [`LETTERS`] the figures begin. How freely designers draw these says
/// nothing of letters, nor the other way round.
pub const FIGURES: usize = 52;

/// How heavy the tails of a trait's noise are taken to be: degrees of freedom.
pub const FREEDOM: f64 = 4.0;

/// One figure of the model: a trait of a letter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Variable {
    /// Place of the letter in [`LETTERS`].
    pub letter: usize,
    /// Its trait.
    pub of: Trait,
    /// Mean over fonts.
    pub mean: f64,
    /// Variance of its own noise.
    pub noise: f64,
}

/// Figures that are explained together. Heights say nothing of widths, nor
/// widths of strokes that the strokes of other letters do not say better: told
/// apart, each needs fewer factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Together {
    /// Widths, areas and white.
    Build,
    /// Thicknesses.
    Strokes,
    /// Tops and feet.
    Heights,
}

impl Together {
    /// Every group.
    pub const ALL: [Self; 3] = [Self::Build, Self::Strokes, Self::Heights];

    /// The group of a trait.
    pub fn of(t: Trait) -> Self {
        match Kind::of(t) {
            Kind::Strokes => Self::Strokes,
            Kind::Heights => Self::Heights,
            _ => Self::Build,
        }
    }
}

/// How the figures of one group follow from factors.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Group {
    /// Number of factors.
    pub factors: usize,
    /// Its figures: places in [`Relations::variables`], rising.
    pub variables: Vec<usize>,
    /// For each of them, its share of each factor.
    pub loadings: Vec<f64>,
}

/// The model.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Relations {
    /// Its figures, letter by letter.
    pub variables: Vec<Variable>,
    /// How they follow from factors, in the order of [`Together::ALL`].
    pub groups: [Group; Together::ALL.len()],
}

/// What a figure should be, given the other letters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expected {
    /// The expectation, on the trait's scale.
    pub value: f64,
    /// Its variance in fonts at large.
    pub variance: f64,
}

/// A font's figures in the model's order; `None` where missing.
pub type Row = Vec<Option<f64>>;

impl Relations {
    /// A font's figures from its letters' traits.
    /// They stand in the order of [`LETTERS`].
    pub fn row(&self, letters: &[Option<Traits>]) -> Row {
        let mut row = vec![None; self.variables.len()];
        for (letter, traits) in letters.iter().enumerate() {
            if let Some(traits) = traits {
                self.set_letter(&mut row, letter, traits);
            }
        }
        row
    }

    /// Sets one letter's figures in a row.
    pub fn set_letter(&self, row: &mut Row, letter: usize, traits: &Traits) {
        for i in self.of_letter(letter) {
            row[i] = traits.get(self.variables[i].of);
        }
    }

    /// Where each letter's figures stand: they follow each other.
    pub fn of_letter(&self, letter: usize) -> Range<usize> {
        let from = self.variables.partition_point(|v| v.letter < letter);
        let to = self.variables.partition_point(|v| v.letter <= letter);
        from..to
    }

    /// The loadings of one figure on the factors of its group.
    pub fn loading(&self, variable: usize) -> &[f64] {
        let group = &self.groups[Together::of(self.variables[variable].of) as usize];
        match group.variables.binary_search(&variable) {
            Ok(at) => group.loading(at),
            Err(_) => &[],
        }
    }

    /// What every figure should be, each letter's from all other letters.
    /// Figures that the font lacks have an expectation too. Of letters only letters
    /// are asked; of figures, both.
    pub fn expect(&self, row: &Row) -> Vec<Expected> {
        let mut all: Vec<Expected> = self.variables.iter().map(Expected::at_large).collect();
        let from = self.of_letter(FIGURES).start;
        let mut of_letters = row.clone();
        of_letters[from..].fill(None);
        for group in &self.groups {
            group.expect(&self.variables, &of_letters, 0..FIGURES, &mut all);
            group.expect(&self.variables, row, FIGURES..LETTERS.len(), &mut all);
        }
        all
    }
}

impl Expected {
    /// With nothing known of the font.
    fn at_large(v: &Variable) -> Self {
        Self {
            value: v.mean,
            variance: v.noise,
        }
    }
}

impl Group {
    fn loading(&self, at: usize) -> &[f64] {
        &self.loadings[at * self.factors..(at + 1) * self.factors]
    }

    /// What the figures of some letters should be.
    fn expect(
        &self,
        variables: &[Variable],
        row: &Row,
        letters: Range<usize>,
        all: &mut [Expected],
    ) {
        let weights = self.weights(variables, row);
        let sums = self.sums(variables, row, &weights);
        let letter = |at: &usize| variables[self.variables[*at]].letter;
        let places: Vec<usize> = (0..self.variables.len())
            .filter(|at| letters.contains(&letter(at)))
            .collect();
        for own in places.chunk_by(|a, b| letter(a) == letter(b)) {
            let mut without = sums.clone();
            for &at in own {
                let i = self.variables[at];
                if let Some(x) = row[i] {
                    without.add(self.loading(at), x - variables[i].mean, -weights[at]);
                }
            }
            // Always definite: the precision holds the identity.
            let Some(factor) = Factor::of(without.precision, self.factors) else {
                continue;
            };
            let mut z = without.pull;
            factor.solve(&mut z);
            for &at in own {
                let i = self.variables[at];
                let w = self.loading(at);
                all[i] = Expected {
                    value: variables[i].mean + dot(w, &z),
                    variance: variables[i].noise + factor.form(w.to_vec()),
                };
            }
        }
    }

    /// The weight of each figure in the estimate of the factors: its precision,
    /// less where it stands out.
    fn weights(&self, variables: &[Variable], row: &Row) -> Vec<f64> {
        /// Rounds of weighing: the weights settle to about 1% in four.
        const ROUNDS: usize = 4;
        let noise = |at: usize| variables[self.variables[at]].noise;
        let mut weights: Vec<f64> = (0..self.variables.len())
            .map(|at| 1.0 / noise(at))
            .collect();
        for _ in 0..ROUNDS {
            let sums = self.sums(variables, row, &weights);
            let Some(factor) = Factor::of(sums.precision, self.factors) else {
                break;
            };
            let mut z = sums.pull;
            factor.solve(&mut z);
            for (at, &i) in self.variables.iter().enumerate() {
                let Some(x) = row[i] else { continue };
                let w = self.loading(at);
                let off = x - variables[i].mean - dot(w, &z);
                let square = off * off + factor.form(w.to_vec());
                weights[at] = (FREEDOM + 1.0) / (FREEDOM + square / noise(at)) / noise(at);
            }
        }
        weights
    }

    fn sums(&self, variables: &[Variable], row: &Row, weights: &[f64]) -> Sums {
        let k = self.factors;
        let mut sums = Sums {
            precision: vec![0.0; k * k],
            pull: vec![0.0; k],
        };
        for i in 0..k {
            sums.precision[i * k + i] = 1.0;
        }
        for (at, &i) in self.variables.iter().enumerate() {
            if let Some(x) = row[i] {
                sums.add(self.loading(at), x - variables[i].mean, weights[at]);
            }
        }
        sums
    }
}

/// What the figures say of the factors.
#[derive(Debug, Clone)]
struct Sums {
    /// Lower triangle of the factors' precision.
    precision: Vec<f64>,
    pull: Vec<f64>,
}

impl Sums {
    fn add(&mut self, loading: &[f64], off: f64, weight: f64) {
        let k = loading.len();
        for (i, &a) in loading.iter().enumerate() {
            let a = a * weight;
            self.pull[i] += a * off;
            let row = &mut self.precision[i * k..i * k + i + 1];
            for (p, &b) in row.iter_mut().zip(loading) {
                *p += a * b;
            }
        }
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}
