//! The face: which letters it has, how they stand, and how pairs are kerned.

use kurbo::{Affine, BezPath, Shape};

use crate::pen::Drawing;
use crate::{
    capitals_bowl, capitals_diagonal, capitals_round, capitals_straight, figures, kerning,
    lower_arched, lower_diagonal, lower_round, lower_straight, lower_turned, points,
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
    /// What the name table says of this revision.
    pub description: &'static str,
    /// The letters in glyph order; `.notdef` is the first.
    pub letters: Vec<Letter>,
    /// The kerned pairs.
    pub kerning: Vec<Kern>,
}

impl Letter {
    /// Stands a drawing between its side bearings.
    pub(crate) fn set(
        name: &'static str,
        code: Option<char>,
        drawing: &Drawing,
        (left, right): (f64, f64),
    ) -> Self {
        let path = drawing.path();
        let bounds = path.bounding_box();
        let path = Affine::translate((left - bounds.x0, 0.0)) * path;
        Self {
            name,
            code,
            path,
            advance: (left + bounds.width() + right).round(),
        }
    }

    /// Left and right side bearing.
    pub(crate) fn bearings(&self) -> (f64, f64) {
        let bounds = self.path.bounding_box();
        (bounds.x0, self.advance - bounds.x1)
    }
}

impl Face {
    /// The letter of a name.
    pub fn letter(&self, name: &str) -> Option<&Letter> {
        self.letters.iter().find(|l| l.name == name)
    }
}

/// Beside a capital's upright stem: the greatest of the capitals.
const H: f64 = 78.0;
/// Beside a capital's stem that has a diagonal or a turn on it.
const N: f64 = 72.0;
/// Beside a capital's round.
const O: f64 = 40.0;
/// Beside arms and bowls, about half of [`H`].
const E: f64 = 38.0;
/// Beside diagonals and overhanging arms.
const V: f64 = 13.0;
/// Left of a lower case stem: the greatest of the lower case.
const STEM: f64 = 64.0;
/// Right of an arch's stem, whose shoulder already gives some white.
const ARCH: f64 = 58.0;
/// Beside a lower case round.
const ROUND: f64 = 35.0;
/// Beside lower case diagonals.
const SLANT: f64 = 11.0;
/// Beside the points.
const POINT: f64 = 46.0;

/// The face as it should be.
pub fn clean() -> Face {
    let mut letters = vec![
        Letter::set(".notdef", None, &points::notdef(), (50.0, 50.0)),
        Letter {
            name: "space",
            code: Some(' '),
            path: BezPath::new(),
            advance: 236.0,
        },
    ];
    letters.extend(capitals());
    letters.extend(lower_case());
    letters.extend(numerals());
    letters.extend(marks());
    Face {
        version: "1.000",
        description: "A demonstration face of the Counterpoise project, in its mended revision.",
        letters,
        kerning: kerning::pairs(),
    }
}

