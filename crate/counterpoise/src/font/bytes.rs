//! Numbers out of raw tables, each `None` past the end.

/// The byte at an offset.
pub(super) fn u8_at(data: &[u8], at: usize) -> Option<u8> {
    data.get(at).copied()
}

/// Two bytes, unsigned.
pub(super) fn u16_at(data: &[u8], at: usize) -> Option<u16> {
    let bytes = data.get(at..at.checked_add(2)?)?;
    Some(u16::from_be_bytes(bytes.try_into().ok()?))
}

/// Two bytes, signed.
pub(super) fn i16_at(data: &[u8], at: usize) -> Option<i16> {
    u16_at(data, at).map(u16::cast_signed)
}

/// Four bytes, unsigned.
pub(super) fn u32_at(data: &[u8], at: usize) -> Option<u32> {
    let bytes = data.get(at..at.checked_add(4)?)?;
    Some(u32::from_be_bytes(bytes.try_into().ok()?))
}

/// One to four bytes, unsigned.
pub(super) fn uint_at(data: &[u8], at: usize, size: usize) -> Option<usize> {
    let bytes = data.get(at..at.checked_add(size)?)?;
    Some(bytes.iter().fold(0, |n, &b| (n << 8) | usize::from(b)))
}
