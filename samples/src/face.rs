//! The face: which letters it has, how they stand, and how pairs are kerned.

use kurbo::{Affine, BezPath, Shape};

use crate::pen::Drawing;
use crate::{
    capitals_bowl as cb, capitals_diagonal as cd, capitals_round as cr, capitals_straight as cs,
    figures as fi, lower_arched as la, lower_diagonal as ld, lower_round as lr,
    lower_straight as ls, lower_turned as lt, points as pt,
};

/// A letter of the face, standing on its advance width.
#[derive(Clone, Debug, PartialEq)]
pub struct Letter {
    /// Its name in the font file.
    pub name: &'static str,
    /// The character that it stands for; `.notdef` has none.
    pub code: Option<char>,
    /// Its outline: closed contours, ink clockwise.
    pub path: BezPath,
    /// Its advance width in font units.
    pub advance: f64,
}

/// A kerned pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Kern {
    /// Name of the left letter.
    pub left: &'static str,
    /// Name of the right letter.
    pub right: &'static str,
    /// What is added to the advance width between them, in font units.
    pub by: i16,
}

/// The whole face.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// The version that the name table states.
    pub version: &'static str,
    /// The letters in glyph order; `.notdef` is the first.
    pub letters: Vec<Letter>,
    /// The kerned pairs.
    pub kerning: Vec<Kern>,
}

impl Letter {
    fn unencoded(name: &'static str, drawing: &Drawing, left: f64, right: f64) -> Self {
        Self {
            code: None,
            ..Self::set(name, ' ', drawing, left, right)
        }
    }

    fn set(name: &'static str, code: char, drawing: &Drawing, left: f64, right: f64) -> Self {
        let path = drawing.path();
        let bounds = path.bounding_box();
        let path = Affine::translate((left - bounds.x0, 0.0)) * path;
        Self {
            name,
            code: Some(code),
            path,
            advance: (left + bounds.width() + right).round(),
        }
    }
}

