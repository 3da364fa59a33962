//! The optical rules of the trade, as a font keeps them: what the trade says,
//! what this font does, what open families commonly do, and which letters break
//! the font's own habit.
//!
//! # Method
//! Each rule has one figure a letter. The font's habit is their median; how far
//! its letters commonly lie from it is 1.4826 times their median absolute
//! deviation. The habit stands above the rule: in a font whose bars are as thick
//! as its stems that is how it is drawn, and no letter is held to the rule; a
//! letter breaks the habit alone. What open families commonly do are the
//! quartiles of such habits over the families that the model was fitted on.

use super::alphabet::Alphabet;
use super::table::Table;
use super::traits::{Trait, Traits};
use crate::measure::{Context, End, Extremity, Form, GuideKind, Letter, MAD_TO_SD, median};
use crate::order::by_number;

/// A rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rule {
    /// Round tops and feet pass the line of the flat ones.
    RoundPastFlat,
    /// Pointed tops and feet pass it further.
    PointPastRound,
    /// Bars are thinner than stems.
    BarsThinner,
    /// Rounds are, at their thickest, heavier than stems.
    RoundsHeavier,
    /// The strokes of letters of many strokes are thinner.
    ManyStrokesThinner,
    /// And yet these letters are as dark as the others.
    EvenDarkness,
}

/// Letters whose round ends stand on a line that flat letters share. What hangs
/// free, as the hook of f, j or y, has a height of its own.
const ROUND: &str = "CGJOQSUabcdeghmnopqrsu";

/// Letters that may end in a point.
const POINTED: &str = "AMNVWXYZvwxyz";

/// Letters with a curve that carries their weight.
const BOWLS: &str = "CDGOQbcdeopq";

/// Letters of many strokes.
const MANY: &str = "MWmw&";

/// A letter that lies this far from the habit may break it: heights as shares of
/// the letter's own height, others as logarithms of ratios. Three times what is
/// just noticed in a length (2% to 3%, Weber's fraction, textbook value from
/// memory) and, of heights, half of a common overshoot (no source).
const LEAST: (f64, f64) = (0.008, 0.08);

/// ... and it must be this many spreads of the font's own letters.
const SPREADS: f64 = 4.0;

/// Fewer letters than this show no habit.
const LEAST_LETTERS: usize = 2;

/// A habit this close to none counts as none: heights, ratios (their logarithm).
const NONE: (f64, f64) = (0.002, 0.02);

impl Rule {
    /// Every rule.
    pub const ALL: [Self; 6] = [
        Self::RoundPastFlat,
        Self::PointPastRound,
        Self::BarsThinner,
        Self::RoundsHeavier,
        Self::ManyStrokesThinner,
        Self::EvenDarkness,
    ];

    /// What the trade says.
    pub fn saying(self) -> &'static str {
        match self {
            Self::RoundPastFlat => {
                "Round letters pass the line of the flat ones at top and foot, or they look small: \
                 by about 3% of the height."
            }
            Self::PointPastRound => {
                "Pointed letters pass the line further than round ones: by about 5% of the height."
            }
            Self::BarsThinner => {
                "Bars are drawn thinner than stems, or they look the thicker of the two."
            }
            Self::RoundsHeavier => {
                "Round strokes are, at their thickest, a little heavier than stems: they are as \
                 thick in one place only."
            }
            Self::ManyStrokesThinner => {
                "Letters of many strokes, as M, W, m, w and &, have thinner strokes than others."
            }
            Self::EvenDarkness => {
                "And yet letters of many strokes are as dark as the others: no spot in the line."
            }
        }
    }

    /// Where that is from.
    pub fn source(self) -> &'static str {
        match self {
            Self::RoundPastFlat | Self::PointPastRound => {
                "Peter Karow, Digital Formats for Typefaces, p. 26, as secondary pages quote it"
            }
            _ => "common practice, no source",
        }
    }

    /// Whether its figure is a share of the height; else it is a ratio.
    pub fn is_height(self) -> bool {
        matches!(self, Self::RoundPastFlat | Self::PointPastRound)
    }

    fn of_two(self, (height, ratio): (f64, f64)) -> f64 {
        if self.is_height() { height } else { ratio }
    }

    /// On the scale on which distances are told: the logarithm of a ratio.
    fn scale(self, figure: f64) -> f64 {
        if self.is_height() {
            figure
        } else {
            figure.ln()
        }
    }

    /// How a habit stands to what the rule asks; `rounds` is how far the font's
    /// rounds pass.
    fn stance(self, habit: f64, rounds: Option<f64>) -> Stance {
        let at = self.scale(habit);
        let least = self.of_two(NONE);
        let asked = match self {
            Self::RoundPastFlat => at,
            Self::PointPastRound => at - rounds.unwrap_or(0.0),
            Self::RoundsHeavier => at,
            Self::BarsThinner | Self::ManyStrokesThinner => -at,
            // Neither way is right.
            Self::EvenDarkness => 2.0 * self.of_two(LEAST) - at.abs(),
        };
        if asked > least {
            Stance::Keeps
        } else if asked < -least {
            Stance::Against
        } else {
            Stance::Without
        }
    }
}

