//! siblings

mod chart;
mod sheet;

pub(crate) use chart::{titled, upright};
pub use chart::siblings_chart;
