//! Accented letters of old fonts: `endchar` with a base and an accent, each named
//! by its code in the standard encoding.

use crate::font::bytes::{u8_at, u16_at};

/// The standard encoding (Adobe Technical Note 5176, Appendix B): first code, last
/// code, and the string identifier of the first.
const STANDARD_ENCODING: [(u8, u8, u16); 14] = [
    (32, 126, 1),
    (161, 175, 96),
    (177, 180, 111),
    (182, 189, 115),
    (191, 191, 123),
    (193, 200, 124),
    (202, 203, 132),
    (205, 208, 134),
    (225, 225, 138),
    (227, 227, 139),
    (232, 235, 140),
    (241, 241, 144),
    (245, 245, 145),
    (248, 251, 146),
];

/// Last string identifier of the predefined character set ISOAdobe, where a
/// glyph's index is its identifier.
const ISO_ADOBE_LAST: u16 = 228;

/// Which string each glyph is named by.
#[derive(Debug, Clone, Copy)]
pub(super) enum Charset<'a> {
    /// The predefined one whose indices are the identifiers.
    IsoAdobe,
    /// The predefined ones for small capitals and figures, which have no accents.
    Expert,
    /// Listed in the file from here on.
    Listed(&'a [u8]),
}

impl<'a> Charset<'a> {
    pub(super) fn read(table: &'a [u8], offset: Option<usize>) -> Option<Self> {
        Some(match offset {
            None | Some(0) => Self::IsoAdobe,
            Some(1 | 2) => Self::Expert,
            Some(at) => Self::Listed(table.get(at..)?),
        })
    }

    /// The glyph of a code in the standard encoding.
    pub(super) fn glyph(&self, code: u8, glyph_count: usize) -> Option<usize> {
        let string = STANDARD_ENCODING
            .iter()
            .find(|(first, last, _)| (*first..=*last).contains(&code))
            // Every other code is the string 0, .notdef.
            .map_or(0, |&(first, _, string)| string + u16::from(code - first));
        match *self {
            Self::IsoAdobe => (string <= ISO_ADOBE_LAST).then_some(string.into()),
            Self::Expert => None,
            Self::Listed(_) if string == 0 => Some(0),
            Self::Listed(list) => listed(list, string, glyph_count),
        }
    }
}

fn listed(list: &[u8], string: u16, glyph_count: usize) -> Option<usize> {
    let format = u8_at(list, 0)?;
    if format == 0 {
        return (1..glyph_count).find(|&glyph| u16_at(list, 2 * glyph - 1) == Some(string));
    }
    let (mut glyph, mut at) = (1, 1);
    while glyph < glyph_count {
        let first = u16_at(list, at)?;
        let (more, length) = match format {
            1 => (u8_at(list, at + 2)?.into(), 3),
            2 => (u16_at(list, at + 2)?, 4),
            _ => return None,
        };
        if let Some(i) = string.checked_sub(first).filter(|&i| i <= more) {
            return Some(glyph + usize::from(i));
        }
        glyph += usize::from(more) + 1;
        at += length;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_lead_to_the_strings_of_the_standard() {
        let glyph = |code| Charset::IsoAdobe.glyph(code, 229);
        // space, A, asciitilde, exclamdown, grave, emdash, germandbls, none.
        assert_eq!(glyph(32), Some(1));
        assert_eq!(glyph(65), Some(34));
        assert_eq!(glyph(126), Some(95));
        assert_eq!(glyph(161), Some(96));
        assert_eq!(glyph(193), Some(124));
        assert_eq!(glyph(208), Some(137));
        assert_eq!(glyph(251), Some(149));
        assert_eq!(glyph(130), Some(0));
    }

    #[test]
    fn listed_glyphs_are_found_in_every_format() {
        // Glyphs 1 to 3 are the strings 34, 35 and 124.
        let each = [0, 0, 34, 0, 35, 0, 124];
        let short = [1, 0, 34, 1, 0, 124, 0];
        let long = [2, 0, 34, 0, 1, 0, 124, 0, 0];
        for list in [&each[..], &short, &long] {
            let charset = Charset::Listed(list);
            assert_eq!(charset.glyph(66, 4), Some(2));
            assert_eq!(charset.glyph(193, 4), Some(3));
            assert_eq!(charset.glyph(193, 3), None);
            assert_eq!(charset.glyph(67, 4), None);
        }
    }
}
