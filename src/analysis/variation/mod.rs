//! variation

mod answer;
mod expected;

pub use answer::{CrossSpread, SpreadRatio, SpreadReport, SpreadWish, spread};
pub use expected::BETWEEN_SPECIES;
