//! Bearings first, then the fewest kerns that bring every pair's white within a
//! tolerance of the middle. Font units.
//!
//! A bearing is suggested anew where it strays far from what the font's other
//! sides imply. What pairs ask for is then read again. First letters that ask
//! alike, whatever follows, make a class, and so do second letters whatever comes
//! before: alike is within twice the tolerance, so that one kern, in the middle
//! of what a cell's pairs ask for, serves them all. A cell gets a kern only if
//! one of its pairs asks for more than the tolerance.

use super::need::{Block, Needs};
use crate::font::GlyphId;
use crate::spacing::{Spacing, Whites};

/// A bearing that strays by more spreads than this is suggested anew.
const STRAYS: f64 = 2.5;

/// And by more than this share of the cap height: less cannot be seen.
const LEAST: f64 = 0.01;

/// Rounding to whole units takes half a unit from the tolerance, and what the
/// kern of a pair is found to another tenth.
const ROUNDING: f64 = 0.6;

/// The least tolerance that kerns in whole units can keep.
const LEAST_TOLERANCE: f64 = 2.0;

/// A bearing suggested anew.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewBearing {
    /// The letter.
    pub character: char,
    /// Its glyph.
    pub glyph: GlyphId,
    /// 0 the left, 1 the right.
    pub side: usize,
    /// What it is.
    pub is: f64,
    /// What it might be.
    pub suggested: f64,
}

/// One kern between two classes of letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SuggestedKern {
    /// Class of the first letter, in [`KernSuggestion::firsts`].
    pub first: usize,
    /// Class of the second, in [`KernSuggestion::seconds`].
    pub second: usize,
    /// How much further apart: negative is nearer.
    pub apart: i32,
}

/// What is suggested.
#[derive(Debug, Clone, PartialEq)]
pub struct KernSuggestion {
    /// White is brought within this of the middle.
    pub tolerance: f64,
    /// Bearings to change before anything is kerned.
    pub bearings: Vec<NewBearing>,
    /// Classes of first letters, by their places in the [`Spacing`].
    pub firsts: Vec<Vec<usize>>,
    /// Classes of second letters.
    pub seconds: Vec<Vec<usize>>,
    /// The kerns, by first and second class.
    pub kerns: Vec<SuggestedKern>,
    /// Pairs that asked for more than the tolerance before any kern.
    pub asked: usize,
    /// Pairs still further off than the tolerance.
    pub left: usize,
    /// The letters' sides with the bearings as suggested.
    pub whites: Whites,
}

impl KernSuggestion {
    /// The kern suggested for two letters, by their places; 0 for most.
    pub fn kern(&self, first: usize, second: usize) -> i32 {
        let class = |of: &[Vec<usize>], at| of.iter().position(|c| c.contains(&at));
        let (Some(a), Some(b)) = (class(&self.firsts, first), class(&self.seconds, second)) else {
            return 0;
        };
        let found = self.kerns.iter().find(|k| k.first == a && k.second == b);
        found.map_or(0, |k| k.apart)
    }
}

/// Suggests bearings and kerns; `needs` says what the font's own middle is.
pub fn suggest(spacing: &Spacing, needs: &Needs, tolerance: f64) -> KernSuggestion {
    let tolerance = tolerance.max(LEAST_TOLERANCE);
    let bearings = bearings(spacing);
    let mut whites = spacing.whites.clone();
    for b in &bearings {
        if let Some(at) = spacing.place(b.character) {
            whites.set_bearing(at, b.side, b.suggested);
        }
    }
    let asked = asked(spacing, &whites, needs);
    let n = spacing.letters.len();
    let slack = 2.0 * (tolerance - ROUNDING);
    // Classes of first letters: the range of what all their pairs ask for with
    // each second letter stays within the slack.
    let firsts = gather(n, |members: &[usize], new| {
        (0..n).all(|second| {
            let asks = members
                .iter()
                .chain([&new])
                .filter_map(|&f| asked[f][second]);
            range(asks) <= slack
        })
    });
    // Classes of second letters: whatever class comes before.
    let seconds = gather(n, |members: &[usize], new| {
        firsts.iter().all(|class| {
            let pairs = members
                .iter()
                .chain([&new])
                .flat_map(|&s| class.iter().map(move |&f| (f, s)));
            range(pairs.filter_map(|(f, s)| asked[f][s])) <= slack
        })
    });
    let mut suggestion = KernSuggestion {
        tolerance,
        bearings,
        kerns: kerns(&firsts, &seconds, &asked, tolerance),
        firsts,
        seconds,
        asked: 0,
        left: 0,
        whites,
    };
    for (first, row) in asked.iter().enumerate() {
        for (second, ask) in row.iter().enumerate() {
            let Some(ask) = ask else { continue };
            let kern = f64::from(suggestion.kern(first, second));
            suggestion.asked += usize::from(ask.abs() > tolerance);
            suggestion.left += usize::from((ask - kern).abs() > tolerance);
        }
    }
    suggestion
}

fn bearings(spacing: &Spacing) -> Vec<NewBearing> {
    let mut all = Vec::new();
    for letter in &spacing.letters {
        for side in [0, 1] {
            let (is, e) = (letter.side(side).bearing, letter.expected[side]);
            let Some((implied, spread)) = e.implied.zip(e.spread) else {
                continue;
            };
            let off = (is - implied).abs();
            if off > STRAYS * spread && off > LEAST * spacing.grid.height {
                all.push(NewBearing {
                    character: letter.character,
                    glyph: letter.glyph,
                    side,
                    is,
                    suggested: implied.round(),
                });
            }
        }
    }
    all
}

/// What each pair asks for; `None` of pairs in no block.
fn asked(spacing: &Spacing, whites: &Whites, needs: &Needs) -> Vec<Vec<Option<f64>>> {
    let ask = |first: usize, second: usize| {
        let pair = (
            spacing.letters[first].character,
            spacing.letters[second].character,
        );
        let middle = needs.middles[Block::of(pair.0, pair.1)? as usize]?;
        whites.kern_for(first, second, middle)
    };
    let n = spacing.letters.len();
    (0..n)
        .map(|first| (0..n).map(|second| ask(first, second)).collect())
        .collect()
}

fn range(values: impl Iterator<Item = f64>) -> f64 {
    let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
        (l.min(v), h.max(v))
    });
    if low > high { 0.0 } else { high - low }
}

/// Puts each letter into the first class that takes it, or into one of its own.
fn gather(n: usize, takes: impl Fn(&[usize], usize) -> bool) -> Vec<Vec<usize>> {
    let mut classes: Vec<Vec<usize>> = Vec::new();
    for letter in 0..n {
        match classes.iter_mut().find(|class| takes(class, letter)) {
            Some(class) => class.push(letter),
            None => classes.push(vec![letter]),
        }
    }
    classes
}

fn kerns(
    firsts: &[Vec<usize>],
    seconds: &[Vec<usize>],
    asked: &[Vec<Option<f64>>],
    tolerance: f64,
) -> Vec<SuggestedKern> {
    let mut all = Vec::new();
    for (first, of_first) in firsts.iter().enumerate() {
        for (second, of_second) in seconds.iter().enumerate() {
            let asks = || {
                of_first
                    .iter()
                    .flat_map(|&f| of_second.iter().filter_map(move |&s| asked[f][s]))
            };
            if !asks().any(|a| a.abs() > tolerance) {
                continue;
            }
            let (low, high) = asks().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
                (l.min(v), h.max(v))
            });
            all.push(SuggestedKern {
                first,
                second,
                apart: (0.5 * (low + high)).round() as i32,
            });
        }
    }
    all
}
