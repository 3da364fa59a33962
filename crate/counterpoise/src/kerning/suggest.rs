//! Bearings first, then the fewest kerns that bring every pair's white within a
//! tolerance of the middle. Font units.
//!
//! A bearing is suggested anew where it strays far from what the font's other
//! sides imply. What pairs ask for is then read again. First letters that ask
//! alike, whatever follows, make a class, and so do second letters whatever comes
//! before: alike is within twice the tolerance, so that one kern, in the middle
//! of what a cell's pairs ask for, serves them all. A cell gets a kern only if
//! one of its pairs asks for more than the tolerance.
//!
//! Accented letters go with the letter that they are made of, as artists class
//! them (common practice, no source), unless that leaves one further off than
//! twice the tolerance, as ï after T: such make classes of their own. The classes
//! and their kerns are found without them.

use super::need::{Block, Needs};
use crate::font::GlyphId;
use crate::order::by_number;
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

/// An accented letter goes with its base while every pair of it stays within so
/// many tolerances.
const WITH_BASE: f64 = 2.0;

/// Suggests bearings and kerns; `needs` says what the font's own middle is, `bases`
/// which letter an accented one is made of.
pub fn suggest(
    spacing: &Spacing,
    needs: &Needs,
    tolerance: f64,
    bases: &[(char, char)],
) -> KernSuggestion {
    let tolerance = tolerance.max(LEAST_TOLERANCE);
    let bearings = bearings(spacing);
    let mut whites = spacing.whites.clone();
    for b in &bearings {
        if let Some(at) = spacing.place(b.character) {
            whites.set_bearing(at, b.side, b.suggested);
        }
    }
    let asked = asked(spacing, &whites, needs);
    let base: Vec<Option<usize>> = spacing
        .letters
        .iter()
        .map(|l| {
            let (_, base) = bases.iter().find(|(c, _)| *c == l.character)?;
            spacing.place(*base)
        })
        .collect();
    let cells = Cells::of(&asked, &base, tolerance);
    let mut suggestion = KernSuggestion {
        tolerance,
        bearings,
        kerns: cells.kerns,
        firsts: cells.firsts,
        seconds: cells.seconds,
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
fn asked(spacing: &Spacing, whites: &Whites, needs: &Needs) -> Asked {
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

fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
        (l.min(v), h.max(v))
    })
}

fn range(values: impl Iterator<Item = f64>) -> f64 {
    let (low, high) = ends(values);
    if low > high { 0.0 } else { high - low }
}

/// What every pair asks for, by first and second letter.
type Asked = Vec<Vec<Option<f64>>>;

/// Classes and the kerns between them.
struct Cells<'a> {
    asked: &'a Asked,
    tolerance: f64,
    firsts: Vec<Vec<usize>>,
    seconds: Vec<Vec<usize>>,
    kerns: Vec<SuggestedKern>,
}

impl<'a> Cells<'a> {
    fn of(asked: &'a Asked, base: &[Option<usize>], tolerance: f64) -> Self {
        let (plain, accented): (Vec<usize>, Vec<usize>) =
            (0..asked.len()).partition(|&letter| base[letter].is_none());
        let slack = 2.0 * (tolerance - ROUNDING);
        let mut cells = Self {
            asked,
            tolerance,
            firsts: first_classes(&plain, &plain, asked, slack),
            seconds: Vec::new(),
            kerns: Vec::new(),
        };
        cells.seconds = second_classes(&plain, &cells.firsts, asked, slack);
        cells.kern(0, 0);
        let (first, second) = (cells.firsts.len(), cells.seconds.len());
        let odd = |side: usize| -> Vec<usize> {
            let goes = |&letter: &usize| base[letter].is_some_and(|b| cells.goes(letter, b, side));
            accented.iter().copied().filter(|l| !goes(l)).collect()
        };
        let odd = [odd(0), odd(1)];
        for &letter in &accented {
            let own = |classes: &mut Vec<Vec<usize>>, odd: &[usize]| {
                let with = |c: &&mut Vec<usize>| base[letter].is_some_and(|b| c.contains(&b));
                if !odd.contains(&letter)
                    && let Some(class) = classes.iter_mut().find(with)
                {
                    class.push(letter);
                }
            };
            own(&mut cells.firsts, &odd[0]);
            own(&mut cells.seconds, &odd[1]);
        }
        let of_odd = first_classes(&odd[0], &plain, asked, slack);
        let after_odd = second_classes(&odd[1], &cells.firsts, asked, slack);
        cells.firsts.extend(of_odd);
        cells.seconds.extend(after_odd);
        cells.kern(first, second);
        by_number(&mut cells.kerns, |k| -f64::from(k.apart.abs()));
        cells
    }

