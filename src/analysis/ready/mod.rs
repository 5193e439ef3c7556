//! ready

mod answer;

pub use answer::{OpenReport, SpikeRow, made_before, open};
