//! How dark each letter of a line looks, and which one stands out.

use super::Band;
use crate::measure::{MAD_TO_SD, median};
use kurbo::Rect;

/// A letter stands out from this many spreads on. Since a line is credited with
/// a spread of at least 1%, that is a difference of at least 3%, the just
/// noticeable difference of a length (Weber fraction, textbook value), taken
/// over for darkness for want of a published one.
pub const STANDS_OUT: f64 = 3.0;

/// The least spread that a line is credited with, as a share of its median
/// darkness: in a line of equal letters any trifle would stand out otherwise.
const LEAST_SPREAD: f64 = 0.01;

/// With fewer letters none can stand out from the rest.
const LEAST_LETTERS: usize = 3;

/// Width of the window that is a letter's word, in letter sizes (common
/// practice, no source: words of a text have about five letters).
const WORD: f64 = 5.0;

/// Bodies further apart than this share of the letter size are of two words: a
/// word space is wider, a kern is less (common practice, no source).
const WORD_GAP: f64 = 0.25;

/// How dark a letter of a line looks, after the blur. Shares of ink, 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shade {
    /// Mean over the letter's body, its advance width by its band. At a word's
    /// end the letter is read as if another of its kind stood beside it, so
    /// that the white of the space does not make it light.
    pub darkness: f64,
    /// The same of the letters next to it in its word, averaged; `None` of a
    /// letter that stands alone.
    pub neighbours: Option<f64>,
    /// The same of the other letters whose middles lie within half a word's
    /// width of its own, averaged by advance width; `None` if there are none. A
    /// word is taken as five letter sizes wide.
    pub word: Option<f64>,
    /// How far the letter is from the line's median, in spreads (median absolute
    /// deviation, scaled to a standard deviation, at least 1% of the median):
    /// positive is darker. `None` in a line of fewer than three letters or of
    /// no ink.
    pub deviation: Option<f64>,
}

/// A letter's body on the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Body {
    /// The letter's number in the line.
    pub(super) letter: usize,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) band: Band,
}

impl Body {
    pub(super) fn width(&self) -> f64 {
        self.to - self.from
    }

    /// Where it stands: bodies are in order of their middles.
    pub(super) fn middle(&self) -> f64 {
        0.5 * (self.from + self.to)
    }

    /// Advance width by band.
    pub(super) fn rect(&self) -> Rect {
        Rect::new(self.from, self.band.from(), self.to, self.band.to())
    }
}

/// Whether a body follows on from the one before it in one word.
pub(super) fn follows(before: &Body, after: &Body, letter_size: f64) -> bool {
    after.from - before.to <= WORD_GAP * letter_size
}

/// Sets each letter's shade beside the others'. `bodies` are in order along the
/// line, and `darkness` holds that of each.
pub(super) fn shades(bodies: &[Body], darkness: &[f64], letter_size: f64) -> Vec<Shade> {
    let words = word_means(bodies, darkness, letter_size);
    let deviations = deviations(darkness);
    let beside = |i: usize, j: usize| {
        let (first, second) = (i.min(j), i.max(j));
        follows(bodies.get(first)?, bodies.get(second)?, letter_size).then(|| darkness[j])
    };
    (0..bodies.len())
        .map(|i| {
            let left = i.checked_sub(1).and_then(|j| beside(i, j));
            Shade {
                darkness: darkness[i],
                neighbours: match (left, beside(i, i + 1)) {
                    (Some(a), Some(b)) => Some(0.5 * (a + b)),
                    (one, other) => one.or(other),
                },
                word: words[i],
                deviation: deviations.as_ref().map(|d| d[i]),
            }
        })
        .collect()
}

/// Every letter's robust distance from the line's median.
fn deviations(darkness: &[f64]) -> Option<Vec<f64>> {
    if darkness.len() < LEAST_LETTERS {
        return None;
    }
    let middle = median(&mut darkness.to_vec());
    let mut off: Vec<f64> = darkness.iter().map(|m| (m - middle).abs()).collect();
    let spread = (MAD_TO_SD * median(&mut off)).max(LEAST_SPREAD * middle);
    (spread > 0.0).then(|| darkness.iter().map(|m| (m - middle) / spread).collect())
}

/// The mean darkness of the letters around each, itself left out.
fn word_means(bodies: &[Body], darkness: &[f64], letter_size: f64) -> Vec<Option<f64>> {
    // Sums up to each letter, of advance and of ink, so that no window is
    // summed anew however many letters it holds.
    let mut sums = vec![(0.0, 0.0)];
    let (mut advance, mut ink) = (0.0, 0.0);
    for (body, darkness) in bodies.iter().zip(darkness) {
        advance += body.width();
        ink += body.width() * darkness;
        sums.push((advance, ink));
    }
    let half = 0.5 * WORD * letter_size;
    bodies
        .iter()
        .zip(darkness)
        .map(|(body, darkness)| {
            let at = body.middle();
            let first = bodies.partition_point(|b| b.middle() < at - half);
            let past = bodies.partition_point(|b| b.middle() <= at + half);
            let advance = sums[past].0 - sums[first].0 - body.width();
            let ink = sums[past].1 - sums[first].1 - body.width() * darkness;
            (past - first > 1 && advance > 0.0).then(|| ink / advance)
        })
        .collect()
}
