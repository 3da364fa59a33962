//! The plain rule that the judgement is held beside: a figure against the
//! median of its class in the same face, in robust spreads.

use crate::middle::median;
use crate::specimen::Specimen;
use counterpoise::judge::{Cause, Trait, Traits};
use counterpoise::measure::MAD_TO_SD;

/// Letters of one construction (common practice, no source).
const CLASSES: [&str; 10] = [
    "BDEFHIJKLPRTU",
    "CGOQS",
    "AKMNVWXYZ",
    "bdhijklnpqrtuf",
    "aceogs",
    "kvwxyz",
    "mw",
    "hnu",
    "gpqy",
    "0123456789",
];

/// A class scatters by no less than this on the trait's scale.
const LEAST: f64 = 0.003;

/// Fewer fellows than this have no median to speak of.
const LEAST_FELLOWS: usize = 2;

/// How far a letter's figures for a cause lie from its class.
pub(crate) fn score(face: &Specimen, c: char, traits: &Traits, cause: Cause) -> f64 {
    of(cause)
        .iter()
        .filter_map(|&t| {
            let value = traits.get(t)?;
            let class = CLASSES.iter().find(|class| class.contains(c))?;
            let mut fellows: Vec<f64> = class
                .chars()
                .filter(|&other| other != c)
                .filter_map(|other| face.traits(other)?.get(t))
                .collect();
            if fellows.len() < LEAST_FELLOWS {
                return None;
            }
            let middle = median(&mut fellows)?;
            let mut off: Vec<f64> = fellows.iter().map(|f| (f - middle).abs()).collect();
            Some((value - middle).abs() / (MAD_TO_SD * median(&mut off)?).max(LEAST))
        })
        .fold(0.0, f64::max)
}

fn of(cause: Cause) -> &'static [Trait] {
    match cause {
        Cause::Width => &[Trait::Width],
        Cause::Strokes => &[Trait::Stem, Trait::Bowl, Trait::Thick],
        Cause::Uprights => &[Trait::Stem, Trait::Side],
        Cause::Levels => &[Trait::Bar, Trait::Arch],
        Cause::Overshoot | Cause::Raised => &[
            Trait::TopFlat,
            Trait::TopRound,
            Trait::TopPointed,
            Trait::FootFlat,
            Trait::FootRound,
            Trait::FootPointed,
        ],
        Cause::Left => &[Trait::Left],
        Cause::Right => &[Trait::Right],
        Cause::Pair => &[Trait::Pair],
    }
}
