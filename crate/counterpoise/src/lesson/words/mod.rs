//! Words of the trade that the page uses, each with a picture out of the open
//! font. What a word means is common practice, no source, but for the few that a
//! font format defines: those say where.

mod draw;
mod parts;

use super::Class;
use crate::outline::Outline;
use kurbo::{BezPath, Point};

/// What is marked on a letter.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// A level line across the picture at a height.
    Rule(f64),
    /// A distance between two places.
    Span(Point, Point),
    /// A line.
    Line(Point, Point),
    /// A place.
    Dot(Point),
    /// A piece of ink or of white.
    Area(BezPath),
}

/// A picture of a word.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Picture {
    /// Letters, each with where its origin stands.
    pub letters: Vec<(f64, Outline)>,
    /// Whether they are drawn as outlines, for what is on them to be seen.
    pub hollow: bool,
    /// What is marked.
    pub marks: Vec<Mark>,
}

/// A word.
#[derive(Debug, Clone, Copy)]
pub struct Word {
    /// Its name in links; never changes.
    pub id: &'static str,
    /// The word.
    pub term: &'static str,
    /// Other forms in which the page has it.
    pub also: &'static [&'static str],
    /// What it means.
    pub meaning: &'static str,
    draw: fn(&Class) -> Option<Picture>,
}

impl Word {
    /// Its picture; `None` where the font has no letter that shows it.
    pub fn picture(&self, class: &Class) -> Option<Picture> {
        (self.draw)(class)
    }
}

macro_rules! word {
    ($id:literal, $term:literal, [$($also:literal),*], $draw:ident, $meaning:literal) => {
        Word { id: $id, term: $term, also: &[$($also),*], meaning: $meaning, draw: draw::$draw }
    };
}

