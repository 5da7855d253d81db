//! Numbers that look random and are the same on every machine and every day.

/// Steele, Lea and Flood's generator (`SplitMix64`, OOPSLA 2014): one word of state, and the same seed gives the same
/// numbers for ever.
pub(crate) struct Dice(u64);

impl Dice {
    /// Dice for a seed.
    pub(crate) fn new(seed: u64) -> Dice {
        Dice(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number from `least` to `most`.
    pub(crate) fn between(&mut self, least: u32, most: u32) -> u32 {
        let sides = u64::from(most - least) + 1;
        least + u32::try_from(self.next() % sides).expect("below 2^32")
    }

    /// One of these.
    pub(crate) fn among<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.index(all.len())]
    }

    /// So many of these, in their order.
    pub(crate) fn several<T: Copy>(&mut self, many: usize, all: &[T]) -> Vec<T> {
        let mut left = all.to_vec();
        while left.len() > many {
            let at = self.index(left.len());
            left.remove(at);
        }
        left
    }

    fn index(&mut self, many: usize) -> usize {
        self.between(0, u32::try_from(many - 1).expect("few")) as usize
    }
}
