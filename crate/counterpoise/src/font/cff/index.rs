//! INDEX, the format's list of byte strings.

use crate::font::bytes::{u8_at, uint_at};
use std::ops::Range;

/// A list of byte strings.
#[derive(Debug, Clone, Copy, Default)]
pub(in crate::font) struct Index<'a> {
    count: usize,
    offset_size: usize,
    offsets: &'a [u8],
    // Where the strings start in the table, and where they end.
    start: usize,
    end: usize,
}

impl<'a> Index<'a> {
    /// Reads the list that starts at `at`, and where what follows it starts.
    /// CFF counts in two bytes, CFF2 in four.
    pub(super) fn read(table: &'a [u8], at: usize, count_size: usize) -> Option<(Self, usize)> {
        let count = uint_at(table, at, count_size)?;
        let at = at + count_size;
        if count == 0 {
            return Some((Self::default(), at));
        }
        let offset_size = usize::from(u8_at(table, at)?);
        if !(1..=4).contains(&offset_size) {
            return None;
        }
        let start = at.checked_add(1)?;
        let end = start.checked_add(count.checked_add(1)?.checked_mul(offset_size)?)?;
        let mut index = Self {
            count,
            offset_size,
            offsets: table.get(start..end)?,
            start: end,
            end,
        };
        let after = end.checked_add(index.offset(count)?)?;
        table.get(end..after)?;
        index.end = after;
        Some((index, after))
    }

    /// Number of strings.
    pub(in crate::font) fn len(&self) -> usize {
        self.count
    }

    /// Where in the table one of them lies.
    pub(in crate::font) fn place(&self, i: usize) -> Option<Range<usize>> {
        if i >= self.count {
            return None;
        }
        let start = self.start.checked_add(self.offset(i)?)?;
        let end = self.start.checked_add(self.offset(i + 1)?)?;
        (start <= end && end <= self.end).then_some(start..end)
    }

    fn offset(&self, i: usize) -> Option<usize> {
        // The file counts from the byte before the data.
        uint_at(
            self.offsets,
            i.checked_mul(self.offset_size)?,
            self.offset_size,
        )?
        .checked_sub(1)
    }
}
