//! By how much each pair's white asks to be kerned. Font units.
//!
//! Pairs are compared within blocks: two capitals, a capital before a lower-case
//! letter, two lower-case letters. In each, the middle is the median optical
//! distance of all its pairs as the font kerns them: what its designer holds to
//! be even. A pair asks for the kern that would bring it to the middle.

use crate::font::Kerning;
use crate::measure::{MAD_TO_SD, median};
use crate::spacing::{Case, DEEPEST, Spaced, Spacing};

/// Pairs that are compared with each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Block {
    /// Two capitals.
    Capitals,
    /// A capital before a lower-case letter.
    Mixed,
    /// Two lower-case letters.
    Lower,
}

impl Block {
    /// Every block.
    pub const ALL: [Self; 3] = [Self::Capitals, Self::Mixed, Self::Lower];

    /// The block of a pair; `None` of pairs that are no two letters, or a capital
    /// behind a lower-case letter, which few words hold.
    pub fn of(first: char, second: char) -> Option<Self> {
        if !first.is_alphabetic() || !second.is_alphabetic() {
            return None;
        }
        match (Case::of(Some(first)), Case::of(Some(second))) {
            (Case::Capital, Case::Capital) => Some(Self::Capitals),
            (Case::Capital, Case::Lower) => Some(Self::Mixed),
            (Case::Lower, Case::Lower) => Some(Self::Lower),
            (Case::Lower, Case::Capital) => None,
        }
    }
}

/// What a pair asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Need {
    /// The letters, by their places in the [`Spacing`].
    pub first: usize,
    /// The second of them.
    pub second: usize,
    /// Which pairs it is compared with.
    pub block: Block,
    /// The kern that the font has.
    pub kern: f64,
    /// The kern that its white asks for; negative is nearer.
    pub asked: f64,
    /// The kern that it would have if it left as much to ask for as the pairs like
    /// it do: those in which one letter is another whose facing side looks the
    /// same. Its own kern, where there are too few of them.
    pub alike: f64,
}

impl Need {
    /// What is left to ask for once the font's kern is made.
    pub fn left(&self) -> f64 {
        self.asked - self.kern
    }

    /// How much nearer or further the pairs like it are set, for what their white
    /// asks.
    pub fn unlike(&self) -> f64 {
        self.alike - self.kern
    }
}

/// What all pairs ask for.
#[derive(Debug, Clone, PartialEq)]
pub struct Needs {
    /// Every pair of two letters.
    pub pairs: Vec<Need>,
    /// The middle optical distance of each block, in the order of [`Block::ALL`];
    /// `None` of one without pairs.
    pub middles: [Option<f64>; 3],
    /// How far pairs of each block commonly are from it, kerned.
    pub spreads: [f64; 3],
    /// How far pairs of each block commonly are from being kerned as those like
    /// them.
    pub unlike: [f64; 3],
}

impl Needs {
    /// Holds all pairs of letters against each other.
    pub fn of(spacing: &Spacing, kerning: &Kerning) -> Self {
        let mut gathered = Gathering::default();
        for first in 0..spacing.letters.len() {
            gathered.row(spacing, kerning, first);
        }
        gathered.finish(spacing)
    }
}

/// Pairs on their way to being compared, one first letter after another, so that
/// whoever holds it can draw breath between.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Gathering {
    pairs: Vec<Need>,
    distances: Vec<f64>,
}

impl Gathering {
    /// Takes in all pairs of one first letter.
    pub fn row(&mut self, spacing: &Spacing, kerning: &Kerning, first: usize) {
        let Some(a) = spacing.letters.get(first) else {
            return;
        };
        for (second, b) in spacing.letters.iter().enumerate() {
            let Some(block) = Block::of(a.character, b.character) else {
                continue;
            };
            let kern = f64::from(kerning.value(a.glyph, b.glyph).apart());
            if let Some(white) = spacing.whites.pair(first, second, kern) {
                self.distances.push(white.distance);
                self.pairs.push(Need {
                    first,
                    second,
                    block,
                    kern,
                    asked: kern,
                    alike: kern,
                });
            }
        }
    }

    /// Compares them.
    pub fn finish(self, spacing: &Spacing) -> Needs {
        let whites = &spacing.whites;
        let mut needs = Needs {
            pairs: self.pairs,
            middles: [None; 3],
            spreads: [0.0; 3],
            unlike: [0.0; 3],
        };
        for block in Block::ALL {
            let mut of_block: Vec<f64> = needs
                .pairs
                .iter()
                .zip(&self.distances)
                .filter(|(n, _)| n.block == block)
                .map(|(_, &d)| d)
                .collect();
            if !of_block.is_empty() {
                needs.middles[block as usize] = Some(median(&mut of_block));
            }
        }
        for need in &mut needs.pairs {
            let middle = needs.middles[need.block as usize];
            let asked = middle.and_then(|m| whites.kern_for(need.first, need.second, m));
            need.asked = asked.unwrap_or(need.kern);
        }
        hold_against_like(&mut needs.pairs, spacing);
        for block in Block::ALL {
            let spread = |of: fn(&Need) -> f64| {
                let pairs = needs.pairs.iter().filter(|n| n.block == block);
                MAD_TO_SD * median(&mut pairs.map(|n| of(n).abs()).collect::<Vec<_>>())
            };
            needs.spreads[block as usize] = spread(Need::left);
            needs.unlike[block as usize] = spread(Need::unlike);
        }
        needs
    }
}

/// Sides this near each other, in the mean over the band and as a share of the cap
/// height, look the same: those of o, c and e do, those of o and n do not.
const LOOKS_LIKE: f64 = 0.02;

/// Fewer pairs than this say nothing of one like them.
const LEAST_LIKE: usize = 2;

fn hold_against_like(pairs: &mut [Need], spacing: &Spacing) {
    let [before, after] = [1, 0].map(|side| like(spacing, side));
    let n = spacing.letters.len();
    let mut left = vec![None; n * n];
    for need in pairs.iter() {
        left[need.first * n + need.second] = Some((need.kern, need.left()));
    }
    for need in pairs.iter_mut() {
        let of_first = before[need.first].iter().map(|f| left[f * n + need.second]);
        let of_second = after[need.second].iter().map(|s| left[need.first * n + s]);
        // A kerned pair is held against those kerned its way: that others of its
        // like have been forgotten is told of these.
        let mut rest: Vec<f64> = of_first
            .chain(of_second)
            .flatten()
            .filter(|(kern, _)| need.kern == 0.0 || need.kern * kern > 0.0)
            .map(|(_, left)| left)
            .collect();
        if rest.len() >= LEAST_LIKE {
            need.alike = need.asked - median(&mut rest);
        }
    }
}

/// For each letter the others of its case whose side looks the same.
fn like(spacing: &Spacing, side: usize) -> Vec<Vec<usize>> {
    let deepest = DEEPEST * spacing.grid.height;
    let looks_like = |a: &Spaced, b: &Spaced| {
        let (one, other) = (&a.side(side).depth, &b.side(side).depth);
        let band = a.sides.band.clone();
        let sum: f64 = band
            .clone()
            .map(|level| (one[level].min(deepest) - other[level].min(deepest)).abs())
            .sum();
        a.sides.band == b.sides.band && sum <= LOOKS_LIKE * spacing.grid.height * band.len() as f64
    };
    let all = &spacing.letters;
    (0..all.len())
        .map(|a| {
            let others = (0..all.len()).filter(|&b| b != a);
            others.filter(|&b| looks_like(&all[a], &all[b])).collect()
        })
        .collect()
}
