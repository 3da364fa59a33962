//! Cubic outlines at a position: a CFF2 table whose charstrings hold no blends
//! and call no subroutines (OpenType, CFF2).

use super::Place;
use super::charstring::{self, Surroundings};
use crate::FormatError;
use crate::sfnt::{Tables, i16_at, u16_at, u32_at};
use read_fonts::tables::variations::ItemVariationStore;
use read_fonts::{FontData, FontRead};

/// Bytes of charstrings that a position may take: far beyond a whole East Asian
/// face, and what a tab can hold.
const MOST_BYTES: usize = 256 * 1024 * 1024;

const CHARSTRINGS: u16 = 17;
const PRIVATE: u16 = 18;
const SUBROUTINES: u16 = 19;
const VSINDEX: u16 = 22;
const STORE: u16 = 24;
const MATRIX: u16 = 0x0C07;
const FONT_DICTS: u16 = 0x0C24;
const SELECT: u16 = 0x0C25;

/// Whether a table has no store of variations, which the lab's reader asks for.
pub(crate) fn lacks_store(table: &[u8]) -> bool {
    Cff2::read(table).is_some_and(|cff| cff.store.is_none())
}

/// The table of a font that does not vary, as the lab's reader takes it.
pub(crate) fn with_store(table: &[u8]) -> Option<Vec<u8>> {
    moved(table, &Place::NOWHERE).ok()
}

/// Moves the outlines. A charstring that is damaged becomes one that draws nothing.
pub(super) fn vary(tables: &mut Tables<'_>, place: &Place) -> Result<(), FormatError> {
    let table = tables.get(b"CFF2").ok_or(FormatError::Variations)?;
    let moved = moved(table, place)?;
    tables.put(*b"CFF2", moved);
    Ok(())
}

fn moved(table: &[u8], place: &Place) -> Result<Vec<u8>, FormatError> {
    let cff = Cff2::read(table).ok_or(FormatError::Variations)?;
    let scalars = cff
        .store
        .map_or_else(Vec::new, |store| scalars(store, place));
    let (mut charstrings, mut size, mut steps) = (Vec::new(), 0, 0);
    for (id, code) in cff.charstrings.iter().enumerate() {
        let dict = cff.dicts.get(cff.dict_of(id));
        let around = Surroundings {
            global: &cff.global,
            local: dict.map_or(&[], |d| &d.local),
            scalars: &scalars,
            set: dict.map_or(0, |d| d.set),
        };
        let moved = match charstring::run(code, &around, &mut steps) {
            // A damaged glyph costs that glyph: the reader says so of it, since
            // it says the same of a charstring that is this operator alone.
            Err(FormatError::Variations) => vec![BROKEN],
            other => other?,
        };
        size += moved.len();
        if size > MOST_BYTES {
            return Err(FormatError::TooMuch);
        }
        charstrings.push(moved);
    }
    write(&charstrings, cff.matrix)
}

/// An operator that no charstring may hold (OpenType, CFF2: 0 is reserved).
const BROKEN: u8 = 0;

/// How strongly each region counts, by the sets that charstrings choose from.
fn scalars(store: &[u8], place: &Place) -> Vec<Vec<f64>> {
    let Ok(store) = ItemVariationStore::read(FontData::new(store)) else {
        return Vec::new();
    };
    let Ok(regions) = store.variation_region_list() else {
        return Vec::new();
    };
    let regions = regions.variation_regions();
    let set = |data: &read_fonts::tables::variations::ItemVariationData<'_>| {
        let of = |i: u16| {
            let region = regions.get(usize::from(i)).ok();
            region.map_or(0.0, |r| r.compute_scalar(&place.coordinates).to_f64())
        };
        data.region_indexes().iter().map(|i| of(i.get())).collect()
    };
    let sets = store.item_variation_data();
    let sets = sets.iter().map(|data| match data {
        Some(Ok(data)) => set(&data),
        _ => Vec::new(),
    });
    sets.collect()
}

/// Private data of some glyphs.
#[derive(Default)]
struct Dict<'a> {
    local: Vec<&'a [u8]>,
    set: usize,
}

struct Cff2<'a> {
    global: Vec<&'a [u8]>,
    charstrings: Vec<&'a [u8]>,
    dicts: Vec<Dict<'a>>,
    select: Option<&'a [u8]>,
    store: Option<&'a [u8]>,
    matrix: Option<&'a [u8]>,
}

