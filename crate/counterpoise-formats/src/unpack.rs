//! Web fonts unpacked: WOFF and WOFF2 (W3C Recommendations) to the plain file
//! that they were made of. The unpacking library is named here alone.

use crate::FormatError;
use crate::report::Packing;
use crate::sfnt::{u16_at, u32_at};
use std::borrow::Cow;

/// The most bytes that a WOFF file may unpack to: the bound that the library
/// itself has for WOFF2. The largest fonts in use take a fifth of it.
const MOST: u64 = 128 * 1024 * 1024;

/// How many bytes one packed byte can stand for (zlib's own account of deflate).
const MOST_FOLD: u64 = 1032;

/// How a file is packed, told from its first bytes.
pub(crate) fn packing(file: &[u8]) -> Packing {
    match file.get(..4) {
        Some(b"wOFF") => Packing::Woff,
        Some(b"wOF2") => Packing::Woff2,
        _ => Packing::None,
    }
}

/// The plain file. What comes out is bounded: 128 MiB, and of WOFF2 a hundred
/// times what went in.
///
/// # Errors
/// If it cannot be unpacked.
pub(crate) fn unpack(file: &[u8]) -> Result<Cow<'_, [u8]>, FormatError> {
    let unpacked = match packing(file) {
        Packing::None => return Ok(Cow::Borrowed(file)),
        // The library takes room for what the directory claims before it looks.
        Packing::Woff if !claims_what_it_could(file) => return Err(FormatError::Packed),
        Packing::Woff => wuff::decompress_woff1(file),
        Packing::Woff2 => wuff::decompress_woff2(file),
    };
    unpacked.map(Cow::Owned).map_err(|_| FormatError::Packed)
}

/// Whether the tables of a WOFF file can be as long as its directory says.
fn claims_what_it_could(file: &[u8]) -> bool {
    const COUNT: usize = 12;
    const HEADER: usize = 44;
    const RECORD: usize = 20;
    let claims = || {
        let mut total = 0;
        for i in 0..usize::from(u16_at(file, COUNT)?) {
            let at = HEADER + RECORD * i;
            let packed = u64::from(u32_at(file, at + 8)?);
            let plain = u64::from(u32_at(file, at + 12)?);
            if plain > packed.saturating_mul(MOST_FOLD) {
                return None;
            }
            total += plain.max(packed);
        }
        Some(total)
    };
    claims().is_some_and(|total| total <= MOST)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A directory of one table.
    fn one_table(packed: u32, plain: u32) -> Vec<u8> {
        let mut file = b"wOFF\0\x01\0\0".to_vec();
        file.extend([0; 4]);
        file.extend([0, 1]);
        file.resize(44, 0);
        file.extend(b"glyf");
        for number in [64, packed, plain, 0] {
            file.extend(number.to_be_bytes());
        }
        file.resize(128, 0);
        file
    }

    #[test]
    fn a_directory_that_claims_more_than_there_could_be_is_refused_before_room_is_made() {
        assert!(claims_what_it_could(&one_table(60, 60)));
        assert!(claims_what_it_could(&one_table(60, 60_000)));
        assert!(!claims_what_it_could(&one_table(60, u32::MAX)));
        assert!(!claims_what_it_could(&one_table(60, 62_000)));
        assert!(!claims_what_it_could(&one_table(u32::MAX, u32::MAX)));
        assert!(!claims_what_it_could(b"wOFF\0\x01"));
        assert_eq!(unpack(&one_table(60, u32::MAX)), Err(FormatError::Packed));
    }
}
