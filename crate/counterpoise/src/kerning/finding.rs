//! Kerning that stands out, in figures and a sentence for the artist.

use super::classes::misfits;
use super::need::{Need, Needs};
use crate::font::Kerning;
use crate::measure::median;
use crate::order::by_number;
use crate::spacing::Spacing;

/// A pair is told of if its white is off by so many times what is common in the
/// font: kerning follows habit and language too, which white knows nothing of.
const SPREADS: f64 = 4.0;

/// Less than this share of the cap height is left alone however even the font:
/// the middle of what kerned families leave is about 0.015, one pair in ten is
/// off by 0.045 (of 90 open families).
const LEAST: f64 = 0.06;

/// Of a side's pairs, this share is kerned one way before the bearing is blamed.
const NEARLY_ALL: f64 = 0.8;

/// By at least this share of the cap height, in the middle: a hundredth can be seen.
const WORTH_A_BEARING: f64 = 0.01;

/// Fewer pairs than this make no "all".
const LEAST_PAIRS: usize = 12;

/// What the matter is with some kerning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum KernMatter {
    /// Its white asks for a kern, and it has none.
    Missing,
    /// It is kerned one way and its white asks for the other.
    WrongWay,
    /// It is kerned further than its white asks for.
    TooFar,
    /// It is kerned, and its white asks for more.
    NotEnough,
    /// The first letter is kerned alike with nearly all that follow.
    RightBearing,
    /// The second letter is kerned alike with nearly all that come before.
    LeftBearing,
    /// A letter does not look, on its right, like the class that it is kerned in.
    FirstClass,
    /// A letter does not look, on its left, like the class that it is kerned in.
    SecondClass,
}

/// Kerning that stands out. Lengths in font units.
#[derive(Debug, Clone, PartialEq)]
pub struct KernFinding {
    /// What the matter is.
    pub matter: KernMatter,
    /// The pairs concerned, worst first; of a letter alone, that letter twice.
    pub pairs: Vec<[char; 2]>,
    /// The kern that the font has: of the worst pair, or in the middle.
    pub kern: f64,
    /// The kern that the white asks for; of a bearing, what it would be changed
    /// by; of a class, how far the letter's side is from its fellows', in depth.
    pub asked: f64,
    /// How far off it is, in what is common in the font.
    pub spreads: f64,
    /// The letters that it is held against.
    pub beside: String,
}

impl KernFinding {
    /// The finding in a sentence for the artist.
    pub fn sentence(&self) -> String {
        let Some(&[a, b]) = self.pairs.first() else {
            return String::new();
        };
        let (kern, asked) = (units(self.kern), units(self.asked));
        let more = match self.pairs.len() {
            1 => String::new(),
            n => {
                let others: Vec<String> = self.pairs[1..n.min(6)]
                    .iter()
                    .map(|p| p.iter().collect())
                    .collect();
                let rest = if n > 6 { " and others" } else { "" };
                format!(" So do {}{rest}.", others.join(", "))
            }
        };
        let way = |v: f64| if v < 0.0 { "wider" } else { "tighter" };
        match self.matter {
            KernMatter::Missing => format!(
                "{a}{b} stands {} than its neighbours and has no kern: {asked} would bring its \
                 white to theirs.{more}",
                way(self.asked)
            ),
            KernMatter::WrongWay => format!(
                "{a}{b} is kerned by {kern}, the wrong way: its white asks for {asked}.{more}"
            ),
            KernMatter::TooFar => format!(
                "{a}{b} is kerned by {kern}, further than its white and the pairs like it ask for: \
                 {asked} would do.{more}"
            ),
            KernMatter::NotEnough => format!(
                "{a}{b} is kerned by {kern} and still stands {}: its white asks for {asked}.{more}",
                way(self.asked - self.kern)
            ),
            KernMatter::RightBearing => format!(
                "Nearly every pair that begins with {a} is kerned by about {kern}: its right \
                 bearing, changed by {asked}, would do the same at once."
            ),
            KernMatter::LeftBearing => format!(
                "Nearly every pair that ends with {a} is kerned by about {kern}: its left \
                 bearing, changed by {asked}, would do the same at once."
            ),
            KernMatter::FirstClass | KernMatter::SecondClass => {
                let side = if self.matter == KernMatter::FirstClass {
                    "right"
                } else {
                    "left"
                };
                format!(
                    "{a} is kerned as {} are, but its {side} side lies about {} from theirs: it \
                     may want a class of its own.",
                    self.beside,
                    length(self.asked)
                )
            }
        }
    }
}

