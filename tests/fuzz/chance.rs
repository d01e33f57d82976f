//! Chance from a seed: the same number gives the same input on every machine, for good.

/// A stream of numbers that look random (SplitMix64, Steele, Lea and Flood 2014).
pub struct Chance(u64);

impl Chance {
    /// The stream of a seed.
    pub fn new(seed: u64) -> Chance {
        Chance(seed.wrapping_mul(0x2545_f491_4f6c_dd1d) ^ 0x6a09_e667_f3bc_c908)
    }

    /// Any number.
    pub fn any(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below a limit; 0 where the limit is 0.
    pub fn below(&mut self, limit: usize) -> usize {
        if limit == 0 { 0 } else { (self.any() % limit as u64) as usize }
    }

    /// True once in so many times.
    pub fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    /// One of some.
    pub fn one_of<'a, T: ?Sized>(&mut self, all: &[&'a T]) -> &'a T {
        all[self.below(all.len())]
    }

    /// A few: mostly 1, seldom more than 5.
    pub fn few(&mut self) -> usize {
        let mut few = 1;
        while few < 12 && self.below(5) < 2 {
            few += 1;
        }
        few
    }
}
