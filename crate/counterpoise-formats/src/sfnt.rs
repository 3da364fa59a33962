//! Tables of a font file: the directory read leniently, and written strictly
//! (OpenType, "Organization of an OpenType Font").

use crate::FormatError;
use std::borrow::Cow;
use std::collections::BTreeMap;

/// A table's four letters.
pub(crate) type Tag = [u8; 4];

/// Two bytes of a table, unsigned.
pub(crate) fn u16_at(data: &[u8], at: usize) -> Option<u16> {
    let bytes = data.get(at..at.checked_add(2)?)?;
    Some(u16::from_be_bytes(bytes.try_into().ok()?))
}

/// Two bytes of a table, signed.
pub(crate) fn i16_at(data: &[u8], at: usize) -> Option<i16> {
    u16_at(data, at).map(u16::cast_signed)
}

/// Four bytes of a table.
pub(crate) fn u32_at(data: &[u8], at: usize) -> Option<u32> {
    let bytes = data.get(at..at.checked_add(4)?)?;
    Some(u32::from_be_bytes(bytes.try_into().ok()?))
}

/// Writes two bytes into a table; past its end nothing is written.
pub(crate) fn put_u16(data: &mut [u8], at: usize, value: u16) {
    if let Some(place) = data.get_mut(at..at.saturating_add(2)) {
        place.copy_from_slice(&value.to_be_bytes());
    }
}

/// A whole number that a table can hold, nearest to this one.
pub(crate) fn short(value: f64) -> i16 {
    // Halves go up, as fontTools and the shapers round (its `otRound`).
    (value + 0.5)
        .floor()
        .clamp(f64::from(i16::MIN), f64::from(i16::MAX)) as i16
}

/// The tables of one face.
#[derive(Debug, Clone, Default)]
pub(crate) struct Tables<'a> {
    /// `OTTO`, `true` or 1.0: what the file says it is.
    flavour: u32,
    tables: BTreeMap<Tag, Cow<'a, [u8]>>,
}

impl<'a> Tables<'a> {
    /// Reads the directory that begins at this offset of the file.
    pub(crate) fn read(file: &'a [u8], at: usize) -> Result<Self, FormatError> {
        let flavour = u32_at(file, at).ok_or(FormatError::Truncated)?;
        let count = u16_at(file, at + 4).ok_or(FormatError::Truncated)?;
        let mut tables = BTreeMap::new();
        for i in 0..usize::from(count) {
            let record = at + 12 + 16 * i;
            let bytes = file
                .get(record..record + 16)
                .ok_or(FormatError::Truncated)?;
            let tag: Tag = bytes[..4].try_into().map_err(|_| FormatError::Directory)?;
            let offset = u32_at(bytes, 8).ok_or(FormatError::Directory)? as usize;
            let length = u32_at(bytes, 12).ok_or(FormatError::Directory)? as usize;
            let end = offset.checked_add(length).ok_or(FormatError::Truncated)?;
            let table = file.get(offset..end).ok_or(FormatError::Truncated)?;
            // Of two tables of one name readers take the first.
            tables.entry(tag).or_insert(Cow::Borrowed(table));
        }
        Ok(Self { flavour, tables })
    }

    pub(crate) fn get(&self, tag: &Tag) -> Option<&[u8]> {
        self.tables.get(tag).map(|t| &**t)
    }

    pub(crate) fn has(&self, tag: &Tag) -> bool {
        self.tables.contains_key(tag)
    }

    /// Puts a table in the place of the one of that name.
    pub(crate) fn put(&mut self, tag: Tag, table: Vec<u8>) {
        self.tables.insert(tag, Cow::Owned(table));
    }

    /// A table to be changed in place.
    pub(crate) fn change(&mut self, tag: &Tag) -> Option<&mut Vec<u8>> {
        self.tables.get_mut(tag).map(Cow::to_mut)
    }

    pub(crate) fn drop(&mut self, tags: &[Tag]) {
        for tag in tags {
            self.tables.remove(tag);
        }
    }

    /// Number of glyphs.
    pub(crate) fn glyph_count(&self) -> u16 {
        self.get(b"maxp").and_then(|t| u16_at(t, 4)).unwrap_or(0)
    }

    /// The face as a file of its own.
    pub(crate) fn write(mut self) -> Vec<u8> {
        const ADJUSTMENT: usize = 8;
        if let Some(head) = self.change(b"head")
            && let Some(place) = head.get_mut(ADJUSTMENT..ADJUSTMENT + 4)
        {
            place.fill(0);
        }
        let count = self.tables.len();
        let steps = u16::try_from(count.max(1).ilog2()).unwrap_or(0);
        let range = 16u16 << steps;
        let mut file = self.flavour.to_be_bytes().to_vec();
        for word in [
            count as u16,
            range,
            steps,
            (16 * count as u16).wrapping_sub(range),
        ] {
            file.extend(word.to_be_bytes());
        }
        let mut offset = 12 + 16 * count;
        for (tag, table) in &self.tables {
            file.extend(tag);
            file.extend(sum(table).to_be_bytes());
            file.extend((offset as u32).to_be_bytes());
            file.extend((table.len() as u32).to_be_bytes());
            offset += table.len().next_multiple_of(4);
        }
        let mut head = None;
        for (tag, table) in &self.tables {
            if tag == b"head" {
                head = Some(file.len() + ADJUSTMENT);
            }
            file.extend(&**table);
            file.resize(file.len().next_multiple_of(4), 0);
        }
        let adjustment = 0xB1B0_AFBA_u32.wrapping_sub(sum(&file));
        if let Some(place) = head.and_then(|at| file.get_mut(at..at + 4)) {
            place.copy_from_slice(&adjustment.to_be_bytes());
        }
        file
    }
}

/// A table's checksum: its words added up.
fn sum(table: &[u8]) -> u32 {
    table.chunks(4).fold(0, |total, chunk| {
        let mut word = [0; 4];
        word[..chunk.len()].copy_from_slice(chunk);
        total.wrapping_add(u32::from_be_bytes(word))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_reads_the_same() {
        let sample = crate::tests::sample();
        let tables = Tables::read(&sample, 0).unwrap();
        let glyf = tables.get(b"glyf").unwrap().to_vec();
        let written = tables.write();
        // The words of a whole font add up to this number (OpenType, head).
        assert_eq!(sum(&written), 0xB1B0_AFBA);
        let again = Tables::read(&written, 0).unwrap();
        assert_eq!(again.get(b"glyf").unwrap(), glyf);
        assert!(counterpoise::font::Font::open(written).is_ok());
    }

    #[test]
    fn a_cut_file_is_told_as_cut() {
        let sample = crate::tests::sample();
        for end in [3, 11, 40, sample.len() / 2] {
            let read = Tables::read(&sample[..end], 0);
            assert_eq!(read.unwrap_err(), FormatError::Truncated, "at {end}");
        }
    }
}
