//! Numbers from a seed.

/// SplitMix64: G. Steele, D. Lea and C. Flood, "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014, figure 17,
/// with the mixer that S. Vigna published as `splitmix64.c` (David Stafford's variant 13).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dice(u64);

impl Dice {
    /// Dice that fall the same for the same seed.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number; all 64 bits are as good.
    pub const fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `end`, or 0 where there is none. Scaled, so for ends of 32 bits as even as anyone can see.
    pub const fn below(&mut self, end: u32) -> u32 {
        (((self.roll() >> 32) * end as u64) >> 32) as u32
    }

    /// Other dice, which fall independently of these.
    #[must_use]
    pub const fn split(&mut self) -> Self {
        Self(self.roll())
    }
}

/// The number below which a roll falls `parts` times in a million.
pub(crate) const fn in_a_million(parts: u32) -> u64 {
    let share = ((parts as u128) << 64) / 1_000_000;
    if share > u64::MAX as u128 { u64::MAX } else { share as u64 }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first numbers of `splitmix64.c` from two seeds: 1234567 as printed at rosettacode.org, "Pseudo-random
    /// numbers/Splitmix64"; 0 as it is printed in many places, from memory.
    #[test]
    fn published_numbers() {
        let mut dice = Dice::new(0);
        let first = [0xe220_a839_7b1d_cdaf, 0x6e78_9e6a_a1b9_65f4, 0x06c4_5d18_8009_454f, 0xf88b_b8a8_724c_81ec];
        assert_eq!([(); 4].map(|()| dice.roll()), first);
        let mut dice = Dice::new(1_234_567);
        let first = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        assert_eq!([(); 5].map(|()| dice.roll()), first);
    }

    #[test]
    fn below_stays_below_and_reaches_all() {
        let mut dice = Dice::new(7);
        let mut seen = [0; 6];
        (0..6000).for_each(|_| seen[dice.below(6) as usize] += 1);
        assert!(seen.iter().all(|&times| (850..1150).contains(&times)), "{seen:?}");
        assert_eq!((dice.below(0), dice.below(1)), (0, 0));
    }

    #[test]
    fn so_many_in_a_million() {
        assert_eq!(in_a_million(0), 0);
        assert_eq!(in_a_million(500_000), 1 << 63);
        assert_eq!(in_a_million(1_000_000), u64::MAX);
        let (mut dice, below) = (Dice::new(1), in_a_million(2_000));
        let hits = (0..1_000_000).filter(|_| dice.roll() < below).count();
        assert!((1_800..2_200).contains(&hits), "{hits}");
    }
}
