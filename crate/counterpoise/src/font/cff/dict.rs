//! DICT: operators, each after its operands.

use crate::font::bytes::{i16_at, u8_at, u32_at};
use std::ops::Range;

/// Longest dictionary read. Real ones take tens of bytes; some are read anew for
/// every glyph, and a long one must not make each of them slow.
const MAX_LENGTH: usize = 4096;

/// The largest number of operands that any operator of interest has.
const KEPT: usize = 2;

/// An operator with its operands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Entry {
    /// Two-byte operators are 1200 and their second byte.
    pub(super) operator: u16,
    operands: [Option<i32>; KEPT],
    count: usize,
}

impl Entry {
    /// The only operand, if it is a whole number and not negative.
    pub(super) fn offset(&self) -> Option<usize> {
        if self.count != 1 {
            return None;
        }
        usize::try_from(self.operands[0]?).ok()
    }

    /// Two operands, a length and a start.
    pub(super) fn range(&self) -> Option<Range<usize>> {
        if self.count != 2 {
            return None;
        }
        let length = usize::try_from(self.operands[0]?).ok()?;
        let start = usize::try_from(self.operands[1]?).ok()?;
        Some(start..start.checked_add(length)?)
    }
}

/// The entries of a dictionary, up to the first that cannot be read.
pub(super) fn entries(data: &[u8]) -> Option<impl Iterator<Item = Entry> + '_> {
    if data.len() > MAX_LENGTH {
        return None;
    }
    let mut at = 0;
    Some(std::iter::from_fn(move || {
        let mut entry = Entry {
            operator: 0,
            operands: [None; KEPT],
            count: 0,
        };
        loop {
            let first = u8_at(data, at)?;
            let (operand, length) = match first {
                12 => {
                    entry.operator = 1200 + u16::from(u8_at(data, at + 1)?);
                    at += 2;
                    return Some(entry);
                }
                0..=27 | 31 | 255 => {
                    entry.operator = first.into();
                    at += 1;
                    return Some(entry);
                }
                28 => (i16_at(data, at + 1).map(i32::from), 3),
                29 => (u32_at(data, at + 1).map(u32::cast_signed), 5),
                // A number with a fraction is no offset.
                30 => (None, 1 + real_length(data.get(at + 1..)?)),
                32..=246 => (Some(i32::from(first) - 139), 1),
                247..=250 => (
                    u8_at(data, at + 1)
                        .map(|b| (i32::from(first) - 247) * 256 + i32::from(b) + 108),
                    2,
                ),
                251..=254 => (
                    u8_at(data, at + 1)
                        .map(|b| -(i32::from(first) - 251) * 256 - i32::from(b) - 108),
                    2,
                ),
            };
            at += length;
            if let Some(slot) = entry.operands.get_mut(entry.count) {
                *slot = operand;
            }
            entry.count += 1;
        }
    }))
}

/// Bytes that a number with a fraction takes: up to the half-byte 15.
fn real_length(data: &[u8]) -> usize {
    data.iter()
        .position(|b| b >> 4 == 15 || b & 15 == 15)
        .map_or(data.len(), |last| last + 1)
}
