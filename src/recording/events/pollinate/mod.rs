//! Flowers of one zone of a spike dusted with pollen: one page a pair and year, one record a zone, one date a dusting.

mod again;
mod doubts;
mod event;
mod father;

pub use event::Pollinate;
pub use father::GivenPollen;
