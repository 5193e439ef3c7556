//! Whether one cross varies more than another, beside what its ancestry predicts.

mod answer;
mod expected;
mod scale;
mod told;

pub use answer::{CrossSpread, SpreadRatio, VariationOptions, VariationReport, spread};
pub use told::{Caution, NotCompared, NotExpected, VariationError};