type Entry = (&'static str, char, Drawing, (f64, f64));

fn stand<const N: usize>(entries: [Entry; N]) -> impl Iterator<Item = Letter> {
    entries
        .into_iter()
        .map(|(name, code, drawing, bearings)| Letter::set(name, Some(code), &drawing, bearings))
}

fn capitals() -> impl Iterator<Item = Letter> {
    use capitals_bowl::{b, d, p, r};
    use capitals_diagonal::{a, k, m, n, v, w, x, y, z};
    use capitals_round::{c, g, j, o, q, s, u};
    use capitals_straight::{e, f, h, i, l, t};
    stand([
        ("A", 'A', a(), (V, V)),
        ("B", 'B', b(), (H, O)),
        ("C", 'C', c(), (O, 30.0)),
        ("D", 'D', d(), (H, O)),
        ("E", 'E', e(), (H, E)),
        ("F", 'F', f(), (H, 30.0)),
        ("G", 'G', g(), (O, 66.0)),
        ("H", 'H', h(), (H, H)),
        ("I", 'I', i(), (H, H)),
        ("J", 'J', j(), (V, N)),
        ("K", 'K', k(), (H, V)),
        ("L", 'L', l(), (H, 22.0)),
        ("M", 'M', m(), (N, N)),
        ("N", 'N', n(), (N, N)),
        ("O", 'O', o(), (O, O)),
        ("P", 'P', p(), (H, 34.0)),
        // The tail runs out under the next letter.
        ("Q", 'Q', q(), (O, -28.0)),
        ("R", 'R', r(), (H, V)),
        ("S", 'S', s(), (E, O)),
        ("T", 'T', t(), (22.0, 22.0)),
        ("U", 'U', u(), (N, N)),
        ("V", 'V', v(), (V, V)),
        ("W", 'W', w(), (V, V)),
        ("X", 'X', x(), (V, V)),
        ("Y", 'Y', y(), (V, V)),
        ("Z", 'Z', z(), (E, E)),
    ])
}

fn lower_case() -> impl Iterator<Item = Letter> {
    use lower_arched::{h, m, n, r, u};
    use lower_diagonal::{k, v, w, x, y, z};
    use lower_round::{b, c, d, e, o, p, q};
    use lower_straight::{f, i, j, l, t};
    use lower_turned::{a, g, s};
    stand([
        ("a", 'a', a(), (36.0, ARCH)),
        ("b", 'b', b(), (STEM, ROUND)),
        ("c", 'c', c(), (ROUND, 22.0)),
        ("d", 'd', d(), (ROUND, STEM)),
        ("e", 'e', e(), (ROUND, 30.0)),
        // The hook hangs over the next letter.
        ("f", 'f', f(), (16.0, -34.0)),
        ("g", 'g', g(), (30.0, 12.0)),
        ("h", 'h', h(), (STEM, ARCH)),
        ("i", 'i', i(), (STEM - 4.0, STEM - 4.0)),
        ("j", 'j', j(), (-66.0, STEM - 4.0)),
        ("k", 'k', k(), (STEM, SLANT)),
        ("l", 'l', l(), (STEM, STEM)),
        ("m", 'm', m(), (STEM, ARCH)),
        ("n", 'n', n(), (STEM, ARCH)),
        ("o", 'o', o(), (ROUND, ROUND)),
        ("p", 'p', p(), (STEM, ROUND)),
        ("q", 'q', q(), (ROUND, STEM)),
        ("r", 'r', r(), (STEM, 8.0)),
        ("s", 's', s(), (32.0, 32.0)),
        ("t", 't', t(), (16.0, 18.0)),
        ("u", 'u', u(), (ARCH, STEM)),
        ("v", 'v', v(), (SLANT, SLANT)),
        ("w", 'w', w(), (SLANT, SLANT)),
        ("x", 'x', x(), (SLANT + 2.0, SLANT + 2.0)),
        ("y", 'y', y(), (SLANT, SLANT)),
        ("z", 'z', z(), (30.0, 28.0)),
    ])
}

fn numerals() -> impl Iterator<Item = Letter> {
    use figures::{eight, five, four, nine, one, seven, six, three, two, zero};
    stand([
        ("zero", '0', zero(), (42.0, 42.0)),
        ("one", '1', one(), (56.0, 72.0)),
        ("two", '2', two(), (38.0, 38.0)),
        ("three", '3', three(), (38.0, 42.0)),
        ("four", '4', four(), (26.0, 28.0)),
        ("five", '5', five(), (42.0, 42.0)),
        ("six", '6', six(), (42.0, 38.0)),
        ("seven", '7', seven(), (30.0, 26.0)),
        ("eight", '8', eight(), (40.0, 40.0)),
        ("nine", '9', nine(), (38.0, 42.0)),
    ])
}

fn marks() -> impl Iterator<Item = Letter> {
    use points::{
        ampersand, colon, comma, dash, exclamation, hyphen, period, question, quote_double,
        quote_double_left, quote_double_right, quote_left, quote_right, quote_single, semicolon,
    };
    stand([
        ("period", '.', period(), (POINT, POINT)),
        ("comma", ',', comma(), (36.0, POINT)),
        ("colon", ':', colon(), (56.0, 56.0)),
        ("semicolon", ';', semicolon(), (46.0, 56.0)),
        ("hyphen", '-', hyphen(), (42.0, 42.0)),
        ("endash", '\u{2013}', dash(), (42.0, 42.0)),
        ("exclam", '!', exclamation(), (66.0, 66.0)),
        ("question", '?', question(), (36.0, 40.0)),
        ("ampersand", '&', ampersand(), (36.0, 10.0)),
        ("quotesingle", '\'', quote_single(), (52.0, 52.0)),
        ("quotedbl", '"', quote_double(), (52.0, 52.0)),
        ("quoteleft", '\u{2018}', quote_left(), (42.0, 36.0)),
        ("quoteright", '\u{2019}', quote_right(), (36.0, 42.0)),
        (
            "quotedblleft",
            '\u{201c}',
            quote_double_left(),
            (42.0, 36.0),
        ),
        (
            "quotedblright",
            '\u{201d}',
            quote_double_right(),
            (36.0, 42.0),
        ),
    ])
}
