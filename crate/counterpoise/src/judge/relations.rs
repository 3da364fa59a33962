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

use super::linear::{Factor, dot};
use super::traits::{Trait, Traits};
use super::weigh::Kind;
use std::array;
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
        for group in &self.groups {
            group.expect(&self.variables, row, &mut all);
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

    /// What its figures should be: the letters' first, then, by what these said of
    /// the factors and what they say themselves, those of the signs that follow.
    fn expect(&self, variables: &[Variable], row: &Row, all: &mut [Expected]) {
        let letters = self
            .variables
            .partition_point(|&i| variables[i].letter < FIGURES);
        let mut known = Sums::nothing(self.factors);
        for places in [0..letters, letters..self.variables.len()] {
            let figures = Figures {
                group: self,
                variables,
                row,
                places,
            };
            let weights = figures.weights(&known);
            known = figures.added(&known, &weights);
            figures.expect(&known, &weights, all);
        }
    }
}

/// Some of a group's figures in a font.
struct Figures<'a> {
    group: &'a Group,
    variables: &'a [Variable],
    row: &'a Row,
    places: Range<usize>,
}

impl Figures<'_> {
    fn variable(&self, at: usize) -> &Variable {
        &self.variables[self.group.variables[at]]
    }

    /// How far a figure is from its mean over fonts; `None` where it is missing.
    fn off(&self, at: usize) -> Option<f64> {
        self.row[self.group.variables[at]].map(|x| x - self.variable(at).mean)
    }

    /// What they should be, each letter's from all that is known but for itself.
    ///
    /// To take a letter's figures out of the factors' precision and factor it anew
    /// for each would take most of the time. What is left without them follows from
    /// their own few rows (Woodbury, Inverting modified matrices, Princeton 1950,
    /// from memory): with `A` the precision, `U` their loadings, `D` their weights
    /// and `e` what the fit leaves of them, the estimate of another figure `u` loses
    /// `uᵀA⁻¹U (D⁻¹ − UᵀA⁻¹U)⁻¹ e`.
    fn expect(&self, known: &Sums, weights: &[f64], all: &mut [Expected]) {
        let Some((factor, z)) = known.factors() else {
            return;
        };
        let places: Vec<usize> = self.places.clone().collect();
        let letter = |at: &usize| self.variable(*at).letter;
        for own in places.chunk_by(|a, b| letter(a) == letter(b)) {
            let through: Vec<Vec<f64>> = own
                .iter()
                .map(|&at| factor.forward(self.group.loading(at)))
                .collect();
            let fitted = |at| dot(self.group.loading(at), &z);
            let (present, left): (Vec<usize>, Vec<f64>) = own
                .iter()
                .enumerate()
                .filter_map(|(i, &at)| Some((i, self.off(at)? - fitted(at))))
                .unzip();
            let n = present.len();
            let mut among = vec![0.0; n * n];
            for (a, &i) in present.iter().enumerate() {
                for (b, &j) in present[..=a].iter().enumerate() {
                    among[a * n + b] = -dot(&through[i], &through[j]);
                }
                among[a * n + a] += 1.0 / weights[own[i] - self.places.start];
            }
            let Some(among) = Factor::of(among, n) else {
                continue;
            };
            let left = among.solve(&left);
            for (&at, own) in own.iter().zip(&through) {
                let shared: Vec<f64> = present.iter().map(|&i| dot(&through[i], own)).collect();
                let v = self.variable(at);
                all[self.group.variables[at]] = Expected {
                    value: v.mean + fitted(at) - dot(&shared, &left),
                    variance: v.noise + dot(own, own) + among.form(&shared),
                };
            }
        }
    }

    /// The weight of each in the estimate of the factors: its precision, less
    /// where it stands out.
    fn weights(&self, known: &Sums) -> Vec<f64> {
        /// Rounds of weighing: the weights settle to about 1% in four.
        const ROUNDS: usize = 4;
        let noise = |at| self.variable(at).noise;
        let mut weights: Vec<f64> = self.places.clone().map(|at| 1.0 / noise(at)).collect();
        for _ in 0..ROUNDS {
            let Some((factor, z)) = self.added(known, &weights).factors() else {
                break;
            };
            for (weight, at) in weights.iter_mut().zip(self.places.clone()) {
                let Some(off) = self.off(at) else { continue };
                let w = self.group.loading(at);
                let square = (off - dot(w, &z)).powi(2) + factor.form(w);
                *weight = (FREEDOM + 1.0) / (FREEDOM + square / noise(at)) / noise(at);
            }
        }
        weights
    }

    /// What is known once they have said theirs.
    fn added(&self, known: &Sums, weights: &[f64]) -> Sums {
        let mut sums = known.clone();
        let said: Vec<Said<'_>> = weights
            .iter()
            .zip(self.places.clone())
            .filter_map(|(&weight, at)| {
                Some(Said {
                    loading: self.group.loading(at),
                    off: self.off(at)?,
                    weight,
                })
            })
            .collect();
        for four in said.chunks(4) {
            sums.add(four);
        }
        sums
    }
}

