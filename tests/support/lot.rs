//! Drawing by lot with a fixed seed.

/// A row of draws.
pub struct Lot(pub u64);

impl Lot {
    /// A number from 0 to below the bound.
    pub fn below(&mut self, bound: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % bound
    }
}
