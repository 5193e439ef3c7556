//! Chance with a fixed seed: SplitMix64 (Steele, Lea and Flood 2014, constants from memory).

/// A row of draws.
pub struct Chance(pub u64);

impl Chance {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number below `end`; 0 if that is 0.
    pub fn below(&mut self, end: usize) -> usize {
        (self.next() % end.max(1) as u64) as usize
    }

    /// Whether a chance of so many in a hundred came true.
    pub fn in_hundred(&mut self, chances: usize) -> bool {
        self.below(100) < chances
    }

    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.below(from.len())]
    }

    pub fn word(&mut self, from: &[&'static str]) -> &'static str {
        from[self.below(from.len())]
    }

    /// One of several with the chances given in a hundred, else none.
    pub fn perhaps<T: Clone>(&mut self, chances: usize, from: &[T]) -> Option<T> {
        self.in_hundred(chances).then(|| self.pick(from).clone())
    }
}