impl<'a> Cff2<'a> {
    fn read(table: &'a [u8]) -> Option<Self> {
        let header = usize::from(*table.get(2)?);
        let length = usize::from(u16_at(table, 3)?);
        let top = table.get(header..header + length)?;
        let (global, _) = index(table, header + length)?;
        let offset = |operator| entry(top, operator).and_then(|e| e.last_whole());
        let (charstrings, _) = index(table, offset(CHARSTRINGS)?)?;
        let (fonts, _) = index(table, offset(FONT_DICTS)?)?;
        let dicts = fonts
            .into_iter()
            .map(|font| Dict::read(table, font).unwrap_or_default());
        Some(Self {
            global,
            charstrings,
            dicts: dicts.collect(),
            select: offset(SELECT).and_then(|at| table.get(at..)),
            // Two bytes of length go before the store itself.
            store: offset(STORE).and_then(|at| table.get(at.checked_add(2)?..)),
            matrix: entry(top, MATRIX).map(|e| e.bytes),
        })
    }

    /// The private data of a glyph (FDSelect, formats 0, 3 and 4).
    fn dict_of(&self, glyph: usize) -> usize {
        let find = || {
            let select = self.select?;
            let (count, first, wide) = match select.first()? {
                0 => return select.get(1 + glyph).map(|&d| usize::from(d)),
                3 => (usize::from(u16_at(select, 1)?), 3, false),
                4 => (u32_at(select, 1)? as usize, 5, true),
                _ => return None,
            };
            let size = if wide { 6 } else { 3 };
            let start = |i: usize| {
                let at = first + size * i;
                if wide {
                    u32_at(select, at).map(|v| v as usize)
                } else {
                    u16_at(select, at).map(usize::from)
                }
            };
            let (mut low, mut high) = (0, count);
            while high - low > 1 {
                let middle = low.midpoint(high);
                if start(middle)? <= glyph {
                    low = middle
                } else {
                    high = middle
                }
            }
            let at = first + size * low;
            if wide {
                u16_at(select, at + 4).map(usize::from)
            } else {
                select.get(at + 2).map(|&d| usize::from(d))
            }
        };
        find().unwrap_or(0)
    }
}

impl<'a> Dict<'a> {
    fn read(table: &'a [u8], font: &'a [u8]) -> Option<Self> {
        let private = entry(font, PRIVATE)?;
        let [length, at] = private.whole()?;
        let data = table.get(at..at.checked_add(length)?)?;
        let local = entry(data, SUBROUTINES)
            .and_then(|e| e.last_whole())
            .and_then(|from| index(table, at.checked_add(from)?));
        let set = entry(data, VSINDEX)
            .and_then(|e| e.last_whole())
            .unwrap_or(0);
        Some(Self {
            local: local.map_or_else(Vec::new, |(list, _)| list),
            set,
        })
    }
}

/// A list of byte strings, and where it ends.
fn index(table: &[u8], at: usize) -> Option<(Vec<&[u8]>, usize)> {
    let count = u32_at(table, at)? as usize;
    if count == 0 {
        return Some((Vec::new(), at + 4));
    }
    let size = usize::from(*table.get(at + 4)?);
    if !(1..=4).contains(&size) {
        return None;
    }
    let offsets = table.get(at + 5..(at + 5).checked_add(size.checked_mul(count + 1)?)?)?;
    let data = at + 5 + offsets.len();
    let offset = |i: usize| {
        let bytes = offsets.get(size * i..size * (i + 1))?;
        let offset = bytes.iter().fold(0, |n, &b| (n << 8) | usize::from(b));
        // Offsets count from the byte before the data.
        (data + offset).checked_sub(1)
    };
    let mut list = Vec::with_capacity(count);
    for i in 0..count {
        list.push(table.get(offset(i)?..offset(i + 1)?)?);
    }
    Some((list, offset(count)?))
}

/// One entry of a DICT: its numbers, and all its bytes with the operator.
struct Entry<'a> {
    numbers: Vec<f64>,
    bytes: &'a [u8],
}

impl Entry<'_> {
    fn last_whole(&self) -> Option<usize> {
        self.numbers
            .last()
            .filter(|n| **n >= 0.0)
            .map(|n| *n as usize)
    }

    fn whole(&self) -> Option<[usize; 2]> {
        match self.numbers[..] {
            [a, b] if a >= 0.0 && b >= 0.0 => Some([a as usize, b as usize]),
            _ => None,
        }
    }
}

