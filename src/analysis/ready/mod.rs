//! What can be pollinated now or soon: spikes, pollen in hand, and how they meet.

mod answer;

pub use answer::{OpenReport, SpikeRow, made_before, open};
