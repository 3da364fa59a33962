//! What a font's own like letters make one expect, where the model cannot tell:
//! in a font too far from any that it was fitted on.
//!
//! A figure ought to be the median of the same figure of like letters (`class`),
//! the letter itself left out. How far letters lie from that is read off all
//! figures of the kind together, so that a font whose letters differ much is
//! allowed to. White beside a letter has no such classes and is not judged.

use super::class::fellows;
use super::deviation::Measure;
use super::relations::{Expected, LETTERS, Relations, Row, Variable};
use super::weigh::Kind;
use crate::measure::{MAD_TO_SD, median};

/// Fewer fellows than this prove no habit.
const LEAST_FELLOWS: usize = 3;

/// The class by which a kind of figure compares.
pub(super) fn class_of(kind: Kind) -> Option<Measure> {
    match kind {
        Kind::Widths | Kind::Area => Some(Measure::Width),
        Kind::Strokes => Some(Measure::Weight),
        Kind::Heights => Some(Measure::Height),
        Kind::Bearings | Kind::Hollows => None,
    }
}

/// What each figure should be; `None` where too few like letters have it.
pub(super) fn expect(relations: &Relations, row: &Row) -> Vec<Option<Expected>> {
    let variables = &relations.variables;
    let middles: Vec<Option<f64>> = variables
        .iter()
        .map(|v| middle(relations, row, v))
        .collect();
    let spreads = Kind::ALL.map(|kind| {
        let mut off: Vec<f64> = (0..variables.len())
            .filter(|&i| Kind::of(variables[i].of) == kind)
            .filter_map(|i| Some((row[i]? - middles[i]?).abs()))
            .collect();
        (!off.is_empty()).then(|| MAD_TO_SD * median(&mut off))
    });
    variables
        .iter()
        .zip(middles)
        .map(|(v, middle)| {
            Some(Expected {
                value: middle?,
                variance: spreads[Kind::of(v.of) as usize]?.powi(2),
            })
        })
        .collect()
}

fn middle(relations: &Relations, row: &Row, v: &Variable) -> Option<f64> {
    let c = LETTERS.chars().nth(v.letter)?;
    let mut like: Vec<f64> = fellows(c, class_of(Kind::of(v.of))?)?
        .filter_map(|other| {
            let other = LETTERS.find(other)?;
            let same = |&i: &usize| relations.variables[i].of == v.of;
            row[relations.of_letter(other).find(same)?]
        })
        .collect();
    (like.len() >= LEAST_FELLOWS).then(|| median(&mut like))
}

/// The share of sound letters that lie so many spreads off by one cause or
/// another: the tails of a t-distribution of four degrees of freedom, each of so
/// many causes having its chance (Bonferroni's bound). Nothing is tabled for
/// fonts like none; this errs on the side of silence.
pub(super) fn rarity(spreads: f64, causes: usize) -> f64 {
    let square = spreads * spreads;
    let root = (1.0 + 0.25 * square).sqrt();
    let inside = 0.75 * spreads / root * (1.0 - square / (12.0 * root * root));
    (causes as f64 * (1.0 - inside)).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tails_are_those_of_four_degrees_of_freedom() {
        // Two-sided points of the t-distribution, from the usual tables.
        for (t, share) in [(2.776, 0.05), (4.604, 0.01), (8.610, 0.001)] {
            assert!(
                (rarity(t, 1) - share).abs() < 2e-5 + 0.002 * share,
                "{t}: {}",
                rarity(t, 1)
            );
        }
        assert_eq!(rarity(0.0, 9), 1.0);
    }
}
