//! Members of a kerning class that do not look like the others on the side that
//! the class is kerned on.
//!
//! Of each class of three or more of the letters at hand, each member's side is
//! held against the middle one at every level, as deep as pairs are compared.

use super::finding::{KernFinding, KernMatter};
use crate::font::{GlyphId, Kerning, PairOrigin};
use crate::measure::median;
use crate::order::by_number;
use crate::spacing::{DEEPEST, Side, Spaced, Spacing};
use std::collections::BTreeSet;

/// Fewer letters than this are no class to stand out of.
const LEAST_MEMBERS: usize = 3;

/// A side lies this far from its fellows', in the mean over the band, before it
/// is told of: share of the cap height. C and O, or n and h, differ by less than
/// half as much; O and L by more.
const FAR: f64 = 0.035;

/// And so many times as far as the others do, in the middle.
const TIMES: f64 = 3.0;

/// The members that do not belong.
pub(super) fn misfits(spacing: &Spacing, kerning: &Kerning) -> Vec<KernFinding> {
    let mut seen = BTreeSet::new();
    let mut all = Vec::new();
    for a in &spacing.letters {
        for b in &spacing.letters {
            for source in kerning.sources(a.glyph, b.glyph) {
                let PairOrigin::Classes { first, second } = source.origin else {
                    continue;
                };
                let (firsts, seconds) = (
                    (source.lookup, source.subtable, 0, first),
                    (source.lookup, source.subtable, 1, second),
                );
                if seen.contains(&firsts) && seen.contains(&seconds) {
                    continue;
                }
                let members = kerning.members(&source);
                if seen.insert(firsts) && first != 0 {
                    all.extend(of_class(spacing, &members.0, KernMatter::FirstClass));
                }
                if seen.insert(seconds) && second != 0 {
                    all.extend(of_class(spacing, &members.1, KernMatter::SecondClass));
                }
            }
        }
    }
    by_number(&mut all, |f| {
        let [first, second] = f.pairs[0].map(|c| f64::from(u32::from(c)));
        f64::from(char::MAX as u32 + 1) * first + second
    });
    let mut once: Vec<KernFinding> = Vec::new();
    for f in all {
        if !once
            .iter()
            .any(|o| o.pairs == f.pairs && o.matter == f.matter)
        {
            once.push(f);
        }
    }
    once
}

fn of_class(spacing: &Spacing, glyphs: &[GlyphId], matter: KernMatter) -> Vec<KernFinding> {
    let members: Vec<&Spaced> = spacing
        .letters
        .iter()
        .filter(|l| glyphs.contains(&l.glyph))
        .collect();
    if members.len() < LEAST_MEMBERS {
        return Vec::new();
    }
    let side = |l: &Spaced| -> Side {
        match matter {
            KernMatter::FirstClass => l.sides.right.clone(),
            _ => l.sides.left.clone(),
        }
    };
    let deepest = DEEPEST * spacing.grid.height;
    // Letters of both cases meet in the lower one's band.
    let band = members
        .iter()
        .map(|l| l.sides.band.clone())
        .min_by_key(ExactSizeIterator::len)
        .unwrap_or_default();
    let rows: Vec<Vec<f64>> = members
        .iter()
        .map(|l| {
            let depth = side(l).depth;
            band.clone()
                .map(|level| depth[level].min(deepest))
                .collect()
        })
        .collect();
    let middle: Vec<f64> = (0..band.len())
        .map(|i| median(&mut rows.iter().map(|r| r[i]).collect::<Vec<_>>()))
        .collect();
    let off: Vec<f64> = rows
        .iter()
        .map(|row| {
            let sum: f64 = row.iter().zip(&middle).map(|(a, b)| (a - b).abs()).sum();
            sum / band.len().max(1) as f64
        })
        .collect();
    let common = median(&mut off.clone());
    let limit = (FAR * spacing.grid.height).max(TIMES * common);
    members
        .iter()
        .zip(&off)
        .filter(|(_, off)| **off > limit)
        .map(|(letter, &off)| {
            let others = members.iter().filter(|m| m.character != letter.character);
            let beside: Vec<String> = others.take(4).map(|m| m.character.to_string()).collect();
            KernFinding {
                matter,
                pairs: vec![[letter.character; 2]],
                kern: 0.0,
                asked: off,
                spreads: 4.0 * off / limit,
                beside: beside.join(", "),
            }
        })
        .collect()
}
