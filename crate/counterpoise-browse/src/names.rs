//! What the Unicode Standard calls characters. The page brings the names as one
//! text, made by its build (`www/build/names.mjs`); Hangul syllables are named by
//! their letters, as the standard says (section 3.12, "Hangul Syllable Name
//! Generation"). Names of ideographs are their code points, and found as those.

/// Short names of the letters of Hangul syllables (Jamo.txt of the Unicode
/// Character Database): first consonants, vowels, last consonants.
const FIRST: [&str; 19] = [
    "g", "gg", "n", "d", "dd", "r", "m", "b", "bb", "s", "ss", "", "j", "jj", "c", "k", "t", "p",
    "h",
];
const VOWEL: [&str; 21] = [
    "a", "ae", "ya", "yae", "eo", "e", "yeo", "ye", "o", "wa", "wae", "oe", "yo", "u", "weo", "we",
    "wi", "yu", "eu", "yi", "i",
];
const LAST: [&str; 28] = [
    "", "g", "gg", "gs", "n", "nj", "nh", "d", "l", "lg", "lm", "lb", "ls", "lt", "lp", "lh", "m",
    "b", "bs", "s", "ss", "ng", "j", "c", "k", "t", "p", "h",
];

/// The first syllable, and the number of them.
const SYLLABLES: (u32, u32) = (0xAC00, 11_172);

/// The names of characters, in small letters.
#[derive(Debug, Default)]
pub struct CharacterNames {
    text: String,
    /// Each code point that has a name, in order, and where its name stands.
    places: Vec<(u32, u32, u32)>,
}

impl CharacterNames {
    /// Reads a name a line, in the order of code points; a line with `@` and a
    /// hexadecimal number says which code point the next line's is, where it is
    /// not the one after the last. Lines that say nothing sound are passed over.
    pub fn read(text: String) -> Self {
        let mut places = Vec::new();
        let (mut at, mut code) = (0, 0);
        for line in text.split('\n') {
            if let Some(hex) = line.strip_prefix('@') {
                code = u32::from_str_radix(hex, 16).unwrap_or(code);
            } else {
                places.push((code, at, at + line.len() as u32));
                code = code.saturating_add(1);
            }
            at += line.len() as u32 + 1;
        }
        places.sort_unstable();
        Self { text, places }
    }

    /// A character's name, if it has one that is not its code point.
    fn of(&self, c: char) -> Option<&str> {
        let code = u32::from(c);
        let at = self.places.binary_search_by_key(&code, |p| p.0).ok()?;
        let (_, start, end) = self.places[at];
        self.text.get(start as usize..end as usize)
    }

    /// Whether every word, or part of one, begins a word of the character's name.
    pub(crate) fn tell(&self, c: char, words: &[&str]) -> bool {
        let syllable = || hangul(c).map(|name| format!("hangul syllable {name}"));
        match self.of(c) {
            Some(name) => begun(name, words),
            None => syllable().is_some_and(|name| begun(&name, words)),
        }
    }
}

/// A word of one letter is a whole one: `letter a` is not answered by every acute.
fn begun(name: &str, words: &[&str]) -> bool {
    let answers = |part: &str, word: &str| match word.len() {
        1 => part == word,
        _ => part.starts_with(word),
    };
    words
        .iter()
        .all(|word| parts(name).any(|part| answers(part, word)))
}

/// The words of a name, or of what was typed to find it: spaces, hyphens and
/// underscores part them (UAX #44, matching rule LM2, passes over all three).
pub(crate) fn parts(text: &str) -> impl Iterator<Item = &str> {
    text.split([' ', '-', '_']).filter(|part| !part.is_empty())
}

fn hangul(c: char) -> Option<String> {
    let at = u32::from(c).checked_sub(SYLLABLES.0)?;
    let (first, vowel, last) = (at / 588, at % 588 / 28, at % 28);
    (at < SYLLABLES.1).then(|| {
        [
            FIRST[first as usize],
            VOWEL[vowel as usize],
            LAST[last as usize],
        ]
        .concat()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_stand_where_the_text_says() {
        let text = "@41\nlatin capital letter a\nlatin capital letter b\n@2190\nleftwards arrow";
        let names = CharacterNames::read(text.to_owned());
        assert_eq!(names.of('A'), Some("latin capital letter a"));
        assert_eq!(names.of('B'), Some("latin capital letter b"));
        assert_eq!(names.of('\u{2190}'), Some("leftwards arrow"));
        assert_eq!(names.of('C'), None);
        assert!(names.tell('\u{2190}', &["arrow", "left"]));
        assert!(!names.tell('\u{2190}', &["arrow", "right"]));
        assert!(!names.tell('\u{2190}', &["row"]), "the middle of a word");
    }

    #[test]
    fn nonsense_is_no_name() {
        for text in ["", "@", "@zz\n", "\n\n@ffffffff\na\nb", "@110000\nc"] {
            assert_eq!(
                CharacterNames::read(text.to_owned()).of('A'),
                None,
                "{text:?}"
            );
        }
    }

    /// Examples of the Unicode Standard, section 3.12: U+D4DB is named PWILH; the
    /// first syllable of all is GA, the last HIH.
    #[test]
    fn hangul_syllables_are_named_by_their_letters() {
        let told = [
            ('\u{AC00}', "ga"),
            ('\u{D4DB}', "pwilh"),
            ('\u{D7A3}', "hih"),
        ];
        for (c, name) in told {
            assert_eq!(hangul(c).as_deref(), Some(name));
            assert!(CharacterNames::default().tell(c, &["hangul", name]));
        }
        assert_eq!(hangul('\u{D7A4}'), None);
        assert_eq!(hangul('A'), None);
    }
}