/// The entry of an operator; `None` if the dictionary lacks it or is damaged before it.
fn entry(dict: &[u8], wanted: u16) -> Option<Entry<'_>> {
    let (mut at, mut start) = (0, 0);
    let mut numbers = Vec::new();
    while let Some(&byte) = dict.get(at) {
        match byte {
            28 => {
                numbers.push(f64::from(i16_at(dict, at + 1)?));
                at += 3;
            }
            29 => {
                numbers.push(f64::from(u32_at(dict, at + 1)?.cast_signed()));
                at += 5;
            }
            30 => {
                // A number in decimal: none that is looked for here is one.
                while dict.get(at + 1)? & 0x0F != 0x0F && dict.get(at + 1)? >> 4 != 0x0F {
                    at += 1;
                }
                numbers.push(f64::NAN);
                at += 2;
            }
            32..=246 => {
                numbers.push(f64::from(i32::from(byte) - 139));
                at += 1;
            }
            247..=254 => {
                let (high, low) = (i32::from(byte), i32::from(*dict.get(at + 1)?));
                numbers.push(f64::from(if high < 251 {
                    (high - 247) * 256 + low + 108
                } else {
                    -(high - 251) * 256 - low - 108
                }));
                at += 2;
            }
            _ => {
                let mut operator = u16::from(byte);
                at += 1;
                if byte == 12 {
                    operator = 0x0C00 | u16::from(*dict.get(at)?);
                    at += 1;
                }
                if operator == wanted {
                    return Some(Entry {
                        numbers,
                        bytes: dict.get(start..at)?,
                    });
                }
                numbers.clear();
                start = at;
            }
        }
    }
    None
}

/// A store of variations with one set that has no regions. A font that stands
/// still needs none, but the lab's reader takes no CFF2 table without one.
const NO_VARIATIONS: &[u8] = &[
    0, 22, // bytes that follow
    0, 1, 0, 0, 0, 12, 0, 1, 0, 0, 0, 16, // format, regions, one set
    0, 1, 0, 0, // regions: of one axis, none
    0, 0, 0, 0, 0, 0, // the set: no items, no words, no regions
];

/// A table of these charstrings and one empty private dictionary.
fn write(charstrings: &[Vec<u8>], matrix: Option<&[u8]>) -> Result<Vec<u8>, FormatError> {
    const HEADER: usize = 5;
    let whole = |value: usize, operator: &[u8]| {
        let value = i32::try_from(value).map_err(|_| FormatError::TooMuch)?;
        let mut bytes = vec![29];
        bytes.extend(value.to_be_bytes());
        bytes.extend(operator);
        Ok::<_, FormatError>(bytes)
    };
    let matrix = matrix.unwrap_or_default();
    let length = matrix.len() + 6 + 7 + 6;
    // The list of global subroutines is empty: four bytes.
    let store = HEADER + length + 4;
    let at = store + NO_VARIATIONS.len();
    let outlines = write_index(charstrings)?;
    let mut table = vec![2, 0, HEADER as u8];
    table.extend((length as u16).to_be_bytes());
    table.extend(matrix);
    table.extend(whole(at, &[17])?);
    table.extend(whole(at + outlines.len(), &[12, 36])?);
    table.extend(whole(store, &[24])?);
    table.extend([0; 4]);
    table.extend(NO_VARIATIONS);
    table.extend(&outlines);
    // A font dictionary of one entry, a private one of no bytes (0 0 Private).
    table.extend(write_index(&[vec![139, 139, 18]])?);
    Ok(table)
}

fn write_index(list: &[Vec<u8>]) -> Result<Vec<u8>, FormatError> {
    let count = u32::try_from(list.len()).map_err(|_| FormatError::TooMuch)?;
    let mut bytes = count.to_be_bytes().to_vec();
    if count == 0 {
        return Ok(bytes);
    }
    bytes.push(4);
    let mut offset = 1_u32;
    bytes.extend(offset.to_be_bytes());
    for one in list {
        let length = u32::try_from(one.len()).map_err(|_| FormatError::TooMuch)?;
        offset = offset.checked_add(length).ok_or(FormatError::TooMuch)?;
        bytes.extend(offset.to_be_bytes());
    }
    bytes.extend(list.concat());
    Ok(bytes)
}
