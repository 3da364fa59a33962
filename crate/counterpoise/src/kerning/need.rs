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
        let mut gathering = Gathering::default();
        loop {
            if let Some(needs) = gathering.step(spacing, kerning) {
                return needs;
            }
        }
    }
}

/// Pairs on their way to being compared, a row of one first letter's at a time, so
/// that whoever holds it can draw breath between.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Gathering {
    pairs: Vec<Need>,
    distances: Vec<f64>,
    /// Where the pairs of each first letter begin.
    rows: Vec<usize>,
    middles: [Option<f64>; 3],
    like: Option<Like>,
    done: usize,
}

impl Gathering {
    /// Steps done, and steps in all.
    pub fn progress(&self, letters: usize) -> (usize, usize) {
        (self.done, 3 * letters + 1)
    }

    /// Takes the next step; what came of all of them, after the last.
    pub fn step(&mut self, spacing: &Spacing, kerning: &Kerning) -> Option<Needs> {
        let n = spacing.letters.len();
        let (round, first) = match n {
            0 => (3, 0),
            n => (self.done / n, self.done % n),
        };
        match round {
            0 => self.gather(spacing, kerning, first),
            1 => self.ask(spacing, first),
            2 => self.hold_against_like(spacing, first),
            _ => return Some(self.finish()),
        }
        self.done += 1;
        None
    }

    /// Takes in all pairs of one first letter.
    fn gather(&mut self, spacing: &Spacing, kerning: &Kerning, first: usize) {
        self.rows.push(self.pairs.len());
        let a = &spacing.letters[first];
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

    fn row(&mut self, first: usize) -> &mut [Need] {
        let to = self.rows.get(first + 1).copied();
        let from = self.rows[first]..to.unwrap_or(self.pairs.len());
        &mut self.pairs[from]
    }

    /// What the pairs of one first letter ask for.
    fn ask(&mut self, spacing: &Spacing, first: usize) {
        if first == 0 {
            for block in Block::ALL {
                let of_block = self.pairs.iter().zip(&self.distances);
                let mut of_block: Vec<f64> = of_block
                    .filter(|(n, _)| n.block == block)
                    .map(|(_, &d)| d)
                    .collect();
                if !of_block.is_empty() {
                    self.middles[block as usize] = Some(median(&mut of_block));
                }
            }
        }
        let middles = self.middles;
        for need in self.row(first) {
            let asked = middles[need.block as usize]
                .and_then(|m| spacing.whites.kern_for(need.first, need.second, m));
            need.asked = asked.unwrap_or(need.kern);
        }
    }

    /// How the pairs of one first letter are kerned beside those like them.
    fn hold_against_like(&mut self, spacing: &Spacing, first: usize) {
        let like = match self.like.take() {
            Some(like) => like,
            None => Like::of(spacing, &self.pairs),
        };
        for need in self.row(first) {
            like.hold(need);
        }
        self.like = Some(like);
    }

    fn finish(&mut self) -> Needs {
        let pairs = std::mem::take(&mut self.pairs);
        let spreads = |of: fn(&Need) -> f64| {
            Block::ALL.map(|block| {
                let own = pairs.iter().filter(|n| n.block == block);
                MAD_TO_SD * median(&mut own.map(|n| of(n).abs()).collect::<Vec<_>>())
            })
        };
        Needs {
            spreads: spreads(Need::left),
            unlike: spreads(Need::unlike),
            middles: self.middles,
            pairs,
        }
    }
}

/// Sides this near each other, in the mean over the band and as a share of the cap
/// height, look the same: those of o, c and e do, those of o and n do not.
const LOOKS_LIKE: f64 = 0.02;

/// Fewer pairs than this say nothing of one like them.
const LEAST_LIKE: usize = 2;

/// What pairs have left to ask for, and which letters look alike.
#[derive(Debug, Clone, PartialEq)]
struct Like {
    letters: usize,
    /// Of each pair its kern and what is left.
    left: Vec<Option<(f64, f64)>>,
    before: Vec<Vec<usize>>,
    after: Vec<Vec<usize>>,
}

impl Like {
    fn of(spacing: &Spacing, pairs: &[Need]) -> Self {
        let letters = spacing.letters.len();
        let mut left = vec![None; letters * letters];
        for need in pairs {
            left[need.first * letters + need.second] = Some((need.kern, need.left()));
        }
        Self {
            letters,
            left,
            before: like(spacing, 1),
            after: like(spacing, 0),
        }
    }

    fn hold(&self, need: &mut Need) {
        let left = |first: usize, second: usize| self.left[first * self.letters + second];
        let of_first = self.before[need.first]
            .iter()
            .map(|&f| left(f, need.second));
        let of_second = self.after[need.second].iter().map(|&s| left(need.first, s));
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
