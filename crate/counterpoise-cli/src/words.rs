//! Names from fonts and folders as they can be shown: on a terminal a control
//! character would do more than be seen.

use counterpoise::report::LetterReport;
use std::fmt::Write;
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// The text with a replacement character for each one that cannot be seen.
pub(crate) fn plain(text: &str) -> String {
    text.chars()
        .map(|c| if is_active(c) { '\u{FFFD}' } else { c })
        .collect()
}

/// Control characters, and those that turn the direction of what follows
/// (Unicode, Bidirectional Algorithm: explicit formatting).
fn is_active(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

/// A letter's name: its character if that can be seen, else its glyph's name or
/// number.
pub(crate) fn name(letter: &LetterReport) -> String {
    let character = letter.character.as_ref().and_then(|c| c.chars().next());
    match (character, &letter.name) {
        (Some(c), _) if is_visible(c) => c.to_string(),
        (_, Some(name)) => plain(name),
        (Some(c), None) => code(c),
        (None, None) => format!("glyph {}", letter.glyph),
    }
}

/// Characters in a row, each by itself or by its code.
pub(crate) fn characters(text: &str) -> String {
    let each: Vec<String> = text
        .chars()
        .map(|c| {
            if is_visible(c) {
                c.to_string()
            } else {
                code(c)
            }
        })
        .collect();
    each.join(" ")
}

fn is_visible(c: char) -> bool {
    !is_active(c) && !c.is_whitespace() && c.width().is_some_and(|w| w > 0)
}

fn code(c: char) -> String {
    format!("U+{:04X}", u32::from(c))
}

/// The text in a column, cut where it is too long. Counted in cells of the
/// terminal: some characters take two, some none.
pub(crate) fn pad(text: &str, cells: usize) -> String {
    let mut shown = String::new();
    let mut used = 0;
    let cut = text.width() > cells;
    for c in text.chars() {
        let wide = c.width().unwrap_or(0);
        if cut && used + wide >= cells {
            shown.push('…');
            used += 1;
            break;
        }
        shown.push(c);
        used += wide;
    }
    // Writing to a string cannot fail.
    let _ = write!(shown, "{:1$}", "", cells.saturating_sub(used));
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_is_as_wide_as_it_says() {
        for (text, shown) in [
            ("A", "A     "),
            ("", "      "),
            ("sixsix", "sixsix"),
            ("seven77", "seven…"),
            ("永", "永    "),
            ("永永永永", "永永… "),
            ("e\u{301}", "e\u{301}     "),
        ] {
            assert_eq!(pad(text, 6), shown);
            assert_eq!(pad(text, 6).width(), 6, "{text}");
        }
    }

    #[test]
    fn nothing_reaches_the_terminal_but_what_is_seen() {
        assert_eq!(
            plain("Sans\x1b[2J\u{202E}x\n"),
            "Sans\u{FFFD}[2J\u{FFFD}x\u{FFFD}"
        );
        assert_eq!(characters("Aé 永\u{301}\t"), "A é U+0020 永 U+0301 U+0009");
    }
}
