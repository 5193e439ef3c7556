//! The season's best set of pollinations.

mod cautions;
mod errors;
mod frontier;
mod later;
mod sheet;
mod tables;
mod words;

pub use frontier::frontier_chart;
