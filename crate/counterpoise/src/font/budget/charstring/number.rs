//! Operands as charstrings write them (Adobe Technical Note 5177, chapter 3.2).

use crate::font::bytes::{i16_at, u8_at, u32_at};

/// Bytes of a number by its first byte; nought for an operator.
const LENGTHS: [u8; 256] = {
    let mut lengths = [0; 256];
    lengths[28] = 3;
    let mut first = 32;
    while first < 255 {
        lengths[first] = if first < 247 { 1 } else { 2 };
        first += 1;
    }
    lengths[255] = 5;
    lengths
};

/// Bytes of the number that starts with this byte; nought if it is an operator.
pub(super) fn length(first: u8) -> usize {
    LENGTHS[usize::from(first)].into()
}

/// The number at a place, cut off towards nought as the parser does.
pub(super) fn whole(table: &[u8], at: usize) -> Option<i32> {
    let first = u8_at(table, at)?;
    let low = || u8_at(table, at + 1).map(i32::from);
    match first {
        28 => i16_at(table, at + 1).map(i32::from),
        32..=246 => Some(i32::from(first) - 139),
        247..=250 => Some((i32::from(first) - 247) * 256 + low()? + 108),
        251..=254 => Some(-(i32::from(first) - 251) * 256 - low()? - 108),
        // Sixteen bits of fraction, in single precision before they are cut off.
        #[expect(
            clippy::cast_precision_loss,
            clippy::cast_possible_truncation,
            reason = "the parser loses as much"
        )]
        255 => Some((u32_at(table, at + 1)?.cast_signed() as f32 / 65536.0) as i32),
        _ => None,
    }
}