/// What one figure says of the factors.
#[derive(Debug, Clone, Copy)]
struct Said<'a> {
    loading: &'a [f64],
    off: f64,
    weight: f64,
}

/// What the figures say of the factors.
#[derive(Debug, Clone)]
struct Sums {
    /// Lower triangle of the factors' precision.
    precision: Vec<f64>,
    pull: Vec<f64>,
}

impl Sums {
    /// Factors are of unit spread before any figure is read.
    fn nothing(k: usize) -> Self {
        let mut precision = vec![0.0; k * k];
        precision.iter_mut().step_by(k + 1).for_each(|p| *p = 1.0);
        Self {
            precision,
            pull: vec![0.0; k],
        }
    }

    /// The factors' estimate, with the factor of their precision.
    fn factors(&self) -> Option<(Factor, Vec<f64>)> {
        let factor = Factor::of(self.precision.clone(), self.pull.len())?;
        let z = factor.solve(&self.pull);
        Some((factor, z))
    }

    /// Adds what up to four figures say: at one time, so that the precision is
    /// gone through once for all of them.
    fn add(&mut self, said: &[Said<'_>]) {
        let Some(&first) = said.first() else { return };
        let nothing = Said {
            weight: 0.0,
            ..first
        };
        let [a, b, c, d] = array::from_fn(|i| said.get(i).copied().unwrap_or(nothing));
        let k = self.pull.len();
        for i in 0..k {
            let at = |s: Said<'_>| s.weight * s.loading[i];
            let by = [at(a), at(b), at(c), at(d)];
            self.pull[i] += by[0] * a.off + by[1] * b.off + by[2] * c.off + by[3] * d.off;
            let row = self.precision[i * k..=i * k + i].iter_mut();
            let all = a
                .loading
                .iter()
                .zip(b.loading)
                .zip(c.loading)
                .zip(d.loading);
            for (p, (((a, b), c), d)) in row.zip(all) {
                *p += by[0] * a + by[1] * b + by[2] * c + by[3] * d;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::judge::Table;

    #[test]
    fn a_letter_is_expected_as_if_it_had_not_been_read() {
        let relations = Table::shipped().unwrap().relations;
        let variables = &relations.variables;
        // Figures that scatter as the model says, every seventh of them missing.
        let figure = |(i, v): (usize, &Variable)| {
            let scatter = (1.7 * i as f64).sin() * v.noise.sqrt();
            (i % 7 != 3).then_some(v.mean + scatter)
        };
        let row: Row = variables.iter().enumerate().map(figure).collect();
        let all = relations.expect(&row);
        for group in &relations.groups {
            let letters = group
                .variables
                .partition_point(|&i| variables[i].letter < FIGURES);
            let figures = Figures {
                group,
                variables,
                row: &row,
                places: 0..letters,
            };
            let nothing = Sums::nothing(group.factors);
            let weights = figures.weights(&nothing);
            for letter in [0, 17, 40] {
                let own = |at: usize| figures.variable(at).letter == letter;
                let but = |(at, &w): (usize, &f64)| if own(at) { 0.0 } else { w };
                let others: Vec<f64> = weights.iter().enumerate().map(but).collect();
                let (factor, z) = figures.added(&nothing, &others).factors().unwrap();
                for at in (0..letters).filter(|&at| own(at)) {
                    let (w, v) = (group.loading(at), figures.variable(at));
                    let told = all[group.variables[at]];
                    assert!((told.value - v.mean - dot(w, &z)).abs() < 1e-9);
                    let variance = v.noise + factor.form(w);
                    assert!((told.variance / variance - 1.0).abs() < 1e-9);
                }
            }
        }
    }
}
