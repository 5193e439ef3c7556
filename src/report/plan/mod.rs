//! The season's best set of pollinations.

mod cautions;
mod errors;
mod later;
mod picture;
mod sheet;
mod tables;
mod words;

pub use picture::plans_chart;