/// The face as it should be.
pub fn clean() -> Face {
    let letters = vec![
        Letter::unencoded(".notdef", &pt::notdef(), 50.0, 50.0),
        Letter {
            name: "space",
            code: Some(' '),
            path: BezPath::new(),
            advance: 230.0,
        },
        Letter::set("A", 'A', &cd::a(), 14.0, 14.0),
        Letter::set("B", 'B', &cb::b(), 72.0, 40.0),
        Letter::set("C", 'C', &cr::c(), 38.0, 26.0),
        Letter::set("D", 'D', &cb::d(), 72.0, 38.0),
        Letter::set("E", 'E', &cs::e(), 72.0, 34.0),
        Letter::set("F", 'F', &cs::f(), 72.0, 26.0),
        Letter::set("G", 'G', &cr::g(), 38.0, 58.0),
        Letter::set("H", 'H', &cs::h(), 72.0, 72.0),
        Letter::set("I", 'I', &cs::i(), 72.0, 72.0),
        Letter::set("J", 'J', &cr::j(), 10.0, 68.0),
        Letter::set("K", 'K', &cd::k(), 72.0, 12.0),
        Letter::set("L", 'L', &cs::l(), 72.0, 22.0),
        Letter::set("M", 'M', &cd::m(), 66.0, 70.0),
        Letter::set("N", 'N', &cd::n(), 66.0, 66.0),
        Letter::set("O", 'O', &cr::o(), 38.0, 38.0),
        Letter::set("P", 'P', &cb::p(), 72.0, 34.0),
        Letter::set("Q", 'Q', &cr::q(), 38.0, -20.0),
        Letter::set("R", 'R', &cb::r(), 72.0, 12.0),
        Letter::set("S", 'S', &cr::s(), 40.0, 42.0),
        Letter::set("T", 'T', &cs::t(), 22.0, 22.0),
        Letter::set("U", 'U', &cr::u(), 66.0, 66.0),
        Letter::set("V", 'V', &cd::v(), 12.0, 12.0),
        Letter::set("W", 'W', &cd::w(), 12.0, 12.0),
        Letter::set("X", 'X', &cd::x(), 14.0, 14.0),
        Letter::set("Y", 'Y', &cd::y(), 10.0, 10.0),
        Letter::set("Z", 'Z', &cd::z(), 36.0, 34.0),
        Letter::set("a", 'a', &lt::a(), 34.0, 52.0),
        Letter::set("b", 'b', &lr::b(), 60.0, 34.0),
        Letter::set("c", 'c', &lr::c(), 32.0, 20.0),
        Letter::set("d", 'd', &lr::d(), 34.0, 60.0),
        Letter::set("e", 'e', &lr::e(), 32.0, 28.0),
        Letter::set("f", 'f', &ls::f(), 16.0, -20.0),
        Letter::set("g", 'g', &lt::g(), 28.0, 2.0),
        Letter::set("h", 'h', &la::h(), 60.0, 54.0),
        Letter::set("i", 'i', &ls::i(), 54.0, 54.0),
        Letter::set("j", 'j', &ls::j(), -60.0, 54.0),
        Letter::set("k", 'k', &ld::k(), 60.0, 10.0),
        Letter::set("l", 'l', &ls::l(), 60.0, 60.0),
        Letter::set("m", 'm', &la::m(), 60.0, 54.0),
        Letter::set("n", 'n', &la::n(), 60.0, 54.0),
        Letter::set("o", 'o', &lr::o(), 32.0, 32.0),
        Letter::set("p", 'p', &lr::p(), 60.0, 34.0),
        Letter::set("q", 'q', &lr::q(), 34.0, 60.0),
        Letter::set("r", 'r', &la::r(), 60.0, 6.0),
        Letter::set("s", 's', &lt::s(), 30.0, 30.0),
        Letter::set("t", 't', &ls::t(), 16.0, 14.0),
        Letter::set("u", 'u', &la::u(), 54.0, 60.0),
        Letter::set("v", 'v', &ld::v(), 10.0, 10.0),
        Letter::set("w", 'w', &ld::w(), 10.0, 10.0),
        Letter::set("x", 'x', &ld::x(), 12.0, 12.0),
        Letter::set("y", 'y', &ld::y(), 10.0, 10.0),
        Letter::set("z", 'z', &ld::z(), 28.0, 26.0),
        Letter::set("zero", '0', &fi::zero(), 40.0, 40.0),
        Letter::set("one", '1', &fi::one(), 60.0, 70.0),
        Letter::set("two", '2', &fi::two(), 36.0, 36.0),
        Letter::set("three", '3', &fi::three(), 36.0, 40.0),
        Letter::set("four", '4', &fi::four(), 24.0, 26.0),
        Letter::set("five", '5', &fi::five(), 40.0, 40.0),
        Letter::set("six", '6', &fi::six(), 40.0, 36.0),
        Letter::set("seven", '7', &fi::seven(), 30.0, 24.0),
        Letter::set("eight", '8', &fi::eight(), 38.0, 38.0),
        Letter::set("nine", '9', &fi::nine(), 36.0, 40.0),
        Letter::set("period", '.', &pt::period(), 44.0, 44.0),
        Letter::set("comma", ',', &pt::comma(), 34.0, 44.0),
        Letter::set("colon", ':', &pt::colon(), 54.0, 54.0),
        Letter::set("hyphen", '-', &pt::hyphen(), 40.0, 40.0),
        Letter::set("exclam", '!', &pt::exclamation(), 64.0, 64.0),
        Letter::set("question", '?', &pt::question(), 34.0, 38.0),
        Letter::set("ampersand", '&', &pt::ampersand(), 34.0, 8.0),
        Letter::set("quotesingle", '\'', &pt::quote_single(), 50.0, 50.0),
        Letter::set("quotedbl", '"', &pt::quote_double(), 50.0, 50.0),
        Letter::set("quoteleft", '\u{2018}', &pt::quote_left(), 40.0, 34.0),
        Letter::set("quoteright", '\u{2019}', &pt::quote_right(), 34.0, 40.0),
        Letter::set(
            "quotedblleft",
            '\u{201c}',
            &pt::quote_double_left(),
            40.0,
            34.0,
        ),
        Letter::set(
            "quotedblright",
            '\u{201d}',
            &pt::quote_double_right(),
            34.0,
            40.0,
        ),
    ];
    Face {
        version: "1.000",
        letters,
        kerning: Vec::new(),
    }
}