/// Every word, in order.
pub const WORDS: &[Word] = &[
    word!(
        "advance-width",
        "advance width",
        ["advance"],
        advance,
        "How far the next letter stands from this one: the ink and the white on both its sides \
         (OpenType, hmtx)."
    ),
    word!(
        "apex",
        "apex",
        ["pointed", "point of a letter"],
        apex,
        "Where two diagonals meet at the top, as in A. A sharp one has to pass the line, or the \
         letter looks short."
    ),
    word!(
        "arch",
        "arch",
        ["arches"],
        arch,
        "The curved stroke that springs from a stem and comes down again, as in n, m and h."
    ),
    word!(
        "ascender",
        "ascender",
        ["ascenders"],
        ascender,
        "The part of b, d, f, h, k and l that rises above the x-height; also the line it reaches."
    ),
    word!(
        "bar",
        "bar",
        ["bars", "crossbar", "level stroke", "level strokes"],
        bar,
        "A straight level stroke, as in H, E and t. Drawn thinner than a stem, or it looks thicker."
    ),
    word!(
        "baseline",
        "baseline",
        [],
        baseline,
        "The line that flat letters stand on. Heights are counted from it, upwards."
    ),
    word!(
        "bowl",
        "bowl",
        ["bowls"],
        bowl,
        "The curved stroke that closes round a counter, as in b, d and p."
    ),
    word!(
        "cap-height",
        "cap height",
        [],
        cap_height,
        "The line that the tops of flat capitals reach, as H."
    ),
    word!(
        "contour",
        "contour",
        ["contours", "outline", "outlines"],
        contour,
        "One closed line of a letter's outline. An o has two: its outside and its inside."
    ),
    word!(
        "contrast",
        "contrast",
        [],
        contrast,
        "How much thicker a letter's thick strokes are than its thin ones: 1 if all are alike."
    ),
    word!(
        "counter",
        "counter",
        ["counters"],
        counter,
        "The white inside a letter, closed as in o or open as in n. The eye weighs it as it does ink."
    ),
    word!(
        "darkness",
        "darkness",
        ["dark"],
        darkness,
        "The share of ink in the letter's own body: its advance width, from the baseline to the \
         x-height or the cap height."
    ),
    word!(
        "descender",
        "descender",
        ["descenders"],
        descender,
        "The part of g, j, p, q and y that hangs below the baseline; also the line it reaches."
    ),
    word!(
        "diagonal",
        "diagonal",
        ["diagonals"],
        diagonal,
        "A straight stroke that is neither upright nor level, as in N, V and x."
    ),
    word!(
        "extreme",
        "extreme",
        ["extremes"],
        extreme,
        "Where an outline is furthest to the left or right, up or down. A point belongs there \
         (Adobe Type 1 Font Format, chapter 4, from memory)."
    ),
    word!(
        "flaw",
        "flaw",
        ["flaws"],
        contour,
        "A place of an outline that is worth a look: a kink, a crossing, a point too many. Some \
         are meant so."
    ),
    word!(
        "glyph",
        "glyph",
        ["glyphs"],
        glyph,
        "One drawn shape of a font. A letter may have several, and an accented one may be made of two."
    ),
    word!(
        "guide",
        "guide",
        ["guides", "line of the flat letters"],
        guides,
        "A line that letters stand on or reach to: baseline, x-height, cap height and the like, as \
         the flat letters of the font show it."
    ),
    word!(
        "hairline",
        "hairline",
        ["hairlines", "thin stroke", "thinnest"],
        hairline,
        "The thinnest stroke of a letter."
    ),
    word!(
        "handle",
        "handle",
        ["handles", "off the curve"],
        handle,
        "A point off the outline that says which way the curve leaves its point, and how far it \
         keeps that way."
    ),
    word!(
        "ink",
        "ink",
        [],
        ink,
        "All that is black of a letter. Where strokes overlap it counts once."
    ),
    word!(
        "join",
        "join",
        ["joins", "junction", "thinnest join"],
        join,
        "Where one stroke springs from another. Strokes are thinned there, or the join clogs to a \
         dark spot."
    ),
    word!(
        "kerning",
        "kerning",
        ["kern", "kerns", "kerned", "pair", "pairs"],
        kerning,
        "White added to or taken from one pair of letters, after the side bearings have done what \
         they can (OpenType, GPOS)."
    ),
    word!(
        "overshoot",
        "overshoot",
        ["overshoots", "pass the line", "passes the line"],
        overshoot,
        "How far a round or pointed letter passes the line of the flat ones, so that it looks as \
         tall as they do."
    ),
    word!(
        "point",
        "point",
        ["points", "on the curve"],
        point,
        "A place that an outline is drawn through. Few, well placed, make a smooth line."
    ),
    word!(
        "rhythm",
        "rhythm",
        ["texture"],
        rhythm,
        "The beat of stems and white along a line. In even text no gap and no dark spot stops the eye."
    ),
    word!(
        "round",
        "round",
        ["rounds", "round letter"],
        round,
        "A letter, or a stroke, that is a curve: O, C, e. At its thickest it is heavier than a \
         stem, since it is so in one place only."
    ),
    word!(
        "serif",
        "serif",
        ["serifs"],
        serif,
        "A short stroke across the end of another."
    ),
    word!(
        "side-bearing",
        "side bearing",
        [
            "side bearings",
            "bearing",
            "bearings",
            "left side bearing",
            "right side bearing"
        ],
        bearing,
        "The white that a letter brings along on one of its sides. The coarse setting of spacing; \
         kerning is the fine one."
    ),
    word!(
        "slant",
        "slant",
        ["slanted", "lean", "leans"],
        slant,
        "How far the upright strokes lean from the upright, in degrees."
    ),
    word!(
        "stem",
        "stem",
        ["stems", "upright", "uprights"],
        stem,
        "A straight upright stroke, as in H, n and l. The thickness that a font is known by."
    ),
    word!(
        "stress",
        "stress",
        ["inclined"],
        stress,
        "The way the thick and the thin of a round letter lie: upright, or inclined as a pen leaves it."
    ),
    word!(
        "stroke",
        "stroke",
        ["strokes"],
        stroke,
        "What a pen or a brush would have left in one go: ink between two edges that run side by side."
    ),
    word!(
        "terminal",
        "terminal",
        ["terminals"],
        terminal,
        "The free end of a curved stroke, as at the top of c."
    ),
    word!(
        "units-per-em",
        "units per em",
        ["em", "units", "unit"],
        em,
        "How fine a font's own measure is: the em, the body that letters stand on, is divided into \
         so many units (OpenType, head)."
    ),
    word!(
        "waist",
        "waist",
        ["middle"],
        waist,
        "Where the upper and the lower part of a letter meet, as in B, E and S: above the measured \
         middle."
    ),
    word!(
        "weight",
        "weight",
        ["bold", "heavy", "heavier", "light", "lighter", "thickness"],
        stem,
        "How thick a letter's main strokes are."
    ),
    word!(
        "white",
        "white",
        ["spacing", "space"],
        white,
        "All that is not ink: inside letters and between them. Between two letters it should look \
         as much everywhere."
    ),
    word!(
        "width",
        "width",
        ["widths", "wide", "narrow"],
        width,
        "How broad a letter is: its ink, or from the outer edge of its first stem to that of its \
         last, so that serifs do not count."
    ),
    word!(
        "x-height",
        "x-height",
        [],
        x_height,
        "The line that the tops of the flat lower-case letters reach, as x."
    ),
];

/// A word by its name.
pub fn word(id: &str) -> Option<&'static Word> {
    WORDS.iter().find(|w| w.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn each_word_stands_once_and_in_order() {
        let terms: Vec<&str> = WORDS.iter().map(|w| w.term).collect();
        assert!(terms.is_sorted(), "in the order of the alphabet");
        let ids: HashSet<&str> = WORDS.iter().map(|w| w.id).collect();
        assert_eq!(ids.len(), WORDS.len());
        let mut forms: Vec<&str> = WORDS.iter().flat_map(|w| w.also).copied().collect();
        forms.extend(terms);
        let count = forms.len();
        forms.sort_unstable();
        forms.dedup();
        assert_eq!(forms.len(), count, "a form leads to one word");
        assert!(WORDS.iter().all(|w| w.meaning.ends_with('.')));
    }

    /// Every figure of the registry, and every word that the trade has for a letter's
    /// parts and that the page uses, can be looked up.
    #[test]
    fn what_the_page_names_has_a_word() {
        let known = |text: &str| {
            let text = text.to_lowercase();
            let mut forms = WORDS
                .iter()
                .flat_map(|w| w.also.iter().chain(std::iter::once(&w.term)));
            forms.any(|form| text.contains(form))
        };
        for quantity in crate::measure::QUANTITIES {
            assert!(known(quantity.name), "{}", quantity.name);
        }
        let trade = "baseline, x-height, cap height, ascender, descender, overshoot, stem, hairline, \
                     bar, bowl, counter, diagonal, apex, side bearing, advance width, kerning, \
                     units per em, extreme, handle";
        for term in trade.split(", ") {
            assert!(WORDS.iter().any(|w| w.term == term), "{term}");
        }
    }
}
