//! The season's best set of pollinations.

mod frontier;
mod later;
mod sheet;
mod tables;

pub use frontier::frontier_chart;
