//! Letters on a line with their side bearings made equal, or their kerning taken
//! out. Font units.

use super::{Class, Drawn, Lesson};

/// A letter on the line.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// Where its origin stands.
    pub x: f64,
    /// White before its ink, its left side bearing.
    pub left: f64,
    /// White after it, its right side bearing.
    pub right: f64,
    /// What kerning adds between it and the letter before it.
    pub kern: f64,
}

/// What a lesson does to the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LineMatter {
    /// Nothing: bearings and kerning as the font has them.
    AsDrawn,
    /// All bearings are drawn towards one.
    Bearings,
    /// Kerning is drawn towards none.
    Kerning,
}

impl LineMatter {
    /// What a lesson is about.
    pub fn of(lesson: Lesson) -> Self {
        match lesson {
            Lesson::Bearings => Self::Bearings,
            Lesson::Kerning => Self::Kerning,
            _ => Self::AsDrawn,
        }
    }
}

/// Stands letters on a line; also how long it is. Kerning counts in the lesson
/// about kerning alone: elsewhere the letters stand by their bearings.
pub fn place(letters: &[Drawn], class: &Class, matter: LineMatter, out: f64) -> (Vec<Placed>, f64) {
    let bearings = |d: &Drawn| {
        let left = d.letter.left_bearing().unwrap_or(0.0);
        (left, d.letter.right_bearing().unwrap_or(0.0))
    };
    // One bearing for all sides: the mean of these, so that the line keeps its length.
    let sides = letters.iter().map(bearings);
    let mean = sides.clone().map(|(l, r)| l + r).sum::<f64>() / (2 * letters.len().max(1)) as f64;
    let mut at = 0.0;
    let mut placed: Vec<Placed> = Vec::new();
    for (i, letter) in letters.iter().enumerate() {
        let (mut left, mut right) = bearings(letter);
        let own = left;
        let mut kern = 0.0;
        match matter {
            LineMatter::AsDrawn => {}
            LineMatter::Bearings => {
                left += out * (mean - left);
                right += out * (mean - right);
            }
            LineMatter::Kerning => {
                if let Some(before) = i.checked_sub(1).map(|i| &letters[i]) {
                    let pair = class.kerning().value(before.glyph, letter.glyph);
                    kern = f64::from(pair.apart()) * (1.0 - out);
                }
            }
        }
        at += kern;
        let ink = letter.letter.bounds.map_or(0.0, |b| b.width());
        placed.push(Placed {
            // The outline has its own bearing in it.
            x: at + left - own,
            left,
            right,
            kern,
        });
        at += left + ink + right;
    }
    (placed, at)
}

/// Pairs of the alphabet that want something at all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PairTally {
    /// Pairs that were looked at.
    pub pairs: usize,
    /// Those that the font kerns.
    pub kerned: usize,
    /// Those that would have to be kerned to stand as they stand now, if all side
    /// bearings were equal.
    pub otherwise: usize,
}

/// A pair moved by less than this share of the em is left as it is: what is just
/// noticed in a space of a tenth of the em, at 3% (a textbook's value, from memory).
const NOTICED: f64 = 0.003;

const ALPHABET: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";

impl PairTally {
    /// Counts the pairs of the letters of the alphabet that a font has.
    pub fn of(class: &Class) -> Self {
        let letters: Vec<Drawn> = ALPHABET.chars().filter_map(|c| class.drawn(c)).collect();
        let least = NOTICED * class.context().units_per_em;
        let side = |b: Option<f64>| b.unwrap_or(0.0);
        let n = letters.len().max(1) as f64;
        let mean = letters
            .iter()
            .map(|d| side(d.letter.left_bearing()) + side(d.letter.right_bearing()))
            .sum::<f64>()
            / (2.0 * n);
        let mut tally = Self {
            pairs: letters.len() * letters.len(),
            kerned: 0,
            otherwise: 0,
        };
        for a in &letters {
            for b in &letters {
                let kern = f64::from(class.kerning().value(a.glyph, b.glyph).apart());
                let white = side(a.letter.right_bearing()) + kern + side(b.letter.left_bearing());
                tally.kerned += usize::from(kern != 0.0);
                tally.otherwise += usize::from((white - 2.0 * mean).abs() > least);
            }
        }
        tally
    }
}
