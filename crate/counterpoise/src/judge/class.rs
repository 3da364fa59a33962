//! Which letters are alike enough to be held against each other (common
//! practice, no source).

use super::Measure;
use crate::measure::{End, Form, GuideKind, Letter};

/// Letters of one construction carry one weight: straight, round, diagonal.
const WEIGHT: [&str; 7] = [
    "BDEFHIJKLPRTU",
    "CGOQS",
    "AKMNVWXYZ",
    "bdhijklmnpqrtuf",
    "aceogs",
    "kvwxyz",
    "0123456789",
];

/// Letters of one proportion share a width: after the classes of the Roman
/// capitals (wide, middling, narrow) and the parts that lower-case letters share.
/// The 1 is as narrow as it pleases.
const WIDTH: [&str; 10] = [
    "CDGOQ",
    "AHKNRTUVXYZ",
    "BEFLPRSJ",
    "MW",
    "bdpqoceg",
    "hnuvxyk",
    "asz",
    "frtijl",
    "mw",
    "023456789",
];

/// The class of a character for a measure: every other member, `c` left out.
/// `None` where it has none.
pub(super) fn fellows(c: char, measure: Measure) -> Option<impl Iterator<Item = char>> {
    let class = match measure {
        Measure::Weight => WEIGHT.iter().find(|class| class.contains(c))?,
        Measure::Width => WIDTH.iter().find(|class| class.contains(c))?,
        Measure::Height => zone(c)?,
    };
    Some(class.chars().filter(move |&other| other != c))
}

/// Letters that stand between the same two guides.
fn zone(c: char) -> Option<&'static &'static str> {
    const ZONES: [&str; 5] = [
        "ABCDEFGHIKLMNOPRSTUVWXYZ",
        "acemnorsuvwxz",
        "bdhkl",
        "gpqy",
        "0123456789",
    ];
    ZONES.iter().find(|zone| zone.contains(c))
}

/// Whether two letters of one zone end alike, so that their heights compare: a
/// round letter is drawn taller than a flat one.
pub(super) fn end_alike(a: &Letter, b: &Letter) -> bool {
    let form = |l: &Letter, end| -> Option<Form> {
        match end {
            End::Top => l.top,
            End::Foot => l.foot,
        }
        .map(|e| e.form)
    };
    form(a, End::Top) == form(b, End::Top) && form(a, End::Foot) == form(b, End::Foot)
}

/// Whether a character's height is set by two guides at all.
pub(super) fn stands_between_guides(c: char) -> bool {
    c.is_ascii_digit()
        || (GuideKind::of(c, End::Top).is_some() && GuideKind::of(c, End::Foot).is_some())
}
