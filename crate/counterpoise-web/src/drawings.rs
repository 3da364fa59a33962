//! Letters as drawings that the page can set anywhere: beside a note, on a sheet
//! for the artist, on paper.

use crate::supply::OpenFont;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// Letters given at once. No alphabet that is planned letter by letter has more.
const MOST: usize = 5000;

/// One letter's outline.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct LetterDrawing {
    /// The character.
    pub character: char,
    /// Its glyph.
    pub glyph: u16,
    /// Advance width, font units.
    pub advance: f64,
    /// The outline as SVG path data in font units, y up; empty without ink.
    pub path: String,
}

/// The letters of a text that the font has, each once, in the text's order.
pub(crate) fn of(font: &OpenFont, text: &str) -> Vec<LetterDrawing> {
    let mut seen = std::collections::HashSet::new();
    let letters = text.chars().filter(|c| seen.insert(*c));
    letters.take(MOST).filter_map(|c| font.drawing(c)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sample() -> OpenFont {
        let bytes = counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap();
        OpenFont::open(bytes, "sample.ttf").unwrap()
    }

    #[test]
    fn each_letter_of_a_text_is_drawn_once() {
        let drawings = of(&sample(), "HOH O\u{6f22}");
        let letters: String = drawings.iter().map(|d| d.character).collect();
        assert_eq!(letters, "HO ");
        assert!(drawings[0].path.starts_with('M') && drawings[0].path.ends_with('Z'));
        assert!(drawings[0].advance > 0.0);
        assert_eq!(drawings[2].path, "");
    }

    #[test]
    fn a_font_tells_its_characters_and_its_features() {
        let contents = sample().contents();
        assert!(
            contents.characters.contains("HIJ"),
            "{}",
            contents.characters
        );
        assert_eq!(contents.features, []);
    }
}
