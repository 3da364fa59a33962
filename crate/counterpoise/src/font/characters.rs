//! Every character that a font maps.
//!
//! The parser walks through the ranges of a map as they stand in the file: a
//! damaged one may claim four thousand million characters. Those maps that hold
//! ranges are therefore read here, within the bounds of Unicode.

use super::GlyphId;
use super::bytes::u32_at;
use ttf_parser::cmap::Format;
use ttf_parser::{Face, Tag};

/// Characters that all maps may claim together: every one that Unicode has, in
/// each of the three maps that fonts carry at most. Fewer would lose some of a
/// font that maps them all; more are damage.
const MOST: u32 = 3 * 0x11_0000;

/// Bytes of the table before its records, and of each.
const HEADER: usize = 4;
const RECORD: usize = 8;

/// Bytes of a map before its ranges, and of each (cmap formats 12 and 13).
const RANGES: usize = 16;
const RANGE: usize = 12;

/// Tells every character with its glyph, of each Unicode map in turn.
pub(super) fn each(face: &Face<'_>, mut tell: impl FnMut(char, GlyphId)) {
    let Some(cmap) = face.tables().cmap else {
        return;
    };
    let raw = face.raw_face().table(Tag::from_bytes(b"cmap"));
    let mut left = MOST;
    for (i, table) in (0..).zip(cmap.subtables) {
        if !table.is_unicode() {
            continue;
        }
        let mut one = |code: u32| {
            if left == 0 {
                return false;
            }
            left -= 1;
            if let (Some(c), Some(id)) = (char::from_u32(code), table.glyph_index(code)) {
                tell(c, GlyphId(id.0));
            }
            true
        };
        match (table.format, raw) {
            (Format::SegmentedCoverage(_) | Format::ManyToOneRangeMappings(_), Some(raw)) => {
                ranges(raw, i, &mut one);
            }
            // The others walk through sixteen bits at most, or what lies in the file.
            _ => table.codepoints(|code| {
                one(code);
            }),
        }
    }
}

/// Walks through the ranges of a map, as far as there are characters, until it
/// is told to stop.
fn ranges(cmap: &[u8], table: usize, one: &mut impl FnMut(u32) -> bool) -> Option<()> {
    let offset = u32_at(cmap, HEADER + RECORD * table + 4)?;
    let map = cmap.get(usize::try_from(offset).ok()?..)?;
    for i in 0..u32_at(map, RANGES - 4)? {
        let at = RANGES + RANGE * usize::try_from(i).ok()?;
        let (first, last) = (u32_at(map, at)?, u32_at(map, at + 4)?);
        for code in first..=last.min(u32::from(char::MAX)) {
            if !one(code) {
                return None;
            }
        }
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn map(groups: &[(u32, u32)]) -> Vec<u8> {
        let mut table: Vec<u8> = [0u16, 1, 3, 10, 0, 12, 12, 0]
            .into_iter()
            .flat_map(u16::to_be_bytes)
            .collect();
        let count = groups.len() as u32;
        let words = [16 + 12 * count, 0, count].into_iter();
        let groups = groups.iter().flat_map(|&(a, b)| [a, b, 1]);
        table.extend(words.chain(groups).flat_map(u32::to_be_bytes));
        table
    }

    fn count(groups: &[(u32, u32)]) -> u32 {
        let mut count = 0;
        ranges(&map(groups), 0, &mut |_| {
            count += 1;
            count < MOST
        });
        count
    }

    #[test]
    fn ranges_end_where_unicode_does() {
        assert_eq!(count(&[(65, 90), (97, 122)]), 52);
        assert_eq!(count(&[(0x10_FFF0, u32::MAX)]), 16);
        assert_eq!(count(&[(u32::MAX - 9, u32::MAX), (65, 65)]), 1);
    }

    #[test]
    fn a_walk_ends_when_it_is_told_to() {
        assert_eq!(count(&[(0, u32::MAX); 40]), MOST);
    }
}
