//! How far good designs themselves differ, and what that leaves to be found.
//!
//! The size of a cause as it is read off a sound letter ought to be nought; how
//! far it commonly lies from that (1.4826 times the median absolute size) is how
//! freely designers choose it, given all that the rest of the font says. Were
//! sizes to scatter normally, each letter with its own spread, a fault of a given
//! size could be told from none by the distance of the two, and no better: the
//! area under the curve is then `p² + (1 - p)²`, where `p` is the normal
//! distribution at the fault's size by the spread and by the root of 2, because
//! either way counts. Recall is what then lies beyond the spreads that one sound
//! letter in 52 passes.
//!
//! Sizes do not scatter normally: what they leave as they do scatter is told beside
//! it, each letter held against sound ones of its own kind alone and no two letters
//! against each other. The judgement may do a little better, since it also knows how
//! loosely each face is drawn.

use crate::middle::median;
use crate::trial::{auc, one_in_52};
use counterpoise::judge::LETTERS;
use counterpoise::measure::MAD_TO_SD;
use std::collections::BTreeMap;

/// One planted letter: the size of the fault's cause read off it before and after.
pub(crate) struct Read {
    pub(crate) letter: char,
    pub(crate) before: f64,
    pub(crate) after: f64,
}

/// What could be found of one fault at one size.
pub(crate) struct Limit {
    /// How far the size read moves: logarithm of a ratio or share of the height.
    pub(crate) moves: f64,
    /// How far it lies from nought in sound letters: the middle letter's.
    pub(crate) spread: f64,
    /// The area that normal scatter would leave, over all letters.
    pub(crate) auc: f64,
    /// The recall, over all letters.
    pub(crate) recall: f64,
    /// The area and the recall that sizes leave as they scatter.
    pub(crate) as_drawn: (f64, f64),
    /// The letters chosen most freely, each with its spread.
    pub(crate) freest: Vec<(char, f64)>,
}

/// Fewer than this show no spread.
const LEAST: usize = 20;

pub(crate) fn limit(all: &[&Read]) -> Limit {
    let mut by_letter: BTreeMap<char, (Vec<f64>, Vec<f64>)> = BTreeMap::new();
    for r in all {
        let own = by_letter.entry(r.letter).or_default();
        own.0.push(r.before.abs());
        own.1.push((r.after - r.before).abs());
    }
    let mut letters: Vec<(char, f64, f64, f64)> = LETTERS
        .chars()
        .filter_map(|c| {
            let (before, moves) = by_letter.get_mut(&c)?;
            let n = before.len();
            let spread = MAD_TO_SD * median(before)?;
            (n >= LEAST).then_some((c, spread, median(moves)?, n as f64))
        })
        .collect();
    let as_drawn = as_drawn(all);
    let of = |f: fn(&(char, f64, f64, f64)) -> f64| {
        let mut values: Vec<f64> = letters.iter().map(f).collect();
        median(&mut values).unwrap_or(f64::NAN)
    };
    let (spread, moves) = (of(|l| l.1), of(|l| l.2));
    let over_all = |found: fn(f64) -> f64| {
        let (sum, n) = letters.iter().fold((0.0, 0.0), |(sum, n), l| {
            (sum + l.3 * found(l.2 / l.1.max(1e-9)), n + l.3)
        });
        sum / n
    };
    let (auc, recall) = (over_all(separation), over_all(beyond));
    letters.sort_by(|a, b| b.1.total_cmp(&a.1));
    Limit {
        moves,
        spread,
        auc,
        recall,
        as_drawn,
        freest: letters.iter().take(5).map(|l| (l.0, l.1)).collect(),
    }
}

/// Area and recall, each letter among its own kind, over all letters.
fn as_drawn(all: &[&Read]) -> (f64, f64) {
    let mut kinds: BTreeMap<char, (Vec<f64>, Vec<f64>)> = BTreeMap::new();
    for r in all {
        let own = kinds.entry(r.letter).or_default();
        own.0.push(r.before.abs());
        own.1.push(r.after.abs());
    }
    let (mut area, mut recall, mut n) = (0.0, 0.0, 0.0);
    for (sound, faulty) in kinds.values_mut() {
        if sound.len() < LEAST {
            continue;
        }
        sound.sort_unstable_by(f64::total_cmp);
        let line = one_in_52(sound);
        let count = faulty.len() as f64;
        area += count * auc(faulty, sound);
        recall += faulty.iter().filter(|&&v| v > line).count() as f64;
        n += count;
    }
    (area / n, recall / n)
}

/// How often a normal figure so many spreads off, either way, lies farther from
/// nought than one that is not off.
fn separation(spreads: f64) -> f64 {
    let p = normal(spreads / 2.0_f64.sqrt());
    p * p + (1.0 - p) * (1.0 - p)
}

/// How often a normal figure so many spreads off lies, either way, beyond what one
/// in 52 that are not off passes.
fn beyond(spreads: f64) -> f64 {
    /// Where a normal figure lies beyond, one way or the other, once in 52.
    const LINE: f64 = 2.341;
    normal(spreads - LINE) + normal(-spreads - LINE)
}

/// The normal distribution, to 1e-7 (Abramowitz and Stegun, 7.1.26, from memory).
fn normal(x: f64) -> f64 {
    const OF: [f64; 5] = [
        0.254_829_592,
        -0.284_496_736,
        1.421_413_741,
        -1.453_152_027,
        1.061_405_429,
    ];
    let z = x.abs() / 2.0_f64.sqrt();
    let t = 1.0 / (1.0 + 0.327_591_1 * z);
    let sum = OF.iter().rev().fold(0.0, |sum, a| (sum + a) * t);
    let half = 0.5 * sum * (-z * z).exp();
    if x > 0.0 { 1.0 - half } else { half }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_normal_distribution_at_known_places() {
        for (x, p) in [(0.0, 0.5), (1.0, 0.841_344_75), (-1.959_964, 0.025)] {
            assert!((normal(x) - p).abs() < 1e-6, "{x}: {}", normal(x));
        }
    }

    #[test]
    fn no_difference_is_found_half_the_time_and_a_large_one_always() {
        assert!((separation(0.0) - 0.5).abs() < 1e-6);
        assert!(separation(8.0) > 0.999_999);
        assert!((beyond(0.0) - 1.0 / 52.0).abs() < 1e-5);
        assert!(beyond(8.0) > 0.999_999);
    }
}
