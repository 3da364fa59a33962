//! TrueType files with as many glyphs as there can be.
//!
//! The loca table has an entry more than there are glyphs, which for 65,535 of
//! them is one more than the parser can count: it then gives up the outlines of
//! the whole font. Its length in the file's directory is therefore set to what can
//! be counted, and the last glyph alone is without an outline.

use super::Container;
use super::bytes::{u16_at, u32_at};

/// Entries that the parser can count.
const MOST: usize = u16::MAX as usize;

/// Bytes of a table directory before its records, and of each; where a record has
/// the table's offset and its length.
const RECORDS: usize = 12;
const RECORD: usize = 16;
const OFFSET: usize = 8;
const LENGTH: usize = 12;

/// Where head says whether loca's entries have two bytes or four (OpenType
/// specification, head chapter, indexToLocFormat).
const FORMAT: usize = 50;

/// Shortens a loca table that is longer than can be counted, if there is one.
pub(super) fn shorten(data: &mut [u8], face_index: u32) -> Option<()> {
    let at = directory(data, face_index)?;
    let head = record(data, at, b"head")?;
    let head = usize::try_from(u32_at(data, head + OFFSET)?).ok()?;
    let entry = if u16_at(data, head.checked_add(FORMAT)?)? == 0 {
        2
    } else {
        4
    };
    let length = record(data, at, b"loca")? + LENGTH;
    let most = entry * MOST;
    if usize::try_from(u32_at(data, length)?).ok()? > most {
        let most = u32::try_from(most).ok()?.to_be_bytes();
        data.get_mut(length..length + 4)?.copy_from_slice(&most);
    }
    Some(())
}

/// Where a face's table directory begins.
fn directory(data: &[u8], face_index: u32) -> Option<usize> {
    match Container::sniff(data).ok()? {
        Container::Collection => {
            let place = 12 + 4 * usize::try_from(face_index).ok()?;
            usize::try_from(u32_at(data, place)?).ok()
        }
        _ => Some(0),
    }
}

/// Where a table's record begins.
fn record(data: &[u8], directory: usize, tag: &[u8; 4]) -> Option<usize> {
    let count = u16_at(data, directory.checked_add(4)?)?;
    (0..usize::from(count))
        .map(|i| directory + RECORDS + RECORD * i)
        .find(|&at| data.get(at..at + 4) == Some(tag))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A directory of head and loca, with head's format of entries.
    fn file(format: u16, length: u32) -> Vec<u8> {
        let mut data = b"\0\x01\0\0\0\x02\0\0\0\0\0\0".to_vec();
        for (tag, offset, length) in [(b"head", 44u32, 54u32), (b"loca", 98, length)] {
            data.extend(tag);
            for word in [0, offset, length] {
                data.extend(u32::to_be_bytes(word));
            }
        }
        data.resize(44 + FORMAT, 0);
        data.extend(format.to_be_bytes());
        data.resize(98, 0);
        data
    }

    fn length(mut data: Vec<u8>) -> u32 {
        shorten(&mut data, 0).unwrap();
        u32_at(&data, RECORDS + RECORD + LENGTH).unwrap()
    }

    #[test]
    fn a_table_too_long_to_be_counted_is_shortened() {
        assert_eq!(length(file(1, 4 * 65_536)), 4 * 65_535);
        assert_eq!(length(file(0, 2 * 65_536)), 2 * 65_535);
        assert_eq!(length(file(1, u32::MAX)), 4 * 65_535);
    }

    #[test]
    fn any_other_stays_as_it_is() {
        assert_eq!(length(file(1, 4 * 65_535)), 4 * 65_535);
        assert_eq!(length(file(0, 400)), 400);
        assert_eq!(shorten(&mut [], 0), None);
        assert_eq!(shorten(&mut b"ttcf".to_vec(), u32::MAX), None);
    }
}
