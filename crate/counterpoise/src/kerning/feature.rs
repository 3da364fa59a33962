//! A suggestion as the text of an OpenType feature file (the open feature file
//! syntax that font compilers read): classes, and a kern feature of pairs.

use super::suggest::KernSuggestion;
use crate::font::Reader;
use crate::spacing::Spacing;
use std::fmt::Write as _;

/// Letters that are left out of a feature file, since their glyphs have no names
/// that it could call them by.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Unnamed(pub Vec<char>);

/// Words that the syntax keeps for itself: a glyph of such a name is written
/// behind a backslash.
const KEPT: [&str; 12] = [
    "anchor", "by", "contour", "device", "enum", "from", "include", "lookup", "mark", "name",
    "pos", "sub",
];

/// Writes a suggestion's kerns, glyphs called by their names in the font.
pub fn feature_file(
    suggestion: &KernSuggestion,
    spacing: &Spacing,
    reader: &Reader<'_>,
) -> (String, Unnamed) {
    let mut unnamed = Unnamed::default();
    let name = |at: usize| -> Option<String> {
        let name = reader.glyph_name(spacing.letters[at].glyph)?;
        is_name(name).then(|| {
            if KEPT.contains(&name) {
                format!("\\{name}")
            } else {
                name.to_owned()
            }
        })
    };
    for at in 0..spacing.letters.len() {
        if name(at).is_none() {
            unnamed.0.push(spacing.letters[at].character);
        }
    }
    let named = |classes: &[Vec<usize>]| -> Vec<Vec<String>> {
        classes
            .iter()
            .map(|class| class.iter().filter_map(|&at| name(at)).collect())
            .collect()
    };
    let (firsts, seconds) = (named(&suggestion.firsts), named(&suggestion.seconds));
    let used =
        |first: usize, second: usize| !(firsts[first].is_empty() || seconds[second].is_empty());
    let kerns: Vec<_> = suggestion
        .kerns
        .iter()
        .filter(|k| k.apart != 0 && used(k.first, k.second))
        .collect();
    let mut text = String::from("languagesystem DFLT dflt;\nlanguagesystem latn dflt;\n\n");
    // Single pairs stand before classes, as the syntax demands.
    let single = |k: &&&super::suggest::SuggestedKern| {
        firsts[k.first].len() == 1 && seconds[k.second].len() == 1
    };
    let mut classes = |side: &str, all: &[Vec<String>], wanted: &dyn Fn(usize) -> bool| {
        for (number, class) in all.iter().enumerate().filter(|(n, _)| wanted(*n)) {
            // Writing to a string cannot fail.
            let _ = writeln!(text, "@{side}{number} = [{}];", class.join(" "));
        }
    };
    classes("kern_first_", &firsts, &|n| {
        kerns.iter().any(|k| k.first == n && !single(&k))
    });
    classes("kern_second_", &seconds, &|n| {
        kerns.iter().any(|k| k.second == n && !single(&k))
    });
    text.push_str("\nfeature kern {\n");
    for e in &suggestion.exceptions {
        let list = |places: &[usize]| {
            let names: Vec<String> = places.iter().filter_map(|&at| name(at)).collect();
            (!names.is_empty()).then(|| names.join(" "))
        };
        // Each of these is a pair of its own, which comes before classes.
        if let Some((a, b)) = list(&e.firsts).zip(list(&e.seconds)) {
            let _ = writeln!(text, "  enum pos [{a}] [{b}] {};", e.apart);
        }
    }
    for k in kerns.iter().filter(single) {
        let (a, b) = (&firsts[k.first][0], &seconds[k.second][0]);
        let _ = writeln!(text, "  pos {a} {b} {};", k.apart);
    }
    for k in kerns.iter().filter(|k| !single(k)) {
        let (a, b) = (k.first, k.second);
        let _ = writeln!(text, "  pos @kern_first_{a} @kern_second_{b} {};", k.apart);
    }
    text.push_str("} kern;\n");
    (text, unnamed)
}

/// Whether a name is one that the syntax allows: up to 63 letters, figures,
/// dots, underscores and hyphens, no figure or dot first.
fn is_name(name: &str) -> bool {
    let allowed = |c: char| c.is_ascii_alphanumeric() || "._-".contains(c);
    let begins = |c: char| c.is_ascii_alphabetic() || c == '_';
    name.len() <= 63 && name.chars().all(allowed) && name.chars().next().is_some_and(begins)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_those_of_the_syntax() {
        assert!(
            ["A", "a.sc", "uni0041", "_x", "f_i", "a-b"]
                .into_iter()
                .all(is_name)
        );
        assert!(
            ["", "1a", ".notdef", "a b", "\u{E9}"]
                .into_iter()
                .all(|n| !is_name(n))
        );
    }
}
