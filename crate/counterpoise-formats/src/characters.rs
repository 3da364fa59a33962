//! Which characters lead to which glyphs, where a font says so in an old way
//! alone: a symbol map (platform 3, encoding 0) or Macintosh Roman (1, 0). Both
//! are written anew as a map of Unicode, which all readers of the lab know.
//!
//! Symbol maps hold codes from F000 on; browsers and systems let the key of the
//! low byte stand for each (OpenType, cmap: "Encoding records and encodings",
//! symbol fonts). The code itself leads to the glyph too.

use crate::sfnt::Tables;
use read_fonts::tables::cmap::{Cmap, CmapIterLimits, CmapSubtable};
use read_fonts::tables::name::MacRomanMapping;
use read_fonts::{FontData, FontRead};
use std::collections::BTreeMap;

const SYMBOL: &str = "This is a symbol font of the old kind: its signs have no characters of their \
                      own, so each stands on the key that it was drawn for.";
const ROMAN: &str = "This font names its characters in an old Macintosh way alone; they have been \
                     translated to Unicode.";

/// Where symbol fonts keep their 256 codes.
const PRIVATE: u32 = 0xF000;

enum Old {
    Symbol,
    Roman,
}

/// Whether the face has none but old maps, and of which kind.
fn old(cmap: &Cmap<'_>) -> Option<(Old, usize)> {
    let records = cmap.encoding_records();
    let unicode = |p: u16, e: u16| p == 0 || (p == 3 && (e == 1 || e == 10));
    let kinds = || {
        records
            .iter()
            .map(|r| (r.platform_id() as u16, r.encoding_id()))
    };
    if kinds().any(|(p, e)| unicode(p, e)) {
        return None;
    }
    let find = |wanted| kinds().position(|kind| kind == wanted);
    let symbol = find((3, 0)).map(|at| (Old::Symbol, at));
    symbol.or_else(|| find((1, 0)).map(|at| (Old::Roman, at)))
}

fn cmap<'a>(tables: &'a Tables<'_>) -> Option<Cmap<'a>> {
    Cmap::read(FontData::new(tables.get(b"cmap")?)).ok()
}

/// A sentence about old maps; `None` if the face has Unicode's.
pub(crate) fn note(tables: &Tables<'_>) -> Option<&'static str> {
    match old(&cmap(tables)?)?.0 {
        Old::Symbol => Some(SYMBOL),
        Old::Roman => Some(ROMAN),
    }
}

/// A map of Unicode in the place of old ones; `None` where there is one already.
pub(crate) fn unicode(tables: &Tables<'_>) -> Option<Vec<u8>> {
    let cmap = cmap(tables)?;
    let (kind, at) = old(&cmap)?;
    let record = cmap.encoding_records().get(at)?;
    let table = record.subtable(cmap.offset_data()).ok()?;
    let mut map: BTreeMap<u32, u16> = BTreeMap::new();
    for code in 0..=0xFFFF_u32 {
        let Some(glyph) = glyph(&table, code) else {
            continue;
        };
        match kind {
            Old::Roman => {
                if let Ok(byte) = u8::try_from(code) {
                    map.entry(u32::from(MacRomanMapping.decode(byte)))
                        .or_insert(glyph);
                }
            }
            Old::Symbol => {
                map.entry(code).or_insert(glyph);
                let key = code.wrapping_sub(PRIVATE);
                if (0x20..0x100).contains(&key) {
                    map.insert(key, glyph);
                }
            }
        }
    }
    (!map.is_empty()).then(|| write(&map))
}

fn glyph(table: &CmapSubtable<'_>, code: u32) -> Option<u16> {
    let id = table.map_codepoint(code)?.to_u32();
    u16::try_from(id).ok().filter(|&id| id != 0)
}

/// Every character of a face's map of Unicode, and its glyph.
pub(crate) fn all(tables: &Tables<'_>) -> BTreeMap<u32, u16> {
    let limits = CmapIterLimits {
        glyph_count: u32::from(tables.glyph_count()),
        ..CmapIterLimits::default()
    };
    let best = cmap(tables).and_then(|cmap| cmap.best_subtable());
    let pairs = best.map(|(_, _, table)| table.iter_with_limits(limits));
    pairs
        .into_iter()
        .flatten()
        .filter_map(|(code, id)| Some((code, u16::try_from(id.to_u32()).ok()?)))
        .collect()
}

/// A cmap table with the whole of Unicode (3, 10), in format 12.
pub(crate) fn write(map: &BTreeMap<u32, u16>) -> Vec<u8> {
    let mut groups: Vec<[u32; 3]> = Vec::new();
    for (&code, &glyph) in map {
        let glyph = u32::from(glyph);
        match groups.last_mut() {
            Some([first, last, start])
                if *last + 1 == code && *start + (code - *first) == glyph =>
            {
                *last = code;
            }
            _ => groups.push([code, code, glyph]),
        }
    }
    let mut table = Vec::new();
    for word in [0u16, 1, 3, 10, 0, 12, 12, 0] {
        table.extend(word.to_be_bytes());
    }
    let count = groups.len() as u32;
    for word in [16 + 12 * count, 0, count]
        .into_iter()
        .chain(groups.concat())
    {
        table.extend(word.to_be_bytes());
    }
    table
}

#[cfg(test)]
mod tests {
    use super::*;
    use counterpoise::font::Font;

    /// The sample with its map said to be of another platform and encoding.
    fn with_record(platform: u16, encoding: u16, moved: u32) -> Vec<u8> {
        let sample = crate::tests::sample();
        let font = Font::open(sample.clone()).unwrap();
        let mut table = Vec::new();
        let letters = ['A', 'H', 'n', 'o'];
        let groups: Vec<u32> = letters
            .iter()
            .flat_map(|&c| {
                let code = u32::from(c) + moved;
                [code, code, u32::from(font.reader().glyph(c).unwrap().0)]
            })
            .collect();
        for word in [0, 1, platform, encoding, 0, 12, 12, 0] {
            table.extend(word.to_be_bytes());
        }
        let count = letters.len() as u32;
        for word in [16 + 12 * count, 0, count].into_iter().chain(groups) {
            table.extend(word.to_be_bytes());
        }
        let mut tables = Tables::read(&sample, 0).unwrap();
        tables.put(*b"cmap", table);
        tables.write()
    }

    #[test]
    fn signs_of_a_symbol_font_stand_on_their_keys() {
        let file = with_record(3, 0, 0xF000);
        assert!(
            Font::open(file.clone())
                .unwrap()
                .reader()
                .glyph('A')
                .is_none()
        );
        let mut tables = Tables::read(&file, 0).unwrap();
        assert_eq!(note(&tables), Some(SYMBOL));
        let map = unicode(&tables).unwrap();
        tables.put(*b"cmap", map);
        assert_eq!(note(&tables), None);
        let font = Font::open(tables.write()).unwrap();
        let whole = Font::open(crate::tests::sample()).unwrap();
        for c in ['A', 'H', 'n', 'o'] {
            assert_eq!(font.reader().glyph(c), whole.reader().glyph(c));
            let private = char::from_u32(0xF000 + u32::from(c)).unwrap();
            assert_eq!(font.reader().glyph(private), whole.reader().glyph(c));
        }
        assert_eq!(font.reader().characters().len(), 8);
    }

    #[test]
    fn a_map_of_unicode_is_left_alone() {
        let sample = crate::tests::sample();
        let tables = Tables::read(&sample, 0).unwrap();
        assert!(unicode(&tables).is_none() && note(&tables).is_none());
    }
}