    /// Gives a kern to each cell that asks for one and has none yet: those of the
    /// classes from the given ones on.
    fn kern(&mut self, from_first: usize, from_second: usize) {
        for (first, of_first) in self.firsts.iter().enumerate() {
            for (second, of_second) in self.seconds.iter().enumerate() {
                let known = first < from_first && second < from_second;
                let asks = || {
                    let pairs = of_first
                        .iter()
                        .flat_map(|&f| of_second.iter().map(move |&s| (f, s)));
                    pairs.filter_map(|(f, s)| self.asked[f][s])
                };
                if known || !asks().any(|a| a.abs() > self.tolerance) {
                    continue;
                }
                let (low, high) = ends(asks());
                self.kerns.push(SuggestedKern {
                    first,
                    second,
                    apart: (0.5 * (low + high)).round() as i32,
                });
            }
        }
    }

    /// Whether the kerns of its base serve an accented letter, on the side that
    /// it turns to others: 0 as the first of a pair, 1 as the second.
    fn goes(&self, letter: usize, base: usize, side: usize) -> bool {
        let [own, others] = match side {
            0 => [&self.firsts, &self.seconds],
            _ => [&self.seconds, &self.firsts],
        };
        let Some(class) = own.iter().position(|c| c.contains(&base)) else {
            return false;
        };
        others.iter().enumerate().all(|(other, members)| {
            let [first, second] = if side == 0 {
                [class, other]
            } else {
                [other, class]
            };
            let found = self
                .kerns
                .iter()
                .find(|k| k.first == first && k.second == second);
            let kern = found.map_or(0.0, |k| f64::from(k.apart));
            members.iter().all(|&m| {
                let ask = if side == 0 {
                    self.asked[letter][m]
                } else {
                    self.asked[m][letter]
                };
                ask.is_none_or(|ask| (ask - kern).abs() <= WITH_BASE * self.tolerance)
            })
        })
    }
}

/// Classes of first letters: the range of what all their pairs ask for with each
/// second letter stays within the slack.
fn first_classes(
    letters: &[usize],
    seconds: &[usize],
    asked: &Asked,
    slack: f64,
) -> Vec<Vec<usize>> {
    gather(letters, |members, new| {
        seconds.iter().all(|&second| {
            let firsts = members.iter().chain([&new]);
            range(firsts.filter_map(|&f| asked[f][second])) <= slack
        })
    })
}

/// Classes of second letters: whatever class comes before.
fn second_classes(
    letters: &[usize],
    firsts: &[Vec<usize>],
    asked: &Asked,
    slack: f64,
) -> Vec<Vec<usize>> {
    gather(letters, |members, new| {
        firsts.iter().all(|class| {
            let seconds = members.iter().chain([&new]);
            let pairs = seconds.flat_map(|&s| class.iter().map(move |&f| (f, s)));
            range(pairs.filter_map(|(f, s)| asked[f][s])) <= slack
        })
    })
}

/// Puts each letter into the first class that takes it, or into one of its own.
fn gather(letters: &[usize], takes: impl Fn(&[usize], usize) -> bool) -> Vec<Vec<usize>> {
    let mut classes: Vec<Vec<usize>> = Vec::new();
    for &letter in letters {
        match classes.iter_mut().find(|class| takes(class, letter)) {
            Some(class) => class.push(letter),
            None => classes.push(vec![letter]),
        }
    }
    classes
}
