//! variation

mod chart;
mod sheet;

pub use chart::spread_chart;
