//! What can be pollinated on a day or soon after.

mod answer;
mod sheet;

pub use answer::{OpenReport, OptionRow, ResultRow, SpikeRow, made_before, open};
