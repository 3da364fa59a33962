//! Kerning and the placing of marks at a position: every length in GPOS that
//! varies takes its value there (OpenType, GPOS; "VariationIndex table").
//!
//! Lengths are changed where they stand, and the link to what varied them is
//! cut, so that no reader adds it again.

use super::Place;
use crate::sfnt::{Tables, i16_at, put_u16, short, u16_at, u32_at};
use read_fonts::tables::gdef::Gdef;
use read_fonts::tables::variations::{DeltaSetIndex, ItemVariationStore};
use read_fonts::{FontData, FontRead};

/// Records that are looked at. The most elaborate tables hold some hundred
/// thousands; a damaged one may lead round in circles. What is not reached
/// stays at the default.
const MOST_STEPS: usize = 20_000_000;

/// Moves the lengths of GPOS.
pub(super) fn vary(tables: &mut Tables<'_>, place: &Place) {
    let Some(gpos) = tables.get(b"GPOS").map(<[u8]>::to_vec) else {
        return;
    };
    let gdef = tables
        .get(b"GDEF")
        .and_then(|t| Gdef::read(FontData::new(t)).ok());
    let Some(Ok(store)) = gdef.and_then(|g| g.item_var_store()) else {
        return;
    };
    let mut walk = Walk {
        data: gpos,
        store,
        place,
        steps: 0,
    };
    walk.lookups();
    let data = walk.data;
    tables.put(*b"GPOS", data);
}

struct Walk<'a> {
    data: Vec<u8>,
    store: ItemVariationStore<'a>,
    place: &'a Place,
    steps: usize,
}

impl Walk<'_> {
    fn word(&mut self, at: usize) -> Option<usize> {
        self.steps += 1;
        (self.steps < MOST_STEPS).then(|| u16_at(&self.data, at).map(usize::from))?
    }

    /// An offset that is not nought, from where it counts.
    fn down(&mut self, from: usize, at: usize) -> Option<usize> {
        self.word(at).filter(|&o| o != 0).map(|o| from + o)
    }

    fn lookups(&mut self) -> Option<()> {
        let list = self.down(0, 8)?;
        for i in 0..self.word(list)? {
            let Some(lookup) = self.down(list, list + 2 + 2 * i) else {
                continue;
            };
            let (kind, count) = (self.word(lookup)?, self.word(lookup + 4)?);
            for k in 0..count {
                if let Some(subtable) = self.down(lookup, lookup + 6 + 2 * k) {
                    self.subtable(kind, subtable);
                }
            }
        }
        Some(())
    }

    fn subtable(&mut self, kind: usize, at: usize) -> Option<()> {
        let format = self.word(at)?;
        match (kind, format) {
            (1, 1) => {
                let values = self.word(at + 4)?;
                self.values(at, at + 6, values);
            }
            (1, 2) => {
                let values = self.word(at + 4)?;
                for i in 0..self.word(at + 6)? {
                    self.values(at, at + 8 + i * size(values), values)?;
                }
            }
            (2, 1) => self.pairs(at)?,
            (2, 2) => self.classes(at)?,
            (3, 1) => {
                for i in 0..2 * self.word(at + 4)? {
                    self.anchor(at, at + 6 + 2 * i);
                }
            }
            (4 | 6, 1) => {
                let classes = self.word(at + 6)?;
                self.marks(at, at + 8);
                self.anchors(at, at + 10, classes);
            }
            (5, 1) => {
                let classes = self.word(at + 6)?;
                self.marks(at, at + 8);
                let ligatures = self.down(at, at + 10)?;
                for i in 0..self.word(ligatures)? {
                    self.anchors(ligatures, ligatures + 2 + 2 * i, classes);
                }
            }
            (9, 1) => {
                let inner = self.word(at + 2)?;
                let offset = u32_at(&self.data, at + 4)? as usize;
                // An extension of an extension is none.
                if inner != 9 {
                    self.subtable(inner, at.checked_add(offset)?);
                }
            }
            _ => {}
        }
        Some(())
    }

    fn pairs(&mut self, at: usize) -> Option<()> {
        let formats = [self.word(at + 4)?, self.word(at + 6)?];
        let length = 2 + size(formats[0]) + size(formats[1]);
        for i in 0..self.word(at + 8)? {
            let Some(set) = self.down(at, at + 10 + 2 * i) else {
                continue;
            };
            for k in 0..self.word(set)? {
                let record = set + 2 + k * length + 2;
                self.values(set, record, formats[0])?;
                self.values(set, record + size(formats[0]), formats[1])?;
            }
        }
        Some(())
    }

    fn classes(&mut self, at: usize) -> Option<()> {
        let formats = [self.word(at + 4)?, self.word(at + 6)?];
        let count = self.word(at + 12)? * self.word(at + 14)?;
        let length = size(formats[0]) + size(formats[1]);
        if length == 0 {
            return None;
        }
        for i in 0..count {
            let record = at + 16 + i * length;
            self.values(at, record, formats[0])?;
            self.values(at, record + size(formats[0]), formats[1])?;
        }
        Some(())
    }

    fn marks(&mut self, at: usize, offset: usize) -> Option<()> {
        let array = self.down(at, offset)?;
        for i in 0..self.word(array)? {
            self.anchor(array, array + 4 + 4 * i);
        }
        Some(())
    }

    /// Rows of anchors, one of each class.
    fn anchors(&mut self, at: usize, offset: usize, classes: usize) -> Option<()> {
        let array = self.down(at, offset)?;
        for i in 0..self.word(array)? * classes {
            self.steps += 1;
            self.anchor(array, array + 2 + 2 * i);
        }
        Some(())
    }

    fn anchor(&mut self, from: usize, offset: usize) -> Option<()> {
        let at = self.down(from, offset)?;
        if self.word(at)? == 3 {
            self.length(at, Some(at + 2), at + 6);
            self.length(at, Some(at + 4), at + 8);
        }
        Some(())
    }

    /// A value record: up to four lengths, then up to four links of theirs.
    fn values(&mut self, from: usize, at: usize, format: usize) -> Option<()> {
        self.steps += 1;
        if self.steps > MOST_STEPS {
            return None;
        }
        if format & 0xF0 == 0 {
            return Some(());
        }
        let place = |bit: usize| {
            let before = format & ((1 << bit) - 1);
            (format & (1 << bit) != 0).then(|| at + 2 * before.count_ones() as usize)
        };
        for bit in 0..4 {
            if let Some(link) = place(bit + 4) {
                self.length(from, place(bit), link);
            }
        }
        Some(())
    }

    /// One length and the link to what varies it.
    fn length(&mut self, from: usize, length: Option<usize>, link: usize) -> Option<()> {
        const VARIATION: usize = 0x8000;
        let at = self.down(from, link)?;
        if self.word(at + 4)? != VARIATION {
            return None;
        }
        let index = DeltaSetIndex {
            outer: u16_at(&self.data, at)?,
            inner: u16_at(&self.data, at + 2)?,
        };
        let step = self
            .store
            .compute_delta(index, &self.place.coordinates)?
            .to_f64();
        if let Some(length) = length {
            let value = f64::from(i16_at(&self.data, length)?) + step;
            put_u16(&mut self.data, length, short(value).cast_unsigned());
        }
        put_u16(&mut self.data, link, 0);
        Some(())
    }
}

/// Bytes of a value record.
fn size(format: usize) -> usize {
    2 * (format & 0xFF).count_ones() as usize
}
