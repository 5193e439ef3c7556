//! Reading a label: the formula, its texts, its shares, every assumption made; or why it was not read and what to choose from.

mod labelled;
mod mended;
mod offers;
mod reading;
mod remarks;

pub use reading::{Chains, ReadOptions, Reading, as_written, describe, read};
