//! What happened to one plant, from its pollination or arrival to today, in order.
//!
//! It leaves out what is private: suppliers, buyers, prices, places and notes.

mod answer;
mod events;

pub use answer::{Event, History, Piece, ReadHere, SpikeStage, What};
pub use events::history;
