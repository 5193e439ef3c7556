//! What can be pollinated now or soon: spikes, pollen in hand, and how they meet.

mod answer;

pub use answer::{
    Caution, OptionMeets, OptionRow, ReadyReport, SpikeRow, SpikeState, are_surely_parents,
    crosses_between, made_before, ready, state,
};
