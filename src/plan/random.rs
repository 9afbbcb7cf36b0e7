//! Numbers that look random and are the same on every machine.

/// `SplitMix64` (Steele, Lea and Flood 2014): one addition, three mixings.
#[derive(Debug, Clone)]
pub(super) struct Random(u64);

impl Random {
    /// Begins at a seed.
    pub(super) fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number.
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `limit`; zero where the limit is zero. The small bias of the remainder does no harm here.
    pub(super) fn below(&mut self, limit: u64) -> u64 {
        self.next().checked_rem(limit).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_numbers_are_those_of_the_paper() {
        let mut random = Random::new(1_234_567);
        assert_eq!(random.next(), 6_457_827_717_110_365_317);
        assert_eq!(random.next(), 3_203_168_211_198_807_973);
        assert_eq!(random.below(0), 0);
    }
}