/// How a font's habit stands to a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Stance {
    /// It does as the rule says.
    Keeps,
    /// It does without: its bars are as thick as its stems.
    Without,
    /// It does the contrary.
    Against,
    /// It has too few such letters to have a habit.
    Unknown,
}

/// One rule in one font.
#[derive(Debug, Clone, PartialEq)]
pub struct Ruling {
    /// The rule.
    pub rule: Rule,
    /// The letters that it is read from, each with its figure.
    pub letters: Vec<(char, f64)>,
    /// The median of their figures.
    pub habit: Option<f64>,
    /// How that stands to the rule.
    pub stance: Stance,
    /// Quartiles of the habits of open families.
    pub usual: [f64; 3],
    /// Those letters that break the habit, the worst first.
    pub breaks: Vec<(char, f64)>,
}

/// A letter as the rules look at it.
#[derive(Debug, Clone, PartialEq)]
pub struct Ruled {
    /// The character.
    pub character: char,
    /// Its traits.
    pub traits: Traits,
    /// Its top and foot, with the line's own height that they are held against.
    ends: [Option<Extremity>; 2],
    /// Its darkness in the band of its case.
    darkness: Option<f64>,
}

impl Ruled {
    /// A measured letter.
    pub fn new(character: char, traits: Traits, letter: &Letter) -> Self {
        let dark = if character.is_lowercase() {
            letter.lower_darkness
        } else {
            letter.capital_darkness
        };
        Self {
            character,
            traits,
            ends: [letter.top, letter.foot],
            darkness: dark.of_body,
        }
    }

    /// Whether the rules look at a character at all: letters and the &.
    pub fn looks_at(character: char) -> bool {
        character.is_alphabetic() || MANY.contains(character)
    }

    /// The letters of a font.
    pub fn all(alphabet: &Alphabet) -> Vec<Self> {
        alphabet
            .members()
            .iter()
            .filter(|m| Self::looks_at(m.character))
            .map(|m| Self::new(m.character, m.traits, &m.letter))
            .collect()
    }

    /// How far its ends of a form pass their lines, on average, as a share of
    /// the letter's own height: the cap height or, of lower case, the x-height.
    fn passes(&self, form: Form, context: &Context) -> Option<f64> {
        let height = context.drawn(if self.character.is_lowercase() {
            GuideKind::XHeight
        } else {
            GuideKind::CapHeight
        })?;
        let past: Vec<f64> = [End::Top, End::Foot]
            .into_iter()
            .zip(&self.ends)
            .filter_map(|(end, e)| {
                let e = e.filter(|e| e.form == form)?;
                context.overshoot(self.character, end, &e)
            })
            .collect();
        let share = past.iter().sum::<f64>() / past.len() as f64 / height;
        (height > 0.0 && !past.is_empty() && share.is_finite()).then_some(share)
    }

    fn get(&self, t: Trait) -> Option<f64> {
        self.traits.get(t)
    }
}

