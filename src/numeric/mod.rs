//! Exact fractions: shares over one common whole, and a single fraction as it is printed.

mod fraction;
mod mix;

pub use fraction::{Fraction, nearest};
pub use mix::{Agreement, Mix, MixRef, agreement, weighted_mean};
