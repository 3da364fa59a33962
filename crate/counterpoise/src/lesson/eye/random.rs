//! Chance, from a seed that is handed in: the library has no clock and no browser
//! to draw one from, and a test must be able to run the same trial twice.

/// A generator of 64 bits of state: SplitMix64 (Steele, Lea and Flood, Fast
/// splittable pseudorandom number generators, OOPSLA 2014). Good enough for the
/// order of questions, and for nothing secret.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Random(u64);

impl Random {
    /// Starts from a seed; the same seed gives the same numbers.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number in [0, 1), of 53 random bits.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Heads or tails.
    pub fn coin(&mut self) -> bool {
        self.next() >> 63 == 1
    }

    /// One of 0 to `most`, both included.
    pub fn up_to(&mut self, most: u32) -> u32 {
        ((self.share() * f64::from(most + 1)) as u32).min(most)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_gives_the_published_numbers() {
        // The first values of the reference implementation for the seed 1234567
        // (Vigna's splitmix64.c, from memory; also those of Java's SplittableRandom).
        let mut random = Random::new(1_234_567);
        assert_eq!(random.next(), 6_457_827_717_110_365_317);
        assert_eq!(random.next(), 3_203_168_211_198_807_973);
    }

    #[test]
    fn shares_are_even_and_coins_fair() {
        let mut random = Random::new(7);
        let n = 20_000;
        let mean = (0..n).map(|_| random.share()).sum::<f64>() / f64::from(n);
        let heads = (0..n).filter(|_| random.coin()).count() as f64 / f64::from(n);
        // Four standard errors.
        assert!(
            (mean - 0.5).abs() < 4.0 * 0.289 / f64::from(n).sqrt(),
            "{mean}"
        );
        assert!(
            (heads - 0.5).abs() < 4.0 * 0.5 / f64::from(n).sqrt(),
            "{heads}"
        );
        assert!((0..1000).all(|_| random.up_to(3) <= 3));
    }
}
