//! The optical rules as a font keeps them, as the page and scripts read them.

use crate::judge::{self, Alphabet, Ruling, Table, rulings};
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// An optical rule of the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
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

/// How a font's habit stands to a rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum Stance {
    /// It does as the rule says.
    Keeps,
    /// It does without.
    Without,
    /// It does the contrary.
    Against,
    /// It has too few such letters to have a habit.
    Unknown,
}

/// A letter with its figure for a rule.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct RuledLetter {
    /// The letter.
    pub letter: String,
    /// Its figure.
    pub value: f64,
}

/// One rule in one font. Figures are shares: of the letter's own height, or of
/// what it is held beside (0.82 for a bar of 82% of a stem).
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct RuleReport {
    /// The rule.
    pub rule: Rule,
    /// What the trade says.
    pub saying: String,
    /// Where that is from, or that it is common practice.
    pub source: String,
    /// Whether figures are shares of the height.
    pub of_height: bool,
    /// The letters that it is read from.
    pub letters: Vec<RuledLetter>,
    /// The font's own habit: their median.
    pub habit: Option<f64>,
    /// How that stands to the rule. The habit stands above the rule: no letter
    /// is held to a rule that the font does without.
    pub stance: Stance,
    /// What open families commonly do: first quartile, median, third quartile.
    pub usual: [f64; 3],
    /// The letters that break the font's own habit, the worst first.
    pub breaks: Vec<RuledLetter>,
    /// The font's habit in a sentence.
    pub sentence: String,
}

/// How a font keeps the optical rules.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct RulesReport {
    /// Each rule.
    pub rules: Vec<RuleReport>,
}

impl RulesReport {
    /// Reads a font's habits; without rules where the lab has not loaded what it
    /// has learned.
    pub fn of(alphabet: &Alphabet, table: Option<&Table>) -> Self {
        let rulings = table.map_or_else(Vec::new, |table| rulings(alphabet, table));
        Self {
            rules: rulings.iter().map(RuleReport::from).collect(),
        }
    }
}

fn letters(all: &[(char, f64)]) -> Vec<RuledLetter> {
    all.iter()
        .map(|&(letter, value)| RuledLetter {
            letter: letter.into(),
            value,
        })
        .collect()
}

impl From<&Ruling> for RuleReport {
    fn from(r: &Ruling) -> Self {
        Self {
            rule: r.rule.into(),
            saying: r.rule.saying().to_owned(),
            source: r.rule.source().to_owned(),
            of_height: r.rule.is_height(),
            letters: letters(&r.letters),
            habit: r.habit,
            stance: r.stance.into(),
            usual: r.usual,
            breaks: letters(&r.breaks),
            sentence: sentence(r),
        }
    }
}

/// "Rounds pass the line by 1.6% of the height (median of 18 letters). Half of
/// open families lie between 1.2% and 2.0%. c breaks the habit: 0.1%."
fn sentence(r: &Ruling) -> String {
    use judge::{Rule as Of, Stance as Is};
    let percent = |v: f64| {
        let places = usize::from(r.rule.is_height());
        // Nought is not minus nought.
        let v = format!("{:.places$}%", 100.0 * v);
        if v.trim_start_matches(['-', '0', '.', '%']).is_empty() {
            v.trim_start_matches('-').to_owned()
        } else {
            v
        }
    };
    let Some(habit) = r.habit else {
        return "The font has too few such letters to show a habit.".into();
    };
    let (what, beside) = match r.rule {
        Of::RoundPastFlat => ("Rounds pass the line by", "of the height"),
        Of::PointPastRound => ("Points pass the line by", "of the height"),
        Of::BarsThinner => ("Bars have", "of a stem\u{2019}s thickness"),
        Of::RoundsHeavier => (
            "Rounds at their thickest have",
            "of a stem\u{2019}s thickness",
        ),
        Of::ManyStrokesThinner => (
            "Letters of many strokes have",
            "of the others\u{2019} thickness",
        ),
        Of::EvenDarkness => (
            "Letters of many strokes have",
            "of the others\u{2019} darkness",
        ),
    };
    let own = match r.stance {
        Is::Keeps | Is::Unknown => "",
        Is::Without => " The font does without the rule, and no letter is held to it.",
        Is::Against => " The font does the contrary, and no letter is held to the rule.",
    };
    let broken = match r.breaks.as_slice() {
        [] => " No letter breaks this habit.".to_owned(),
        all => {
            let told = all.iter().map(|&(l, v)| format!("{l} {}", percent(v)));
            format!(" Off this habit: {}.", told.collect::<Vec<_>>().join(", "))
        }
    };
    format!(
        "{what} {} {beside}, the median of {} letters; half of open faces lie between {} and {}.{own}{broken}",
        percent(habit),
        r.letters.len(),
        percent(r.usual[0]),
        percent(r.usual[2]),
    )
}

impl From<judge::Rule> for Rule {
    fn from(rule: judge::Rule) -> Self {
        use judge::Rule as Of;
        match rule {
            Of::RoundPastFlat => Self::RoundPastFlat,
            Of::PointPastRound => Self::PointPastRound,
            Of::BarsThinner => Self::BarsThinner,
            Of::RoundsHeavier => Self::RoundsHeavier,
            Of::ManyStrokesThinner => Self::ManyStrokesThinner,
            Of::EvenDarkness => Self::EvenDarkness,
        }
    }
}

impl From<judge::Stance> for Stance {
    fn from(stance: judge::Stance) -> Self {
        use judge::Stance as Is;
        match stance {
            Is::Keeps => Self::Keeps,
            Is::Without => Self::Without,
            Is::Against => Self::Against,
            Is::Unknown => Self::Unknown,
        }
    }
}
