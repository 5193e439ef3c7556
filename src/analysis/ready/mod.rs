//! What can be pollinated now or soon: spikes, pollen in hand, and how they meet.

mod answer;

pub use answer::{
    Caution, OpenReport, OptionMeets, SpikeRow, SpikeState, crosses_between, made_before, open,
    state,
};
