//! What goes on the paper for a sitting or a stock-take: a row for each plant, what is read, what was read last.
//!
//! Which plants and in which order is settled by `recording`; how the paper looks is left to `render`.

mod answer;
mod rows;

pub use answer::{BenchSheet, ReadAs, SheetColumn, SheetRow};
pub use rows::{column, last_words, measuring_sheet, stocktake_sheet};
