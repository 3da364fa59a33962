//! The lines that letters stand on and reach to, taken from the letters
//! themselves, with what the file declares beside them. Font units.

use super::heights::{End, Extremity, Form, extremity};
use crate::font::{Declared, Reader};

/// A horizontal line of the alphabet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum GuideKind {
    /// Where flat-footed letters stand.
    Baseline,
    /// Top of the flat lower-case letters without ascender.
    XHeight,
    /// Top of the flat capitals.
    CapHeight,
    /// Top of the lower-case ascenders.
    Ascender,
    /// Foot of the lower-case descenders.
    Descender,
}

impl GuideKind {
    /// Every guide, from the lowest up.
    pub const ALL: [Self; 5] = [
        Self::Descender,
        Self::Baseline,
        Self::XHeight,
        Self::CapHeight,
        Self::Ascender,
    ];

    /// Letters that show the line by a flat end, best ones first, and letters
    /// that show by a round end how far rounds pass it.
    fn letters(self) -> (End, &'static str, &'static str) {
        match self {
            Self::Baseline => (End::Foot, "HIEFLTKNMXZhnmlikxrz", "OCGQSUoceasu"),
            Self::XHeight => (End::Top, "xzvwyurnmi", "oceasg"),
            Self::CapHeight => (End::Top, "HIEFLTKNXZDBPRUMVW", "OCGQS"),
            Self::Ascender => (End::Top, "lhkbd", "f"),
            Self::Descender => (End::Foot, "pq", "gjy"),
        }
    }

    /// Which guide a character's top and foot belong to: none for those that
    /// end where they please (t, the dots of i and j, J and Q below, most signs).
    pub fn of(c: char, end: End) -> Option<Self> {
        match (end, c) {
            (End::Top, 'A'..='Z' | '&') => Some(Self::CapHeight),
            (End::Top, 'a' | 'c' | 'e' | 'g' | 'm'..='s' | 'u'..='z') => Some(Self::XHeight),
            (End::Top, 'b' | 'd' | 'f' | 'h' | 'k' | 'l') => Some(Self::Ascender),
            (End::Foot, 'J' | 'Q') => None,
            (End::Foot, 'g' | 'j' | 'p' | 'q' | 'y') => Some(Self::Descender),
            (End::Foot, 'A'..='Z' | 'a'..='z' | '0'..='9' | '&') => Some(Self::Baseline),
            _ => None,
        }
    }
}

/// One guide.
#[derive(Debug, Clone, PartialEq)]
pub struct Guide {
    /// Which line.
    pub kind: GuideKind,
    /// Height as drawn: the median of the flat letters; `None` if the font
    /// lacks the letters that show it.
    pub drawn: Option<f64>,
    /// The letters it was taken from.
    pub from: String,
    /// Height as the file declares it: OS/2 sxHeight and sCapHeight, sTypoAscender
    /// and sTypoDescender; the baseline is 0 by definition.
    pub declared: Option<f64>,
    /// Median height to which round letters reach.
    pub round: Option<f64>,
}

/// The guides, from the lowest up.
pub(super) fn guides(reader: &Reader<'_>, declared: &Declared, units_per_em: f64) -> Vec<Guide> {
    GuideKind::ALL
        .into_iter()
        .map(|kind| {
            let (end, flats, rounds) = kind.letters();
            let read = |c: char| -> Option<(char, Extremity)> {
                let outline = reader.outline(reader.glyph(c)?).ok()?;
                Some((c, extremity(&outline, end, units_per_em)?))
            };
            let of_form = |letters: &str, form: Form| -> Vec<(char, Extremity)> {
                letters
                    .chars()
                    .filter_map(read)
                    .filter(|(_, e)| e.form == form)
                    .collect()
            };
            let mut shown = of_form(flats, Form::Flat);
            if shown.is_empty() {
                // No flat ends at all, as in a script: take the ends as they are.
                shown = flats.chars().filter_map(read).collect();
            }
            Guide {
                kind,
                drawn: median(&shown),
                from: shown.iter().map(|(c, _)| c).collect(),
                declared: match kind {
                    GuideKind::Baseline => Some(0.0),
                    GuideKind::XHeight => declared.x_height,
                    GuideKind::CapHeight => declared.cap_height,
                    GuideKind::Ascender => declared.typo_ascender,
                    GuideKind::Descender => declared.typo_descender,
                },
                round: median(&of_form(rounds, Form::Round)),
            }
        })
        .collect()
}

fn median(ends: &[(char, Extremity)]) -> Option<f64> {
    let mut ys: Vec<f64> = ends.iter().map(|(_, e)| e.y).collect();
    (!ys.is_empty()).then(|| super::median(&mut ys))
}