fn units(v: f64) -> String {
    // Nought is not minus nought.
    format!("{:+.0}", v.round() + 0.0).replace('-', "\u{2212}")
}

fn length(v: f64) -> String {
    match v.abs().round() {
        1.0 => "1 unit".into(),
        v => format!("{v:.0} units"),
    }
}

/// All that stands out, worst first.
pub fn findings(spacing: &Spacing, kerning: &Kerning, needs: &Needs) -> Vec<KernFinding> {
    let mut all = of_pairs(spacing, needs);
    all.extend(of_bearings(spacing, needs));
    all.extend(misfits(spacing, kerning));
    by_number(&mut all, |f| -f.spreads);
    all
}

fn matter(kern: f64, asked: f64) -> KernMatter {
    if kern == 0.0 {
        KernMatter::Missing
    } else if kern * asked < 0.0 {
        KernMatter::WrongWay
    } else if kern.abs() > asked.abs() {
        KernMatter::TooFar
    } else {
        KernMatter::NotEnough
    }
}

/// Pairs off the middle of all, or unlike the pairs that look like them;
/// those of one first letter with one matter together.
fn of_pairs(spacing: &Spacing, needs: &Needs) -> Vec<KernFinding> {
    let least = LEAST * spacing.grid.height;
    let character = |at: usize| spacing.letters[at].character;
    let mut off: Vec<(&Need, f64, f64)> = needs
        .pairs
        .iter()
        .filter_map(|n| {
            let times = |off: f64, spread: f64| off.abs() / spread.max(least / SPREADS);
            let block = n.block as usize;
            let of_all = (times(n.left(), needs.spreads[block]), n.asked);
            let of_like = (times(n.unlike(), needs.unlike[block]), n.alike);
            let (spreads, asked) = if of_all.0 >= of_like.0 {
                of_all
            } else {
                of_like
            };
            (spreads > SPREADS).then_some((n, spreads, asked))
        })
        .collect();
    by_number(&mut off, |o| -o.1);
    let mut all: Vec<(KernFinding, usize, bool)> = Vec::new();
    for (need, spreads, asked) in off {
        let (of, wider) = (matter(need.kern, asked), asked < need.kern);
        let pair = [character(need.first), character(need.second)];
        let like = all
            .iter_mut()
            .find(|(f, first, w)| f.matter == of && *first == need.first && *w == wider);
        match like {
            Some((finding, ..)) => finding.pairs.push(pair),
            None => {
                let finding = KernFinding {
                    matter: of,
                    pairs: vec![pair],
                    kern: need.kern,
                    asked,
                    spreads,
                    beside: String::new(),
                };
                all.push((finding, need.first, wider));
            }
        }
    }
    all.into_iter().map(|(f, ..)| f).collect()
}

/// Sides whose pairs are nearly all kerned one way.
fn of_bearings(spacing: &Spacing, needs: &Needs) -> Vec<KernFinding> {
    let least = WORTH_A_BEARING * spacing.grid.height;
    let mut all = Vec::new();
    for (at, letter) in spacing.letters.iter().enumerate() {
        for (of, is_of) in [
            (
                KernMatter::RightBearing,
                (|n: &Need, at| n.first == at) as fn(&Need, usize) -> bool,
            ),
            (KernMatter::LeftBearing, |n, at| n.second == at),
        ] {
            let kerns: Vec<f64> = needs
                .pairs
                .iter()
                .filter(|n| is_of(n, at))
                .map(|n| n.kern)
                .collect();
            let middle = median(&mut kerns.clone());
            let alike = kerns.iter().filter(|&&k| k * middle > 0.0).count();
            if kerns.len() >= LEAST_PAIRS
                && alike as f64 >= NEARLY_ALL * kerns.len() as f64
                && middle.abs() >= least
            {
                all.push(KernFinding {
                    matter: of,
                    pairs: vec![[letter.character; 2]],
                    kern: middle,
                    asked: middle,
                    spreads: SPREADS * middle.abs() / least,
                    beside: String::new(),
                });
            }
        }
    }
    all
}
