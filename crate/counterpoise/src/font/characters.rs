//! Every character that a font maps.
//!
//! The parser walks through the ranges of a map as they stand in the file: a
//! damaged one may claim four thousand million characters. Those maps that hold
//! ranges are therefore read here, within the bounds of Unicode.

use super::GlyphId;
use super::bytes::u32_at;
use super::face::Face;
use ttf_parser::Tag;
use ttf_parser::cmap::Format;

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

/// Code points of a page of [`Characters`].
const PAGE: usize = 256;

/// Characters with their glyphs, page by page. A font of sixty thousand is listed
/// while someone waits for its first picture: to sort them would take ten times
/// as long.
pub(super) struct Characters {
    pages: Vec<Vec<Option<GlyphId>>>,
}

impl Characters {
    pub(super) fn none() -> Self {
        Self {
            pages: vec![Vec::new(); 0x11_0000 / PAGE],
        }
    }

    /// Keeps a character's glyph, unless it has one already.
    pub(super) fn keep(&mut self, c: char, glyph: GlyphId) {
        let code = c as usize;
        let page = &mut self.pages[code / PAGE];
        page.resize(PAGE, None);
        page[code % PAGE].get_or_insert(glyph);
    }

    /// All of them, in order of code point.
    pub(super) fn list(&self) -> Vec<(char, GlyphId)> {
        let codes = self.pages.iter().zip((0..).step_by(PAGE));
        let all = codes.flat_map(|(page, from)| page.iter().zip(from..));
        all.filter_map(|(&glyph, code)| Some((char::from_u32(code)?, glyph?)))
            .collect()
    }
}

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
        let mut one = |code: u32, glyph: Option<u32>| {
            if left == 0 {
                return false;
            }
            left -= 1;
            let id = match glyph {
                Some(glyph) => u16::try_from(glyph).ok(),
                None => table.glyph_index(code).map(|id| id.0),
            };
            if let (Some(c), Some(id)) = (char::from_u32(code), id) {
                tell(c, GlyphId(id));
            }
            true
        };
        let rising = match table.format {
            Format::SegmentedCoverage(_) => Some(true),
            Format::ManyToOneRangeMappings(_) => Some(false),
            _ => None,
        };
        if let (Some(rising), Some(raw)) = (rising, raw) {
            ranges(raw, i, rising, &mut one);
        } else {
            // The others walk through sixteen bits at most, or what lies in the file.
            table.codepoints(|code| {
                one(code, None);
            });
        }
    }
}

/// Walks through the ranges of a map, as far as there are characters, until it
/// is told to stop. Their glyphs are told too if they follow each other as the
/// characters do (`rising`) and the ranges stand in order: in a damaged map a
/// search would find others.
fn ranges(
    cmap: &[u8],
    table: usize,
    rising: bool,
    one: &mut impl FnMut(u32, Option<u32>) -> bool,
) -> Option<()> {
    let offset = u32_at(cmap, HEADER + RECORD * table + 4)?;
    let map = cmap.get(usize::try_from(offset).ok()?..)?;
    let range = |i: u32| {
        let at = RANGES + RANGE * usize::try_from(i).ok()?;
        Some([u32_at(map, at)?, u32_at(map, at + 4)?, u32_at(map, at + 8)?])
    };
    let count = u32_at(map, RANGES - 4)?;
    let all = || (0..count).map_while(range);
    let in_order = all()
        .zip(all().skip(1))
        .all(|(a, b)| a[0] <= a[1] && a[1] < b[0]);
    for [first, last, glyph] in all() {
        for code in first..=last.min(u32::from(char::MAX)) {
            let told = (rising && in_order).then(|| glyph.saturating_add(code - first));
            if !one(code, told) {
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
        ranges(&map(groups), 0, true, &mut |_, _| {
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
    fn glyphs_are_told_of_ranges_in_order_alone() {
        let told = |groups: &[(u32, u32)], rising| {
            let mut told = Vec::new();
            ranges(&map(groups), 0, rising, &mut |code, glyph| {
                told.push((code, glyph));
                true
            });
            told
        };
        let in_order = [(65, Some(1)), (66, Some(2)), (97, Some(1))];
        assert_eq!(told(&[(65, 66), (97, 97)], true), in_order);
        let damaged = [
            &[(97, 97), (65, 66)][..],
            &[(65, 66), (66, 66)],
            &[(90, 65), (70, 71)],
        ];
        assert!(
            damaged
                .iter()
                .all(|g| told(g, true).iter().all(|t| t.1.is_none()))
        );
        assert!(told(&[(65, 66)], false).iter().all(|t| t.1.is_none()));
    }

    #[test]
    fn listed_in_order_each_once_as_first_told() {
        let mut all = Characters::none();
        for (c, glyph) in [('b', 7), ('\u{10FFFF}', 9), ('a', 0), ('b', 8)] {
            all.keep(c, GlyphId(glyph));
        }
        let list = [
            ('a', GlyphId(0)),
            ('b', GlyphId(7)),
            ('\u{10FFFF}', GlyphId(9)),
        ];
        assert_eq!(all.list(), list);
    }

    #[test]
    fn a_walk_ends_when_it_is_told_to() {
        assert_eq!(count(&[(0, u32::MAX); 40]), MOST);
    }
}
