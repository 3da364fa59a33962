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
//! them (common practice, no source): classes and their kerns are found without
//! them. A pair that this leaves further off than twice the tolerance, as T before
//! ï, is an exception with a kern of its own.

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

/// Pairs of an accented letter that its base's kerns do not serve.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Exception {
    /// First letters, by their places in the [`Spacing`].
    pub firsts: Vec<usize>,
    /// Second letters; of the two lists one has a single letter.
    pub seconds: Vec<usize>,
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
    /// The kerns, by first and second class, the largest first.
    pub kerns: Vec<SuggestedKern>,
    /// Pairs that are kerned otherwise than their classes.
    pub exceptions: Vec<Exception>,
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
        let own = |e: &&Exception| e.firsts.contains(&first) && e.seconds.contains(&second);
        if let Some(exception) = self.exceptions.iter().find(own) {
            return exception.apart;
        }
        let class = |of: &[Vec<usize>], at| of.iter().position(|c| c.contains(&at));
        let (Some(a), Some(b)) = (class(&self.firsts, first), class(&self.seconds, second)) else {
            return 0;
        };
        let found = self.kerns.iter().find(|k| k.first == a && k.second == b);
        found.map_or(0, |k| k.apart)
    }
}

/// A pair of an accented letter is kerned as its base's while it stays within so
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
    let base: Vec<Option<usize>> = spacing
        .letters
        .iter()
        .map(|l| {
            let (_, base) = bases.iter().find(|(c, _)| *c == l.character)?;
            spacing.place(*base)
        })
        .collect();
    let bearings = bearings(spacing, &base);
    let mut whites = spacing.whites.clone();
    for b in &bearings {
        if let Some(at) = spacing.place(b.character) {
            whites.set_bearing(at, b.side, b.suggested);
        }
    }
    let asked = asked(spacing, &whites, needs);
    let (plain, accented): (Vec<usize>, Vec<usize>) =
        (0..base.len()).partition(|&letter| base[letter].is_none());
    let slack = 2.0 * (tolerance - ROUNDING);
    let mut firsts = first_classes(&plain, &asked, slack);
    let mut seconds = second_classes(&plain, &firsts, &asked, slack);
    let kerns = kerns(&firsts, &seconds, &asked, tolerance);
    for &letter in &accented {
        let with = |class: &&mut Vec<usize>| base[letter].is_some_and(|b| class.contains(&b));
        for classes in [&mut firsts, &mut seconds] {
            if let Some(class) = classes.iter_mut().find(with) {
                class.push(letter);
            }
        }
    }
    let mut suggestion = KernSuggestion {
        tolerance,
        bearings,
        kerns,
        firsts,
        seconds,
        exceptions: Vec::new(),
        asked: 0,
        left: 0,
        whites,
    };
    suggestion.exceptions = exceptions(&suggestion, &asked, &base);
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

/// The bearing that is suggested of a letter's side, if any.
fn bearing(spacing: &Spacing, at: usize, side: usize) -> Option<NewBearing> {
    let letter = &spacing.letters[at];
    let (is, e) = (letter.side(side).bearing, letter.expected[side]);
    let (implied, spread) = e.implied.zip(e.spread)?;
    let off = (is - implied).abs();
    (off > STRAYS * spread && off > LEAST * spacing.grid.height).then_some(NewBearing {
        character: letter.character,
        glyph: letter.glyph,
        side,
        is,
        suggested: implied.round(),
    })
}

/// Those of all letters. An accented letter follows its base: its own foremost ink
/// may be its accent's, as of î.
fn bearings(spacing: &Spacing, base: &[Option<usize>]) -> Vec<NewBearing> {
    let mut all = Vec::new();
    for (at, letter) in spacing.letters.iter().enumerate() {
        for side in [0, 1] {
            let Some(new) = bearing(spacing, base[at].unwrap_or(at), side) else {
                continue;
            };
            let is = letter.side(side).bearing;
            all.push(NewBearing {
                character: letter.character,
                glyph: letter.glyph,
                is,
                suggested: is + new.suggested - new.is,
                ..new
            });
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

/// Pairs of accented letters that are left too far off, those of one letter that
/// ask alike together.
fn exceptions(
    suggestion: &KernSuggestion,
    asked: &Asked,
    base: &[Option<usize>],
) -> Vec<Exception> {
    let slack = 2.0 * (suggestion.tolerance - ROUNDING);
    let letters = 0..base.len();
    let off = |first: usize, second: usize| {
        let kern = f64::from(suggestion.kern(first, second));
        asked[first][second].filter(|a| (a - kern).abs() > WITH_BASE * suggestion.tolerance)
    };
    let accented = |letter: &usize| base[*letter].is_some();
    let mut all = Vec::new();
    for letter in letters.clone().filter(accented) {
        let before = letters.clone().filter_map(|f| Some((off(f, letter)?, f)));
        for (firsts, apart) in alike(before, slack) {
            all.push(Exception {
                firsts,
                seconds: vec![letter],
                apart,
            });
        }
        // Before another accented letter it is among that one's.
        let plain = letters.clone().filter(|s| !accented(s));
        let after = plain.filter_map(|s| Some((off(letter, s)?, s)));
        for (seconds, apart) in alike(after, slack) {
            all.push(Exception {
                firsts: vec![letter],
                seconds,
                apart,
            });
        }
    }
    all
}

/// Letters whose asks lie within the slack of each other, with their middle.
fn alike(asks: impl Iterator<Item = (f64, usize)>, slack: f64) -> Vec<(Vec<usize>, i32)> {
    let mut asks: Vec<(f64, usize)> = asks.collect();
    by_number(&mut asks, |a| a.0);
    let mut all = Vec::new();
    let mut rest = asks.as_slice();
    while let [(least, _), ..] = rest {
        let (own, more) = rest.split_at(rest.partition_point(|a| a.0 - least <= slack));
        let most = own.last().map_or(*least, |a| a.0);
        let members = own.iter().map(|a| a.1).collect();
        all.push((members, (0.5 * (least + most)).round() as i32));
        rest = more;
    }
    all
}

/// What every pair asks for, by first and second letter.
type Asked = Vec<Vec<Option<f64>>>;

fn kerns(
    firsts: &[Vec<usize>],
    seconds: &[Vec<usize>],
    asked: &Asked,
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
            let (low, high) = ends(asks());
            all.push(SuggestedKern {
                first,
                second,
                apart: (0.5 * (low + high)).round() as i32,
            });
        }
    }
    by_number(&mut all, |k| -f64::from(k.apart.abs()));
    all
}

/// Classes of first letters: the range of what all their pairs ask for with each
/// second letter stays within the slack.
fn first_classes(letters: &[usize], asked: &Asked, slack: f64) -> Vec<Vec<usize>> {
    gather(letters, |members, new| {
        letters.iter().all(|&second| {
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