/// Each letter's figure for a rule.
fn figures(rule: Rule, all: &[Ruled], context: &Context) -> Vec<(char, f64)> {
    let of = |letters: &'static str| {
        let own = move |r: &&Ruled| letters.contains(r.character);
        all.iter().filter(own)
    };
    // The middle of a trait over the letters of one case, but for those of many
    // strokes; & goes with the capitals.
    let middle = |t: Trait, like: char| {
        let mut values: Vec<f64> = all
            .iter()
            .filter(|r| r.character.is_lowercase() == like.is_lowercase())
            .filter(|r| !MANY.contains(r.character))
            .filter_map(|r| r.get(t))
            .collect();
        (values.len() >= LEAST_LETTERS).then(|| median(&mut values))
    };
    let told = |r: &Ruled, v: Option<f64>| Some((r.character, v.filter(|v| v.is_finite())?));
    match rule {
        Rule::RoundPastFlat => of(ROUND)
            .filter_map(|r| told(r, r.passes(Form::Round, context)))
            .collect(),
        Rule::PointPastRound => of(POINTED)
            .filter_map(|r| told(r, r.passes(Form::Pointed, context)))
            .collect(),
        Rule::BarsThinner => all
            .iter()
            .filter(|r| !MANY.contains(r.character))
            .filter_map(|r| {
                let bar = r.get(Trait::Bar)?;
                told(r, Some((bar - r.get(Trait::Stem)?).exp()))
            })
            .collect(),
        Rule::RoundsHeavier => of(BOWLS)
            .filter_map(|r| {
                let stem = middle(Trait::Stem, r.character)?;
                told(r, Some((r.get(Trait::Bowl)? - stem).exp()))
            })
            .collect(),
        Rule::ManyStrokesThinner => of(MANY)
            .filter_map(|r| {
                let stem = r.get(Trait::Stem).map(|s| (s, Trait::Stem));
                let thick = r.get(Trait::Thick).map(|t| (t, Trait::Thick));
                let bowl = r.get(Trait::Bowl).map(|b| (b, Trait::Bowl));
                // Its heaviest strokes, beside strokes of their own kind.
                let own = match r.character {
                    'm' => stem,
                    'W' | 'w' => thick,
                    _ => [stem, thick, bowl]
                        .into_iter()
                        .flatten()
                        .max_by(|a, b| a.0.total_cmp(&b.0)),
                };
                let (own, kind) = own?;
                told(r, Some((own - middle(kind, r.character)?).exp()))
            })
            .collect(),
        Rule::EvenDarkness => of(MANY)
            .filter_map(|r| {
                let mut like: Vec<f64> = all
                    .iter()
                    .filter(|o| o.character.is_lowercase() == r.character.is_lowercase())
                    .filter(|o| !MANY.contains(o.character))
                    .filter_map(|o| o.darkness.filter(|&d| d > 0.0))
                    .collect();
                if like.len() < LEAST_LETTERS {
                    return None;
                }
                told(r, Some(r.darkness? / median(&mut like)))
            })
            .collect(),
    }
}

fn habit(letters: &[(char, f64)]) -> Option<f64> {
    let mut values: Vec<f64> = letters.iter().map(|l| l.1).collect();
    (values.len() >= LEAST_LETTERS).then(|| median(&mut values))
}

/// A font's habits, in the order of [`Rule::ALL`].
pub fn habits(all: &[Ruled], context: &Context) -> [Option<f64>; Rule::ALL.len()] {
    Rule::ALL.map(|rule| habit(&figures(rule, all, context)))
}

/// How a font keeps each rule.
pub fn rulings(alphabet: &Alphabet, table: &Table) -> Vec<Ruling> {
    let (all, context) = (Ruled::all(alphabet), alphabet.context());
    let rounds = habit(&figures(Rule::RoundPastFlat, &all, context));
    Rule::ALL
        .into_iter()
        .map(|rule| {
            let letters = figures(rule, &all, context);
            let habit = habit(&letters);
            Ruling {
                rule,
                habit,
                stance: habit.map_or(Stance::Unknown, |h| rule.stance(h, rounds)),
                usual: table.usual[rule as usize],
                breaks: habit.map_or(Vec::new(), |h| breaks(rule, &letters, h)),
                letters,
            }
        })
        .collect()
}

/// The letters that lie far from the font's own habit.
fn breaks(rule: Rule, letters: &[(char, f64)], habit: f64) -> Vec<(char, f64)> {
    let off = |v: f64| (rule.scale(v) - rule.scale(habit)).abs();
    let mut all: Vec<f64> = letters.iter().map(|l| off(l.1)).collect();
    let spread = MAD_TO_SD * median(&mut all);
    let line = (SPREADS * spread).max(rule.of_two(LEAST));
    let mut far: Vec<(char, f64)> = letters
        .iter()
        .copied()
        .filter(|l| off(l.1) > line)
        .collect();
    by_number(&mut far, |f| -off(f.1));
    far
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_habit_stands_above_the_rule() {
        use Stance::{Against, Keeps, Without};
        let bars = |habit| Rule::BarsThinner.stance(habit, None);
        assert_eq!([bars(0.8), bars(1.0), bars(1.2)], [Keeps, Without, Against]);
        let round = |habit| Rule::RoundPastFlat.stance(habit, None);
        assert_eq!(
            [round(0.015), round(0.0), round(-0.01)],
            [Keeps, Without, Against]
        );
        let point = |habit| Rule::PointPastRound.stance(habit, Some(0.015));
        assert_eq!(
            [point(0.03), point(0.015), point(0.0)],
            [Keeps, Without, Against]
        );
    }

    #[test]
    fn a_letter_breaks_the_habit_and_not_the_rule() {
        // Bars as thick as stems, but for one.
        let letters: Vec<(char, f64)> = "EFHLT".chars().zip([1.0, 1.01, 0.99, 1.0, 0.8]).collect();
        let broken = breaks(Rule::BarsThinner, &letters, habit(&letters).unwrap());
        assert_eq!(broken, [('T', 0.8)]);
        assert!(breaks(Rule::BarsThinner, &letters[..4], 1.0).is_empty());
    }
}
