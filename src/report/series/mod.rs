//! Readings that may be compared: typed values of one trait, with what was left out and why.
//!
//! A reading is left out, and counted, when its unit is not known, its row was flagged for pests, the plant was surely
//! younger or smaller than the trait can be judged at, its pitcher is of the other age class, or its text is no value of
//! the trait. Nothing missing becomes zero. Which readings belong into one comparison is left to each report.

mod asked;
mod left_out;
mod readings;
mod traits;
mod walk;

pub use crate::observation::{span_trait, trait_named};
pub use asked::last_read_days;
pub use left_out::LeftOut;
pub use readings::{Comparable, Occasion, Run, TraitReadings};
pub use traits::{comparable, one_pitcher_class, readings_of, readings_of_traits, with_pests};
