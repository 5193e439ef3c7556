//! Names of what a registry holds: formulas from recorded parents, founders read from their labels.

mod doubts;
mod founders;
mod plants;
mod short;
mod words;

pub use founders::{FounderName, accepted, founder_name};
pub use plants::{Names, TopOf};
pub use words::vocabulary;
