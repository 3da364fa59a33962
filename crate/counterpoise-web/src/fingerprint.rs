//! A name for a file that its bytes alone lead to, so that what a person said of
//! a font can be found again without keeping anything of the font.

/// The offset and the prime of the 64-bit hash of Fowler, Noll and Vo
/// (RFC 9923), here over words of eight bytes: a file of megabytes is read while
/// someone waits for its first picture.
const OFFSET: u64 = 0xCBF2_9CE4_8422_2325;
const PRIME: u64 = 0x0000_0100_0000_01B3;

/// The fingerprint in hexadecimal digits.
pub(crate) fn of(bytes: &[u8]) -> String {
    let length = bytes.len() as u64;
    let mut hash = mix(OFFSET, length);
    for chunk in bytes.chunks(8) {
        let mut word = [0; 8];
        word[..chunk.len()].copy_from_slice(chunk);
        hash = mix(hash, u64::from_le_bytes(word));
    }
    format!("{hash:016x}")
}

/// The high bits are brought down, or those of a word would reach no others.
fn mix(hash: u64, word: u64) -> u64 {
    let hash = (hash ^ word).wrapping_mul(PRIME);
    hash ^ (hash >> 29)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn the_same_bytes_have_the_same_name() {
        assert_eq!(of(b"Counterpoise"), of(b"Counterpoise"));
        assert_eq!(of(b"").len(), 16);
    }

    #[test]
    fn one_bit_more_or_less_is_another_file() {
        let file: Vec<u8> = (0..1000_u32).map(|i| (i * i % 251) as u8).collect();
        let mut names: HashSet<String> = [of(&file), of(&file[..999])].into();
        for bit in 0..8 * file.len() {
            let mut other = file.clone();
            other[bit / 8] ^= 1 << (bit % 8);
            names.insert(of(&other));
        }
        assert_eq!(names.len(), 2 + 8 * file.len());
    }

    #[test]
    fn noughts_at_the_end_count() {
        assert_ne!(of(&[1]), of(&[1, 0]));
    }
}
