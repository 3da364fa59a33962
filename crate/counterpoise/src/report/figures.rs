//! Figures by name, read from the registry: of one letter, and of a font.

use crate::font::GlyphId;
use crate::judge::{Alphabet, Member};
use crate::measure::{self, QUANTITIES, Subject};
use crate::order::by_key;
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// Figures by the ids of the registry.
pub type Figures = BTreeMap<&'static str, f64>;

/// Every figure that a letter has.
pub(super) fn figures(subject: &Subject<'_>) -> Figures {
    let all = QUANTITIES
        .iter()
        .filter_map(|q| Some((q.id, (q.of)(subject)?)));
    by_key(all.filter(|(_, value)| value.is_finite()))
}

/// How a figure lies among letters.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Summary {
    /// How many letters have the figure.
    pub count: u32,
    /// The smallest.
    pub least: f64,
    /// The median; of an even number of letters the mean of the middle two.
    pub median: f64,
    /// The largest.
    pub greatest: f64,
}

impl Summary {
    /// `None` of no values.
    fn of(mut values: Vec<f64>) -> Option<Self> {
        let median = measure::median(&mut values);
        Some(Self {
            count: values.len() as u32,
            // `median` has put them in order.
            least: *values.first()?,
            median,
            greatest: *values.last()?,
        })
    }
}

/// A font's figures: each quantity over its basic letters, a case at a time.
/// They do not depend on which letters a document was asked to tell of.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct FontFigures {
    /// A to Z, by the ids of the quantities.
    pub capitals: BTreeMap<&'static str, Summary>,
    /// a to z, by the ids of the quantities.
    pub lower_case: BTreeMap<&'static str, Summary>,
    /// 0 to 9, by the ids of the quantities.
    pub numerals: BTreeMap<&'static str, Summary>,
}

impl FontFigures {
    /// Sums up a font's measured alphabet.
    pub fn of(alphabet: &Alphabet) -> Self {
        Self {
            capitals: summaries(alphabet, char::is_uppercase),
            lower_case: summaries(alphabet, char::is_lowercase),
            numerals: summaries(alphabet, char::is_numeric),
        }
    }
}

fn summaries(alphabet: &Alphabet, case: fn(char) -> bool) -> BTreeMap<&'static str, Summary> {
    let mut values: BTreeMap<&'static str, Vec<f64>> = BTreeMap::new();
    let members = alphabet.members().iter();
    for member in members.filter(|m| case(m.character)) {
        for (id, value) in figures(&subject(member, alphabet)) {
            values.entry(id).or_default().push(value);
        }
    }
    let values = values.into_iter();
    by_key(values.filter_map(|(id, values)| Some((id, Summary::of(values)?))))
}

fn subject<'a>(member: &'a Member, alphabet: &'a Alphabet) -> Subject<'a> {
    Subject {
        letter: &member.letter,
        character: Some(member.character),
        context: alphabet.context(),
    }
}

/// The alphabet's own measures of a letter, so that none is taken twice.
pub(super) fn member(alphabet: &Alphabet, c: Option<char>, glyph: GlyphId) -> Option<&Member> {
    alphabet.member(c?).filter(|m| m.glyph == glyph)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_summary_of_known_values() {
        let of = |values: &[f64]| Summary::of(values.to_vec());
        assert_eq!(of(&[]), None);
        let odd = of(&[3.0, 1.0, 8.0]).unwrap();
        assert_eq!(
            (odd.count, odd.least, odd.median, odd.greatest),
            (3, 1.0, 3.0, 8.0)
        );
        let even = of(&[-4.0, 1.0, 3.0, 8.0]).unwrap();
        assert_eq!(
            (even.count, even.least, even.median, even.greatest),
            (4, -4.0, 2.0, 8.0)
        );
    }
}
