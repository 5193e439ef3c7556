//! What can be pollinated now or soon: spikes, pollen in hand, and how they meet.

mod answer;

pub use answer::{
    Caution, OptionMeets, ReadyReport, SpikeRow, SpikeState, crosses_between, made_before, ready,
    state,
};
